### Words of an accepted quote's job at the counter: its date, and the work of other firms. They come with its panels.

told-title = Date for the customer
told-same = The customer was told { $when }, and that is still expected.
told-moved = The customer was told { $before }. Now expected: { $when }.
told-no_date = The customer was told { $before }. { $why }
told-new_date = The customer was given no date. Now expected: { $when }.
told-none = The customer was given no date.
told-before = What the customer was told
told-begin = Tell the customer another date
told-day = Date for the customer
told-day-hint = Leave empty to say that there is no date yet.
told-half = Half of the day
told-half-morning = morning
told-half-afternoon = afternoon
told-words = Sentence for the customer
told-words-hint = They read it on their page. Nothing is sent until you press a button.
told-mail = Send by e-mail
told-mail-to = It goes to { $address }.
told-phone = Told by phone
told-done-mail = The e-mail to the customer is on its way.
told-done-phone = Recorded: the customer was told by phone.
told-by-mail = E-mailed { $at } by { $name }
told-by-phone = Told by phone { $at } by { $name }
