-- One page a model, however its name is typed; a removed page does not stand in the way of a new one.
create unique index if not exists ix_model_pages_name on model_pages (lower(maker), lower(model)) where removed_at is null;

-- The notebook counts what was found on cameras of a model.
create index if not exists ix_cameras_model on cameras (lower(maker), lower(model));

-- A guide is improved by a new version, never by changing an old one.
create or replace trigger append_only before update or delete on guide_versions for each row execute function refuse_change();
create or replace trigger no_truncate before truncate on guide_versions execute function refuse_change();
