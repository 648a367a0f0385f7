-- Where each repair stands, from the same facts and in the same order as StageFacts.Stage in the domain.
create or replace view repair_stages as
select
  r.id as repair_id,
  case
    when r.returned_at is not null then 'Returned'
    when r.ready_at is not null then 'Ready'
    when e.sent_at is not null and e.answer is null then 'EstimateSent'
    when e.answer = 'Declined' then 'Declined'
    when exists (
        select 1 from check_results c
        where c.repair_id = r.id and c.phase = 'AfterService' and c.outcome <> 'NotTested')
      or exists (
        select 1 from shutter_tests t join readings g on g.shutter_test_id = t.id
        where t.repair_id = r.id and t.phase = 'AfterService' and g.struck_out_reason is null) then 'Tested'
    when r.bench_at is not null then 'OnTheBench'
    when e.answer = 'Approved' then 'Approved'
    when r.pre_approved_limit is not null then 'Approved'
    else 'BookedIn'
  end as stage,
  e.sent_at as estimate_sent_at,
  e.valid_until as estimate_valid_until
from repairs r
left join lateral (
  select sent_at, answer, valid_until
  from estimates
  where repair_id = r.id and sent_at is not null
  order by revision desc
  limit 1) e on true;
