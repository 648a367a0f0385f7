-- What goes back to a customer goes as money: credit can't be given back as credit.
alter table customer_credits drop constraint if exists ck_customer_credits_paid_back;
alter table customer_credits add constraint ck_customer_credits_paid_back check (kind <> 'PaidBack' or method <> 'CustomerCredit');
