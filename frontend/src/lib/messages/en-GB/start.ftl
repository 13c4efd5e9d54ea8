### Words of the guided start and of the opening hours.

start-title = Your first quote, in { $n } steps
start-done = { $done } done. Leave when you like; it waits here.
start-rest = Left for later
start-go-hours = Enter the hours
start-go-rates = Enter the rates
start-go-taxes = Enter the taxes
start-go-people = See the people
start-go-kit = Add a kit
start-go-labour = Add an operation
start-go-quote = Begin a quote
start-later = Leave for later
start-later-of = Leave for later: { $step }
start-again = Take up again

hours-title = Opening hours and holidays
hours-note = Dates for customers are worked out from these.
hours-week = Open in the week
hours-hint = Times of a day, with commas between. Leave a closed day empty. Example: 8:00-12:00, 12:45-17:30
hours-proposed = These hours are a proposal: nothing is saved yet.
hours-day-mon = Monday
hours-day-tue = Tuesday
hours-day-wed = Wednesday
hours-day-thu = Thursday
hours-day-fri = Friday
hours-day-sat = Saturday
hours-day-sun = Sunday
hours-save = Save the hours
hours-saved = Opening hours saved
hours-saved-holidays = Opening hours saved. The holidays of your country are below.
hours-saved-from = Opening hours from { $day } on saved
hours-since = In force from
hours-since-hint = Leave empty for today. The days before keep their hours.
hours-versions = Earlier and later hours
hours-versions-note = Each day is worked out by the hours that apply on it.
hours-versions-first = The first hours. They apply to all days before, too.
hours-from = From { $day }
hours-change = Change
hours-change-of = Change the hours from { $day }
hours-remove = Remove
hours-remove-of = Remove the hours from { $day }
hours-closed = Closed days
hours-closed-note = Holidays and other days on which nobody works
hours-closed-none = No closed days entered
hours-closed-none-detail = Take the holidays of your country below, and enter the other days on which you close.
hours-holidays = Public holidays of a country
hours-holidays-note = A proposal: take what applies to your workshop. Each day can be removed again.
hours-country = Country
hours-country-none = Choose the country
hours-region = Region
hours-region-none = Whole country
hours-year = Year
hours-holidays-already = closed already
hours-holidays-close =
    { $n ->
        [one] Close on this day
       *[other] Close on these { $n } days
    }
hours-holidays-closed =
    { $n ->
        [one] One day added to the closed days
       *[other] { $n } days added to the closed days
    }
hours-holidays-none = No further day is ticked.
hours-closing = Close further days
hours-first = First closed day
hours-last = Last closed day
hours-last-hint = Leave empty for one day
hours-reason = Reason
hours-reason-hint = Example: New Year
hours-close = Add closed days
hours-open = Remove
hours-open-of = Remove { $day }
hours-only = Only a manager changes the opening hours.

