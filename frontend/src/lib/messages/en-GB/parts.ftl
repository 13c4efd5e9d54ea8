### Words of the Parts.

parts-title = Parts
parts-open = To count
parts-open-none = No pull list is open
parts-open-none-detail = When a customer accepts a quote, the parts its job needs are listed here, to be counted against what has arrived.
parts-closed = Closed
parts-more = Show older ones
parts-phone = On this phone
parts-row = { $customer }, { $vehicle }
parts-row-of = of { $n }

pull-title = Pull list { $job }
pull-counted = { $n } of { $of } lines counted
pull-n-counted = { $n } counted
pull-n-count_again = { $n } to count again
pull-n-wrong_part =
    { $n ->
        [one] { $n } wrong part
       *[other] { $n } wrong parts
    }
pull-n-damaged = { $n } damaged
pull-n-short = { $n } short
pull-n-over = { $n } over
pull-n-not_counted = { $n } not counted
pull-n-late = { $n } came after closing
pull-n-sealed = { $n } accepted sealed
pull-n-all_here = all here
pull-n-all_here-holds = all here, { $holds }
pull-scan = part, bag or carton
pull-filter = Show
pull-filter-all = All
pull-filter-left = Not counted
pull-filter-differences = Differences
pull-filter-again = Count again
pull-filter-again-none = Nothing to count again
pull-filter-again-none-detail = No two counts are in doubt.
pull-filter-all-again = Show all lines
pull-filter-left-none = Every line is counted
pull-filter-left-none-detail = Look at the differences, then close the list.
pull-filter-differences-none = No differences
pull-filter-differences-none-detail = Everything counted so far is all here.
pull-sought =
    { $n ->
        [one] { $n } line with “{ $q }”
       *[other] { $n } lines with “{ $q }”
    }
pull-sought-none = “{ $q }” is not on this list
pull-unknown-detail = Choose the line it belongs to and count it there.
pull-unknown-words = Part of its name or number
pull-unknown-none = No line has these words.
pull-unknown-more =
    { $n ->
        [one] { $n } more line
       *[other] { $n } more lines
    }
pull-kit = { $letter }. { $kit }
pull-kit-short = kit { $letter }
pull-kit-copy = { $kit } ({ $copy } of { $of })
pull-shelf = From the shelf
pull-reused = Comes off the vehicle and goes back on
pull-reused-back = goes back on at step { $operation }
pull-lines =
    { $n ->
        [one] { $n } line
       *[other] { $n } lines
    }
pull-bags =
    { $n ->
        [one] { $n } bag
       *[other] { $n } bags
    }
pull-carton-holds = { $lines }, { $bags }
pull-left = { $n } to count
pull-list = Lines
pull-index = Cartons and bags
pull-index-bag = Bag
pull-start =
    { $n ->
        [one] { $n } line counted
       *[other] { $n } lines counted
    }
pull-start-show = Show them
pull-next = Next: { $place }
pull-next-bag = Next: bag { $label }
pull-next-shelf = Next: from the shelf
pull-left-all = { $n } of { $of } to count
pull-of = of { $n }
pull-of-measure = of { $measure }
pull-bought = { $quantity } { $unit }
pull-measure = 1 piece of { $quantity } { $unit }
pull-sets =
    { $n ->
        [one] { $n } set
       *[other] { $n } sets
    }
pull-pairs =
    { $n ->
        [one] { $n } pair
       *[other] { $n } pairs
    }
pull-stops = stops step { $operation }
pull-needed_at = first needed at step { $operation }
pull-operation = { $position }, { $title }
pull-either = { $low }–{ $total }
pull-again-detail = { $counts }; neither saw the other’s count. Count again.
pull-again-same = { $counts }; they may be the same pieces. Count again.
pull-again-impossible = { $counts }; that is not possible. Count again.
pull-again-counted = { $who } counted { $n }
pull-again-more = { $who } found { $n } more
pull-how-stands = A count replaces everything that was on the screen of whoever made it.
pull-how-apart = Counts made without seeing one another, on phones without signal or at the same moment, do not replace each other. Where they differ, or where a found piece may already have been counted, the line asks.
pull-how-numbers = No number is thrown away. One more count, with these on the screen, settles it.
pull-how-counted = { $who } counted
pull-how-more = { $who } found in addition
pull-how-damaged = { $n }, { $damaged } damaged
pull-how-strangers = Neither { $one } nor { $other } had the other’s count on the screen
pull-how-least = The lowest it can be
pull-how-most = The highest it can be
pull-how-you = You
pull-you = you
pull-recount = Count it again

