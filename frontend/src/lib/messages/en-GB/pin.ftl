### Words of the PINs by which people change on one phone.

pin-wrong = This PIN is wrong
pin-left =
    { $n ->
        [one] One try is left. After that, the password is asked for.
       *[other] { $n } tries are left. After that, the password is asked for.
    }
pin-used_up = The password is needed
pin-used_up-detail = The PIN was wrong five times. Sign in with the password when there is signal: the PIN then works again.
pin-ended = This PIN has ended
pin-ended-detail = Sign in with the password when there is signal, and set a new PIN.
pin-change = Change person
pin-change-note = Tap your name and type your PIN.
pin-here = here now
pin-locked = password needed: five wrong tries
pin-pad = PIN of { $name }
pin-typed =
    { $n ->
        [0] No digit typed
        [one] One digit of six typed
       *[other] { $n } digits of six typed
    }
pin-checking = One moment
pin-six = Six digits
pin-password = Sign in with the password

pin-title = PIN on this phone
pin-note = For a phone that several people share: whoever has set a PIN here takes over with a tap and six digits, also without signal. It ends after a month, with a new password, when you switch a second factor on, and when you sign out on all devices.
pin-begin = Set a PIN on this phone
pin-replace = Set another PIN on this phone
pin-own_password = Your password
pin-six-hint = Digits that neither repeat nor count up or down.
pin-again = The same six digits again
pin-differs = The two PINs differ. Type the same digits twice.
pin-set = Set the PIN
pin-is_set = The PIN is set. Your name is listed under “Change person” on this phone.
pin-until = set { $set }, ends { $ends }
pin-end = End it
pin-end-label = End the PIN: { $device }, set { $set }
pin-is_ended = The PIN has ended.
