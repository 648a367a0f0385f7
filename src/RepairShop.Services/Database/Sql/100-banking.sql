-- What a bank wrote never changes; what was said of it neither.
create or replace trigger append_only before update or delete on bank_statements for each row execute function refuse_change();
create or replace trigger append_only before update or delete on bank_lines for each row execute function refuse_change();
create or replace trigger append_only before update or delete on bank_line_notes for each row execute function refuse_change();
create or replace trigger no_truncate before truncate on bank_statements execute function refuse_change();
create or replace trigger no_truncate before truncate on bank_lines execute function refuse_change();
create or replace trigger no_truncate before truncate on bank_line_notes execute function refuse_change();

create index if not exists ix_bank_lines_incoming on bank_lines (id) where bar = 'None';

-- A receipt that stands: not taken back.
create or replace function bank_line_is_booked(line uuid) returns boolean language sql stable as $$
  select exists (
    select 1 from receipts r where r.bank_line_id = line and not exists (select 1 from receipts b where b.takes_back_id = r.id))
$$;

-- Odd notes set a line aside, even ones take it up again.
create or replace function bank_line_is_aside(line uuid) returns boolean language sql stable as $$
  select coalesce(max(number), 0) % 2 = 1 from bank_line_notes where line_id = line
$$;

-- One line, one receipt that stands, for as much and on the day the bank says; under the line's lock, so that of two people one is told.
create or replace function bank_line_booked_once() returns trigger language plpgsql as $$
declare
  line bank_lines;
begin
  if new.bank_line_id is null then return new; end if;
  select * into line from bank_lines where id = new.bank_line_id for update;
  if bank_line_is_booked(line.id) then
    raise exception 'bank line % is booked', line.id using errcode = 'unique_violation', constraint = 'bank_line_booked_once';
  end if;
  if bank_line_is_aside(line.id) then
    raise exception 'bank line % is set aside', line.id using errcode = 'check_violation', constraint = 'bank_line_set_aside';
  end if;
  if line.bar <> 'None' or new.takes_back_id is not null
     or (new.amount, new.currency, new.paid_on) is distinct from (line.amount, line.currency::text, line.booked_on) then
    raise exception 'receipt % is not what bank line % says', new.id, line.id
      using errcode = 'check_violation', constraint = 'receipt_is_as_bank_line';
  end if;
  return new;
end $$;
create or replace trigger bank_line_booked_once before insert on receipts for each row execute function bank_line_booked_once();

create or replace function bank_line_note_fits() returns trigger language plpgsql as $$
begin
  perform 1 from bank_lines where id = new.line_id for update;
  if new.number <> (select coalesce(max(number), 0) + 1 from bank_line_notes where line_id = new.line_id) then
    raise exception 'note % of bank line % does not follow the last', new.number, new.line_id
      using errcode = 'unique_violation', constraint = 'ux_bank_line_notes_number';
  end if;
  if new.number % 2 = 1 and bank_line_is_booked(new.line_id) then
    raise exception 'bank line % is booked', new.line_id using errcode = 'unique_violation', constraint = 'bank_line_booked_once';
  end if;
  return new;
end $$;
create or replace trigger bank_line_note_fits before insert on bank_line_notes for each row execute function bank_line_note_fits();
