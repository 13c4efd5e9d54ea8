### Words that every screen may need.

app-name = Kitwright
app-skip = Skip to main content
app-opening = Opening
app-new_version = An update is ready
app-take_over = Update now
app-nowhere = Page not found
app-nowhere-detail = Check the address. It may also belong to another workshop.
app-nowhere-back = Back to the counter
day-at = { $day }, { $time }
app-broke = This page could not be shown
app-broke-detail = What you saved is safe. Load the page again.
app-broke-again = Load again

place-nav = Places
place-counter = Counter
place-parts = Parts
place-bay = Bay
place-office = Office

role-advisor = advisor
role-parts = parts
role-technician = technician
role-manager = manager

mast-who = { $name }, { $role }
mast-who-label = { $name }, { $role }: workshop, appearance and signing out

sign_in-title = Sign in
sign_in-email = E-mail
sign_in-password = Password
sign_in-go = Sign in
sign_in-going = Signing in
sign_in-code = Code
sign_in-code-hint = The six digits of your authenticator app, or a recovery code.
sign_in-forgotten = Forgotten your password?
sign_in-owed = You will be signed out when there is signal. Until then this device shows and sends nothing.
sign_in-again = Your sign-in has ended. Nothing on this phone is lost: sign in, and you are back on this page.
sign_in-waiting =
    { $n ->
        [one] { $n } count is waiting on this phone. It is sent when the person who counted signs in.
       *[other] { $n } counts are waiting on this phone. They are sent when the person who counted signs in.
    }

you-back = Back
you-title = Signed in as { $name }
you-shops = Workshops
you-shops-pick = Which workshop are you in today?
you-no_shop = You do not belong to a workshop yet
you-no_shop-detail = Ask a manager of the workshop for an invitation.
you-paper = Appearance
you-paper-device = Same as this device
you-paper-device-about = light by day, dark when the device says so
you-paper-light = Light
you-paper-night = Dark
you-paper-night-about = for the bay and for dark hours
you-sign_ins = Where you are signed in
you-sign_ins-since = since { $when }
you-sign_ins-until = ends { $when } unless something is changed there
you-sign_ins-here = this device
you-sign_ins-end = Sign out: { $device }, { $since }
you-sign_ins-ended = { $device } is signed out.
you-device-phone = Phone
you-device-computer = Computer or tablet
you-device-unknown = Unknown device
you-sign_in = Your sign-in
you-sign_out = Sign out
you-sign_out-everywhere = Sign out on all devices
you-everywhere-ask = Sign out on all your devices?
you-everywhere-detail = Every phone and computer on which you are signed in asks for your password again, this one too. Counts that wait on them stay there.
password-title = Change password
password-current = Current password
password-new = New password
password-new-hint = At least 10 characters. A few unrelated words are easy to remember.
password-again = New password again
password-differs = The two new passwords differ.
password-go = Set the new password
password-going = Setting it
password-done = Your password is changed. Your other devices are signed out.
you-sign_out-ask =
    { $n ->
        [one] Sign out with { $n } count waiting?
       *[other] Sign out with { $n } counts waiting?
    }
you-sign_out-detail = They stay on this phone and are sent when you sign in here again. Nobody else can send them.
you-sign_out-detail_pin = They stay on this phone and are sent in your name when somebody of your workshop signs in here.
you-sign_out-stay = Stay until they are sent

strip-no_signal = No signal
strip-no_signal-waiting =
    { $n ->
        [one] No signal. { $n } count waiting to be sent
       *[other] No signal. { $n } counts waiting to be sent
    }
strip-waiting =
    { $n ->
        [one] { $n } count waiting to be sent
       *[other] { $n } counts waiting to be sent
    }
strip-needs_you =
    { $n ->
        [one] { $n } count was refused and needs you
       *[other] { $n } counts were refused and need you
    }
strip-see = Show them

copy-old = As it was at { $when }; no signal now
copy-none = This page is not on this device, and there is no signal
copy-none-detail = Open it once with signal; after that it opens without.
copy-reading = Loading
copy-computing = working it out
copy-again = Load again

problem-offline = No answer from the server
problem-offline-detail = We do not know whether it arrived. Try again: it is counted only once.
problem-offline-look = We do not know whether it arrived. Read what is here again before you repeat the change.
problem-offline-nothing = Nothing was sent. Try again with signal.
problem-offline-read = Try again with signal.
problem-app = The app could not finish this
problem-app-detail = We do not know whether it was saved. Load the page again and look before you repeat it.
problem-unknown = The server could not do this
problem-unknown-detail = It answered { $status }. Tell your manager if it happens again.
problem-stale = Somebody else changed this
problem-stale-detail = You now see the newest version. Make your change again if it is still needed.

field-missing = Enter something.
field-day_missing = Enter day, month and year.
field-unchosen = Choose one.
field-wrong = Check what you entered.
field-digits = Enter digits only.
field-email = This is not an e-mail address. Enter it like name@place.example.

how-open = How this was worked out
how-open-of = How this was worked out: { $about }
how-step = Step
how-figure = Figure
how-result = Comes to

do-close = Close
do-undo = Undo
do-cancel = Leave it as it is

since-minutes = { $n } min
since-hours = { $n } h
since-days = { $n } d
unit-hours = { $n } h

box-carton = Carton { $label }
box-loose = In the box
box-bag = Bag { $label }
box-bag-loose = Loose in carton { $label }
box-bag-loose-alone = Loose in the box

progress-of = { $done } of { $of }
progress-leave = You can leave this page; it carries on.

scan-label = Scan
scan-type = Type

pad-digits = Number pad
pad-erase = Erase
pad-point = Point
pad-most = No more than { $n }
pad-save = Save { $n }
pad-save-none = Save

state-draft = draft
state-sent = sent
state-replaced = replaced
state-accepted = accepted
state-declined = declined
state-withdrawn = withdrawn
state-expired = expired
state-untouched = not counted
state-all_here = all here
state-short = short
state-over = over
state-damaged = damaged
state-wrong_part = wrong part
state-sealed = accepted sealed
state-count_again = count again
state-after_closing = came after closing
state-beside = in the kit, not for this vehicle
state-on_this_phone = on this phone
state-needs_you = needs you
state-may_start = can start
state-may_start_due = can start, part due
state-stop_before = can start, stop before
state-do_not_start = do not start
state-comes = comes in time
state-waits = waits for parts
state-supposed = assumed
state-open = open
state-running = running
state-done = done
state-waiting = waiting
state-waiting_for_parts = waiting for parts
state-ready = ready
state-in_the_bay = in the bay
state-in_checks = in checks
state-handed_over = handed over
state-called_off = called off
state-not_sent = not sent
state-late = late
state-come_back = come back
state-closed = closed
state-read = nothing saved yet
state-in_force = in force
state-later = later
state-taken = imported
state-refused = refused
state-must_fix = must fix
state-below_floor = below the floor
state-please_check = please check
state-done_for_you = done for you

keys-title = Keys of this screen
keys-hint = ? shows the keys.
keys-key = Key
keys-does = What it does
keys-escape = Esc
keys-escape-detail = Leave the field, so that the keys work
keys-help = Show this list
keys-off = Keys off
keys-find = Find
keys-back = Back to the Counter
keys-undo = U or Ctrl+Z
owed-title = Owed to us