pull-figure-more = { $n } more
pull-figure-damaged = { $n }, { $damaged } damaged
pull-figure-sum = { $sum } = { $total } so far
pull-others-count = { $who }: { $figure }
pull-others-at = at { $time }
pull-others-you = You: { $figure }
pull-others-came = This came while the pad was open. Save yours instead, both count again, or close to keep theirs.
pull-others-box =
    { $n ->
        [one] { $n } line was counted on another phone while this was open. It stays as counted.
       *[other] { $n } lines were counted on another phone while this was open. They stay as counted.
    }

pull-pad-expected = { $where }, { $n } expected
pull-pad-measure = { $where }, { $measure } expected
pull-pad-damaged = How many of the { $n } are damaged?
pull-pad-closed = This list is closed: what you count now waits for the manager to approve.
pull-pad-many = Many small pieces?
pull-pad-no_scale = Weighing is not available on this phone yet. Open this list once with signal.
pull-pad-failed = This phone could not save it. Free some space on it, then count again.
pull-key-all = All here: { $n }
pull-key-all-sound = All here, none damaged: { $n }
pull-key-damaged = Damaged
pull-key-counted = Counted
pull-key-wrong = Wrong part
pull-key-more = Found 1 more
pull-key-not = not { $figure }
pull-key-both = Both count again
pull-pad-sure = { $n } is a lot for one line. If it is right, save it again.
pull-saved-both = Line { $position }: { $n } saved. Both of you count it again.
pull-key-weigh = Weigh
pull-key-save-damaged = Save { $n }, { $damaged } damaged
pull-mine-set = You counted { $n }
pull-mine-damaged = You counted { $n }, { $damaged } damaged
pull-mine-add = You found { $n } more
pull-mine-weighed = You weighed { $n }
pull-mine-sealed = You accepted { $n } sealed
pull-mine-note = You noted a wrong part
pull-saved-over = Line { $position }: { $n } saved on this phone, { $over } more than expected.
pull-saved = Line { $position }: { $n } saved on this phone.
pull-saved-weighed = Line { $position }: { $n } by weight, saved on this phone.
pull-saved-damaged = Line { $position }: { $n }, { $damaged } damaged, saved.
pull-saved-more = Line { $position }: 1 more saved on this phone.
pull-saved-wrong = Wrong part noted. Count the right ones too, 0 if none.
pull-saved-box =
    { $n ->
        [one] { $what }: { $n } line all here.
       *[other] { $what }: { $n } lines all here.
    }
pull-saved-sealed =
    { $n ->
        [one] { $what }: { $n } line accepted sealed.
       *[other] { $what }: { $n } lines accepted sealed.
    }

pull-box-all =
    { $n ->
        [one] All here: { $n } line
       *[other] All here: { $n } lines
    }
pull-box-all-means = You have checked the contents: each line that nobody has counted is all here.
pull-box-sealed = Accept sealed
pull-box-sealed-means = The seal is unbroken and you leave it closed.
pull-box-wrong =
    { $n ->
        [one] { $n } line has a wrong part. It is not counted with the others: choose it in the list.
       *[other] { $n } lines have a wrong part. They are not counted with the others: choose them in the list.
    }
pull-box-done = Every line of it is counted. Choose a line to count it again.
pull-box-where = { $what }, { $of }
pull-which = “{ $q }” is in { $n } places
pull-which-detail = Choose the one in your hand.

pull-weighed = by weight

weigh-figures = What was weighed
weigh-figure-count = Sample
weigh-figure-sample = Sample weight
weigh-figure-all = Total weight
weigh-figure-tare = Tare
weigh-note-count = How many in the sample? At least 10, counted twice
weigh-note-sample = The sample alone, without bag or tray
weigh-note-all = All of them, including the sample
weigh-note-all-sample = All of them; the sample is from { $day }
weigh-note-tare = The empty bag or tray, if it was on the scale
weigh-next-count = Next: the sample
weigh-next-sample = Next: its weight
weigh-next-all = Next: all of them
weigh-next-step = Next: the scale
weigh-next-kind = Next: the kind
weigh-type-count = Type how many
weigh-type-mass = Type the weight
weigh-save = Save { $n }
weigh-save-instead = Save { $n }, { $instead }
weigh-save-not = Save
weigh-by_hand = Count by hand
weigh-tare = Tare
weigh-grams = { $n } g
weigh-about = Scale in steps of { $step }; { $kind }
weigh-about-ask = Which scale, which pieces?
weigh-step = Smallest step on the display
weigh-kind = Pieces
weigh-choose = Choose
weigh-kind-turned = turned parts, all alike
weigh-kind-fasteners = bolts, nuts, washers
weigh-kind-pressed = pressed, cast or plated parts
weigh-kind-moulded = plastic or hard rubber
weigh-kind-rubber = soft rubber, O-rings
weigh-kind-of = { $kind } ({ $percent } %)
weigh-all_here =
    { $n ->
        [one] { $n } piece: all here.
       *[other] { $n } pieces: all here.
    }
