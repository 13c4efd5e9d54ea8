"""The e-mails and the ready message of a quote: from its frozen text, in the customer's language.

They name the quote and the vehicle, and no price: a mailbox is read by more people than a link.
"""

from datetime import date

from quotes.calc.forms import FrozenContent
from quotes.models import Decision, Question, Quote, ToldDate
from quotes.presenters.receipt import next_step, receipt_promise, receipt_waits, to_bring, withdraw_until
from quotes.queries.account import owes_deposit
from shop.calc.snapshot import mark
from shop.documents.letter import Letter
from shop.models import Shop
from shop.presenters.dates import day_words, instant_words
from shop.words import say


def link_letter(document: FrozenContent, shop: Shop, *, recipient: str, address: str, accepted: bool) -> Letter:
    """The e-mail with a link to the quote."""
    facts = {"number": document["quote"]["number"], "vehicle": document["vehicle"]["title"]}
    until = day_words(date.fromisoformat(document["quote"]["valid_day"]))
    opens = say("mail.link_accepted", **facts) if accepted else say("mail.link_open", **facts, day=until)
    return Letter(
        subject=say("mail.link_subject", number=facts["number"], house=shop.name),
        before=(say("mail.greeting", name=recipient), opens),
        button=say("mail.link_button"),
        address=address,
        after=(say("mail.link_private"), *_call(shop)),
        signature=_signature(shop),
    )


def ready_message(document: FrozenContent, shop: Shop, *, recipient: str, address: str) -> str:
    """The words to paste into a message: one paragraph with the link at its end."""
    facts = {"number": document["quote"]["number"], "vehicle": document["vehicle"]["title"], "house": shop.name}
    return say("mail.message", name=recipient, address=address, **facts)


def receipt_letter(document: FrozenContent, decision: Decision, shop: Shop, today: date) -> Letter:
    """The e-mail that confirms an acceptance; the quote's PDF goes with it."""
    record = decision.record
    facts = {"number": document["quote"]["number"], "vehicle": document["vehicle"]["title"]}
    bring = to_bring(document, decision.revision.quote.job)
    when = instant_words(decision.answered_at, shop.zone)
    paragraphs = (
        say("mail.receipt_accepted", name=record["name"], when=when, **facts),
        say("mail.receipt_price", words=record["price"]) if record.get("price") else "",
        next_step(receipt_promise(record), today, owes_deposit=owes_deposit(document, decision.revision.quote)),
        *((say("mail.receipt_bring"), *(f"– {words}" for words in bring)) if bring else ()),
        receipt_waits(record),
        withdraw_until(document, decision),
        say("mail.receipt_attached", mark=mark(decision.digest)),
    )
    return Letter(
        subject=say("mail.receipt_subject", number=facts["number"], house=shop.name),
        before=(
            say("mail.greeting", name=record["name"]),
            *(paragraph for paragraph in paragraphs if paragraph),
            *_call(shop),
        ),
        signature=_signature(shop),
    )


def moved_letter(quote: Quote, row: ToldDate) -> Letter:
    """The e-mail with the sentence on a date that moved, as a person wrote it."""
    shop = quote.shop
    return Letter(
        subject=say("mail.moved_subject", number=str(quote), house=shop.name),
        before=(say("mail.greeting", name=_name(quote)), row.words, *_call(shop)),
        signature=_signature(shop),
    )


def question_letter(question: Question, *, address: str) -> Letter:
    """The e-mail to the workshop with a customer's question; `address` is that of the quote's screen."""
    quote, shop = question.quote, question.quote.shop
    asks = say("mail.question_asks", name=_name(quote), number=str(quote), vehicle=_vehicle(quote))
    return Letter(
        subject=say("mail.question_subject", number=str(quote), name=_name(quote)),
        before=(asks, *_lines(question.text)),
        button=say("mail.question_button"),
        address=address,
        after=(say("mail.question_after"),),
        signature=(shop.name,),
    )


def reply_letter(question: Question) -> Letter:
    """The e-mail to the customer with the reply to their question."""
    quote, shop = question.quote, question.quote.shop
    return Letter(
        subject=say("mail.reply_subject", number=str(quote), house=shop.name),
        before=(
            say("mail.greeting", name=_name(quote)),
            say("mail.reply_asked"),
            *_lines(question.text),
            say("mail.reply_replied"),
            *_lines(question.reply),
            *_call(shop),
        ),
        signature=_signature(shop),
    )


def _name(quote: Quote) -> str:
    return quote.customer.name if quote.customer else ""


def _vehicle(quote: Quote) -> str:
    return quote.vehicle.title if quote.vehicle else ""


def _lines(text: str) -> tuple[str, ...]:
    return tuple(line for line in text.splitlines() if line)


def _call(shop: Shop) -> tuple[str, ...]:
    return (say("mail.call", phone=shop.phone),) if shop.phone else ()


def _signature(shop: Shop) -> tuple[str, ...]:
    return tuple(line for line in (shop.name, shop.address, shop.phone) if line)
