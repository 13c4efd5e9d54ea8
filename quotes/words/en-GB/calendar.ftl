### What a calendar shows of the workshop's jobs. No customer is named.

## calendar

calendar-title = Jobs of { $house }
calendar-bring = { $vehicle } comes in ({ $number })
calendar-ready = { $vehicle } ready, as the customer was told ({ $number })
calendar-handed_over = { $vehicle } handed over ({ $number })
calendar-half_morning = In the morning
calendar-half_afternoon = In the afternoon
