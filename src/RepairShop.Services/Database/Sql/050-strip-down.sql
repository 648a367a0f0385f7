-- Nothing that was taken out of a camera may appear or get lost, and nothing may be left in a tray when the camera goes home.

-- At the end of every transaction the lots of a step add up to what the step removed.
create or replace function strip_items_conserved() returns trigger language plpgsql as $$
declare
  steps uuid[];
  bad uuid;
begin
  -- Apart from each other: a row of one table has no column of the other.
  if tg_table_name = 'strip_steps' then
    steps := array[new.id];
  elsif tg_op = 'INSERT' then
    steps := array[new.step_id];
  elsif tg_op = 'DELETE' then
    steps := array[old.step_id];
  else
    steps := array[old.step_id, new.step_id];
  end if;
  select s.id into bad
  from strip_steps s
  left join lateral (
    select coalesce(sum(i.count) filter (where i.kind = 'Part'), 0) as parts, coalesce(sum(i.count) filter (where i.kind = 'Shim'), 0) as shims
    from strip_items i where i.step_id = s.id) lots on true
  where s.id = any(steps)
    and (lots.parts <> case when s.struck_out_at is not null or s.remember & 128 <> 0 then 0 else s.count end
      or lots.shims <> case when s.struck_out_at is not null or s.remember & 128 <> 0 then 0 else s.shim_count end)
  limit 1;
  if bad is not null then
    raise exception 'the lots of step % do not add up to what it removed', bad
      using errcode = 'check_violation', constraint = 'strip_items_conserved';
  end if;
  return null;
end $$;
drop trigger if exists strip_items_conserved on strip_items;
create constraint trigger strip_items_conserved after insert or update or delete on strip_items
  deferrable initially deferred for each row execute function strip_items_conserved();
drop trigger if exists strip_items_conserved on strip_steps;
create constraint trigger strip_items_conserved after insert or update on strip_steps
  deferrable initially deferred for each row execute function strip_items_conserved();

-- Ready and gone only with nothing out: asked again here, after whoever held the repair's row has finished.
create or replace function nothing_left_in_the_tray() returns trigger language plpgsql as $$
begin
  if ((new.ready_at is not null and old.ready_at is null) or (new.returned_at is not null and old.returned_at is null))
     and exists (select 1 from strip_items i where i.repair_id = new.id and i.fate = 'StillOut') then
    raise exception 'repair % has parts that are still out of the camera', new.number
      using errcode = 'check_violation', constraint = 'nothing_left_in_the_tray';
  end if;
  return new;
end $$;
create or replace trigger nothing_left_in_the_tray before update of ready_at, returned_at on repairs
  for each row execute function nothing_left_in_the_tray();

-- And nothing comes out of a camera that is called ready or has gone.
create or replace function nothing_out_of_a_ready_camera() returns trigger language plpgsql as $$
begin
  if new.fate = 'StillOut' and exists (
    select 1 from repairs r where r.id = new.repair_id and (r.ready_at is not null or r.returned_at is not null)) then
    raise exception 'the camera is called ready or has gone: nothing can be taken out of it'
      using errcode = 'check_violation', constraint = 'nothing_out_of_a_ready_camera';
  end if;
  return new;
end $$;
create or replace trigger nothing_out_of_a_ready_camera before insert or update on strip_items
  for each row execute function nothing_out_of_a_ready_camera();
