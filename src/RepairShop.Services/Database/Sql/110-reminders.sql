-- Reminders: append-only, steps in order, one a day, each at what the invoice owes; a fee is taken once at most.
create or replace trigger append_only before update or delete on reminders for each row execute function refuse_change();
create or replace trigger append_only before update or delete on reminder_holds for each row execute function refuse_change();
create or replace trigger no_truncate before truncate on reminders execute function refuse_change();
create or replace trigger no_truncate before truncate on reminder_holds execute function refuse_change();
create or replace trigger no_truncate before truncate on reminder_letters execute function refuse_change();

-- Of a letter only two things may still be written, each once: that it was posted, and that its fee is waived.
create or replace function reminder_letter_stays() returns trigger language plpgsql as $$
declare
  posting constant text[] := array['posted_at', 'posted_by'];
  waiving constant text[] := array['fee_waived_at', 'fee_waived_by'];
begin
  if tg_op = 'UPDATE' and (
      (old.posted_at is null and to_jsonb(new) - posting = to_jsonb(old) - posting)
      or (old.fee_waived_at is null and to_jsonb(new) - waiving = to_jsonb(old) - waiving)) then
    return new;
  end if;
  raise exception 'a reminder that was sent stays as it is'
    using errcode = 'restrict_violation', constraint = 'reminder_letter_stays';
end $$;
create or replace trigger reminder_letter_stays before update or delete on reminder_letters
  for each row execute function reminder_letter_stays();

-- Under the lock of the invoice's row: no step before the one before it, and never more than is owed at that moment.
create or replace function reminder_is_right() returns trigger language plpgsql as $$
declare
  owed numeric;
  last int;
begin
  select gross + cash_rounding - credited - paid - written_off into owed from invoices
    where id = new.invoice_id and kind = 'Invoice' and issued_at is not null for no key update;
  if owed is distinct from new.due then
    raise exception 'invoice % owes %, not %', new.invoice_id, owed, new.due
      using errcode = 'check_violation', constraint = 'reminder_names_what_is_owed';
  end if;
  select coalesce(max(step), 0) into last from reminders where invoice_id = new.invoice_id;
  if new.step > last + 1 then
    raise exception 'step % of invoice % comes before step %', new.step, new.invoice_id, last + 1
      using errcode = 'check_violation', constraint = 'reminder_steps_in_order';
  end if;
  return new;
end $$;
create or replace trigger reminder_is_right before insert on reminders for each row execute function reminder_is_right();

-- A fee is taken whole and once, of its own customer's money, or not at all; taken back it may be taken again.
create or replace function fee_taken_once() returns trigger language plpgsql as $$
declare
  letter reminder_letters;
  taken numeric;
begin
  if new.reminder_letter_id is null then return null; end if;
  select * into letter from reminder_letters where id = new.reminder_letter_id for no key update;
  select -sum(amount) into taken from customer_credits where reminder_letter_id = new.reminder_letter_id;
  if letter.customer_id <> new.customer_id or letter.currency <> new.currency or taken not in (0, letter.fee)
     or (letter.fee_waived_at is not null and new.amount < 0) then
    raise exception 'the fee of reminder % can''t be taken', new.reminder_letter_id
      using errcode = 'check_violation', constraint = 'fee_taken_once';
  end if;
  return null;
end $$;
create or replace trigger fee_taken_once after insert on customer_credits for each row execute function fee_taken_once();

create index if not exists ix_reminder_letters_to_post on reminder_letters (sent_on) where not by_mail and posted_at is null;
