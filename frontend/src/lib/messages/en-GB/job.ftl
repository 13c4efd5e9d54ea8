### Words of the states of a job that a person sets.

job-state-in_bay = In the bay since { $day }
job-state-handed_over = Handed over on { $day }
job-state-not_begun = Not in the bay yet
job-odometer-in = Odometer on the way in: { $reading }
job-odometer-out = Odometer on the way out: { $reading }
job-do-in_bay = Take into the bay
job-do-hand_over = Hand over
job-do-undo = Undo this state
job-save-in_bay = Record “in the bay”
job-save-hand_over = Record the hand-over
job-save-undo = Undo with this reason
job-day = Day
job-odometer = Odometer reading
job-odometer-hint = As the vehicle shows it. Leave empty if nobody read it.
job-because = Why it is undone
job-because-hint = It stays in the history with your name.
job-done-in_bay = { $number } is in the bay.
job-done-hand_over = { $number } is handed over.
job-done-undo = The last state of { $number } is undone.
job-do-call_off = Call off
job-save-call_off = Call off with this reason
job-done-call_off = { $number } is called off.
job-state-called_off = Called off on { $day }: { $reason }
job-because-call_off = Why it is called off
job-happened = Only if it happens
job-happened-times =
    { $n ->
        [0] has not happened so far
        [one] happened once
       *[other] happened { $n } times
    }
job-happened-beyond =
    { $n ->
        [one] happened once, more often than was agreed
       *[other] happened { $n } times, more often than was agreed
    }
job-happened-hours = { $title }; { $hours } h each time
job-happened-row =
    { $n ->
        [one] Once, { $name }, { $at }.
       *[other] { $n } times, { $name }, { $at }.
    }
job-happened-do = It happened
job-happened-do-label = It happened: { $event }
job-happened-count = How often
job-happened-note = Note
job-happened-save = Record
job-happened-more =
    { $n ->
        [one] At most { $cap } were agreed: 1 of these is not charged. Is the number right?
       *[other] At most { $cap } were agreed: { $n } of these are not charged. Is the number right?
    }
job-happened-save-more = Yes, record { $n }
job-happened-done = Recorded: { $event }
job-happened-undo = Undo
job-happened-undo-label = Undo: { $event }
job-happened-undone = Undone
job-photograph = Photograph
job-photograph-of = Photograph { $n }: { $event }
job-photograph-done = Photograph sent
job-photograph-seen = The customer sees it.
job-photograph-show = Show to the customer
job-photograph-show-of = Show photograph { $n } to the customer: { $event }
job-photograph-hide = Hide from the customer
job-photograph-hide-of = Hide photograph { $n } from the customer: { $event }
job-photograph-told-shown = The customer sees this photograph on the link.
job-photograph-told-hidden = The photograph is off the customer’s page.
job-photograph-unreadable = This file cannot be read as a photograph.
job-extra-title = Extra work
job-back = Can go back
job-back-none = Nothing has been counted, so nothing has to go back.
job-back-quantity =
    { $unit ->
        [pc] { $quantity }
       *[other] { $quantity } { $unit }
    }
job-owed = Still to settle
job-owed-received = Received: { $amount }. The account sets it against what stays owed.
job-owed-outside = Work sent out: { $title }
job-labour = Labour that is owed
job-labour-rest = Nothing owed
job-labour-rest-steps =
    { $n ->
        [one] { $n } step, not done
       *[other] { $n } steps, not done
    }
job-labour-hours = { $hours } of { $agreed } h
job-labour-correct = Correct
job-labour-correct-of = Correct the hours: { $title }
job-labour-worked = Hours actually worked
job-labour-worked-hint = 0 to { $agreed } h. They are charged at the same share of the agreed price.
job-labour-reason = Why
job-labour-reason-hint = It stays here with your name.
job-labour-save = Charge these hours
job-labour-told = { $title }: hours corrected.
