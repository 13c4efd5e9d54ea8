### Words of how far a job can go.

ready-title = Job { $number }
ready-about = { $customer }, { $vehicle }
ready-from = from the count of { $when }
ready-link = How far the job can go
ready-margin = Job
ready-counted = { $counted } of { $lines } lines of the pull list counted
ready-clear = { $cleared } of { $total } h can be done with the parts here
ready-clear-until = { $before } h can be done before step { $position }; { $cleared } of { $total } h in all with the parts here
ready-waits = What it waits for
ready-waits-n =
    { $n ->
        [one] { $n } line
       *[other] { $n } lines
    }
ready-minor = Not here, and no step waits for it
ready-have = { $have } of { $need }
ready-steps-more =
    { $n ->
        [one] and for { $n } more step
       *[other] and for { $n } more steps
    }
ready-detail = Say when it comes: { $title }
ready-each = Line by line
ready-day = It comes on
ready-hour = At
ready-hour-hint = Empty: as the workshop closes that day.
ready-set-n =
    { $n ->
        [one] Save the date
       *[other] Save the date for all { $n } lines
    }
ready-back = Remove the date
ready-unsent = Typed on this phone, not sent yet.
ready-day-missing = Choose the day.
ready-due = { $title }: due { $due }.
ready-due-back = { $title }: the date is removed.
ready-comes = Comes in time
ready-order = Still to order
ready-order-nobody = No supplier on file
ready-order-more = { $titles } and { $n } more
ready-order-lines =
    { $n ->
        [one] { $n } line
       *[other] { $n } lines
    }
ready-date = When it is ready
ready-here = The vehicle is here.
ready-here_from-day = The customer brings it on { $day }.
ready-steps = In job sheet order
ready-steps-none = No work is recorded for this job
ready-steps-none-detail = A kit with hours but without a labour template has no steps.
ready-no_way_back = From here on the vehicle cannot move.
ready-to_step = Step { $position } waits: { $title }
ready-more = and { $n } more
ready-list = Pull list
ready-differences = Differences
ready-sheet = Job sheet
