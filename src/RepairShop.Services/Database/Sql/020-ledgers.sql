-- What was issued, paid, moved or noted never changes: the database says so, not only the program.
create or replace function refuse_change() returns trigger language plpgsql as $$
begin
  raise exception 'append-only: % on % is not allowed, write a counter-entry', tg_op, tg_table_name
    using errcode = 'restrict_violation', constraint = 'append_only_' || tg_table_name;
end $$;

create or replace trigger append_only before update or delete on stock_movements for each row execute function refuse_change();
create or replace trigger append_only before update or delete on payments for each row execute function refuse_change();
create or replace trigger append_only before update or delete on papers for each row execute function refuse_change();
create or replace trigger append_only before update or delete on audit for each row execute function refuse_change();
create or replace trigger append_only before update or delete on labour_corrections for each row execute function refuse_change();
create or replace trigger append_only before update or delete on further_consents for each row execute function refuse_change();
create or replace trigger append_only before update or delete on repair_passes for each row execute function refuse_change();

-- Emptying a whole table is a change too.
create or replace trigger no_truncate before truncate on stock_movements execute function refuse_change();
create or replace trigger no_truncate before truncate on payments execute function refuse_change();
create or replace trigger no_truncate before truncate on papers execute function refuse_change();
create or replace trigger no_truncate before truncate on audit execute function refuse_change();

-- An issued invoice: only the sums of payments and credits, which other triggers keep, may move.
create or replace function issued_invoice_stays() returns trigger language plpgsql as $$
begin
  if old.issued_at is null then
    if tg_op = 'DELETE' then return old; end if;
    return new;
  end if;
  if tg_op = 'UPDATE' and pg_trigger_depth() > 1
     and to_jsonb(new) - array['paid', 'credited'] = to_jsonb(old) - array['paid', 'credited'] then
    return new;
  end if;
  raise exception 'invoice % is issued and stays as it is', old.number
    using errcode = 'restrict_violation', constraint = 'issued_invoice_stays';
end $$;
create or replace trigger issued_invoice_stays before update or delete on invoices
  for each row execute function issued_invoice_stays();

create or replace function issued_lines_stay() returns trigger language plpgsql as $$
declare
  parent uuid := case tg_op when 'INSERT' then new.invoice_id else old.invoice_id end;
  issued timestamptz;
begin
  -- Lock the parent first, so that a line can't slip in while it is being issued.
  select issued_at into issued from invoices where id = parent for share;
  if issued is not null then
    raise exception 'the lines of an issued invoice stay as they are'
      using errcode = 'restrict_violation', constraint = 'issued_invoice_stays';
  end if;
  if tg_op = 'DELETE' then return old; end if;
  return new;
end $$;
create or replace trigger issued_lines_stay before insert or update or delete on invoice_lines
  for each row execute function issued_lines_stay();

-- A sent estimate: only its answer may still be written, once.
create or replace function sent_estimate_stays() returns trigger language plpgsql as $$
begin
  if old.sent_at is null then
    if tg_op = 'DELETE' then return old; end if;
    return new;
  end if;
  if tg_op = 'UPDATE' and old.answer is null
     and to_jsonb(new) - array['answer', 'answered_at', 'answered_by', 'answered_how', 'answer_note']
       = to_jsonb(old) - array['answer', 'answered_at', 'answered_by', 'answered_how', 'answer_note'] then
    return new;
  end if;
  raise exception 'revision % of this estimate was sent and stays as it is', old.revision
    using errcode = 'restrict_violation', constraint = 'sent_estimate_stays';
end $$;
create or replace trigger sent_estimate_stays before update or delete on estimates
  for each row execute function sent_estimate_stays();

create or replace function sent_estimate_lines_stay() returns trigger language plpgsql as $$
declare
  parent uuid := case tg_op when 'INSERT' then new.estimate_id else old.estimate_id end;
  sent timestamptz;
begin
  select sent_at into sent from estimates where id = parent for share;
  if sent is not null then
    raise exception 'the lines of a sent estimate stay as they are'
      using errcode = 'restrict_violation', constraint = 'sent_estimate_stays';
  end if;
  if tg_op = 'DELETE' then return old; end if;
  return new;
end $$;
create or replace trigger sent_estimate_lines_stay before insert or update or delete on estimate_lines
  for each row execute function sent_estimate_lines_stay();

-- Sums kept by the database, under the row lock of what they belong to.
create or replace function payments_sum() returns trigger language plpgsql as $$
begin
  update invoices set paid = paid + new.amount where id = new.invoice_id;
  return null;
end $$;
create or replace trigger payments_sum after insert on payments for each row execute function payments_sum();

create or replace function credits_sum() returns trigger language plpgsql as $$
begin
  if new.kind = 'CreditNote' and new.issued_at is not null and (tg_op = 'INSERT' or old.issued_at is null) then
    update invoices set credited = credited + new.gross where id = new.credits_id;
  end if;
  return null;
end $$;
create or replace trigger credits_sum after insert or update on invoices for each row execute function credits_sum();

create or replace function movements_sum() returns trigger language plpgsql as $$
begin
  update parts set on_hand = on_hand + new.quantity where id = new.part_id;
  return null;
end $$;
create or replace trigger movements_sum after insert on stock_movements for each row execute function movements_sum();

-- One person can't be in two places: entries with a from and a to may touch, not overlap.
alter table labour_entries drop constraint if exists ex_labour_entries_no_overlap;
alter table labour_entries add constraint ex_labour_entries_no_overlap
  exclude using gist (worker_id with =, tstzrange(started_at, ended_at, '[)') with &&)
  where (started_at is not null and removed_at is null);
