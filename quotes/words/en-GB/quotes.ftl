### Quotes in the workshop: drafts, what refuses them, what is undecided, outside work, finding.

## number

number-0 = no
number-1 = one
number-2 = two
number-3 = three
number-4 = four
number-5 = five
number-6 = six
number-7 = seven
number-8 = eight
number-9 = nine

## problem

problem-not-a-draft-title = This version has been sent
problem-not-a-draft-detail = A sent version never changes. Create a new version to change something.

problem-no-rules-title = There are no price rules for today
problem-no-rules-detail = Import a rules file in the Office, then start the quote.

problem-kit-without-revision-title = This kit has no contents and no price yet
problem-kit-without-revision-detail = Import the contents of { $kit }, or give it a price and hours.

problem-too-many-kits-title = No more kits on this quote
problem-too-many-kits-detail = A quote can have { $n } kits. Start another quote for more.

problem-too-much-outside-title = No more outside work on this quote
problem-too-much-outside-detail = A quote can have { $n } lines of it. Start another quote for more.

problem-outside-line-elsewhere-title = This is outside work
problem-outside-line-elsewhere-detail = Change it as outside work, with its firm and its cost.

problem-kit-line-fixed-title = This price is calculated
problem-kit-line-fixed-detail = Enter your own price instead, with the reason.

problem-labour-line-fixed-title = This is labour
problem-labour-line-fixed-detail = Change its hours where the labour is listed, with the reason.

problem-too-many-options-title = Too many options
problem-too-many-options-detail = A quote has at most { $n } options. Send it as two quotes.

problem-customers-changed-meanwhile-title = One of the two customers was changed by somebody else
problem-customers-changed-meanwhile-detail = Look at both again, then merge them. Nothing was changed.

problem-cannot-revise-title = A new version cannot be started
problem-cannot-revise-detail = There is a draft already, or the quote was accepted. Open the draft, or quote the extra work separately.

problem-not-ready-to-send-title = Not ready to send
problem-not-ready-to-send-detail = { $why }

problem-cannot-discard-title = This quote was sent
problem-cannot-discard-detail = A quote that a customer has seen cannot be discarded. Withdraw it instead.

problem-below-the-floor-title = The margin is below the floor
problem-below-the-floor-detail = Confirm that you send it below the margin floor, or change the prices.

problem-draft-moved-title = The draft has changed
problem-draft-moved-detail = The draft or its prices changed after you looked at it. Check it again, then send it.

problem-not-sent-title = This version is not with the customer
problem-not-sent-detail = Only a sent quote without an answer can be withdrawn or linked.

problem-too-many-contingencies-title = Too many lines charged only if they happen
problem-too-many-contingencies-detail = A quote can have { $n } lines that are charged only if they happen. Remove one first.

problem-cannot-be-contingent-title = This line is always charged
problem-cannot-be-contingent-detail = Only a loose part, a line written by hand or work of its own can be charged only if it happens.

problem-work-is-contingent-title = This work is charged only if it happens
problem-work-is-contingent-detail = Work in the total comes with a kit. Remove this line, or write it by hand with a price.

problem-contingency-elsewhere-title = This line is changed under “Only if it happens”
problem-contingency-elsewhere-detail = Change when, how often and for how many hours it is charged there.

problem-no-receipt-title = No receipt yet
problem-no-receipt-detail = There is a receipt once the quote is accepted.
problem-no-paper-title = No PDF yet
problem-no-paper-detail = The PDF is made when the quote is sent.

## field

field-tenths = Enter hours in tenths, such as 1.2, not 1.25.
field-above_zero = Enter a quantity above zero, or remove the line.
field-unknown_condition = This condition is not in the price rules. Choose one of: { $known }.
field-unknown_tax_class = The price rules of this quote have no such tax class. Choose one of: { $known }.
field-rules_not_offered = These price rules are not offered here. Use those in force, or those this draft had before.
field-one_is_proposed = One option of this choice is always proposed. Propose another one instead.
field-labour_by_skill = Work is priced by its skill and its hours. Nothing else has a skill.
field-unknown_skill = The price rules of this quote have no rate for this skill. Choose one of: { $known }.
field-parts_only = Only a part has this.
field-supplied_free = What the customer brings has no price.
field-no_such_operation = We have no operation with this code.
field-written_only = Only a line written by hand can be this.
field-fitted_kits_only = Only a kit can have been fitted before.
field-discount_percent = Enter a percentage above 0 and up to 100.
field-discount_amount = Enter an amount above 0.
field-discount_one = Enter either a percentage or an amount.
field-own_price_reason = Give the reason for a price of your own. Only we read it.
field-discount_too_large = A discount can be { $base } at most here. Fees, shop supplies and deposits are not discounted.
field-no_such_need = Nothing on this quote needs that consumable. Choose one that its kits need.
field-no_such_figure = There is no figure { $key } on this quote.
field-no_such_figure_known = There is no figure { $key } on this quote. Use the key of one of its lines, such as: { $known }.

