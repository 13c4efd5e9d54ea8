### Words of the quote at the Counter.

quote-note = Note to yourselves
quote-note-hint = For the workshop only. It is shown with the quote at the Counter.
quote-note-customer = Note to the customer
quote-note-customer-hint = They read it on their page and the PDF, as it stands when you send.
quote-note-customer-text = To the customer: { $note }
quote-note-save = Save the notes
quote-note-text = Note: { $note }
quote-note-add = Notes
quote-note-change = Change the notes
quote-copy = Copy the quote
quote-copy-short = Copy
quote-copied = Copied from { $number }, at today’s prices. Choose the customer and the vehicle.
quote-copied-without = Not copied: { $things }.
quote-copied-discount = the discount
quote-copied-figures = your own figures
quote-copied-charges = how fluids are charged
quote-copied-notes = the notes
quote-copied-condition = corroded fasteners
quote-copied-day = the day the vehicle comes
quote-discard = Discard this draft
quote-discard-short = Discard
quote-discarded = Discarded: { $number }
quote-did-note = Note changed
quote-title = Quote { $number }
quote-saved = version { $revision }, saved { $at } by { $who }
quote-undo = Undo: { $words }
quote-redo = Do again: { $words }
quote-did-undo = Undone: { $words }
quote-did-redo = Done again: { $words }
quote-earlier = Version { $revision } is with the customer and can still be accepted.
quote-earlier-unread = Version { $revision } is not withdrawn, but no link opens it.
quote-earlier-back = Withdraw version { $revision }
quote-overtaken = { $name } accepted version { $revision } while you worked on version { $draft }. The accepted one counts and is shown here; the draft is no longer used.

quote-box-customer = Customer
quote-box-nobody = no customer yet
quote-box-vehicle = Vehicle
quote-box-no_vehicle = none yet
quote-box-vin = VIN
quote-box-vin-tail = … { $tail }
quote-vehicle-vin_tail = VIN … { $tail }
quote-box-vin-none = not recorded
quote-box-rules = Price rules from
quote-box-rules-with_tax = all prices include tax
quote-box-rules-before_tax = all prices before tax
quote-choose = Choose
quote-choose-customer = Choose the customer
quote-change = Change
quote-change-customer = customer
quote-choose-vehicle = Choose the vehicle
quote-change-vehicle = vehicle
quote-change-facts = specs

quote-kits = Kits
quote-kit-parts =
    { $n ->
        [one] parts list of { $n } line; cartons: { $cartons }
       *[other] parts list of { $n } lines; cartons: { $cartons }
    }
quote-kit-parts-loose =
    { $n ->
        [one] parts list of { $n } line
       *[other] parts list of { $n } lines
    }
quote-kit-applies =
    { $cartons ->
        [one] { $n } of { $listed } lines for this vehicle, { $cartons } carton
       *[other] { $n } of { $listed } lines for this vehicle, { $cartons } cartons
    }
quote-kit-applies-loose = { $n } of { $listed } lines for this vehicle
quote-kit-bare = price and hours only
quote-kit-revision = version { $revision }
quote-kit-alone = { $alone } h on its own.
quote-kit-saves = Without it: { $hours } h, { $amount }
quote-kit-saves_amount = Without it: { $amount }
quote-kit-saves_hours = Without it: { $hours } h, the same total
quote-kit-saves_nothing = Without it: the same hours, the same total
quote-figure-saves = { $value }: without { $title }
quote-kit-first = First fit here: hours × { $factor }.
quote-kept = It cannot be sent back.
quote-kept-set = Record as non-returnable
quote-kept-set-label = Record as non-returnable: { $title }
quote-kept-undo = Record as returnable
quote-kept-undo-label = Record as returnable: { $title }
quote-kit-supplied = The customer brings it: no price and no warranty.
quote-kit-bring = The customer brings it
quote-kit-bring-label = The customer brings it: { $title }
quote-kit-sell = We sell it
quote-kit-sell-label = We sell it: { $title }
quote-kit-fitted = Fitted here before.
quote-kit-fitted-set = We have fitted it before
quote-kit-first-set = It is the first time
quote-take_off = Remove
quote-take_off-label = Remove: { $title }
quote-add = Add a kit, part or work
quote-add-short = Add
quote-add-kit = A kit
quote-add-part = A loose part
quote-add-labour = Labour
quote-add-list = A list of parts
quote-list = List of parts
quote-list-paste = Paste part numbers with quantities
quote-list-paste-hint = One per line, from a spreadsheet or an e-mail. Nothing is added before you have seen how it was read.
quote-list-read = Show how it was read
quote-list-row = Row
quote-list-part = Part
quote-list-quantity = Quantity
quote-list-price = Price
quote-list-add =
    { $n ->
        [one] Add 1 line
       *[other] Add { $n } lines
    }
