### When a vehicle can be ready, and how that was worked out.

## promise

promise-called_off = The job was called off.
promise-handed_over = Handed over { $day }.
promise-headline-ready = Expected ready { $when }
promise-headline-unknown =
    { $n ->
        [one] Expected ready { $when }; { $n } part has no delivery date yet
       *[other] Expected ready { $when }; { $n } parts have no delivery date yet
    }
promise-headline-late =
    { $n ->
        [one] Expected ready { $when }; { $n } part is late
       *[other] Expected ready { $when }; { $n } parts are late
    }
promise-headline-both = Expected ready { $when }; { $n } parts are late or have no delivery date yet
promise-no_delivery_day =
    { $n ->
        [one] No date yet. { $titles } has no delivery date. { $ask }
       *[other] No date yet. These have no delivery date: { $titles }. { $ask }
    }
promise-no_turnaround =
    { $n ->
        [one] No date yet. { $titles } has no turnaround. { $ask }
       *[other] No date yet. These have no turnaround: { $titles }. { $ask }
    }
promise-outside_late =
    { $n ->
        [one] No date yet. { $titles } is late. { $ask }
       *[other] No date yet. These are late or have no turnaround: { $titles }. { $ask }
    }
promise-no_delivery =
    { $n ->
        [one] No date yet. { $titles } is late. { $ask }
       *[other] No date yet. These are late or have no delivery date: { $titles }. { $ask }
    }
promise-ask_supplier = Ask { $suppliers } when to expect it.
promise-ask_nobody = Find out who delivers it, and when.
promise-bring = Please bring the vehicle on { $day } by { $time }, when we open.
promise-bring_today = Please bring the vehicle today, { $day }, as soon as you can.
promise-others =
    { $n ->
        [one] { $n } other vehicle is promised that week.
       *[other] { $n } other vehicles are promised that week.
    }
promise-drop_off = work starts when the vehicle arrives, { $when }
promise-here = work starts { $when }
promise-arrival =
    { $n ->
        [one] { $title } is here { $when }
       *[other] { $title } are here { $when }
    }
promise-arrival_on = { $title }, due { $when }
promise-added_work = added work starts { $when }, after the withdrawal period
promise-added_work_may_start = Added work may start
promise-added_work_on = Added work may start { $when }
promise-work =
    { $n ->
        [one] then one step, { $hours } h: { $first }
       *[other] then { $n } steps ({ $hours } h): { $first } to { $last }
    }
promise-wait = then { $wait } to wait after { $title }
promise-outside =
    { $n ->
        [one] then { $n } working day for { $title }
       *[other] then { $n } working days for { $title }
    }
promise-minutes = { $n } min
promise-hours = { $hours } h
promise-hours_minutes = { $hours } h { $minutes } min
promise-overdue =
    { $n ->
        [one] { $title } was due { $when } and is late; the date ignores it.
       *[other] { $title } were due { $when } and are late; the date ignores them.
    }
promise-unknown =
    { $n ->
        [one] No delivery date for { $titles }; the date ignores it.
       *[other] No delivery date for these; the date ignores them: { $titles }.
    }
promise-no_hours = No date: the workshop's opening hours are not set yet. Import them with the price rules.
promise-no_work = No date: there is no work on it yet.
promise-of_the_job = The date is that of the whole job: look at how far the job can go.
promise-not_kept = No date: this version was sent before dates were recorded.
promise-none_told = No date: none could be given when the customer accepted.
promise-here_past = The vehicle was to come on { $day }. Enter the day it comes, or tick that it is here.

promise-withdrawal-counted = Nothing is ordered and no work starts before { $day }, when the withdrawal period is over. This date counts from then.
promise-withdrawal-unless = This date applies only if the customer asks us to start within the withdrawal period. Otherwise nothing is ordered and no work starts before { $day }.
promise-withdrawal-unless_ready = This date applies only if the customer asks us to start within the withdrawal period. Otherwise nothing is ordered and no work starts before { $day }; expected ready then: { $ready }.

promise-how-title = When it can be ready
promise-how-work = Hours of the work
promise-how-efficiency = Hours of work that one person does in an hour of the clock
promise-how-clock = Time at the vehicle, each step rounded up to whole minutes
promise-how-technicians = People at the vehicle side by side
promise-how-open = Open { $days }, { $spans }
promise-how-open_from = From { $begins } on open { $days }, { $spans }
promise-how-to = { $since } to { $until }
promise-how-begins = Begins
promise-how-done = Done

promise-how-rule-order = A step starts as soon as the steps before it are done, what it needs is here and somebody is free.
promise-how-rule-hours = Work goes on while the workshop is open. A wait runs on by the clock, at night and on closed days too.
promise-how-rule-arrivals = Lead days are calendar days from acceptance. A delivery counts from closing time that day, because the carrier's hour is not known.
promise-how-rule-outside = Another firm's turnaround is counted in days on which we are open. The result is back at closing time on the last of them.
promise-how-rule-no_return = Once taken apart, the vehicle cannot move for a while. The step that takes it apart therefore waits for parts that would otherwise come too late for the steps until it can move again.
promise-how-rule-bring = If no day is named, every open day is tried. The latest one that does not delay the vehicle by half a day is proposed.
promise-how-rule-alone = Other jobs are not counted: the date assumes that the bay and the people are free.
