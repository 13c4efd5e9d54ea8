### The money of a job: account, payments, deposit.

## account

# The payment that completes a deposit releases the orders, where the price rules say so.
account-released = With it, the orders to { $firms } were released.
account-released_without_supplier = With it, the orders were released.
account-tax_inside = tax inside it: { $amount }
account-row-agreed = Agreed, { $quote } version { $revision }
account-row-change = Change, { $quote } version { $revision }
account-consent-link = { $name }, { $at }, on the link
account-consent-phone = { $name }, { $at }, by phone; recorded by { $recorder }
account-consent-ceiling = { $name }, { $at }, within what may be done without asking
account-consent-counter = { $name }, { $at }, at the counter; recorded by { $recorder }
account-deposit-received = received
account-deposit-awaited = not received yet
account-deposit-part = { $missing } still to come

account-happened = { $event }: { $title }
account-happened_times =
    { $n ->
        [one] happened once, { $price } with tax
       *[other] charged { $n } times, { $price } each with tax
    }
account-core = Core returned: { $title }
account-core_late = Core returned after closing: { $title }
account-core_day = came back on { $day }
account-called_off = Not carried out
account-called_off_day = the job was called off on { $day }
account-owed_work = { $title } was sent out and is still owed: { $amount }
account-owed_labour = { $title } was done and is still owed: { $hours } h, { $amount }
account-owed_part = { $title } was begun; { $hours } of { $agreed } h were worked and are still owed: { $amount }
account-owed_because = { $words } ({ $because })
account-owed_none = nothing was done and nothing was sent out
account-stop-change = Before the job can be closed, { $quote } has to be answered, withdrawn or discarded.
account-caution-before_bay = The vehicle has not been taken into the bay yet.
account-caution-in_bay = The vehicle has not been handed over yet.
account-means-card = card
account-means-cash = cash
account-means-transfer = transfer
account-means-other = other means
account-settled-due = To pay
account-settled-paid = Paid in full
account-settled-over = To pay back
account-kind-payment = payment
account-kind-core = core returned after closing
account-kind-closing = closing account
account-column-row = Row
account-column-date = Date
account-column-job = Job
account-column-quote = Quote
account-column-customer = Customer
account-column-means = Means
account-column-reference = Reference
account-column-amount = Amount
account-column-total = Total with tax
account-column-tax = Tax inside
account-column-received = Received
account-column-due = To pay
account-column-person = Recorded by
account-column-reason = Reason
account-paper-title = Closing account, { $job }
account-paper-closed = of { $day }, for quote { $quote }
account-paper-no_invoice = This is not a tax invoice.
account-paper-rows = What was agreed and what happened
account-paper-total = Total with tax
account-paper-received = Received
account-paper-payments = Payments
account-paper-payment = { $day }, { $means }
account-paper-closed_by = Closed by { $name }.

## release

release-by = { $name }
release-by_deposit = With the deposit, recorded by { $name }
release-note-deposit = The deposit has not been received yet.
release-note-deposit_part = Only part of the deposit has been received.
release-note-by_deposit = These orders are released as soon as the whole deposit is recorded.
release-note-again = What was released before is not included again.
release-note-cancel =
    { $unit ->
        [pc] { $supplier }: { $quantity } × { $number }, { $title }, was ordered and is not needed any more. Cancel the order, or keep it for the shelf.
       *[other] { $supplier }: { $quantity } { $unit } { $number }, { $title }, was ordered and is not needed any more. Cancel the order, or keep it for the shelf.
    }
release-stop-nothing = There is nothing to order.
release-stop-released = All that is proposed was released before.
release-stop-called_off = The job was called off, so nothing more is ordered for it.
release-stop-early = Nothing is ordered before { $day }: until then the customer may withdraw.
release-text-head = { $house }, job { $job }
release-text-nobody = Supplier not known
release-text-line =
    { $unit ->
        [pc] { $quantity } × { $number } { $title }
       *[other] { $quantity } { $unit } { $number } { $title }
    }
release-text-need = They need: { $words }

## calc

calc-call_off_adds = What was not carried out cannot add to an account.
calc-bad_hours = More hours were worked than were agreed, or the step has none.
calc-core_adds = A returned core cannot add to an account.
calc-happened_takes = What happened cannot take from an account.
calc-not_rounded = The amount has more decimal places than the currency.
calc-unknown_row = The account has no such kind of row.

## problem

problem-payment-reversed-title = Already reversed
problem-payment-reversed-detail = This payment was reversed, or is a reversal itself. Record a new payment instead.

problem-photograph-of-nothing-title = This photograph shows nothing that happened
problem-photograph-of-nothing-detail = Only photographs of what happened can be shown to the customer.
problem-job-not-called-off-title = This job is not called off
problem-job-not-called-off-detail = The hours of a step are corrected only after the job was called off.
problem-step-without-price-title = This step has no price of its own
problem-step-without-price-detail = Its time is included in another step. Correct the hours of that one.
field-hours_above_agreed = { $hours } h were agreed for this step. Enter at most that.
problem-job-closed-title = This job is closed
problem-job-closed-detail = It was closed with its account. Payments can still be recorded.
problem-not-closed-title = Not closed yet
problem-not-closed-detail = The PDF is made when the job is closed with its account.
problem-account-moved-title = The account has changed
problem-account-moved-detail = Something was recorded in the meantime. Look at it again.
problem-changes-open-title = A change is still open
problem-changes-open-detail = Have the customer answer it, or discard it, before you close the job.
problem-release-too-early-title = Too early to order
problem-release-too-early-detail = The customer may still withdraw. Order when that period is over.
problem-nothing-to-release-title = Nothing to order
problem-nothing-to-release-detail = Everything of this job is here or has a date.
problem-nothing-to-close-title = Nothing to close
problem-nothing-to-close-detail = This job has no accepted quote, so there is no account to close.

## field

field-core_day_to_come = Enter the day on which the old part came back. It cannot be in the future.
field-month = Enter a month, such as 2026-11.

field-payment_amount = Enter an amount above 0.
field-payment_day_to_come = Enter the day on which the money was received. It cannot be in the future.
field-payment_reason = Say why.
field-payment_back_too_much = More than has been received cannot be paid back.

## refused

refused-payment_is_reversed_once = This payment was reversed in the meantime. Look at it again.
refused-core_return_is_reversed_once = This core was reversed in the meantime. Look at it again.
refused-job_is_closed_once = This job was closed in the meantime.
refused-payment_never_changes = A payment never changes. Reverse it and record a new one.

## owed

owed-core-today = Agreed today; the old part has not come back
owed-core =
    { $n ->
        [one] Agreed { $day }, open 1 day; the old part has not come back
       *[other] Agreed { $day }, open { $n } days; the old part has not come back
    }
owed-pay_back = Closed with its account; to be paid back, because an old part came back afterwards
owed-closed = Closed with its account, not paid in full
owed-called_off = Called off { $day }, not closed with its account yet
owed-handed_over = Handed over { $day }, not closed with its account yet
owed-ended = Ended, not closed with its account yet