weigh-short =
    { $n ->
        [one] { $n } piece: { $apart } short.
       *[other] { $n } pieces: { $apart } short.
    }
weigh-over =
    { $n ->
        [one] { $n } piece: { $apart } over.
       *[other] { $n } pieces: { $apart } over.
    }
weigh-sure = Reliable to ± { $n } of a piece.
weigh-cannot =
    { $n ->
        [one] The scale is not accurate enough: ± { $n } piece. Count by hand.
       *[other] The scale is not accurate enough: ± { $n } pieces. Count by hand.
    }
weigh-cannot-remedy = A larger sample, a finer scale or fewer pieces at a time may help.
weigh-between = The scale is not accurate enough: { $estimate } is between two pieces. Count by hand.
weigh-between-cause = Something else may be among them, or the tare is different.
weigh-fault-small =
    { $n ->
        [one] { $n } piece is too small a sample. Count at least 10 into it.
       *[other] { $n } pieces are too small a sample. Count at least 10 into it.
    }
weigh-fault-nothing = A sample of 0 g is not possible. Put it on the scale and type what it shows.
weigh-fault-tare = The total, { $all }, is lighter than the tare, { $tare }. Weigh it with the bag or tray, or remove the tare.
weigh-fault-step = A scale with steps of { $step } does not show { $mass }. Type what it shows, or choose its step.
weigh-how-rule-piece = One piece weighs the sample divided by its pieces. The total, without the tare, divided by that is how many there are.
weigh-how-rule-spread = No two pieces weigh exactly the same, and a scale shows nothing between two steps. Both are counted for the sample and for the total, squared and added; the root of that is the standard deviation.
weigh-how-rule-trust = The count is accepted when three standard deviations are at most half a piece and the figure is at most a quarter of a piece from a whole number. Otherwise count by hand.
weigh-how-piece = One piece: { $mass } g ÷ { $n }
weigh-how-net = All, without the tare: { $all } g − { $tare } g
weigh-how-estimate = Pieces: { $net } g ÷ { $piece } g
weigh-how-pieces_apart = Error from the pieces: { $percent } % of √({ $estimate } + { $estimate }² ÷ { $n })
weigh-how-scale_apart = Error from the scale: { $step } g ÷ √12 ÷ { $piece } g × √(1 + ({ $estimate } ÷ { $n })²)
weigh-how-sd = Standard deviation: √({ $pieces }² + { $scale }²)
weigh-how-three = Three of them; at most 0.5
weigh-how-off = Distance from the nearest whole number; at most 0.25
weigh-how-pieces =
    { $n ->
        [one] { $n } piece
       *[other] { $n } pieces
    }
weigh-how-by_hand = Count by hand

pull-to_end = Close or print
pull-so_far = So far
pull-row-counted = Counted
pull-row-left = Not counted
pull-row-differs = Differences
pull-row-again = Count again
pull-row-late = Came after closing
pull-row-sealed = Accepted sealed
pull-row-waiting = On this phone
pull-row-waiting-unsent = not yet sent
pull-report = Differences
pull-paper = Blank pull list (PDF)
pull-paper-counts = Pull list with the counts (PDF)
pull-workbook = As a workbook
pull-csv = As CSV
pull-orders = Proposed orders
pull-close = Close the list
pull-closing = Closing
pull-close-ask =
    { $n ->
        [one] Close with { $n } line not counted?
       *[other] Close with { $n } lines not counted?
    }
pull-close-detail = They stay open in the report. What is counted after closing waits for the manager to approve.
pull-close-count_on = Keep counting
pull-close-waiting =
    { $n ->
        [one] { $n } count has not been sent yet. Close the list when it has been sent; otherwise it comes after closing.
       *[other] { $n } counts have not been sent yet. Close the list when they have been sent; otherwise they come after closing.
    }
pull-close-waiting-title = Counts are waiting on this phone
pull-close-more =
    { $n ->
        [one] { $n } new count has come in
       *[other] { $n } new counts have come in
    }
pull-close-more-detail = They are in the list now. Look at them, then close.
pull-closed-title = This list is closed
pull-closed-detail = What is counted now comes after closing and waits for the manager to approve.
pull-astray = This phone and the server disagree
pull-astray-detail = Nothing is lost. Update the app; tell the manager if this stays.
pull-empty = Nothing to pull for this job
pull-empty-detail = This job needs no parts, packs or re-used parts.

