-- Lists of invoices: what is still open, and everything by its day of issue, each walked from where the last page ended.
create index if not exists ix_invoices_open on invoices (due_date, id)
  where kind = 'Invoice' and issued_at is not null and gross - credited - paid <> 0;
create index if not exists ix_invoices_issued on invoices (issued_at desc, id desc) where issued_at is not null;
create index if not exists ix_invoices_drafts on invoices (created_at desc, id desc) where issued_at is null;
create index if not exists ix_outbox_open on outbox (id desc) where state <> 'Sent';
