### What the customer reads: page, document and receipt.

## paper

paper-quote_title =
    { $offer ->
        [estimate] Estimate { $number }, version { $revision }
       *[other] Quote { $number }, version { $revision }
    }
paper-receipt_title = Receipt of acceptance { $number }
paper-receipt_of = The quote that was accepted is version { $revision } of { $day }, a PDF of its own.
paper-customer = Customer
paper-vehicle = Vehicle
paper-vin = VIN
paper-mark = Check code
paper-heading =
    { $offer ->
        [estimate] Estimate { $number }
       *[other] Quote { $number }
    }
paper-change_heading = Additional work authorisation { $number }
paper-issued = Version { $revision } of { $day }
paper-valid = valid until the end of { $day }
paper-hours = Hours
paper-labour = Labour by stage
paper-labour-priced = Labour by stage: { $price }
paper-stage = Stage, and the hours of its steps
paper-step = { $title } { $hours }
paper-step_corroded = { $title } { $hours } ({ $percent } % for corroded fasteners)
paper-rates = Rates an hour: { $rates }.
paper-fluids = Fluids and sealants, by the pack
paper-pieces = Small parts, not in the kits
paper-fees = Supplies and fees
paper-dates = The dates

## customer

customer-section-kits = What we fit
customer-section-labour = Labour
customer-section-needs = Oils, fluids and small parts
customer-section-outside = Work by other firms
customer-section-extras = Further parts and work
customer-section-fees = Supplies and fees
customer-section-taken = Removed from the job
customer-section-discount = Discount

customer-discount = Discount: { $because }
customer-outside_days =
    { $n ->
        [one] Takes { $n } working day
       *[other] Takes { $n } working days
    }
customer-outside_does = Their work: { $words }
customer-outside_rounds =
    { $n ->
        [one] 1 round of logging and correcting is included
       *[other] { $n } rounds of logging and correcting are included
    }
customer-outside_rounds_each =
    { $n ->
        [one] 1 round of logging and correcting, charged by the round
       *[other] { $n } rounds of logging and correcting, charged by the round
    }
customer-outside_we_warrant = We warrant: { $words }
customer-outside_warranty = Warranty: { $words }
customer-hours_at = { $hours } h at { $rate } an hour
customer-labour_hours = { $hours } h in all
customer-corroded = includes { $percent } % for corroded fasteners
customer-corroded_work =
    { $n ->
        [one] { $n } operation takes { $percent } % longer because of corroded fasteners. Its hours and price include that.
       *[other] { $n } operations take { $percent } % longer because of corroded fasteners. Their hours and prices include that.
    }
customer-whole_packs = Charged by the pack we open for you
customer-sold = What it costs
customer-part_sold =
    { $sold ->
        [new_original] new, from the vehicle manufacturer
        [used] used, not from the vehicle manufacturer
        [used_original] used, from the vehicle manufacturer
        [reconditioned] reconditioned, not from the vehicle manufacturer
        [reconditioned_original] reconditioned, from the vehicle manufacturer
       *[other] new, not from the vehicle manufacturer
    }
customer-kit_brought =
    { $n ->
        [0] { $code }
        [one] { $code }; { $n } line of its parts list applies to your vehicle
       *[other] { $code }; { $n } lines of its parts list apply to your vehicle
    }
customer-kit_kept = { $words }; it cannot be sent back
customer-kit_new = { $code }; new, not from the vehicle manufacturer
customer-kit_applies =
    { $n ->
        [one] { $code }; { $n } of { $listed } lines of the parts list applies to your vehicle; all new, not from the vehicle manufacturer
       *[other] { $code }; { $n } of { $listed } lines of the parts list apply to your vehicle; all new, not from the vehicle manufacturer
    }
customer-kit_parts =
    { $n ->
        [one] { $code }; parts list of { $n } line, new, not from the vehicle manufacturer
       *[other] { $code }; parts list of { $n } lines, all new, not from the vehicle manufacturer
    }