quote-did-list =
    { $n ->
        [one] Added 1 part of a list
       *[other] Added { $n } parts of a list
    }
quote-add-outside = Outside work
quote-add-text = Other work or goods
quote-add-contingency = Only if it happens
quote-add-photograph = A photograph
quote-add-what = What to add

quote-labour = Labour
quote-labour-figure = { $hours } h, { $amount }
quote-labour-none = No labour yet
quote-labour-none-detail = The hours come with the kits; work that two of them share is counted once.
quote-col-no = No.
quote-col-operation = Operation, and why these hours
quote-col-kits = Kits
quote-col-hours = Hours
quote-col-price = Price
quote-col-need = What, and which packs
quote-condition = Corroded fasteners
quote-condition-none = none
quote-condition-light = light
quote-condition-moderate = moderate
quote-condition-heavy = heavy
quote-condition-factor = exposed fasteners take × { $factor }

quote-needs-covered = Covered by shop supplies
quote-needs-charged = Fluids and small parts
quote-charge = How it is charged
quote-charge-pack = Whole packs
quote-charge-used = As used
quote-charge-supplies = Covered by shop supplies
quote-charge-again = Go back to the rules
quote-rest = Fluids, small parts, fees
quote-contingencies = Only if it happens
quote-contingencies-detail = not in the total
quote-contingency-event = If this happens
quote-contingency-event-hint = As the customer reads it, such as: An exhaust stud breaks
quote-contingency-title = What is then done or fitted
quote-contingency-kind = How it is charged
quote-contingency-kind-labour = By the hour
quote-contingency-kind-text = At a price
quote-contingency-hours = Hours each time
quote-contingency-skill = Skill
quote-contingency-cap = At most, times
quote-contingency-each =
    { $n ->
        [one] { $price } with tax, at most once
       *[other] { $price } each with tax, at most { $n } times
    }
quote-contingency-to = { $least } to { $most }
quote-contingency-or = { $least } or { $most }
quote-contingency-in_any_case = Charge in any case
quote-contingency-mark = Charge only if it happens
quote-contingency-mark-label = Only if it happens: { $title }
quote-extras = Further parts and work
quote-extra-each = { $quantity } at { $price }
quote-fees = Supplies and fees
quote-fees-all = Disposal and supplies
quote-sums = How it adds up
quote-net = Before tax
quote-tax = { $title }, { $rate } %
quote-tax-inside = { $title }, { $rate } % inside
quote-tax-amount = { $title }, { $rate } %: { $amount }
quote-tax-inside-amount = { $title }, { $rate } % inside: { $amount }
quote-gross = Total with tax
quote-deposit =
    { $base ->
        [parts] Deposit, { $percent } % of parts
       *[other] Deposit, { $percent } % of all
    }

