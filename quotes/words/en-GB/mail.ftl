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
mail-link_private = The link is yours alone: whoever has it can read the quote and answer for you.
mail-call = Questions? Call us: { $phone }.
mail-message = Hello { $name }, here is our quote { $number } for your { $vehicle }. { $house }: { $address }
mail-receipt_subject = You accepted quote { $number }: { $house }
mail-receipt_accepted = Thank you. Quote { $number } for your { $vehicle } was accepted by { $name } on { $when }.
mail-receipt_price = You said: { $words }.
mail-moved_subject = A new date for { $number }: { $house }
mail-receipt_bring = Please bring:
mail-receipt_attached = The receipt and the quote you accepted are attached as PDFs (check code { $mark }).

# The workshop reads these.
mail-question_subject = Question about quote { $number }: { $name }
mail-question_asks = { $name } asks about quote { $number }, { $vehicle }:
mail-question_button = Reply on the quote
mail-question_after = Reply there and not to this e-mail: the reply then appears on the customer’s page, and goes to the customer’s e-mail address where one is recorded.

# The customer reads these.
mail-reply_subject = Our reply about quote { $number }: { $house }
mail-reply_asked = You asked us:
mail-reply_replied = Our reply:
