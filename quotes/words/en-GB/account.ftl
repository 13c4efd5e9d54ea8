### The money of a job: account, payments, deposit.

## account

account-tax_inside = tax inside it: { $amount }
account-row-agreed = Agreed, { $quote } version { $revision }
account-row-change = Change, { $quote } version { $revision }
account-consent-link = { $name }, { $at }, on the link
account-consent-phone = { $name }, { $at }, by phone; recorded by { $recorder }
account-consent-counter = { $name }, { $at }, at the counter; recorded by { $recorder }
account-deposit-received = received
account-deposit-awaited = not received yet

## calc

calc-core_adds = A returned core cannot add to an account.
calc-happened_takes = What happened cannot take from an account.
calc-not_rounded = The amount is finer than the currency.
calc-unknown_row = The account has no such kind of row.

## problem

problem-payment-reversed-title = Already reversed
problem-payment-reversed-detail = This payment has an opposite row, or is one itself. Record a new payment instead.

## field

field-payment_amount = Enter an amount above 0.
field-payment_day_to_come = Enter the day on which the money was received. It cannot be a day to come.
field-payment_reason = Say why.
field-payment_back_too_much = More than has been received cannot be paid back.

## refused

refused-payment_is_reversed_once = This payment was reversed in the meantime. Look at it again.
refused-payment_never_changes = A payment never changes. Reverse it and record a new one.
