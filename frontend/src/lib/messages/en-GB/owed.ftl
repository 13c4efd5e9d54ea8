### Words of the list "Owed to us"; they come with its screen.

owed-out = Work by other firms
owed-out-parties = { $firm }, for { $customer }, { $plate }
owed-out-parties-no_plate = { $firm }, for { $customer }
owed-out-no_contact = No contact recorded for { $firm }
owed-out-asked = Asked again
owed-out-asked-done = { $title }: recorded that we asked again today.
owed-no_phone = No telephone number recorded
owed-cores = Old parts that must come back
owed-money = To pay on jobs that ended
owed-nothing = Nobody owes us anything
owed-nothing-detail = Work that was sent to another firm, old parts with a core deposit, and money on jobs that ended, will be listed here.
