"""The closing account of a job: its frozen text and its paper. It is no tax invoice, and says so."""

import json
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime
from zoneinfo import ZoneInfo

from django.template.loader import render_to_string

from quotes.calc.forms import FrozenContent
from quotes.calc.frozen_parts import FrozenHouse
from quotes.documents.snapshots import frozen_house, stamp
from quotes.presenters.account import account_answer
from quotes.presenters.customer import HOUSE_FACTS, house_words
from quotes.queries.account import JobAccount
from shop.calc.snapshot import canonical, digest, mark
from shop.documents import pdf
from shop.documents.context import context
from shop.presenters.dates import day_words
from shop.words import say
from shop.words.figures import figure
from shop.words.languages import language

FORM = 1
FROZEN = ("number", "quote_number", "customer", "vehicle", "plate", "currency", "total", "tax_words", "received", "due")


def closing_text(stands: JobAccount, closed_at: datetime, closed_by: str) -> str:
    """The canonical text of an account as it stands."""
    shop, account = stands.job.shop, account_answer(stands)
    return canonical(
        {
            "form": FORM,
            "language": language(),
            "shop": frozen_house(shop),
            "closed_at": stamp(closed_at),
            "closed_by": closed_by,
            **{name: getattr(account, name) for name in FROZEN},
            "settled": account.settled,
            "rows": [
                {"kind": row.kind, "title": row.title, "why": row.why, "consent": row.consent, "amount": row.amount}
                for row in account.rows
            ],
            "payments": [
                {
                    "received_on": payment.received_on.isoformat(),
                    "means": payment.means,
                    "reference": payment.reference,
                    "reason": payment.reason,
                    "amount": payment.amount,
                }
                for payment in account.payments
            ],
        }
    )


@dataclass(frozen=True, slots=True)
class ClosingRow:
    """A row of the paper: its title, its reasons, and its amount."""

    title: str
    why: Sequence[str]
    amount: str


@dataclass(frozen=True, slots=True)
class ClosingPaper:
    """The words of the paper, all text."""

    content: FrozenContent
    house: FrozenHouse
    letterhead: Sequence[str]
    closed: str
    mark: str
    rows: Sequence[ClosingRow]
    payments: Sequence[ClosingRow]
    total: str
    received: str
    due: str
    due_word: str


def closing_paper(text: str) -> bytes:
    """The PDF of a frozen text, without reading live rows. Equal texts give equal bytes."""
    content = json.loads(text)
    return pdf.render(
        closing_html(text),
        title=say("account.paper.title", job=content["number"]),
        made_at=datetime.fromisoformat(content["closed_at"]),
        attachment=text.encode("utf-8"),
        attachment_name="closing-account.json",
    )


def closing_html(text: str) -> str:
    return render_to_string("quotes/closing_account.html", context(_paper(text)))


def _paper(text: str) -> ClosingPaper:
    content = json.loads(text)
    house = content["shop"]
    day = datetime.fromisoformat(content["closed_at"]).astimezone(ZoneInfo(house["zone"])).date()
    lines = ("; ".join(house_words(house, name)) for name in HOUSE_FACTS)
    return ClosingPaper(
        content=content,
        house=house,
        letterhead=[line for line in lines if line],
        closed=day_words(day),
        mark=mark(digest(text)),
        rows=[
            ClosingRow(row["title"], [word for word in (*row["why"], row["consent"]) if word], figure(row["amount"]))
            for row in content["rows"]
        ],
        payments=[_payment(payment) for payment in content["payments"]],
        total=figure(content["total"]),
        received=figure(content["received"]),
        due=figure(content["due"].removeprefix("-")),  # the word says who pays
        due_word=say(f"account.settled.{content['settled']}"),
    )


def _payment(payment: FrozenContent) -> ClosingRow:
    means = say(f"account.means.{payment['means']}")
    title = say("account.paper.payment", day=day_words(date.fromisoformat(payment["received_on"])), means=means)
    why = [word for word in (payment["reference"], payment["reason"]) if word]
    return ClosingRow(title, why, figure(payment["amount"]))