quote-deposit-received = received { $day }
quote-deposit-part = { $amount } received, last on { $day }
quote-deposit-awaited = not received yet
quote-figure-hours = Hours of { $title }: { $value }. Enter your figure
quote-figure-price = Price of { $title }: { $value }. Enter your figure
quote-figure-how = { $title }: { $value }
quote-figure-press = Tap a figure to change it
quote-figure-press-sent = Tap a figure to check it
quote-figure-yours = your figure
quote-figure-hours-label = Your hours
quote-figure-price-label = Your price
quote-figure-hint = Now { $value }
quote-figure-because = Reason
quote-figure-because-hint = Shown beside the figure, and in the history with your name.
quote-figure-put = Use this figure
quote-figure-again = Go back to the calculated figure
quote-version-before = Before
quote-version-after = Now
quote-version-none = none
quote-version-rest = The smaller changes
quote-version-no_lines = No line changes.
quote-rules-newer = Newer price rules
quote-rules-newer-from = in force from { $day }
quote-rules-newer-now = Now
quote-rules-newer-then = Then
quote-rules-newer-none = none
quote-rules-newer-lines =
    { $n ->
        [one] { $n } line changes
       *[other] { $n } lines change
    }
quote-rules-newer-use = Use the new rules
quote-rules-newer-keep = Keep the old ones
quote-rules-newer-offer = Newer price rules of { $day }: what they would change
quote-choices = Left to the customer
quote-choices-detail = Ticked is what you propose; the total of this quote has it.
quote-choice-leave = Leave a choice
quote-choice-short = Choice
quote-choice-form = A choice for the customer
quote-choice-title = What the customer chooses
quote-choice-title-hint = For example: Brake pads
quote-choice-take = How many options
quote-choice-one = Take one
quote-choice-any = Take any, or none
quote-choice-take_one = { $title }: take one
quote-choice-take_any = { $title }: take any, or none
quote-choice-options = Options, one a line
quote-choice-options-hint = The lines of the quote that belong to an option are added afterwards.
quote-choice-save = Save
quote-option-lines = { $n ->
    [0] Lines: none
    [one] { $n } line
   *[other] { $n } lines
  }
quote-option-lines-label = Choose the lines of: { $title }
quote-option-which = Lines that the customer gets only with “{ $title }”
quote-option-rename = Rename: { $title }
quote-option-title = Name of the option
quote-option-add = Add an option
quote-option-up = Move up
quote-option-up-label = Move up: { $title }
quote-did-proposed = Proposed: { $title }
quote-did-not_proposed = No longer proposed: { $title }
quote-discount = Discount
quote-discount-short = Discount
quote-discount-give = Give a discount
quote-discount-change = Change the discount
quote-discount-kind = As
quote-discount-percent = Percent
quote-discount-amount = Amount
quote-discount-because-hint = The customer reads it on the quote.
quote-discount-on = On kits, parts, labour, fluids and other lines; not on fees, shop supplies and deposits.
quote-extra-change = Change: { $title }
quote-extra-supplied = the customer brings it: no price and no warranty
quote-extra-core = core deposit: paid back when the old part comes
quote-extra-own = Price replaced by hand: { $because }
quote-extra-again = Go back to the calculated price
quote-extra-save = Change the line

quote-part-sold =
    { $sold ->
        [new_original] new, from the vehicle manufacturer
        [used] used, not from the vehicle manufacturer
        [used_original] used, from the vehicle manufacturer
        [reconditioned] reconditioned, not from the vehicle manufacturer
        [reconditioned_original] reconditioned, from the vehicle manufacturer
       *[other] new, not from the vehicle manufacturer
    }