report-title = Differences, { $job }
report-title-alone = Differences
report-counter = { $who } { $words } on { $at }
report-open = The list is still open
report-closed = Closed { $when } by { $who }
report-counted = { $n } of { $of } lines counted
report-differ =
    { $n ->
        [one] { $n } differs
       *[other] { $n } differ
    }
report-none = All here
report-none-detail = Every line was counted and nothing differs.
report-figure = { $total } of { $expected }
report-nothing = – of { $expected }
report-either = { $low }–{ $total } of { $expected }
report-to_list = Back to the list
report-reopen = Open the list again
report-reopen-after = Counts that came after closing are still not included: count those lines again.
report-reopen-who = Parts or the manager can open it again.
report-waiting =
    { $n ->
        [one] { $n } count is waiting on this phone and is not included yet.
       *[other] { $n } counts are waiting on this phone and are not included yet.
    }

orders-title = Proposed orders, { $job }
orders-note = Suggestions from what is missing. No order leaves by itself.
orders-paper = { $shop }, { $day }
orders-print = Print
orders-nobody = No supplier on file
orders-nobody-detail = Import a price, or record on the part who sells it.
orders-lines =
    { $n ->
        [one] { $n } line
       *[other] { $n } lines
    }
orders-for = for { $what }
orders-none = Nothing to order
orders-none-detail = What the job still needs is here, or has a date.

phone-title = On this phone
phone-waiting = Waiting to be sent
phone-waiting-none = Nothing is waiting on this phone
phone-waiting-none-detail = What you count is saved here first and sent by itself.
phone-send = Send now
phone-sending = Sending
phone-needs_you = Needs you
phone-needs_you-detail = The server refused these. Each is still here: look at the line, count it again if it is right, then press Settled.
phone-settle = Settled
phone-to_line = Show the list
phone-other = counted by somebody else on this phone; it is sent when they sign in
phone-old = waiting since { $when }
phone-why-malformed = The server could not read it.
phone-why-out_of_bounds = The number is out of bounds.
phone-why-unknown_line = The line is not on that list.
phone-why-id_reused = The server already has a different count with this id.
phone-why-number_reused = This phone has already used this number.
phone-what-set = counted { $n }
phone-what-weighed = weighed { $n }
phone-what-damaged = counted { $n }, { $damaged } damaged
phone-what-add = found { $n } more
phone-what-undo = undid a count
phone-what-note = noted a wrong part
phone-line = { $position }: { $title }
phone-line-unknown = A line of a list that is not on this phone
release-title = Release
release-do = Release these orders
release-hint = It is recorded who released what and when. You send the order to the supplier yourself.
release-done = Released
release-copy = Copy as text
release-copied = Copied
# A download for the program of a supplier. UBL is the name of the standard.
release-ubl = Order to { $supplier } (UBL)
release-outside = { $title }, { $firm }
release-past = Released { $at }

### The first list of a kit, counted by hand.

first-title = First count
first-state-none = Nobody has counted this kit yet. Count it bag by bag. Then somebody counts it a second time without seeing this count: where both agree, that is the kit’s list.
first-state-waiting = One count is saved. Now count the kit a second time, without looking at the first one.
first-state-differ =
    { $n ->
        [one] The counts differ on { $n } line. Count it again.
       *[other] The counts differ on { $n } lines. Count these again.
    }
first-state-nothing = The counts agree that there is nothing in the kit. Count it again.
first-state-again = You begin again: this count is compared with later ones only. The earlier counts stay on record.
first-counted_by =
    { $n ->
        [one] { $by } counted { $n } line
       *[other] { $by } counted { $n } lines
    }
first-carton = Carton
first-carton-hint = As it is marked; empty if there is only one.
first-bag = Bag
first-bag-hint = As it is marked; empty for parts that are loose in the carton.
first-text = Part numbers and quantities
first-text-hint = A line for each part: its number, then how many, such as QF-101 4. Lines of a spreadsheet can be pasted.
first-text-wrong = Line { $n } needs a part number and a quantity.
first-put = Next bag
first-counted = Counted so far
first-lines =
    { $n ->
        [one] { $n } line
       *[other] { $n } lines
    }
first-line = { $number }: { $quantity }
first-change = Change
first-change-what = Change { $what }
first-refused = { $place }, { $number }: { $why }
first-save = Save this count
first-save-first = Put down at least one bag first.
first-saved = Count saved.
first-differ = Counted differently
first-agreed =
    { $n ->
        [one] { $n } line agrees
       *[other] { $n } lines agree
    }
first-by = { $by }: { $quantity }
first-again = { $place }, { $number }
first-save-lines = Save these quantities
first-begin_again = Begin again
first-made = The kit has its list
first-made-detail = Two counts agree on every line. This is version { $n } of the kit.
first-to_kit = To the kit