customer-used = { $quantity } { $unit }, charged as used
customer-pack = { $count } × { $title }
customer-supplied_kit = you bring this kit: we fit it and give no warranty on it
customer-supplied = you bring this part: we fit it and give no warranty on it
customer-core = a deposit: you get it back when we have the old part
customer-covered = Covered by shop supplies
customer-covered_items =
    { $n ->
        [one] { $n } item: { $titles }
       *[other] { $n } items: { $titles }
    }
customer-included = included
customer-each = { $quantity } at { $price }
customer-net = Before tax
customer-tax = { $title }, { $rate } %
customer-tax_inside = { $title }, { $rate } % inside
customer-tax_amount = { $title }: { $amount }.
customer-total = Total with tax
customer-deposit = Deposit
customer-deposit-amount = Deposit: { $amount } { $currency }
customer-deposit-parts = { $percent } % of kits and parts. We order once we have it.
customer-deposit-total = { $percent } % of the total. We order once we have it.
customer-deposit-cover = It covers what we order for you and cannot send back. We order once we have it.
customer-deposit-whole = The whole total: what we order for you cannot be sent back. We order once we have it.
customer-not_returnable = it cannot be sent back
customer-deposit-between = Deposit: { $least } to { $most } { $currency }, by the price you take.
customer-deposit-with = Deposit, { $words }
customer-deposit-pay = How to pay the deposit
customer-total_in = Total with tax, { $currency }
customer-not_there = not on the quote
customer-skip = Skip to the quote
customer-your_quote =
    { $offer ->
        [estimate] Your estimate, { $number }
       *[other] Your quote, { $number }
    }
customer-revision = Version { $revision }, valid until the end of { $day }
customer-revision_expired = Version { $revision }, was valid until the end of { $day }
customer-revision_alone = Version { $revision }
customer-hello = { $name }, this is for your { $vehicle }.
customer-hello_plate = { $name }, this is for your { $vehicle }, { $plate }.
customer-note = A note from us:
customer-vin = VIN … { $tail }
customer-includes = The price includes tax and all compulsory charges.
customer-includes_settled = The price includes tax and all compulsory charges for the work that is decided. What is still open is listed below under “Still to be decided”.
customer-tax_shown = The total includes the taxes shown below.
customer-what_it_comes_to = What it comes to
customer-please_know = Please read before you accept
customer-cautions_more =
    { $n ->
        [one] Read { $n } more caution
       *[other] Read { $n } more cautions
    }
customer-standing = Our terms
customer-undecided = Still to be decided
customer-undecided_line = We do not know yet which { $attribute } yours has. Parts and work that depend on it are not in this price. We will ask you before we add anything.
customer-undecided_parts = We do not know yet which { $attribute } yours has. It decides which parts of the kit we use; the price stays the same. We will ask you before we start.
customer-contingency = Only if it happens
customer-contingency-cap = Times
customer-contingency-event = If this happens
customer-contingency-each =
    { $n ->
        [one] { $price } with tax, at most once
       *[other] { $price } each with tax, at most { $n } times
    }
