-- Searching folds case and accents, so that lukasz finds Łukasz; trigrams forgive a slip of the finger.
create extension if not exists pg_trgm;
create extension if not exists unaccent;
create extension if not exists btree_gist;

create or replace function shop_fold(value text) returns text
  language sql immutable parallel safe
  as $$ select lower(public.unaccent('public.unaccent'::regdictionary, coalesce(value, ''))) $$;

-- A telephone number is found however it was spaced.
create or replace function shop_digits(value text) returns text
  language sql immutable parallel safe
  as $$ select regexp_replace(coalesce(value, ''), '[^0-9]', '', 'g') $$;

-- A serial number typed in one run, where it is engraved in parts; null when it is in one run anyway.
create or replace function shop_joined(value text) returns text
  language sql immutable parallel safe
  as $$ select nullif(regexp_replace(coalesce(value, ''), '[^[:alnum:]]', '', 'g'), coalesce(value, '')) $$;

create or replace function customers_search() returns trigger language plpgsql as $$
begin
  new.search_text := shop_fold(concat_ws(' ', new.name, new.company, new.email, new.phone, shop_digits(new.phone), new.address_city));
  return new;
end $$;
create or replace trigger customers_search before insert or update on customers
  for each row execute function customers_search();

create or replace function cameras_search() returns trigger language plpgsql as $$
begin
  new.search_text := shop_fold(concat_ws(' ', new.maker, new.model, new.variant, new.body_serial, new.lens, new.lens_serial, new.shutter, new.shutter_serial,
    shop_joined(new.body_serial), shop_joined(new.lens_serial), shop_joined(new.shutter_serial)));
  return new;
end $$;
create or replace trigger cameras_search before insert or update on cameras
  for each row execute function cameras_search();

create or replace function parts_search() returns trigger language plpgsql as $$
begin
  new.search_text := shop_fold(concat_ws(' ', new.number, new.name, new.fits, new.place));
  return new;
end $$;
create or replace trigger parts_search before insert or update of number, name, fits, place on parts
  for each row execute function parts_search();

create or replace function repairs_search() returns trigger language plpgsql as $$
begin
  new.search_text := concat_ws(' ', lower(new.number),
    (select search_text from customers where id = new.customer_id),
    (select search_text from cameras where id = new.camera_id));
  return new;
end $$;
create or replace trigger repairs_search before insert or update of number, customer_id, camera_id on repairs
  for each row execute function repairs_search();

create or replace function repairs_search_again() returns trigger language plpgsql as $$
begin
  if new.search_text is distinct from old.search_text then
    if tg_table_name = 'customers' then
      update repairs set number = number where customer_id = new.id;
    else
      update repairs set number = number where camera_id = new.id;
    end if;
  end if;
  return null;
end $$;
create or replace trigger customers_search_again after update on customers
  for each row execute function repairs_search_again();
create or replace trigger cameras_search_again after update on cameras
  for each row execute function repairs_search_again();

create or replace function invoices_search() returns trigger language plpgsql as $$
begin
  new.search_text := concat_ws(' ', lower(new.number),
    (select lower(number) from repairs where id = new.repair_id),
    (select search_text from customers where id = new.customer_id));
  return new;
end $$;
create or replace trigger invoices_search before insert or update of number, repair_id, customer_id on invoices
  for each row execute function invoices_search();

create index if not exists ix_customers_search on customers using gin (search_text gin_trgm_ops);
create index if not exists ix_cameras_search on cameras using gin (search_text gin_trgm_ops);
create index if not exists ix_parts_search on parts using gin (search_text gin_trgm_ops);
create index if not exists ix_repairs_search on repairs using gin (search_text gin_trgm_ops);
create index if not exists ix_invoices_search on invoices using gin (search_text gin_trgm_ops);
