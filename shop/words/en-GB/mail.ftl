### What became of an e-mail, and the e-mails by which people come in.

## mail

# The counter and the office read these.
mail-state-waiting = waiting to be sent
mail-state-retry = Could not be sent: { $why }. Next try { $at }.
mail-state-begun = being sent
mail-state-unsure = It may have been sent. Ask the customer before you send it again.
mail-state-restored = A backup was restored: it may have been sent since. Ask the customer before you send it again.
mail-state-sent = sent { $at }
mail-state-console = not sent: no mail server is set up
mail-state-person = recorded as arrived { $at }
mail-state-failed = Could not be sent: { $why }.
mail-state-cancelled = cancelled
mail-state-dropped = Not sent: { $why }.

mail-why-unreachable = the mail server does not answer
mail-why-encryption = the mail server does not offer encryption
mail-why-sign_in = the mail server does not accept the user name and password in the settings
mail-why-refused = the mail server refused it ({ $reply })
mail-why-recipient = the mail server refused the address ({ $reply })
mail-why-interrupted = the connection broke
mail-why-not_written = the tool could not write it; the server’s log says why
mail-why-withdrawn = the quote was withdrawn or replaced first
mail-why-link_cancelled = its link was cancelled first
mail-why-link_ended = its link has ended
mail-why-replied = the question was answered first
mail-why-link_lost = its link was made with another secret key; send a new one

## entry

# A person who is invited, or who gets a new password, reads these.
entry-mail_hello = Hello,
entry-mail_greeting = Hello { $name },
entry-mail_invitation_subject = { $house } invites you
entry-mail_invitation = { $author } invites you to work with { $house } here. You will sign in with { $email }.
entry-mail_invitation_button = Open the invitation
entry-mail_invitation_until = The link works once, until { $at }.
entry-mail_password_subject = A new password: { $house }
entry-mail_password = { $author } of { $house } made a link for you to choose a new password.
entry-mail_password_button = Choose a new password
entry-mail_password_until = The link works once, until { $at }. You are then signed out on every device.
entry-mail_forgotten_subject = A new password
entry-mail_forgotten = Somebody, probably you, asked at the sign-in for a new password.
entry-mail_forgotten_not_you = If it was not you, ignore this e-mail: nothing changes unless the link is used. Do not pass the link on.
entry-mail_private = Do not pass this link on: whoever opens it first is let in. If you did not expect this e-mail, ignore it.
entry-mail_unsure = It may have been sent. Ask the person before you make another link.
