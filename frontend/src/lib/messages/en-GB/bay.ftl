### Words of the Bay.

bay-title = Bay
bay-open = Open jobs
bay-back = Back to the bay
bay-jobs =
    { $n ->
        [one] { $n }
       *[other] { $n }, those in the bay first
    }
bay-jobs-most = the newest { $n }, those in the bay first
bay-none = No open job
bay-none-detail = When a customer accepts a quote, its job is listed here with the work in order.
bay-job = Job
bay-job-title = { $number }, { $vehicle }
bay-row-vehicle = { $vehicle }, { $plate }
bay-row-since = { $customer }, since { $day }
bay-row-list = { $kits }: { $counted } of { $lines } lines of the pull list counted
bay-row-list-closed = { $kits }: counting closed, { $counted } of { $lines } lines of the pull list counted
bay-row-no_list = no pull list
bay-customer = Customer
bay-plate = Plate
bay-plate-none = not recorded
bay-vin = VIN, last six
bay-hours = Hours sold
bay-hours-steps =
    { $n ->
        [one] in { $n } step
       *[other] in { $n } steps
    }
bay-opened = Opened
bay-capacity = { $name } capacity
bay-litres = { $n } L
bay-parts = Parts
bay-parts-list = Pull list { $number }
bay-parts-counted = { $counted } of { $lines } lines counted
bay-parts-none = No pull list was found for this job.
bay-work = Work in order
bay-work-all =
    { $n ->
        [one] { $n } step
       *[other] All { $n } steps
    }
bay-work-stages =
    { $n ->
        [one] in { $n } stage
       *[other] in { $n } stages
    }
bay-work-choose = Tap a step to work on it.
bay-reach-steps = How far the job can go
bay-about = This job
bay-moves = In the bay, hand-over
bay-facts = Customer and vehicle
bay-work-none = No work is recorded for this job
bay-work-none-detail = A kit with hours but without a labour template has no steps.
bay-follow_ups = After hand-over
bay-hand-title = { $position }. { $title }
bay-hand-place = step { $n } of { $all }, { $stage }
bay-hand-steps = Steps
bay-hand-next = Next: { $title }
bay-hand-previous = Previous: { $title }
bay-stage-none = Other work
bay-stage-range = { $from } to { $to }
bay-stage-steps =
    { $n ->
        [one] { $n } step: { $steps }
       *[other] { $n } steps: { $steps }
    }
bay-stage-done = { $n } done
bay-stage-in_hand = step in hand
bay-stage-waits = { $n } waiting
bay-stage-for = For { $kits }
bay-done-do = Record as done
bay-done-back = Undo
bay-done-by = Done { $at }, { $name }
bay-done-told = Step { $position } is done.
bay-step-cautions =
    { $n ->
        [one] { $n } caution
       *[other] { $n } cautions
    }
bay-step-check = check point
bay-step-added = added by a change
bay-step-facts = { $code }, { $skill }
bay-step-facts_after =
    { $n ->
        [one] { $code }, { $skill }, after step { $steps }
       *[other] { $code }, { $skill }, after steps { $steps }
    }
bay-step-included = time included in another step
bay-step-wait = Leave { $long } before the steps that need it.
bay-step-parts = Parts and fluids
bay-step-parts-n =
    { $n ->
        [one] { $n } part
       *[other] { $n } parts
    }
bay-step-parts-minor = the step does not wait for it
bay-hazard = Caution. { $says } The safety data sheet of the product comes first.
bay-minutes = { $n } min
bay-days =
    { $n ->
        [one] { $n } day
       *[other] { $n } days
    }
bay-caution = Caution. { $says }
bay-instructions = The vehicle and kit manufacturers’ instructions come first, before every caution and value on this page.
bay-no_return = From step { $position } on the vehicle cannot move.
bay-hold = Check point: a second person must check step { $position } before you carry on.
bay-torque = Torque
bay-values = Other values
bay-values-first = check the manufacturer’s table first

bay-coolant = Coolant
bay-coolant-mix = Mix the coolant
bay-coolant-row = to { $after } L at { $target } %, from what ran out and what you read
bay-coolant-back = Back to the job
bay-coolant-none = No coolant circuit on this job
bay-coolant-none-detail = None of its kits refills one, or it was sold before circuits were recorded with the job. Fill by the vehicle manufacturer’s instructions.
bay-coolant-drained = Litres drained
bay-coolant-drained-note = all that ran out, measured
bay-coolant-reading-percent = Reading, %
bay-coolant-reading-celsius = Reading, °C
bay-coolant-note-percent = the refractometer’s reading of the old coolant
bay-coolant-note-celsius = degrees below zero; the minus is already there
bay-coolant-percent = { $n } %
bay-coolant-below = −{ $n } °C
bay-coolant-read-celsius = Read in °C
bay-coolant-read-percent = Read in %
bay-coolant-to-drained = Litres drained
bay-coolant-to-reading = Next: reading
bay-coolant-done = Done
bay-coolant-measured = measured
bay-coolant-supposed = assumed
bay-coolant-supposing = Both figures are still assumed. Measure before you fill.
bay-coolant-unmeasured = not measured
bay-coolant-ask = Type the litres that ran out to see the mix.
bay-coolant-fill = Add
bay-coolant-first = Drain more first
bay-coolant-in_all = { $n } L, then it holds { $after } L
bay-coolant-drain_all = { $n } L in all
bay-coolant-concentrate = Concentrate
bay-coolant-water = Water
bay-coolant-drain_more = Drain another
bay-coolant-pure-concentrate = Then pure concentrate
bay-coolant-pure-water = Then pure water
bay-coolant-premix = Or with premix
bay-coolant-before = Before you fill
bay-coolant-caution-hot = Never open a hot system: it is under pressure and scalds. Let it cool down first.
bay-coolant-caution-unknown = If you do not know what is in the system, drain and flush all of it; do not use this sum.
bay-coolant-caution-poison = Glycol is poisonous and tastes sweet. Catch every drop, keep children and animals away, and dispose of it as local rules say.
bay-coolant-caution-chemistry = Never mix chemistries. Use only what the vehicle manufacturer names; a colour is not a specification.
bay-coolant-caution-chemistry-of = Never mix chemistries. The quote has { $concentrate }. Check it is compatible with what is in the system. A colour is not a specification.
bay-coolant-caution-makers = Demineralised water only. The vehicle manufacturer’s and the coolant manufacturer’s instructions come first, also for bleeding and the level.
bay-coolant-about = This circuit
bay-coolant-holds = Holds
bay-coolant-added = The kits add
bay-coolant-target = Target
bay-coolant-unknown = not known
bay-coolant-scale_for = read the refractometer’s scale for { $chemistry }

bay-how-total = The hours of all steps, added up.
bay-how-total-once = Work that several kits share is in one step, and counted once.
bay-how-step = Step { $position }, { $title }
bay-how-kits =
    { $n ->
        [one] For kit
       *[other] For kits
    }
bay-how-once = A step that several kits need is done once, and the longest of their times was sold. Work that is part of another step was sold with that step.
bay-how-factors = Work that two steps share is counted in one of them; corroded fasteners and a first fit here add time.
bay-how-tenths = The hours of each step are rounded to 0.1. They are the hours sold, not a limit.
