### Answers that the customer gives by phone or at the counter, and questions.

## customer

customer-spoken-offer = Quote { $number }, version { $version }, for your { $vehicle }: { $amount } { $currency } in all, with tax.
customer-spoken-offer_with = Quote { $number }, version { $version }, for your { $vehicle }, { $words }: { $amount } { $currency } in all, with tax.
customer-spoken-may_order = You are the owner of this vehicle ({ $vehicle }) or may order this work on it.
customer-spoken-recorded = With your answer { $house } records your name, the time, the number called, your consents and the words read out to you.
customer-spoken-recorded_years =
    { $n ->
        [one] With your answer { $house } records your name, the time, the number called, your consents and the words read out to you, and keeps them for { $n } year.
       *[other] With your answer { $house } records your name, the time, the number called, your consents and the words read out to you, and keeps them for { $n } years.
    }
customer-spoken-recorded_months =
    { $n ->
        [one] With your answer { $house } records your name, the time, the number called, your consents and the words read out to you, and keeps them for { $n } month.
       *[other] With your answer { $house } records your name, the time, the number called, your consents and the words read out to you, and keeps them for { $n } months.
    }
customer-spoken-accepted_phone = { $name } accepted by phone on { $when }, for { $amount } { $currency }. We recorded it.
customer-spoken-accepted_counter = { $name } accepted at our counter on { $when }, for { $amount } { $currency }. We recorded it.
customer-spoken-declined_phone = { $name } declined by phone on { $when }. We recorded it.
customer-spoken-declined_counter = { $name } declined at our counter on { $when }. We recorded it.
customer-spoken-title_accepted = You accepted this quote
customer-reason_label = Why you decline
customer-reason_given = Your reason: { $reason }

customer-questions-fold = Ask us, or say why you decline
customer-questions-fold_later = Ask a question here
customer-questions-title = Your questions
customer-questions-label = Your question
customer-questions-send = Send the question
customer-questions-asked = You asked on { $when }
customer-questions-replied = Our reply of { $when }
customer-questions-waits = We have not replied yet. The reply appears on this page.
customer-questions-waits_mail = We have not replied yet. The reply appears on this page, and comes by e-mail.
customer-questions-empty = Your question was not sent: type it in letters.
customer-questions-too_long = Your question was not sent: it has more than 1,000 characters. Shorten it, or call us.
customer-questions-too_many = Your question was not sent: { $n } questions have no reply yet. Please call us.
customer-questions-too_fast = Your question was not sent: several came within a few minutes. Wait ten minutes, or call us.

## problem

problem-already-replied-title = This question has a reply
problem-already-replied-detail = A colleague replied first. Read their reply on the quote.

problem-answer-replaced-title = This version is not with the customer
problem-answer-replaced-detail = It was replaced. Read out the newest version, then record the answer to that.

problem-answer-withdrawn-title = This version was withdrawn
problem-answer-withdrawn-detail = Send a new version, then record the answer to that.

problem-answer-expired-title = This quote has expired
problem-answer-expired-detail = Send a new version with today's prices, then record the answer to that.

problem-answer-given-title = The customer has already answered
problem-answer-given-detail = Nothing was recorded now. See the answer on the quote.

problem-answer-moved-title = The date has changed
problem-answer-moved-detail = Nothing is agreed yet. Tell the customer the new date, then record the answer.

problem-answer-unfit-title = A kit does not fit
problem-answer-unfit-detail = Nothing is agreed yet: this quote does not fit what the customer said.

problem-answer-contradicts-title = The vehicle's record says something else
problem-answer-contradicts-detail = Nothing is agreed yet. Check what is recorded for the vehicle, then send a new version.

## field

field-full_name = Enter the full name, in letters.
field-which_price = Say which price the customer accepts.
field-consent_required = Without this consent the quote cannot be accepted: { $text }
field-moment_of_answer = Enter a time between sending and now.
field-number_called = Enter the number that was called.
field-reply_in_letters = Enter the reply, in letters.
field-words_read_out = Read the words out, then confirm it.

## occurrence

occurrence-none =
    { $n ->
        [one] Has not happened; agreed once.
       *[other] Has not happened; agreed { $n } times at most.
    }
occurrence-some =
    { $rest ->
        [one] Happened { $n ->
            [one] once
           *[other] { $n } times
        }; one more time is agreed.
       *[other] Happened { $n ->
            [one] once
           *[other] { $n } times
        }; { $rest } more times are agreed.
    }
occurrence-all =
    { $n ->
        [one] Happened once, as often as was agreed.
       *[other] Happened { $n } times, as often as was agreed.
    }
occurrence-over =
    { $n ->
        [one] Happened { $happened } times, agreed { $cap }: one of them is not charged. The advisor asks the customer.
       *[other] Happened { $happened } times, agreed { $cap }: { $n } of them are not charged. The advisor asks the customer.
    }

problem-occurrence-reversed-title = This was undone before
problem-occurrence-reversed-detail = Look at what is recorded now. If it happened after all, record it again.

problem-too-many-photographs-title = This has enough photographs
problem-too-many-photographs-detail = A record can have { $n } photographs. Record it again for more.
problem-too-many-photographs-of-line-title = This line has enough photographs
problem-too-many-photographs-of-line-detail = A line can have { $n } photographs. Remove one, or add it to another line.
