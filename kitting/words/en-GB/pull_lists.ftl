### A pull list on paper.

## pull_paper

pull_paper-title-blank = Pull list { $job }
pull_paper-title-counts = Pull list { $job }, as counted
pull_paper-opened = opened { $on }
pull_paper-as_of = as counted up to { $on }
pull_paper-customer = Customer
pull_paper-vehicle = Vehicle
pull_paper-lines = Lines to count
pull_paper-no = No.
pull_paper-part = Part
pull_paper-step = Step
pull_paper-expected = Expected
pull_paper-counted = Counted
pull_paper-damaged = Damaged
pull_paper-note = Note
pull_paper-ok = OK
pull_paper-difference = Difference
pull_paper-who = Who counted, when
pull_paper-need = From the shelf
pull_paper-reused = Comes off the vehicle and goes back on at the step
pull_paper-sign-name = Counted by
pull_paper-sign-date = Date
pull_paper-empty = There is nothing to pull for this job.
