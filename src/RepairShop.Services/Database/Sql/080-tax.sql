-- Discounts, taxes per rate and lines of an issued invoice stay as they are.
create or replace trigger issued_lines_stay before insert or update or delete on invoice_changes
  for each row execute function issued_lines_stay();
create or replace trigger issued_lines_stay before insert or update or delete on invoice_taxes
  for each row execute function issued_lines_stay();

-- A credit gives back cash rounding too. That the sum of credits stays under the invoice is a check on invoices.
create or replace function credits_sum() returns trigger language plpgsql as $$
begin
  if new.kind = 'CreditNote' and new.issued_at is not null and (tg_op = 'INSERT' or old.issued_at is null) then
    update invoices set credited = credited + new.gross + new.cash_rounding where id = new.credits_id;
  end if;
  return null;
end $$;

-- What is owed counts cash rounding: the indexes of open invoices say it the same way as the questions.
drop index if exists ix_invoices_open;
create index ix_invoices_open on invoices (due_date, id)
  where kind = 'Invoice' and issued_at is not null and gross + cash_rounding - credited - paid <> 0;
drop index if exists ix_invoices_unpaid;
create index ix_invoices_unpaid on invoices (issued_at)
  where issued_at is not null and kind = 'Invoice' and gross + cash_rounding - credited - paid > 0;

-- What was written before profiles were kept: drafts of a shop without registration are not taxed, and a rate of nothing is zero-rated.
update invoices set treatment = 'NotRegistered' where issued_at is null and not tax_registered and treatment = 'Charged';
update tax_rates set category = 'Zero' where percent = 0 and category = 'Standard';