customer-contingency-to = { $least } to { $most }
customer-contingency-or = { $least } or { $most }
customer-contingency-most = Not in the total: what we charge only if it happens, at most { $amount } { $currency } more, with tax.
customer-contingency-words = Only if it happens: { $event }. { $title }: { $each }.
customer-choice-one = { $title }: take one
customer-choice-any = { $title }: take any, or none
customer-choice-chosen = { $choice }: { $option }
customer-choice-none = { $choice }: none
customer-choice-included = included
customer-choice-plus = +{ $amount }
customer-choice-same_price = no extra cost
customer-choice-without_price = { $amount } without it
customer-choice-hours_more = { $hours } h more work
customer-choice-hours_fewer = { $hours } h less work
customer-choice-same_date = no change to the date
customer-choice-ready = expected ready { $ready }
customer-choice-without_ready = without it, expected ready { $ready }
customer-choice-no_date = no date can be given for this yet
customer-choices = Your choices
customer-choices_show = Show total
customer-choices_free = Nothing is ordered or accepted by this.
customer-choices_sent = As we sent it: { $gross }
customer-choices_moved = You changed a choice. Press “Show total” first, then accept that total.
customer-choices_paper = The total is for the options marked “included”. To choose others, use your link, or ask us for the new total before you sign.
customer-several = You say which is yours when you accept.
customer-which = Your vehicle: { $names }
customer-total_with = Total with tax, { $words }
customer-price_ready = { $hours }, expected ready { $ready }
customer-price_unknown = I do not know
customer-price_unknown_call = Please call us before you accept: { $phone }
customer-price_unknown_ask = Please ask us before you accept.
customer-price_closed = Please call us about this one: { $phone }
customer-price_closed_ask = Please ask us about this one.
customer-lines_for = Lines and dates below: { $words }.
customer-terms_withdrawal = Our terms, your right to withdraw, who we are
customer-terms_who = Our terms, who we are
customer-each_date = In each case: { $date }
customer-price_date = { $headline }.
customer-price_date_bring = { $headline }. { $bring }
customer-differs = What differs: { $words }
customer-no_line = not needed
customer-differs_all = What differs between the prices
customer-accept_price = Accept the chosen price
customer-sign_price = { $words }: { $amount } { $currency }
customer-sign_yes_one =
    { $offer ->
        [estimate] I accept estimate { $number }, version { $revision }, for the vehicle ticked here:
       *[other] I accept quote { $number }, version { $revision }, for the vehicle ticked here:
    }
customer-stated = You said: { $words }
customer-say_yes = Accept this quote
customer-to_accept = Accept or decline
customer-hours = { $hours } h
customer-run_stage = { $title } { $hours } h
customer-tied_mail = Your acceptance covers exactly this version (check code { $mark }). We send a copy to the e-mail address you gave us.
customer-tied = Your acceptance covers exactly this version (check code { $mark }). Save or print the next page as your copy.
customer-name = Your full name
customer-may_order = I am the owner of this vehicle ({ $vehicle }) or may order this work on it.
customer-recorded = With your answer we record your name, the time, your internet address, your browser, your ticks and the words on this page. { $house } keeps this record.
customer-recorded_years =
    { $n ->
        [one] With your answer we record your name, the time, your internet address, your browser, your ticks and the words on this page. { $house } keeps this record for { $n } year.
       *[other] With your answer we record your name, the time, your internet address, your browser, your ticks and the words on this page. { $house } keeps this record for { $n } years.
    }
customer-recorded_months =
    { $n ->
        [one] With your answer we record your name, the time, your internet address, your browser, your ticks and the words on this page. { $house } keeps this record for { $n } month.
       *[other] With your answer we record your name, the time, your internet address, your browser, your ticks and the words on this page. { $house } keeps this record for { $n } months.
    }
customer-not_included = Not included
customer-after_work = After the work
customer-wheel_check = Wheels come off for this work. Have the torque of the wheel fasteners checked after { $distance }.
customer-withdrawal = Your right to withdraw
customer-withdrawal_days =
    { $n ->
        [one] The withdrawal period is { $n } day, counted from the day after you accept.
       *[other] The withdrawal period is { $n } days, counted from the day after you accept.
    }
customer-withdrawal_until = The withdrawal period lasts until the end of { $day }.
customer-who_we_are = Who we are
customer-cautions = Cautions
customer-ask = Ask a question: { $phone }
customer-agreed = What you agreed to
customer-not_before = We order nothing and start no work before { $day }: withdrawal period.
customer-receipt_call = To change or cancel anything, call us: { $phone }
customer-accept = Accept for { $amount } { $currency }
customer-decline = No, thank you
customer-paper = Download PDF
customer-paper_sent = The PDF is the version sent on { $day }; its dates were worked out that day.
customer-changed = What changed since you opened it
customer-since_version = What has changed since { $day }
customer-since_rest = The smaller changes
customer-since_lines =
    { $n ->
        [one] 1 line has changed
       *[other] { $n } lines have changed
    }