quote-part-condition = How it is sold
quote-part-condition-new = New
quote-part-condition-used = Used
quote-part-condition-reconditioned = Reconditioned
quote-part-maker = Who made it
quote-part-maker-other = Not the vehicle manufacturer
quote-part-maker-original = The vehicle manufacturer
quote-text-title = What it is
quote-text-quantity = Quantity
quote-text-unit_price = Price each
quote-text-core = What this is
quote-text-core-no = Work or goods
quote-text-core-yes = A core deposit, paid back when the old part comes
quote-text-supplied = A part that the customer brings
quote-text-fitted_by = Fitted by this work
quote-text-fitted_by-hint = Its hours get the surcharge of the price rules.
quote-text-fitted_by-none = No work of this quote
quote-text-tax_class = Taxed as
quote-text-tax_class-choose = Choose
quote-text-tax_class-others = Other tax classes
quote-text-add = Add to the quote
quote-part-find = Number or code of the part
quote-part-find-hint = Type or scan a number and press Enter, or paste a list.
quote-part-none = No part begins with “{ $q }”. Add it as other goods, with a price.

quote-decide = To be decided
quote-decide-state = Set to { $value }
quote-decide-no_vehicle = Choose the vehicle first, then set it here.
quote-decide-answer = { $attribute }: { $value }
quote-undecided-ready = Ready { $day }.
quote-undecided-each_ready = Each ready { $day }.
quote-undecided-prices = Prices
quote-undecided-unfit = A kit does not fit
quote-undecided-recorded = Recorded: { $words }
quote-undecided-set = Set: { $words }
quote-undecided-undone = Undone: { $says }
quote-undecided-below = Below: { $words }.
quote-range = To say on the phone
quote-notices = Worth knowing

quote-comes_to = What it comes to
quote-hours = Hours
quote-margin = Margin
quote-percent = { $rate } %
quote-bought = Landed cost
quote-bought-note = per unit, in our currency; never shown to customers
quote-bought-times = { $quantity } × { $title }
quote-bought-together = Together
quote-bought-together-all = all of it, as this quote charges it
quote-bought-together-net = charged { $amount } before tax
quote-bought-together-profit = profit { $amount } before tax
quote-margin-profit = { $amount } before tax
quote-margin-profit-lowest = { $amount } before tax, at the lowest price
quote-margin-floor = margin floor: { $rate } %
quote-margin-below = Below the margin floor of { $rate } %
quote-ready = Ready
quote-ready-dates = Show the dates
quote-ready-comes = When the vehicle comes
quote-ready-comes-proposed = We propose { $when }.
quote-ready-draft = if it is sent and accepted today
quote-ready-if = if the customer accepts today
quote-ready-were = if the work were agreed today
quote-ready-recorded = as shown at acceptance
quote-ready-none = no date yet
quote-ready-here_from-closed = Closed on { $day }: the vehicle can come on { $from }.
quote-ready-of = { $words }: { $day }
quote-ready-to = Show the timeline
quote-ready-here = The vehicle is here already.
quote-ready-here_from-day = The customer brings it on { $day }.
quote-ready-unknown = Lead days come with the supplier’s file: import it again in the Office, or ask the supplier before you send.
quote-valid = Valid
quote-valid-days =
    { $n ->
        [one] { $n } day from sending
       *[other] { $n } days from sending
    }
quote-valid-until = to { $day }
quote-mark = Check code
quote-mark-where = on the PDF and on the customer’s page
quote-moved = Was { $was }. { $says }
quote-bar-hours = { $hours } h
quote-bar-ready = { $told }, ready { $day }
quote-bar-ready_early = { $told }, ready { $day } if started early
quote-bar-range = { $low } to { $high }
quote-bar-lowest = lowest of { $n } prices
quote-bar-highest = highest
quote-bar-settle =
    { $n ->
        [one] { $n } thing to settle
       *[other] { $n } things to settle
    }

