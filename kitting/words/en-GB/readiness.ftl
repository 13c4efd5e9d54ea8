### How far a job can go, and what stops it.

## readiness

readiness-complete = All here
readiness-start = Can start
readiness-start_on_arrivals = Can start. { $title } { $due }
readiness-start_to_hold = Can start. Stop before step { $position }: { $title }
readiness-hold = Do not start
readiness-not_before = Nothing is ordered or begun before { $day }: withdrawal period.
readiness-added_work = Added work
readiness-not_before_day = not before { $day }: withdrawal period
readiness-waits_until = Waits: { $due }
readiness-change_not_before = Nothing that a change added is ordered or begun before { $day }: withdrawal period.
readiness-no_list = No pull list was found for this job, so the parts it needs are not known.
readiness-no_steps = No work is recorded for this job, so every part is needed at the start.
readiness-nothing_counted = Nothing counted yet.
readiness-vehicle_comes = The vehicle comes { $day }.
readiness-vehicle_was_to_come = The vehicle was to come { $day }. Tick that it is here, or enter a new day.
readiness-shelf_title = From the shelf
readiness-shelf =
    { $n ->
        [one] { $n } thing from the shelf
       *[other] { $n } things from the shelf
    }
readiness-box = { $title }, box { $n }
readiness-bags = { $kit }, in its bags
readiness-bag = { $kit }, { $bag }
readiness-sentence_and_count = { $said }. { $count }
readiness-part_and_day = { $title }, { $due }
readiness-outside = Waits for: { $title }, { $due }
readiness-outside_after =
    { $n ->
        [one] Waits for: { $title }, { $n } working day after step { $position }
       *[other] Waits for: { $title }, { $n } working days after step { $position }
    }
readiness-outside_whole = The job as a whole waits for: { $title }, { $due }. No step is named for it, so it counts as needed before the first.
readiness-outside_whole_step = Waits for what the job as a whole waits for.
readiness-outside_no_day = no turnaround yet
readiness-outside_sent = sent { $sent }, back { $when }
readiness-outside_sent_no_day = sent { $sent }, return date not known
readiness-outside_late = sent { $sent }, late: it was due { $when }. Ask { $firm }
readiness-outside_expected = back { $when } if the firm starts on { $began }
readiness-outside_expected_today = back { $when } if the firm starts today
readiness-expected = expected { $when } if ordered on { $ordered }
readiness-expected_today = expected { $when } if ordered today
readiness-was_expected = was expected { $when } if ordered on { $ordered }
readiness-carton = { $kit }, carton { $carton }
readiness-shelf_place = from the shelf
readiness-from_place = { $n } from { $place }
readiness-amount = { $quantity } { $unit }
readiness-for_amount = for { $quantity } { $unit }
readiness-for_pieces =
    { $n ->
        [one] for { $n } piece
       *[other] for { $n } pieces
    }
readiness-bought_amount = bought for { $quantity } { $unit } in all, allowance included; not the filling amount
readiness-hazard = { $what } – { $says }.
readiness-loose = { $kit }, loose in the box
readiness-stops = stops step { $position }
readiness-stops_nothing = stops no step
readiness-stops_work = stops the work
readiness-due = due { $when }
readiness-was_due = was due { $when }
readiness-called_off = The job was called off.
readiness-due_unknown = no delivery date yet
readiness-brought = the customer brings it
readiness-brought_on = the customer brings it { $when }
readiness-was_brought = the customer was to bring it { $when }
readiness-lacks = Missing { $missing } of { $need }: { $title }, { $due }
readiness-lacks_awaited = { $title }: { $missing } of { $need } not here yet, { $due }
readiness-lacks_usable = { $title }: { $usable } of { $need } can be used ({ $states }), { $due }
readiness-lacks_unsure = Missing { $missing } of { $need } by the lower count: { $title }. Count it again: { $low } or { $total }
readiness-uncounted = Not counted yet: { $title }
readiness-hold_bar = Stop before step { $position }: { $what }.
readiness-lacks_lot = { $title }: { $what }, { $due }
readiness-needed = if nothing delayed the work, step { $position } would need it { $when }: { $spare } to spare
readiness-minutes = { $n } min
readiness-hours = { $n } h

readiness-and_more =
    { $n ->
        [one] { $said }, and { $n } more
       *[other] { $said }, and { $n } more
    }

