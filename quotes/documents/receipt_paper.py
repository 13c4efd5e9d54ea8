"""The receipt of an acceptance as a PDF, from the frozen text and the record of the answer: no live row is read."""

from collections.abc import Sequence
from dataclasses import dataclass
from zoneinfo import ZoneInfo

from django.template.loader import render_to_string

from quotes.calc.forms import FrozenContent
from quotes.models import Decision
from quotes.presenters.choices import choice_words
from quotes.presenters.customer import HOUSE_FACTS, CustomerText, house_words, presented
from quotes.presenters.promise import CustomerPromise
from quotes.presenters.receipt import (
    bring_words,
    next_step,
    receipt_headline,
    receipt_promise,
    receipt_waits,
    sent_day,
    withdraw_until,
)
from quotes.queries import frozen
from shop.calc.snapshot import canonical
from shop.documents import pdf
from shop.documents.context import context
from shop.encoding import iso
from shop.words import say
from shop.words.languages import speaking

FORM = 1
RECORDED = ("name", "consents", "words", "options", "stated", "price", "gross", "not_before")
"""The part of the record that the attached file repeats: without the customer's network address and browser."""


@dataclass(frozen=True, slots=True)
class ReceiptPaper:
    """The facts of the paper besides the quote, all text."""

    letterhead: Sequence[str]
    headline: str
    chosen: Sequence[str]
    promise: CustomerPromise | None
    next: str
    bring: Sequence[str]
    waits: str
    withdraw_until: str
    sent: str
    consents: Sequence[str]


def receipt_paper(decision: Decision) -> bytes:
    """The PDF of an acceptance. Equal answers give equal bytes."""
    document = frozen.read(decision.revision)
    with speaking(document["language"], *decision.quote.languages):
        return pdf.render(
            receipt_html(document, decision),
            title=say("paper.receipt_title", number=document["quote"]["number"]),
            made_at=decision.answered_at,
            attachment=canonical(_attached(document, decision)).encode("utf-8"),
            attachment_name="receipt.json",
        )


def receipt_html(document: FrozenContent, decision: Decision) -> str:
    text = presented(document, decision.digest)
    return render_to_string("quotes/receipt_paper.html", context(text, _facts(document, decision, text)))


def file_name(decision: Decision) -> str:
    return f"Q-{decision.revision.quote.number}-{decision.revision.number}-accepted.pdf"


def _facts(document: FrozenContent, decision: Decision, text: CustomerText) -> ReceiptPaper:
    record, zone = decision.record, document["shop"]["zone"]
    promise = receipt_promise(record)
    day = decision.answered_at.astimezone(ZoneInfo(zone)).date()
    step = next_step(promise, day, owes_deposit=text.deposit is not None)
    lines = ("; ".join(house_words(text.house, name)) for name in HOUSE_FACTS)
    return ReceiptPaper(
        letterhead=[line for line in lines if line],
        headline=receipt_headline(decision, text.gross, text.currency, zone),
        chosen=[
            *([say("customer.stated", words=record["price"])] if record.get("price") else []),
            *choice_words(document),
        ],
        promise=promise,
        next=say("customer.change.next") if text.change else step,
        bring=bring_words(document),
        waits=receipt_waits(record),
        withdraw_until=withdraw_until(document, decision),
        sent=sent_day(document),
        consents=[*(consent["text"] for consent in record.get("consents", ())), *record.get("words", ())],
    )


def _attached(document: FrozenContent, decision: Decision) -> FrozenContent:
    return {
        "form": FORM,
        "quote": document["quote"]["number"],
        "version": document["quote"]["issue"],
        "digest": decision.digest,
        "answer": decision.answer,
        "way": decision.way,
        "answered_at": iso(decision.answered_at),
        "record": {name: decision.record[name] for name in RECORDED if name in decision.record},
    }
