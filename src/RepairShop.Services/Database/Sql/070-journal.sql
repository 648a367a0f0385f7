-- The journal: append-only, every entry balanced and whole at the end of its transaction, nothing in a closed month.
create or replace trigger append_only before update or delete on journal_entries for each row execute function refuse_change();
create or replace trigger append_only before update or delete on journal_lines for each row execute function refuse_change();
create or replace trigger append_only before update or delete on closed_months for each row execute function refuse_change();
create or replace trigger append_only before update or delete on stock_takings for each row execute function refuse_change();
create or replace trigger no_truncate before truncate on journal_entries execute function refuse_change();
create or replace trigger no_truncate before truncate on journal_lines execute function refuse_change();
create or replace trigger no_truncate before truncate on closed_months execute function refuse_change();
create or replace trigger no_truncate before truncate on stock_takings execute function refuse_change();

create or replace function journal_balances() returns trigger language plpgsql as $$
declare
  entry uuid := case tg_table_name when 'journal_entries' then (to_jsonb(new) ->> 'id')::uuid else (to_jsonb(new) ->> 'entry_id')::uuid end;
  declared int;
  lines int;
  total numeric;
begin
  select line_count into declared from journal_entries where id = entry;
  select count(*), coalesce(sum(amount), 0) into lines, total from journal_lines where entry_id = entry;
  if lines <> declared or lines < 2 then
    raise exception 'journal entry % has % lines, % were declared', entry, lines, declared
      using errcode = 'check_violation', constraint = 'journal_whole';
  end if;
  if total <> 0 then
    raise exception 'journal entry % does not balance: %', entry, total
      using errcode = 'check_violation', constraint = 'journal_balances';
  end if;
  return null;
end $$;
drop trigger if exists journal_balances on journal_entries;
create constraint trigger journal_balances after insert on journal_entries deferrable initially deferred
  for each row execute function journal_balances();
drop trigger if exists journal_balances on journal_lines;
create constraint trigger journal_balances after insert on journal_lines deferrable initially deferred
  for each row execute function journal_balances();

-- Whoever writes an entry holds the month open until the end of the transaction; whoever closes it waits for them.
create or replace function journal_month_open() returns trigger language plpgsql as $$
begin
  perform pg_advisory_xact_lock_shared(hashtext('closed_months'));
  if exists (select 1 from closed_months where month >= date_trunc('month', new.date::timestamp)::date) then
    raise exception 'the month of % is closed', new.date
      using errcode = 'restrict_violation', constraint = 'month_is_closed';
  end if;
  return new;
end $$;
create or replace trigger journal_month_open before insert on journal_entries for each row execute function journal_month_open();

create or replace function closing_waits() returns trigger language plpgsql as $$
begin
  perform pg_advisory_xact_lock(hashtext('closed_months'));
  return new;
end $$;
create or replace trigger closing_waits before insert on closed_months for each row execute function closing_waits();

-- Digits after the point (ISO 4217); a test holds this against the program's own list.
create or replace function minor_units(currency text) returns int language sql immutable as $$
  select case
    when currency in ('BIF', 'CLP', 'DJF', 'GNF', 'ISK', 'JPY', 'KMF', 'KRW', 'PYG', 'RWF', 'UGX', 'VND', 'VUV', 'XAF', 'XOF', 'XPF') then 0
    when currency in ('BHD', 'IQD', 'JOD', 'KWD', 'LYD', 'OMR', 'TND') then 3
    else 2 end
$$;

create or replace function journal_stock(m stock_movements, other_side text, worth numeric) returns void language plpgsql as $$
declare
  entry uuid := gen_random_uuid();
begin
  if worth = 0 then return; end if;
  insert into journal_entries (id, date, source, currency, movement_id, line_count, posted_at, posted_by)
    select entry, (m.at at time zone s.time_zone)::date, 'Stock', s.currency, m.id, 2, m.at, m."by" from shop s; -- quoted: a word of plpgsql's own
  insert into journal_lines (id, entry_id, date, currency, position, account, amount, tax_name, tax_percent)
    select gen_random_uuid(), e.id, e.date, e.currency, side.position, side.account, side.amount, '', 0
    from journal_entries e, (values (1, 'Stock', worth), (2, other_side, -worth)) as side(position, account, amount) where e.id = entry;