quote-send-check = Please check
quote-settle-to = Show what is to be settled
quote-send-to_do = Before the link can be created
quote-as_customer = See as the customer
quote-send-bar = Send
quote-send-freeze = Lock the quote and create the link
quote-send-busy = Prices, page and PDF are being made. This takes a few seconds.
quote-send-to = Customer’s name
quote-send-to-hint = We create the link. You send it yourself or by e-mail.
quote-send-missing = Enter who the link is for.
quote-send-all_the_same = Send it anyway?
quote-send-below = The margin is below the floor.
quote-send-below-detail = I send this quote all the same. The history keeps my name.
quote-send-close = Cancel
quote-sent-to = Created for { $recipient }. Version { $revision } can no longer change.
quote-link-address = The customer’s link
quote-link-once = Shown only now. Copy or share it; you can create another at any time.
quote-link-copy = Copy the link
quote-link-copied = The link is copied.
quote-link-share = Share it
quote-message = As a message: “{ $message }”
quote-message-copy = Copy the message
quote-message-copied = The message is copied.
quote-mail = E-mail
quote-mail-to = E-mail address
quote-mail-none = No e-mail address is recorded for { $customer }, so no receipt will be sent either.
quote-mail-own = The e-mail has a link of its own. The receipt goes to the recorded address when the customer accepts.
quote-mail-no_server = No mail server is set up, so no e-mail leaves. Copy the link and send it yourself.
quote-mail-send = Send the link by e-mail
quote-mail-asked = The e-mail to { $to } is on its way.
quote-mail-by = asked for by { $name }, { $at }
quote-mail-by_acceptance = asked for by the acceptance, { $at }
quote-mail-by_question = asked for by the question, { $at }
quote-mail-quote_link = Link to { $to }
quote-mail-receipt = Receipt to { $to }
quote-mail-moved_date = A new date to { $to }
quote-mail-question = The customer’s question to { $to }
quote-mail-reply = Reply to { $to }
quote-mail-again = Send again
quote-mail-again-label = Send again: { $to }
quote-mail-arrived = It arrived
quote-mail-arrived-label = It arrived: { $to }
quote-mail-cancel = Do not send
quote-mail-cancel-label = Do not send: { $to }
quote-link-detail = Your quote { $number }

quote-out-sent = sent { $at }
quote-paper = PDF
# A download for another firm's program. UBL is the name of the standard.
quote-ubl = UBL file
quote-receipt = Receipt
quote-revise = New version
quote-revised = Version { $revision } is a draft at today’s prices. Your own figures stay.
quote-withdraw = Withdraw the quote
quote-withdraw-ask = Withdraw version { $revision }?
quote-withdraw-detail = Whoever opens the link sees that the quote was withdrawn and can no longer accept it. The version stays here.
quote-links = Links
quote-links-open =
    { $n ->
        [0] none works now
        [one] one works
       *[other] { $n } work
    }
quote-links-none = No link works now
quote-links-none-detail = Nobody can open the quote. Create a link for the person who is to read it.
quote-link-until = works until { $day }
quote-link-with_job = works until 30 days after the job ends
quote-link-back = cancelled { $at }
quote-link-ended = ended { $day }
quote-link-made = created { $at }
quote-link-revoke = Cancel
quote-link-revoke-label = Cancel the link of { $recipient }
quote-link-revoke-ask = Cancel the link of { $recipient }?
quote-link-revoke-do = Cancel the link
quote-link-revoke-detail = Whoever has it can no longer open the quote. You can create another link.
quote-link-revoked = The link of { $recipient } no longer works.
quote-link-another = Another link
quote-link-another-make = Create the link
quote-answer-price = The customer said: { $price }. Accepted total: { $amount }
quote-answer-total = Accepted total: { $amount }
quote-answer-accepted = Accepted by { $name } on { $at }
quote-answer-ceiling = { $name } went ahead on { $at } without asking, within the amount agreed with the customer.
quote-answer-declined = Declined by { $name } on { $at }
quote-answer-consents = Consents given
quote-answer-consents-none = No consents were given.
quote-answer-phone = Said by phone, { $phone }. Recorded by { $by }.
quote-answer-counter = Said at the counter. Recorded by { $by }.
quote-answer-reason = Reason: { $reason }
quote-answer-words = What was read out
quote-questions = Questions from the customer
quote-question-asked = Through the link of { $recipient }, { $at }
quote-question-replied = { $by } replied { $at }
quote-question-reply = Your reply
quote-question-reply-hint = The customer reads it on the page of the link.
quote-question-reply-begin = Reply
quote-question-send = Put the reply on the page
quote-question-sent = The reply is on the customer’s page.
quote-spoken-record = Record an answer
quote-spoken-recorded = The answer is recorded.
quote-spoken-title = The customer answers
quote-spoken-way = How
quote-spoken-phone = By phone
quote-spoken-counter = At the counter
quote-spoken-number = Number called
quote-spoken-read = Read this out
quote-spoken-which = Which price
quote-spoken-required = required
quote-spoken-optional = optional. { $without }
quote-spoken-tick = Tick what the customer agrees to
quote-spoken-done = I read all of this out.
quote-spoken-name = Full name of the person who answers
quote-spoken-when = Said earlier: when
quote-spoken-when-hint = Leave it empty if they answer now.
quote-spoken-accepts = They accept for { $amount }
quote-spoken-accepts-none = They accept
quote-spoken-declines = They decline
quote-spoken-reason = Reason, if they decline
quote-answer-next = What happens next
quote-job = Job { $number }
quote-job-reach = How far the job can go
quote-job-reach-about = what it waits for, and when it is ready
quote-pull_list = Pull list
quote-pull_list-about = to count the parts by when they come