customer-col_what = What
customer-col_before = You saw
customer-col_was = Before
customer-col_after = Now
customer-col_no = No.
customer-col_price = Price
customer-call = Call us: { $phone }
customer-receipt_title_accepted = Thank you, you accepted this quote
customer-receipt_title_declined = You declined this quote
customer-receipt_accepted = Accepted by { $name } on { $when }, for { $amount } { $currency }.
customer-receipt_declined = Declined by { $name } on { $when }.
customer-receipt_next-told =
    { $deposit ->
        [awaited] { $bring } Please pay the deposit soon: we order once we have it, and the date moves if it comes later.
       *[none] { $bring } Until then there is nothing to do.
    }
customer-receipt_next-here =
    { $deposit ->
        [awaited] We have your vehicle. Please pay the deposit: we order once we have it.
       *[none] We have your vehicle. There is nothing to do.
    }
customer-receipt_next-bring =
    { $deposit ->
        [awaited] Please bring the vehicle on { $day }. Please pay the deposit soon: we order once we have it, and the date moves if it comes later.
       *[none] Please bring the vehicle on { $day }. Until then there is nothing to do.
    }
customer-receipt_next-by =
    { $deposit ->
        [awaited] Please bring the vehicle on { $day }, when we start, unless we already have it. Please pay the deposit soon: we order once we have it, and the date moves if it comes later.
       *[none] Please bring the vehicle on { $day }, when we start. If we already have it, there is nothing to do.
    }
customer-receipt_bring = Please bring
customer-receipt_bring-supplied = { $title }, which you supply.
customer-receipt_next-handed_over = You have your vehicle back. If anything is not as it should be, call us.
customer-receipt_next-called_off = This job was called off. If you have a question, call us.
customer-ended-handed_over = Handed over on { $day }
customer-ended-called_off = Called off on { $day }
customer-receipt_then = The dates on the day you accepted
customer-receipt_makes = How the total adds up
customer-receipt_next-past = We have your answer. If you have not heard from us since, call us.
customer-receipt_next-no_day =
    { $deposit ->
        [awaited] We have your answer. Please pay the deposit: we order once we have it. If we do not have the vehicle yet, please call us to agree a day.
       *[none] We have your answer and are getting ready. If we do not have the vehicle yet, please call us to agree a day.
    }
customer-receipt_no_next = Thank you for letting us know. If you change your mind, call us.
customer-receipt_no_next_call = Thank you for letting us know. If you change your mind, call us: { $phone }
customer-receipt_link = See your answer
customer-receipt_kit = number { $code }
customer-receipt_mark = Your answer covers exactly this version (check code { $mark }).
customer-gone_title = This link no longer works
customer-gone = It may have been replaced by a newer one. Look for the newest message from us, or call us.
customer-gone_nowhere = Check that the whole address was copied. If it was, call the workshop that sent it.
customer-sign_name = Name
customer-sign_date = Date, signature
customer-sign_yes =
    { $offer ->
        [estimate] I accept estimate { $number }, version { $revision }, for { $amount } { $currency }.
       *[other] I accept quote { $number }, version { $revision }, for { $amount } { $currency }.
    }

customer-preview-draft = Not sent. Only you see this.
customer-preview-sent = This is the customer’s page. Only you see this copy, and nobody can answer here.
customer-preview-mark = given when it is sent

customer-consent-required = required
customer-consent-optional = optional
customer-consent-further =
    { $n ->
        [one] { $n } more that you may allow
       *[other] { $n } more that you may allow
    }
