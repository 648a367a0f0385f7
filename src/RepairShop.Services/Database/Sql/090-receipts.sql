-- Money of customers: append-only, held to its sums, never below zero.
create or replace trigger append_only before update or delete on receipts for each row execute function refuse_change();
create or replace trigger append_only before update or delete on customer_credits for each row execute function refuse_change();
create or replace trigger append_only before update or delete on write_offs for each row execute function refuse_change();
create or replace trigger no_truncate before truncate on receipts execute function refuse_change();
create or replace trigger no_truncate before truncate on customer_credits execute function refuse_change();
create or replace trigger no_truncate before truncate on write_offs execute function refuse_change();

-- An issued invoice: only the sums that other triggers keep may move.
create or replace function issued_invoice_stays() returns trigger language plpgsql as $$
declare
  sums constant text[] := array['paid', 'credited', 'written_off'];
begin
  if old.issued_at is null then
    if tg_op = 'DELETE' then return old; end if;
    return new;
  end if;
  if tg_op = 'UPDATE' and pg_trigger_depth() > 1 and to_jsonb(new) - sums = to_jsonb(old) - sums then
    return new;
  end if;
  raise exception 'invoice % is issued and stays as it is', old.number
    using errcode = 'restrict_violation', constraint = 'issued_invoice_stays';
end $$;

create or replace function write_offs_sum() returns trigger language plpgsql as $$
begin
  update invoices set written_off = written_off + new.amount where id = new.invoice_id;
  return null;
end $$;
create or replace trigger write_offs_sum after insert on write_offs for each row execute function write_offs_sum();

-- Under the lock of the customer's row, so that two people can't use the same credit.
create or replace function credit_not_below_zero() returns trigger language plpgsql as $$
begin
  perform 1 from customers where id = new.customer_id for no key update;
  if (select sum(amount) from customer_credits where customer_id = new.customer_id and currency = new.currency) < 0 then
    raise exception 'customer % has not that much credit', new.customer_id
      using errcode = 'check_violation', constraint = 'credit_not_below_zero';
  end if;
  return null;
end $$;
create or replace trigger credit_not_below_zero after insert on customer_credits for each row execute function credit_not_below_zero();

-- A receipt is its shares and what was left over, to the cent, at the end of its transaction and ever after.
create or replace function receipt_adds_up() returns trigger language plpgsql as $$
declare
  receipt uuid := case tg_table_name when 'receipts' then (to_jsonb(new) ->> 'id')::uuid else (to_jsonb(new) ->> 'receipt_id')::uuid end;
  parts numeric;
begin
  if receipt is null then return null; end if;
  select coalesce((select sum(amount) from payments where receipt_id = receipt), 0)
       + coalesce((select sum(amount) from customer_credits where receipt_id = receipt), 0) into parts;
  if parts <> (select amount from receipts where id = receipt) then
    raise exception 'receipt % is not what was made of it: %', receipt, parts
      using errcode = 'check_violation', constraint = 'receipt_adds_up';
  end if;
  return null;
end $$;
drop trigger if exists receipt_adds_up on receipts;
create constraint trigger receipt_adds_up after insert on receipts deferrable initially deferred for each row execute function receipt_adds_up();
drop trigger if exists receipt_adds_up on payments;
create constraint trigger receipt_adds_up after insert on payments deferrable initially deferred for each row execute function receipt_adds_up();
drop trigger if exists receipt_adds_up on customer_credits;
create constraint trigger receipt_adds_up after insert on customer_credits deferrable initially deferred for each row execute function receipt_adds_up();

-- A payment made with credit has its other side there.
create or replace function credit_mirrors_payment() returns trigger language plpgsql as $$
begin
  if new.method = 'CustomerCredit' and not exists (
    select 1 from customer_credits c join invoices i on i.id = new.invoice_id
    where c.payment_id = new.id and c.amount = -new.amount and c.customer_id = i.customer_id and c.currency = i.currency) then
    raise exception 'payment % was made with credit that is not in the book', new.id
      using errcode = 'check_violation', constraint = 'credit_mirrors_payment';
  end if;
  return null;
end $$;
drop trigger if exists credit_mirrors_payment on payments;
create constraint trigger credit_mirrors_payment after insert on payments deferrable initially deferred for each row execute function credit_mirrors_payment();

-- What was given up is not owed: the indexes of open invoices say it the same way as the questions.
drop index if exists ix_invoices_open;
create index ix_invoices_open on invoices (due_date, id)
  where kind = 'Invoice' and issued_at is not null and gross + cash_rounding - credited - paid - written_off <> 0;
drop index if exists ix_invoices_unpaid;
create index ix_invoices_unpaid on invoices (issued_at)
  where issued_at is not null and kind = 'Invoice' and gross + cash_rounding - credited - paid - written_off > 0;