## refused

refused-quote_has_one_live_revision = Another version of this quote was sent in the meantime. Look at it again.
refused-quote_has_one_acceptance = This quote has already been accepted.
refused-revision_has_one_answer = This version already has an answer.
refused-sent_revision_never_changes = A sent version never changes. Create a new version.
refused-override_is_not_negative = A figure cannot be negative.

## quote

quote-answer-waits = Work starts after { $day }: no consent to begin earlier. Nothing is ordered until then.
quote-stop_customer = Choose the customer.
quote-stop_vehicle = Choose the vehicle.
quote-stop_empty = Add a kit or a line to the quote.
quote-stop_choice = “{ $title }” has not enough options yet. Add one, or remove the choice.
quote-stop_option = “{ $title }”: the option “{ $option }” has no lines, so the customer would get nothing with it. Choose its lines, or remove it.
quote-stop_choices = The choices of this quote make { $n } prices; at most { $most } are worked out. Send it as two quotes, or leave fewer choices.
quote-decide = { $attribute }: not recorded. It decides which parts of the kit are taken; price and hours stay as they are.
quote-own_hours = Fitting: { $title }
quote-no_stage = Other work
quote-apart = { $apart } h if each kit were fitted on its own visit; shared work is charged once
quote-kit_archived = { $kit } is archived: it is offered on no new quote.
quote-class_untaxed = { $code }: no tax
quote-class_taxed = { $code }: { $rates }
quote-class_rate = { $title } { $rate } %
quote-discount = Discount
quote-discount_percent = Discount, { $percent } %
quote-discount_of = { $percent } % of { $of }
quote-deposit_of-parts = { $percent } % of kits and parts, { $of }
quote-deposit_of-total = { $percent } % of the total, { $of }
quote-deposit_of-cover = raised to what we pay for what cannot be sent back
field-bought_only = Only a kit, a part or outside work can be one that cannot be sent back.
quote-deposit_of-most = the total is less than that
quote-supplied_title = Fitting customer-supplied parts
quote-supplies_title = Shop supplies
quote-minimum_title = Minimum charge
quote-supplies = { $percent } % of { $basis }
quote-supplies_cap = { $percent } % of { $basis }, { $cap } at most

## undecided

undecided-title = Not recorded: { $names }
undecided-left_open = If left open, the customer says which when accepting.
undecided-asked = The customer says which when accepting.
undecided-no_vehicle = Choose the vehicle, then record it here.
undecided-too_many = That makes { $n } prices. A customer can choose from { $most } at most: record some of it first.
undecided-none_fits = The kits of this quote do not fit one vehicle together.
undecided-another = another { $name }
undecided-with = with { $name }
undecided-without = without { $name }
undecided-unfit = Does not fit: { $titles }
undecided-between = { $low } to { $high }
undecided-range = about { $amounts }, { $hours } hours
undecided-range_without = { $range }; without fluids whose amount depends on the vehicle
undecided-capacities = the litres that the vehicle takes
undecided-range_depends = about { $amounts }, { $hours } hours; depends on: { $names }

## newer_rules

newer_rules-title = Price rules of { $day }: total { $now } → { $then }.
newer_rules-same = Price rules of { $day }: the total stays at { $now }.
newer_rules-cannot = Price rules of { $day }: this draft cannot be worked out with them.
newer_rules-hours = Labour hours
newer_rules-ready = Ready
newer_rules-net = Total before tax
newer_rules-tax = Tax
newer_rules-total = Total with tax
newer_rules-margin = Margin

## merging

merging-moves = { $name } gets { $rows } of { $other }.
merging-nothing = { $other } has no quotes, vehicles or jobs. It leaves the lists; its web address leads to { $name }.
merging-quotes =
    { $n ->
        [one] { $n } quote
       *[other] { $n } quotes
    }
merging-vehicles =
    { $n ->
        [one] { $n } vehicle
       *[other] { $n } vehicles
    }
merging-jobs =
    { $n ->
        [one] { $n } job
       *[other] { $n } jobs
    }
merging-payments =
    { $n ->
        [one] { $n } payment
       *[other] { $n } payments
    }
merging-takes_phone = The telephone number { $text } is added.
merging-takes_email = The e-mail address { $text } is added.
merging-takes_address = The address { $text } is added.
merging-leaves_phone = The telephone number stays { $own }; { $text } is no longer listed.
merging-leaves_email = The e-mail address stays { $own }; { $text } is no longer listed.
merging-leaves_address = The address stays { $own }; { $text } is no longer listed.

