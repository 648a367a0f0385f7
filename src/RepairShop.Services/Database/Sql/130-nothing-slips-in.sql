-- A line can't be moved onto a paper that was issued or sent, as little as it can be moved away from one or added to it.
create or replace function issued_lines_stay() returns trigger language plpgsql as $$
declare
  parents uuid[] := case tg_op
    when 'INSERT' then array[new.invoice_id] when 'DELETE' then array[old.invoice_id] else array[old.invoice_id, new.invoice_id] end;
begin
  -- Lock the parents first, so that a line can't slip in while one of them is being issued.
  perform 1 from invoices where id = any(parents) order by id for share;
  if exists (select 1 from invoices where id = any(parents) and issued_at is not null) then
    raise exception 'the lines of an issued invoice stay as they are'
      using errcode = 'restrict_violation', constraint = 'issued_invoice_stays';
  end if;
  if tg_op = 'DELETE' then return old; end if;
  return new;
end $$;

create or replace function sent_estimate_lines_stay() returns trigger language plpgsql as $$
declare
  parents uuid[] := case tg_op
    when 'INSERT' then array[new.estimate_id] when 'DELETE' then array[old.estimate_id] else array[old.estimate_id, new.estimate_id] end;
begin
  perform 1 from estimates where id = any(parents) order by id for share;
  if exists (select 1 from estimates where id = any(parents) and sent_at is not null) then
    raise exception 'the lines of a sent estimate stay as they are'
      using errcode = 'restrict_violation', constraint = 'sent_estimate_stays';
  end if;
  if tg_op = 'DELETE' then return old; end if;
  return new;
end $$;

-- Emptying a table goes past the triggers of its rows.
create or replace trigger no_truncate before truncate on invoices execute function refuse_change();
create or replace trigger no_truncate before truncate on invoice_lines execute function refuse_change();
create or replace trigger no_truncate before truncate on invoice_changes execute function refuse_change();
create or replace trigger no_truncate before truncate on invoice_taxes execute function refuse_change();
create or replace trigger no_truncate before truncate on estimates execute function refuse_change();
create or replace trigger no_truncate before truncate on estimate_lines execute function refuse_change();
create or replace trigger no_truncate before truncate on labour_corrections execute function refuse_change();
create or replace trigger no_truncate before truncate on further_consents execute function refuse_change();
create or replace trigger no_truncate before truncate on repair_passes execute function refuse_change();
create or replace trigger no_truncate before truncate on stock_layers execute function refuse_change();
create or replace trigger no_truncate before truncate on number_series execute function refuse_change();