customer-consent-without = Without it you can accept all the same.
customer-consent-waits = Without it we order nothing and start no work before { $day }.
customer-consent-ready_of = { $ready } ({ $words })
customer-consent-waits_ready = Without it we order nothing and start no work before { $day }; expected ready then: { $ready }.
customer-consent-unless = This date applies only if you ask us to start within the withdrawal period.
customer-consent-unless_waits = This date applies only if you ask us to start within the withdrawal period. Otherwise we order nothing and start no work before { $day }.
customer-consent-unless_ready = This date applies only if you ask us to start within the withdrawal period. Otherwise we order nothing and start no work before { $day }; expected ready then: { $ready }.
customer-consent-unless_ready_bring = This date applies only if you ask us to start within the withdrawal period. Otherwise we order nothing and start no work before { $day }; expected ready then: { $ready }. In that case: { $bring }
customer-consent-after = We order nothing and start no work before { $day }, when the withdrawal period is over.
customer-consent-after_date = We order nothing and start no work before { $day }, when the withdrawal period is over. This date counts from then.

customer-extra_work-none = Extra work. We do no extra work without your consent.
customer-extra_work-percent = Extra work. We ask you before extra work takes the total more than { $share } % above this quote.
customer-extra_work-percent_capped = Extra work. We ask you before extra work costs more than { $share } % of this quote, and never go above { $cap } without your consent: that is { $allowed } in all.
customer-extra_work-banded = Extra work. We ask you before extra work costs more than { $allowed } in all ({ $share } % of this quote, at least { $floor }, at most { $cap }).
customer-extra_work-maximum = Extra work. We ask you before the whole job costs more than { $maximum }: that leaves { $allowed } above this quote.
customer-extra_work-amount = Extra work. We ask you before extra work costs more than { $amount } in all.

customer-who-address = { $value }
customer-who-phone = Telephone { $value }
customer-who-email = { $value }
customer-who-registration = Registration: { $value }
customer-who-tax_number = Tax number: { $value }

customer-undecided_about-transmission = We do not know yet whether yours is manual or automatic. Parts and work that depend on it are not in this price. We will ask you before we add anything.

customer-promise-show = Show the dates
customer-promise-if_yes = { $headline }. This is the date if you accept today.
customer-promise-on_paper = This is the date if you accept on { $day }.
customer-promise-moves = This date is an estimate. It depends on when you accept and on a free bay.
customer-promise-moves_deposit = This date is an estimate. It depends on when you accept, on when we have the deposit, and on a free bay.
customer-promise-no_date_title = No date yet
customer-promise-no_date = We cannot give a date yet. Please call us.
customer-promise-no_delivery_day =
    { $n ->
        [one] We cannot give a date yet. { $titles } has no delivery date. Please call us.
       *[other] We cannot give a date yet. These have no delivery date: { $titles }. Please call us.
    }
customer-promise-way = What the day waits for
customer-promise-yes = You accept
customer-promise-said_yes = You accepted
customer-promise-arrival = Due at the workshop by close: { $title }
customer-promise-bring = You bring the vehicle by { $time }, when we open
customer-promise-bring_today = You bring the vehicle as soon as you can
customer-promise-work = Work on your vehicle
customer-promise-work_until = Work on your vehicle until { $day }
customer-promise-outside =
    { $n ->
        [one] { $title }: { $n } working day
       *[other] { $title }: { $n } working days
    }
customer-promise-wait = The vehicle stands for { $wait } after this work: { $title }
customer-promise-ready = Ready for you
customer-promise-unknown =
    { $n ->
        [one] No delivery date yet for { $titles }. If it comes late, the date moves.
       *[other] No delivery date yet for these { $n } parts: { $titles }. If they come late, the date moves.
    }
customer-promise-unknown_several = { $n } parts have no delivery date yet. If they come late, the date moves.
customer-promise-moved = The date has changed
customer-promise-none_now = We cannot give a date now. Please call us.
customer-promise-receipt = This was the date on the day you accepted.

# The dated sentences on a job, one a line, after the customer accepted.
customer-progress-title = Where your vehicle stands
customer-progress-accepted = You accepted our quote.
customer-progress-checked = We have counted and checked the parts for your vehicle.
customer-progress-in_bay = Your vehicle is in the bay; work has begun.
customer-progress-handed_over = You have your vehicle back.
customer-photographs = Photographs from the workshop
customer-photograph-alt = Photograph { $n }: { $event }
customer-photograph-caption = { $event }, { $day }
customer-line_photographs =
    { $n ->
        [one] Photograph: { $captions }
       *[other] { $n } photographs: { $captions }
    }
