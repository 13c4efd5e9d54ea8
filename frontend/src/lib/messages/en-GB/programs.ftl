### Words of the page on which a manager lets other programs in.

programs-title = Other programs
programs-only = Only a manager lets other programs in.

programs-keys = Access keys
programs-keys-note = A program with an access key works with the workshop’s data without anybody signing in. End a key that is no longer needed, or that a stranger may have seen.
programs-keys-none = No program has a key
programs-keys-none-detail = Make one below when a bookkeeper, a website or a report asks for it.
programs-key-as = for { $person }, { $role }
programs-key-reads = only reads
programs-key-writes = reads and changes
programs-key-until = works through { $day }
programs-key-expired = its last day is over
programs-key-used = last used { $when }
programs-key-unused = not used yet
programs-key-by = made by { $name }
programs-key-end = End the key
programs-key-end-label = End the key of { $title }
programs-key-ended = The key of { $title } no longer works.

programs-area-quotes = Quotes, customers and vehicles
programs-area-jobs = Jobs and their money
programs-area-parts = Pull lists
programs-area-stock = Kits, consumables, labour, suppliers and replaced numbers

programs-new = Make an access key
programs-new-note = The program acts in the name of the person you choose and may do no more than they may. People, passwords, price rules and imported files stay closed to it. A key stands for a program: whoever holds it needs no password and no code, also where the workshop asks everybody for a second factor.
programs-new-name = Name of the program
programs-new-name-hint = Such as the bookkeeper’s program. You know the key by it later.
programs-new-person = In the name of
programs-new-person-choice = { $name }, { $role }
programs-new-reach = What it may open
programs-new-may = What it may do
programs-new-reads = Only read
programs-new-writes = Read and change
programs-new-until = Last day
programs-new-until-hint = At most a year from today.
programs-new-go = Make the key
programs-secret = Access key of { $title }
programs-secret-note = It is shown only once. Copy it into the program and nowhere else: whoever has it gets in.
programs-secret-copy = Copy the key
programs-secret-copied = Copied
programs-secret-by_hand = Select it and copy it by hand.
programs-secret-again = This key was shown before. End it and make a new one.

programs-calendars = Calendars
programs-calendars-note = A calendar program reads the days of open jobs from a secret address: when a vehicle comes in, when the customer was told it is ready, and when it was handed over. It shows plates and quote numbers, no prices and no customers.
programs-calendars-none = No calendar reads the jobs
programs-calendars-none-detail = Make an address below and add it to a calendar as a subscription.
programs-calendar-by = made by { $name } on { $day }
programs-calendar-end = End the address
programs-calendar-end-label = End the address of { $title }
programs-calendar-ended = The address of { $title } no longer works.
programs-calendar-name = Whose calendar
programs-calendar-name-hint = Such as the screen in the bay. You know the address by it later.
programs-calendar-go = Make an address
programs-calendar-url = Address for { $title }
programs-calendar-url-note = It is shown only once. Whoever has it can read the days, so give it to nobody else.
programs-calendar-copy = Copy the address
programs-calendar-again = This address was shown before. End it and make a new one.