end $$;

-- What a movement is worth, first in first out. A use that is put back gives its layers back what it took from them.
-- Called under the lock of the part's row, which the sum on hand takes first.
create or replace function value_movement(m stock_movements) returns void language plpgsql as $$
declare
  digits int := (select minor_units(currency) from shop);
  wanted numeric := -m.quantity;
  taken numeric;
  worth numeric;
  total numeric := 0;
  one record;
begin
  if m.kind = 'PutBack' and m.part_use_id is not null then
    for one in select t.layer_id, t.quantity, t.value from stock_takings t join stock_movements u on u.id = t.movement_id
               where u.part_use_id = m.part_use_id and u.kind = 'Used' loop
      update stock_layers set left_quantity = left_quantity + one.quantity, left_value = left_value + one.value where movement_id = one.layer_id;
      insert into stock_takings (id, movement_id, layer_id, quantity, value) values (gen_random_uuid(), m.id, one.layer_id, -one.quantity, -one.value);
      total := total + one.value;
    end loop;
    perform journal_stock(m, 'CostOfParts', total);
    return;
  end if;
  if m.quantity > 0 then
    total := round(m.quantity * m.unit_cost, digits);
    insert into stock_layers (movement_id, part_id, at, quantity, value, left_quantity, left_value)
      values (m.id, m.part_id, m.at, m.quantity, total, m.quantity, total);
    perform journal_stock(m, case m.kind when 'CountCorrection' then 'StockDifferences' when 'PutBack' then 'StockDifferences' else 'PartsReceived' end, total);
    return;
  end if;
  for one in select * from stock_layers where part_id = m.part_id and left_quantity > 0 order by at, movement_id loop
    exit when wanted <= 0;
    taken := least(wanted, one.left_quantity);
    worth := case when taken = one.left_quantity then one.left_value else round(one.left_value * taken / one.left_quantity, digits) end;
    update stock_layers set left_quantity = left_quantity - taken, left_value = left_value - worth where movement_id = one.movement_id;
    insert into stock_takings (id, movement_id, layer_id, quantity, value) values (gen_random_uuid(), m.id, one.movement_id, taken, worth);
    wanted := wanted - taken;
    total := total + worth;
  end loop;
  if wanted > 0 then
    worth := round(wanted * m.unit_cost, digits);
    insert into stock_takings (id, movement_id, layer_id, quantity, value) values (gen_random_uuid(), m.id, null, wanted, worth);
    total := total + worth;
  end if;
  perform journal_stock(m, case m.kind when 'Used' then 'CostOfParts' else 'StockDifferences' end, -total);
end $$;

create or replace function movements_value() returns trigger language plpgsql as $$
begin
  perform value_movement(new);
  return null;
end $$;
-- After "movements_sum", by the order of names.
create or replace trigger movements_value after insert on stock_movements for each row execute function movements_value();

-- Stock moved before there was a journal.
do $$
declare
  m stock_movements;
begin
  for m in select * from stock_movements s
           where not exists (select 1 from stock_layers l where l.movement_id = s.id) and not exists (select 1 from stock_takings t where t.movement_id = s.id)
           order by s.at, s.id loop
    perform value_movement(m);
  end loop;
end $$;

-- What the owner's figures walk along.
create index if not exists ix_payments_paid_on on payments (paid_on);
create index if not exists ix_invoices_issue_date on invoices (issue_date) where issued_at is not null;
create index if not exists ix_repairs_returned on repairs (returned_at) where returned_at is not null;
create index if not exists ix_labour_entries_work_date on labour_entries (work_date) where removed_at is null;
create index if not exists ix_stock_movements_use on stock_movements (part_use_id) where part_use_id is not null;
create index if not exists ix_stock_takings_movement_id on stock_takings (movement_id);
