-- Every word that search could be meant to find, once: a slip of the finger is put right against this short list instead of
-- being compared with every repair, which keeps search as fast at 200,000 repairs as at 2,000.
create table if not exists search_words (word text not null);
create index if not exists ix_search_words_word on search_words (word);
create index if not exists ix_search_words_trigrams on search_words using gin (word gin_trgm_ops);

-- Without a unique constraint on purpose: two people booking in the same new word at once must not wait for each other, and a
-- word kept twice does no harm.
-- Word by word on purpose: as one statement the planner may read the whole list for every booking.
create or replace function learn_words(value text) returns void language plpgsql as $$
declare
  one text;
begin
  for one in select distinct w.word from regexp_split_to_table(value, '[^[:alnum:]]+') as w(word) where length(w.word) between 4 and 40 loop
    if not exists (select 1 from search_words known where known.word = one) then
      insert into search_words (word) values (one);
    end if;
  end loop;
end $$;

create or replace function learn_words_of_row() returns trigger language plpgsql as $$
begin
  if tg_op = 'INSERT' or new.search_text is distinct from old.search_text then
    perform learn_words(new.search_text);
  end if;
  return null;
end $$;
create or replace trigger customers_words after insert or update on customers
  for each row execute function learn_words_of_row();
create or replace trigger cameras_words after insert or update on cameras
  for each row execute function learn_words_of_row();

-- Open repairs are few however many have gone home: lists of them never read the rest.
create index if not exists ix_repairs_open on repairs (booked_at) where returned_at is null;
create index if not exists ix_repairs_newest on repairs (booked_at desc, id desc);
create index if not exists ix_invoices_unpaid on invoices (issued_at)
  where issued_at is not null and kind = 'Invoice' and gross - credited - paid > 0;
create index if not exists ix_cameras_serial on cameras (lower(body_serial)) where body_serial <> '';
create index if not exists ix_customers_email on customers (lower(email)) where email <> '';
create index if not exists ix_customers_phone on customers (right(shop_digits(phone), 8)) where phone <> '';
create index if not exists ix_customers_name on customers (name, id);
create index if not exists ix_cameras_name on cameras (maker, model, id);
create index if not exists ix_cameras_owner on cameras (owner_id);
create index if not exists ix_repairs_camera on repairs (camera_id, booked_at);