quote-stale = Changed by { $who }, { $at }
quote-stale-detail = You now see theirs. Your change (“{ $says }”) was not made. Make it again if it is still needed.
quote-conflict = Both versions, side by side
quote-conflict-mine = Yours
quote-conflict-theirs = { $who }
quote-conflict-wanted = to be made
quote-conflict-not_made = not made
quote-conflict-missing = not there
quote-conflict-hours = { $hours } h
quote-conflict-line = { $quantity } for { $price }
quote-conflict-leave = Leave it as { $who } has it
quote-conflict-make = Make my change too
quote-again = Make it again

quote-did-photograph = Photograph added: { $caption }
quote-did-photograph-show = The customer sees the photograph: { $caption }
quote-did-photograph-hide = The customer no longer sees the photograph: { $caption }
quote-did-photograph-remove = Photograph removed: { $caption }
quote-did-take_off = Removed: { $title }
quote-did-add = Added: { $title }
quote-did-figure = Your figure for { $title }
quote-did-charge = How { $title } is charged
quote-did-recompute = Back to the calculated figure: { $title }
quote-did-condition = Corroded fasteners: { $condition }
quote-did-here_from = Vehicle comes on { $day }
quote-did-here = Vehicle here already
quote-did-no_day = No day named for the vehicle
quote-did-customer = Customer: { $name }
quote-did-vehicle = Vehicle: { $title }
quote-did-supplied = Brought by the customer: { $title }
quote-did-sold = Sold by us: { $title }
quote-did-returnable = Can be sent back: { $title }
quote-did-not_returnable = Cannot be sent back: { $title }
quote-did-fitted_before = Fitted before: { $title }
quote-did-first_fit = First fit: { $title }
quote-did-rules = Price rules of { $day } used
quote-did-rules_kept = Older price rules kept
quote-did-rules_offered = Newer price rules offered again
quote-did-discount = Discount given
quote-did-no_discount = Discount removed
quote-did-change = Changed: { $title }

quote-new = New quote
quote-new-hint = Customer and vehicle can come later: a price by phone needs only the kits.
quote-new-make =
    { $n ->
        [one] Quote { $n } kit
       *[other] Quote { $n } kits
    }
quote-new-make-none = Start without a kit
quote-new-making = working it out