## rules_example

rules_example-none = There is no quote yet. Once there is one, it shows here what a change does to it.
rules_example-begun = { $quote } at today’s prices: with the rules in force, and with these from { $day } on.
rules_example-sent = { $quote } as if it were written today: with the rules in force, and with these from { $day } on. What was sent stays as it is.
rules_example-unchanged = { $quote } at today’s prices, with the rules in force. Change a figure to see its effect here.
rules_example-choice = { $quote }: { $kits }

## rate_example

rate_example-none = There is no quote yet. Once there is one, it shows here what another rate does to it.
rate_example-rate = 1 { $currency }
rate_example-begun = { $quote } at today’s prices: with the rate in force today, and with this one from { $day } on.
rate_example-sent = { $quote } as if it were written today: with the rate in force today, and with this one from { $day } on. What was sent stays as it is.
rate_example-not_bought = { $quote } has nothing that is bought in { $currency }: this rate does not change it. Choose another quote.
rate_example-replaced = A newer rate of { $currency } is in force already, from { $day } on. This one does not change { $quote }.

## hours_example

hours_example-none = There is no quote yet. Once there is one, its date shows here what other hours do to it.
hours_example-no_date = { $quote }: { $why }
hours_example-accepted_now = { $quote } if it were accepted now: with the hours as they are, and with these from { $day } on.

## closed_example

closed_example-none = There is no quote yet. Once there is one, its date shows here what a closed day does to it.
closed_example-one = { $quote } if it were accepted now: as it is, and with { $day } closed.
closed_example-holidays = { $quote } if it were accepted now: as it is, and with these { $n } days closed.
closed_example-several = { $quote } if it were accepted now: as it is, and with { $first } to { $last } closed.

## outside

outside-by = { $title } by { $firm }
outside-from_acceptance =
    { $n ->
        [one] { $n } working day from acceptance
       *[other] { $n } working days from acceptance
    }
outside-from_step =
    { $n ->
        [one] { $n } working day after: { $step }
       *[other] { $n } working days after: { $step }
    }
outside-waits = { $turnaround }. Waits for it: { $step }
outside-no_turnaround = No turnaround yet, so there is no date

## find

find-in_kits = In: { $kits }
find-vin = VIN … { $tail }
find-archived = Archived: not bought or quoted any more.
find-replaced = now { $number }
find-on_quote = Last on { $number }

## How far work may go without asking

change-agreed_since = The job has changed since this was sent: { $before } agreed so far, { $after } { $currency } with this change.
change-date-same = The date stays: ready { $ready }.
change-date-later =
    { $n ->
        [one] This adds 1 day: ready { $ready } instead of { $before }.
       *[other] This adds { $n } days: ready { $ready } instead of { $before }.
    }
change-date-unless = { $words } Without the consent to start within the withdrawal period: ready { $ready }.
change-date-moved = Ready { $ready } instead of { $before }.
quote-ceiling-within = { $left } of { $ceiling } left
quote-ceiling-near = { $left } of { $ceiling } left: nearly all of it is used
quote-ceiling-takes = This removes something: ask the customer first. { $left } of { $ceiling } left
quote-ceiling-none = Nothing without asking the customer first
quote-ceiling-ask = More than { $ceiling }: ask the customer first

# Extra work as the bay reads it, without a price.
job-labour-done = done { $at }, { $name }
job-labour-open = not done
job-labour-corrected = hours corrected by { $name }, { $at }: { $reason }
job-ordered =
    { $unit ->
        [pc] { $supplier }: { $quantity } × { $number }, { $title }, was ordered and is not here. Cancel the order, or keep it for the shelf.
       *[other] { $supplier }: { $quantity } { $unit } { $number }, { $title }, was ordered and is not here. Cancel the order, or keep it for the shelf.
    }
job-extra-some = Small extra work may go ahead. Ask the counter how far before you begin.
job-extra-none = Ask first: no extra work without the customer.
job-extra-agreed = agreed
job-extra-waits = agreed; not before { $day }: withdrawal period
job-extra-removed = Removed: { $title }
job-extra-go_ahead = may go ahead
job-extra-ask_first = ask first

problem-job-has-ended-title = This job has ended
problem-job-has-ended-detail = It was handed over or called off, so it can no longer be changed. Begin a new quote.

problem-nothing-agreed-title = This job has no quote
problem-nothing-agreed-detail = Only what was agreed by a quote can be changed by one. Begin a new quote.

problem-not-a-change-title = This quote changes no job
problem-not-a-change-detail = Only a change to an open job can remove something from it.

