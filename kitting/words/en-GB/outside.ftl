### Work of other firms for a job.

## outside_log

outside_log-proposed = Not sent yet
outside_log-sent =
    { $n ->
        [one] Sent { $sent }, due back { $due }
       *[other] Sent again { $sent }, round { $n }, due back { $due }
    }
outside_log-sent_no_day =
    { $n ->
        [one] Sent { $sent }, return date not known
       *[other] Sent again { $sent }, round { $n }, return date not known
    }
outside_log-late =
    { $n ->
        [one] Sent { $sent }; it was due back { $due }
       *[other] Sent again { $sent }, round { $n }; it was due back { $due }
    }
outside_log-back =
    { $n ->
        [one] Came back { $day }
       *[other] Came back { $day }, after { $n } rounds
    }
outside_log-asked = { $sentence }. Asked again { $day }

## problem

problem-outside-moved-title = This work has moved on
problem-outside-moved-detail = Somebody recorded it in the meantime. Look at the list again.

problem-outside-of-colleague-title = This entry is a colleague's
problem-outside-of-colleague-detail = { $name } recorded it. Only { $name } or a manager can undo it.

field-outside_entry = Name the entry that is to be undone.
field-not_outside_of_job = This job has no such work by another firm.