quote-pick-fits = Fits this vehicle
quote-pick-ask = Fits, once this is settled
quote-pick-open = May fit this vehicle
quote-pick-no = Does not fit this vehicle
quote-pick-any = All kits
quote-pick-find = Find a kit
quote-pick-more = More kits
quote-pick-none = No kit found
quote-pick-none-detail = Import its contents in the Office, or quote it now with a price and hours.
quote-pick-bare = A kit with only a price and hours
quote-kit-code = Number
quote-kit-title = What the kit is
quote-kit-price = Price
quote-kit-hours = Hours to fit
quote-kit-cost = Cost before tax (optional)
quote-kit-days = Days until it comes (optional)
quote-kit-models = Vehicle models it fits (optional)
quote-kit-model = Model
quote-kit-model-other = Another model
quote-kit-model-hint = Exactly as it is recorded on the vehicle.
quote-kit-make = Add the kit
quote-kit-make-later = Contents and labour can come later. Without a cost there is no margin, and without the days no date.

quote-customer-find = Name or telephone
quote-customer-owner = Owns the vehicle now
quote-customer-none = Nobody found for “{ $q }”.
quote-customer-add = Add a customer
quote-customer-add-named = Add “{ $q }”
quote-customer-name = Name
quote-customer-phone = Telephone
quote-customer-email = E-mail
quote-customer-address = Address, printed on the PDF
quote-customer-save = Add the customer
quote-customer-change = Change telephone or address: { $name }
quote-customer-keep = Save the customer
quote-vehicle-find = Make, plate or VIN
quote-vehicle-none = No vehicle found for “{ $q }”.
quote-vehicle-add = Add a vehicle
quote-vehicle-title = Make and model
quote-vehicle-plate = Plate
quote-vehicle-vin = VIN
quote-vehicle-vin-hint = Seventeen letters and digits. It may be added later.
quote-vehicle-vin-use = Use { $vin }
quote-vehicle-vin-keep = Save it as typed
quote-vehicle-vin-keep-add = Save it as typed, add the vehicle
quote-vehicle-model = Model
quote-vehicle-transmission = Gearbox
quote-vehicle-another = Another
quote-vehicle-another-of = { $label }, another
quote-vehicle-copy = Copy capacities from a similar vehicle
quote-vehicle-copied = Copied from { $title }. Check them.
quote-vehicle-copy-none = No similar vehicle has capacities recorded.
quote-vehicle-more = Specs and capacities
quote-vehicle-more-about = These decide which parts, work and fluids are quoted.
quote-vehicle-fact = Fact: { $name }
quote-vehicle-litres = Litres of { $name }
quote-vehicle-save = Add the vehicle
quote-vehicle-keep = Save the specs

quotes-title = Quotes
quotes-note = newest change first
quotes-note-last_day = latest to expire first
quotes-none = No such quote
quotes-none-detail = Show all quotes, search for fewer words, or start a new quote.
quotes-all = all
quotes-all-long = All quotes
quotes-find = Search these quotes
quotes-find-hint = A quote number, or words of the customer, the vehicle or a kit.
quotes-of-named = Quotes: { $name }
quotes-of-part = Quotes with this part
quotes-vehicles = Vehicles
quotes-more = Older ones
quotes-states = State

## A change to an open job

quote-change-title = Change { $number } to { $job }
quote-change-opener = Job { $job }, its quote and account
quote-change-before = Agreed so far
quote-change-this = This change
quote-change-after = Agreed with this change
quote-change-ceiling = Extra work without asking the customer
quote-change-go_ahead = Go ahead without asking
quote-change-go_ahead-detail = It keeps within what the customer agreed to. Your name is recorded with it.
quote-change-take_off = Remove from the job
quote-change-take_off-detail = Removing a kit also removes the work and the fluids that nothing else on the job needs. Each counts at its price, less its share of a percentage discount.
quote-change-taken = Removed
quote-change-work = { $title }, { $hours } h
quote-change-all = Agreed with changes
quote-change-begin = Change this job
quote-change-untitled = Change { $number }
quote-change-by = accepted by { $name }
quote-change-by-ceiling = { $name } went ahead without asking
