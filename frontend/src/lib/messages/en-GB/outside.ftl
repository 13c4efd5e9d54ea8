### Words of work by other firms; they come when somebody looks at it or adds some.

quote-outside = Work by other firms
quote-outside-sold = as they were sold
quote-outside-earlier = Quoted before; tap one to begin with it
quote-outside-what = What they do
quote-outside-firm = Firm
quote-outside-days = Turnaround, working days
quote-outside-days-hint = Without it the quote has no date.
quote-outside-starts = They can start after
quote-outside-acceptance = Acceptance
quote-outside-needed = The result is needed for
quote-outside-no_step = No step in particular
quote-outside-they_do = Their work in a sentence
quote-outside-they_do-hint = The customer reads it on the quote.
quote-outside-they_need = What they need from us
quote-outside-reference = Their reference
quote-outside-rounds = Rounds: log, correct, again
quote-outside-rounds-hint = Leave empty if there is no such loop.
quote-outside-per_round = The cost is
quote-outside-per_round-no = for all rounds together
quote-outside-per_round-yes = for one round
quote-outside-we_warrant = What we warrant
quote-outside-rounds-sold =
    { $n ->
        [one] 1 round
       *[other] { $n } rounds
    }
quote-outside-warranty = What they warrant
quote-outside-warranty-hint = The customer reads it on the quote.
quote-outside-private = Only advisors and managers see this.
quote-outside-cost = Their price, before tax
quote-outside-cost-how = { $cost }, markup { $markup } %, handling { $handling }
quote-outside-markup = Markup, percent
quote-outside-handling = Handling, before tax
quote-outside-more = What they need, warranty, cost

## kits_outside
quote-kits_outside = Goes with these kits
quote-kits_outside-by = { $title } by { $firm }
quote-kits_outside-kit = goes with kit { $letter }
quote-kits_outside-kit-rounds =
    { $n ->
        [one] goes with kit { $letter }, 1 round
       *[other] goes with kit { $letter }, { $n } rounds
    }
quote-kits_outside-add-label = Add to the quote: { $title }
quote-kits_outside-change-label = Change it first: { $title }
quote-kits_outside-no_days = No turnaround is named, so the quote would have no date.
quote-kits_outside-from_acceptance =
    { $n ->
        [one] 1 working day from acceptance
       *[other] { $n } working days from acceptance
    }
quote-kits_outside-from_step =
    { $n ->
        [one] 1 working day, after: { $step }
       *[other] { $n } working days, after: { $step }
    }
