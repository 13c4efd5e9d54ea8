### Words of a promise date and its picture.

plan-picture = { $title }: ready { $when }. { $way }
plan-vehicle = The vehicle
plan-ready = ready { $day }
plan-ready-words = Ready { $when }
plan-here = vehicle here
plan-work = work
plan-wait = waiting
plan-arrives = arrives
plan-closed = closed
plan-coming = What comes when
plan-slide = The days in a row; slide sideways for more.
here-already = It is here already
here-day = The customer brings it on
here-hint = Leave empty and we propose a day.
here-proposed = Leave empty and we propose a day: { $when }.