customer-line_photograph-alt = Photograph { $n }: { $caption }
paper-line_photographs =
    { $n ->
        [one] The link to this quote has a photograph of it: { $captions }
       *[other] The link to this quote has { $n } photographs of it: { $captions }
    }
customer-progress-called_off = This job was called off.
customer-progress-happened =
    { $n ->
        [one] { $event }: { $title }. It happened once and is charged as agreed, { $price } with tax.
       *[other] { $event }: { $title }. It happened; charged as agreed { $n } times, { $price } each with tax.
    }

# A draft that a person completes and sends: the date moved, with the reason where the tool knows it.
customer-moved-date = We now expect your vehicle to be ready { $when }.
customer-moved-date_why = We now expect your vehicle to be ready { $when }: { $why }.
customer-moved-from = We now expect your vehicle to be ready { $when }, instead of { $before }.
customer-moved-from_why = We now expect your vehicle to be ready { $when }, instead of { $before }: { $why }.
customer-moved-none = We can no longer give a date for your vehicle; it was { $before }.
customer-moved-none_why = We can no longer give a date for your vehicle; it was { $before }: { $why }.
customer-moved-late = we are still waiting for { $title }, which was due { $when }
customer-moved-arrival = we are waiting for { $title }, due { $when }
customer-moved-withdrawal = we start the work you added on { $when }, after your withdrawal period
customer-moved-outside = we are waiting for { $title }
customer-moved-dateless = there is no delivery date yet for { $titles }
customer-moved-more_work = you agreed to more work

# A change to an open job: its page, its paper and its receipt.
customer-change-title = Change to your job { $job }
customer-change-about = This changes what you agreed in { $of }. Everything else stays as agreed.
customer-change-before = Agreed so far
customer-change-this = This change
customer-change-after = Agreed with this change
customer-change-declined = Your job { $job } stays as it was agreed.
customer-change-left = Extra work. Without asking you again we may do extra work for { $left } of { $ceiling }.
customer-change-next = We have your answer and will do the work with the rest of the job.
customer-change-date = The date is that of the whole job; we will tell you if it moves.
customer-change-unasked = { $name } went ahead on { $when } without asking you, within what you agreed: { $amount } { $currency }.

customer-state-accepted = This quote was accepted.
customer-state-declined = This quote was declined.
customer-state-withdrawn = We have withdrawn this quote. Call us for a new one.
customer-state-expired = This quote has expired. Call us for a new price.
customer-state-replaced = A newer version of this quote is on its way to you.

customer-error-unclear = Please press Accept or No, thank you.
customer-error-incomplete = Your answer is not complete. Please correct this, then press Accept or No again.
customer-error-name = Type your full name, in letters.
customer-error-tick = Please tick: “{ $text }”
customer-error-price = Say which is yours. If you do not know, call us.
customer-error-unknown = Nothing is agreed yet. Call us, and we will find out together which is yours.
customer-error-unfit = Nothing is agreed yet: this quote does not fit what you chose. Call us about it.
customer-error-contradicts = Nothing is agreed yet: we have something else on record for this vehicle. Call us about it.
customer-error-tick_here = This has to be ticked before you can accept.
customer-error-replaced = This quote has changed since you opened it. Look at what changed, then decide.
customer-error-moved = The date has changed since you opened this page. Nothing is agreed yet: check the new date, then press Accept again.
customer-error-answered = This quote already has an answer. Call us if you have changed your mind.
customer-error-job_ended = The job has ended, so it can no longer be changed. Please call us.
customer-error-taken_before = Another change has removed something on this page from the job already. Please call us.
customer-error-withdrawn = We have withdrawn this quote. Call us for a new one.
customer-error-expired = This quote has expired. Call us for a new price.
