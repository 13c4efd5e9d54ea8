### Words of the people of the workshop, and of the page that an invitation or a password link opens.

people-title = People
people-only = Only a manager sees the people of the workshop.
people-back = Back to the people
people-members = Members
people-you = you
people-since = member since { $day }
people-signed_in = last signed in { $when }
people-never = has not signed in yet
people-last_manager = The only manager: to change that, make somebody else a manager first.
people-invitations = Open invitations
people-invitation = { $role }, invited by { $name }
people-invitation-until = works until { $when }
people-invite = Invite somebody
people-invite-note = The link lets one person in, once, within seven days. They choose their own name and password.
people-invite-email = E-mail
people-invite-email-hint = They will sign in with it.
people-invite-role = Role
people-invite-go = Make a link to hand over
people-role-advisor = Advisor: quotes, customers and money
people-role-parts = Parts: counting, orders and arrivals
people-role-technician = Technician: the bay and counting, no prices
people-role-manager = Manager: everything, and the people
people-invite-mail = Send the invitation by e-mail
people-mail = E-mail: { $words }
people-mail-asked = The invitation for { $email } is on its way.
people-no_server = No mail server is set up: copy the link and hand it over.
people-withdraw = Withdraw
people-withdraw-label = Withdraw the invitation of { $email }
people-withdrawn = The invitation of { $email } no longer works.
people-link = Link for { $email }
people-link-note = It is shown this once and works until { $when }. Hand it to nobody else: whoever opens it first is let in.
people-link-copy = Copy the link
people-link-copied = Copied
people-link-by_hand = Select the link and copy it by hand.
people-link-again = This link was shown before. Make a new one.
people-role-save = Save the role
people-role-saved = { $name }: { $role }
people-password = Forgotten password
people-password-note = The link lets { $name } set a new password, once, within an hour. All their sign-ins end then.
people-password-mail = Send a password link by e-mail
people-password-go = Make a password link
people-factor = Second factor
people-factor-has = second factor on
people-factor-note = After the password a code of an app on their phone is asked for. Each person switches it on for themselves, on the page of their sign-in. Whoever has none is led there first.
people-factor-asked = Asked of
people-factor-nobody = nobody: whoever wants it
people-factor-managers = managers
people-factor-all = everybody
people-factor-save = Save who is asked
people-factor-saved = Saved who is asked for a second factor.
people-factor-lost = If { $name } has lost the phone and the recovery codes, switch it off. The password alone signs in then.
people-factor-off = Switch the second factor off
people-factor-ended = The second factor of { $name } is off.
people-sign_ins = Where { $name } is signed in
people-sign_ins-none = Nowhere at the moment.
people-sign_ins-all = Sign out everywhere
people-sign_ins-all_done = Signed out on every device.
people-remove = Remove from the workshop
people-remove-ask = Remove { $name }?
people-remove-detail = { $name } is signed out everywhere at once. What they wrote keeps their name. You can invite them again.
people-remove-done = { $name } is no longer a member.

entry-invitation = Join { $shop }
entry-password = A new password
entry-reading = Opening the link
entry-invitation-note = You are invited as { $role }. You sign in with { $email }.
entry-password-note = { $name }, choose a new password for { $email }. You are then signed out on every device.
entry-name = Your name
entry-new = Password
entry-new-hint = At least 10 characters. A few unrelated words are easy to remember. If you sign in with this e-mail in another workshop already, enter that password.
entry-again = The same password again
entry-go = Set and sign in
entry-going = Signing in
entry-home = Go to the sign-in

forgotten-title = Forgotten password
forgotten-note = We send a link with which you choose a new password. It works once, within an hour.
forgotten-email = Your e-mail
forgotten-go = Send the link
forgotten-asked = If somebody signs in with { $email }, a link is on its way to it. Look into your mailbox.
forgotten-by_hand = No mail server is set up here. Ask a manager of your workshop for a link: it stands under Office, People, with your name.

factor-title = Second factor
factor-asked = Your workshop asks for a second factor. Switch it on here, and you are let in.
factor-is_off = Off: your password alone signs in. With it, signing in also asks for a code of an authenticator app on your phone.
factor-is_on =
    On since { $when }. { $n ->
        [0] No recovery codes are left: switch it off and on again for new ones.
        [one] One recovery code is left.
       *[other] { $n } recovery codes are left.
    }
factor-turn_on = Switch it on
factor-turn_off = Switch it off
factor-password = Your password
factor-scan = Scan the picture with your authenticator app, or type the key. Then type the six digits that the app shows.
factor-qr = QR code with the key
factor-secret = The key:
factor-code = Six digits
factor-confirm = Check the code and switch it on
factor-codes = It is on. Write these recovery codes down and keep them away from the phone: each signs you in once if the phone is lost. They are not shown again.
factor-codes-label = Recovery codes
factor-codes-kept = I have written them down