readiness-not_counted =
    { $n ->
        [one] { $n } line not counted yet
       *[other] { $n } lines not counted yet
    }

readiness-none_counted =
    { $n ->
        [one] { $n } line, not counted yet
       *[other] { $n } lines, none counted yet
    }

readiness-count_them =
    { $n ->
        [one] count it
       *[other] count them
    }

readiness-to_count-bag =
    { $n ->
        [one] { $n } line of { $bag } not counted yet: count it
       *[other] { $n } lines of { $bag } not counted yet: count them
    }

readiness-to_count-loose =
    { $n ->
        [one] { $n } line loose in carton { $carton } not counted yet: count it
       *[other] { $n } lines loose in carton { $carton } not counted yet: count them
    }

readiness-to_count-kit =
    { $n ->
        [one] { $n } line of { $kit } not counted yet: count it
       *[other] { $n } lines of { $kit } not counted yet: count them
    }

readiness-to_count-shelf =
    { $n ->
        [one] { $n } line from the shelf not counted yet: count it
       *[other] { $n } lines from the shelf not counted yet: count them
    }

readiness-to_count-needed =
    { $n ->
        [one] { $said }, and { $n } more line that the work needs
       *[other] { $said }, and { $n } more lines that the work needs
    }

readiness-to_count-held =
    { $n ->
        [one] { $said }, and { $n } more line that the work from there needs
       *[other] { $said }, and { $n } more lines that the work from there needs
    }

readiness-to_count-minor =
    { $n ->
        [one] { $said }, and { $n } more line that no step waits for
       *[other] { $said }, and { $n } more lines that no step waits for
    }

readiness-of_them_needed =
    { $n ->
        [one] { $said }, { $n } of them needed
       *[other] { $said }, { $n } of them needed
    }

readiness-date_without =
    { $n ->
        [one] { $n } line that the work needs is not counted yet. The date does not wait for it.
       *[other] { $n } lines that the work needs are not counted yet. The date does not wait for them.
    }

readiness-days =
    { $n ->
        [one] { $n } day
       *[other] { $n } days
    }

readiness-hold_missing =
    { $n ->
        [one] { $n } part missing: { $what }
       *[other] { $n } parts missing: { $what }
    }

readiness-hold_awaited =
    { $n ->
        [one] { $n } part not here yet: { $what }
       *[other] { $n } parts not here yet: { $what }
    }

readiness-hold_unusable =
    { $n ->
        [one] { $n } part missing or not usable: { $what }
       *[other] { $n } parts missing or not usable: { $what }
    }

readiness-step-clear = all here
readiness-step-can_start = can start
readiness-step-no_parts = no parts needed
readiness-step-comes = comes in time
readiness-step-waits = waiting

readiness-step-after =
    { $n ->
        [one] after step { $positions }
       *[other] after steps { $positions }
    }

readiness-how-title = how far the job can go
readiness-how-of = { $n } of { $whole }
readiness-how-counted = Lines of the pull list counted
readiness-how-here = Of the lines that this vehicle takes, all here
readiness-how-clear = Steps that lack no part and wait for no step that lacks one
readiness-how-hours = The hours of these steps
readiness-how-hours_of = { $n } of { $whole } h
readiness-how-in_time = Lines missing, with a delivery date
readiness-how-unknown = Lines missing, without a delivery date or past it
readiness-how-unknown_uncounted = Lines from the shelf, not counted, that have no delivery date if they are not here
readiness-how-uncounted = Lines that the work needs and that only have to be counted
readiness-how-uncounted_minor = Lines to count that no step waits for

readiness-how-rule-step = A step can begin when every part it needs is here and the steps before it can begin too. A part that is tied to no step is needed for the first one.
readiness-how-rule-window = While the vehicle cannot move, none of its steps may lack a part, unless the part comes before that step would begin.
readiness-how-rule-here = Only good pieces count, not damaged or wrong ones. Where two counts differ, the lower one counts. A bag accepted sealed counts in full, a line that nobody has counted not at all. Pieces of one part go to the step that comes first, whichever bag they are in. Spares and printed instructions stop no step.
readiness-how-rule-due = A carton of which nothing is counted is expected after the supplier's lead days, if it was ordered on the day the job was opened, or due on the day a person gave. Once one of its lines is counted the carton has come: its other lines have no day, but have to be counted. The same goes for lines from the shelf. A part that was counted and is short has no day until a person gives one. A day that has passed no longer counts.
