### E-mails about a quote, the ready message, and what the counter reads about them.

## problem

problem-mail-moved-title = This e-mail has changed
problem-mail-moved-detail = Look at it again: it was sent, cancelled or decided about in the meantime.

problem-no-mail-address-title = No e-mail address
problem-no-mail-address-detail = Record the customer’s e-mail address first, or tell them by telephone.

## mail

# The customer reads these.
mail-greeting = Hello { $name },
mail-link_subject = Your quote { $number } from { $house }
mail-link_open = Here is our quote { $number } for your { $vehicle }. The page shows what will be fitted, what it costs and when the vehicle can be ready. You can accept or decline it there until { $day }.
mail-link_accepted = Here is quote { $number } for your { $vehicle }, which has been accepted. The page shows what was agreed.
mail-link_button = Open the quote
mail-link_private = The link is yours alone: whoever has it can read the quote and answer in your place.
mail-call = Questions? Call us: { $phone }.
mail-message = Hello { $name }, here is our quote { $number } for your { $vehicle }. { $house }: { $address }
mail-receipt_subject = You accepted quote { $number }: { $house }
mail-receipt_accepted = Thank you. Quote { $number } for your { $vehicle } was accepted by { $name } on { $when }.
mail-receipt_price = You said: { $words }.
mail-moved_subject = A new date for { $number }: { $house }
mail-receipt_attached = The quote you accepted is attached as a PDF (check code { $mark }).

# The counter reads these.
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
mail-why-link_lost = its link was made with another secret key; send a new one