problem-change-keeps-its-job-title = A change keeps the customer, vehicle and rules of its job
problem-change-keeps-its-job-detail = For another customer or vehicle begin a new quote.

problem-ask-first-title = Ask the customer first
problem-ask-first-detail = This change removes something, or goes beyond what may be done without asking. Send it, or ask by phone.

problem-answer-job-ended-title = The job has ended
problem-answer-job-ended-detail = It was handed over or called off in the meantime. Nothing was recorded.

problem-answer-taken-before-title = Something on it was removed already
problem-answer-taken-before-detail = Another change removed it in the meantime. Begin the change again.

field-not_agreed = This is not on the job, or was removed before.

## difference

difference-title = Changed since version { $revision } of { $day }
difference-total = Total { $before } → { $after }, { $more }
difference-same = The total is unchanged: { $total }
difference-moved = { $before } → { $after }
difference-begun = From the prices, rules and kits of the day this version was started
difference-since = Changed in this version
difference-all = Changed lines
difference-rules = Price rules of { $day } instead of { $before }
difference-kit = { $title }: version { $after } of the kit instead of { $before }

## undo

undo-added = { $title } added
undo-parts_added = Parts of a list added
undo-changed = { $title } changed
undo-removed = { $title } removed
undo-figure_set = Own figure for { $title }
undo-charge_chosen = How { $title } is charged
undo-figure_dropped = Calculated figure for { $title }
undo-discount_given = Discount given
undo-discount_removed = Discount removed
undo-choice_added = Choice “{ $title }” added
undo-choice_removed = Choice “{ $title }” removed
undo-option_added = Option “{ $title }” added
undo-option_removed = Option “{ $title }” removed
undo-taken_off = What the change removes from the job
undo-photograph_added = Photograph “{ $title }” added
undo-photograph_changed = Photograph “{ $title }” changed
undo-photograph_removed = Photograph “{ $title }” removed
undo-customer = Customer changed
undo-vehicle = Vehicle changed
undo-note = Note changed
undo-customer_note = Note to the customer changed
undo-condition = Condition of the fasteners changed
undo-here = Day of arrival changed
undo-rules = Price rules changed
undo-other = Last change

problem-nothing-to-undo-title = There is nothing to undo
problem-nothing-to-undo-detail = The last { $most } changes of a draft can be undone, until it is sent.

problem-nothing-to-redo-title = There is nothing to do again
problem-nothing-to-redo-detail = A change can be done again until another one is made.

## part_list

part_list-read =
    { $n ->
        [one] 1 line understood.
       *[other] { $n } lines understood.
    }
part_list-read_wrong =
    { $wrong ->
        [one] 1 row has to be put right first. Nothing is added yet.
       *[other] { $wrong } rows have to be put right first. Nothing is added yet.
    }
part_list-unknown = { $number } is not on file. Correct the number, or remove the row.
part_list-no_quantity = The quantity is not above zero. Correct it, or remove the row.
part_list-left_out = Left out: a heading or a sum
part_list-replaced = Instead of { $before }, which was replaced
shipment-wrong =
    { $n ->
        [one] 1 row has to be put right first. Nothing is saved yet.
       *[other] { $n } rows have to be put right first. Nothing is saved yet.
    }
shipment-no_price = { $supplier } has no price for { $number } here. Import their list with it first, or remove the row.
shipment-other_currency = Its price is in { $currency } and the freight in { $other }. Import a price in { $other }, or remove the row.
part_list-no_price = No price yet: no supplier has one for it.

problem-part-list-unread-title = The list has rows that cannot be read
problem-part-list-unread-detail = Nothing was added. Put these rows right first: { $rows }.
field-part_unknown = { $number } is not on file. Correct it, or add the part as other goods, with a price.
field-no_parts_in_list = Paste at least one part number.
field-list_too_long = A list can have { $most } lines. Paste it in two parts.

## follow_up

follow_up-opened = Link first opened { $at }
follow_up-not_opened = Link not opened yet
follow_up-no_link = No link works, so nobody can open it
follow_up-valid = Valid until { $at }
follow_up-expired = Expired { $at }
follow_up-rang = { $by } rang { $at }: { $outcome }
follow_up-no_answer = no answer
follow_up-thinking = is thinking about it
follow_up-wants_change = asked for a change

## told_date

told_date-in_bay = Nobody records which steps are done yet, so the expected date counts all of them from now. Write the date that you expect.
told_date-no_address = The customer has no e-mail address: ring them, and record it here.

problem-no-quote-of-job-title = No quote opened this job
problem-no-quote-of-job-detail = Without one there is no date that the customer was told.

problem-no-date-to-tell-title = This job has ended
problem-no-date-to-tell-detail = It was handed over or called off, so there is no date to tell any more.
