### Words of the sheets on which a manager lets other programs be told of events.

webhooks-title = Messages to other programs
webhooks-note = Another program gets a message when something happens: with number, id and state, without customers and prices. It needs an address of its own for such messages (webhooks).
webhooks-none = No program gets messages
webhooks-none-detail = Add one below when a bookkeeper, a website or a screen asks for it.
webhooks-off-manager = switched off by a manager
webhooks-off-gone = switched off: its program answered that it takes no more messages
webhooks-off-left = switched off: the manager who added it has left
webhooks-off-restored = switched off after a backup was restored
webhooks-waiting =
    { $n ->
        [one] 1 message waits
       *[other] { $n } messages wait
    }
webhooks-failed =
    { $n ->
        [one] 1 message did not arrive
       *[other] { $n } messages did not arrive
    }
webhooks-by = added by { $name } on { $day }

webhooks-event-quote_sent = A quote is sent
webhooks-event-quote_withdrawn = A quote is withdrawn
webhooks-event-quote_accepted = A quote is accepted
webhooks-event-quote_declined = A quote is declined
webhooks-event-job_state_changed = A job comes into the bay, is handed over or is called off
webhooks-event-pull_list_state_changed = A pull list is closed or opened again
webhooks-event-payment_recorded = A payment is recorded or reversed
webhooks-event-trial = Trial message

webhooks-new = Add a program
webhooks-new-name = Program that gets the messages
webhooks-new-name-hint = Such as the bookkeeper’s program. You know it by this name later.
webhooks-new-url = Address that takes the messages
webhooks-new-url-hint = It begins with https:// and is on the Internet. Whoever looks after the program knows it.
webhooks-new-events = Send a message when
webhooks-new-go = Add the program
webhooks-secret = Secret of { $title }
webhooks-secret-note = It is shown only once. Enter it in the program, so that it can see that messages come from this workshop.
webhooks-secret-copy = Copy the secret
webhooks-secret-again = This secret was shown before. Make a new one on the program’s page.

webhooks-back = All other programs
webhooks-gone = This program gets no more messages
webhooks-address = Goes to { $url }
webhooks-move = Change the address
webhooks-move-hint = It begins with https:// and is on the Internet. The secret stays. Messages that wait go to the new address.
webhooks-move-go = Save the address
webhooks-move-saved = Messages go to { $url } from now on.
webhooks-told = Gets a message when
webhooks-old_secret = The old secret also signs until { $when }.
webhooks-trial = Send a trial message
webhooks-trial-sent = A trial message is on its way.
webhooks-switch_off = Switch off
webhooks-switch_on = Switch on
webhooks-renew = Make a new secret
webhooks-renew-note = The old secret signs beside the new one for 24 hours: enter the new one in the program within that time.
webhooks-end = Remove the program
webhooks-ended = { $title } gets no more messages.
webhooks-switch-note = Messages that wait are not sent once it is switched off or removed.

webhooks-log = Messages
webhooks-log-note = The last 50. A message that is not taken is tried again by itself, after longer and longer pauses.
webhooks-log-look = Look again
webhooks-log-none = Nothing was sent yet
webhooks-log-none-detail = Send a trial message to see whether the program takes it.
webhooks-log-waiting = waits for its first try
webhooks-log-begun = is being sent
webhooks-log-done = arrived { $when }
webhooks-log-failed = did not arrive
webhooks-log-cancelled = not sent
webhooks-log-next = next try { $when }
webhooks-log-tries =
    { $n ->
        [one] 1 try
       *[other] { $n } tries
    }
webhooks-log-answer = answer { $status }
webhooks-log-again = Send again
webhooks-log-again-label = Send again: { $event } { $number }

webhooks-why-unreachable = its server cannot be reached
webhooks-why-certificate = its server cannot prove its name (certificate)
webhooks-why-silent = its server does not answer in time
webhooks-why-no_http = its answer cannot be understood
webhooks-why-status = the program did not take it
webhooks-why-redirect = its server sends on to another address, which is not followed
webhooks-why-gone = the program takes no more messages
webhooks-why-address = the address cannot be used
webhooks-why-https = the address does not begin with https://
webhooks-why-unknown_host = no server with this name was found
webhooks-why-private = the address leads into a private network
webhooks-why-secret_lost = this server has another key than before: make a new secret
webhooks-why-off = it was switched off
webhooks-why-ended = it was removed
webhooks-why-restored = a backup was restored
