"""The paper of a sent revision: printed from the frozen text, stored under the hash of its bytes."""

import hashlib
import json
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from django.core.files.base import ContentFile
from django.core.files.storage import default_storage
from django.http import HttpResponse
from django.template.loader import render_to_string

from quotes.documents.paper_rows import PaperRows, paper_rows
from quotes.models import Revision
from quotes.presenters.choices import ChoiceRow, choice_rows
from quotes.presenters.customer import CustomerText, for_customer, offer_of, presented
from quotes.presenters.possible_prices import DifferingLine, rows_of
from quotes.presenters.sections import SumRow, totals_of
from quotes.queries.frozen import asked_places, opened
from shop.calc.snapshot import canonical, digest
from shop.documents import pdf
from shop.documents.context import context
from shop.words import say
from shop.words.figures import figure


def quote_paper(snapshot: str) -> bytes:
    """The PDF of a frozen text, without reading live rows. Equal texts give equal bytes."""
    document, whole = json.loads(snapshot), opened(snapshot)
    several = {name: whole[name] for name in ("possible", "choices")}
    return pdf.render(
        paper_html(snapshot),
        title=say(
            "paper.quote_title",
            offer=offer_of(document),
            number=document["quote"]["number"],
            revision=document["quote"]["issue"],
        ),
        made_at=datetime.fromisoformat(document["quote"]["sent_at"]),
        attachment=canonical(for_customer(document | several)).encode("utf-8"),
        attachment_name="quote.json",
    )


def paper_html(snapshot: str) -> str:
    return render_to_string("quotes/paper.html", context(*paper_text(snapshot)))


@dataclass(frozen=True, slots=True)
class PaperPrice:
    """One of several prices, as the paper prints it."""

    words: str
    gross: str
    hours: str
    labour_hours: str
    ready: str
    unfit: str | None
    open: bool
    differs: Sequence[DifferingLine]
    taxes: Sequence[SumRow]


@dataclass(frozen=True, slots=True)
class PaperPrices:
    """Every price; empty for a quote with one price. `fluids_left`: the fluids stand in the left column, where it is
    the shorter one.
    """

    possible: Sequence[PaperPrice]
    fluids_left: bool
    choices: Sequence[ChoiceRow]


def paper_text(snapshot: str) -> tuple[CustomerText, PaperRows, PaperPrices]:
    """The words of the paper: the customer's page's, the rows of the paper and every price."""
    opened_text = opened(snapshot)
    places = asked_places(opened_text) if opened_text["undecided"] else []
    documents = [opened_text["possible"][place]["document"] for place in places]
    prices = [
        PaperPrice(
            words=row.words,
            gross=row.gross,
            hours=row.hours,
            labour_hours=figure(document["shown"]["labour"]["hours"]),
            ready=row.ready,
            unfit=row.unfit,
            open=row.open,
            differs=row.differs,
            taxes=totals_of(document["shown"]["totals"]),
        )
        for row, document in zip(rows_of(opened_text, {}), documents, strict=True)
    ]
    rows, promise = paper_rows(opened_text), opened_text.get("plan", {}).get("promised")
    left = len(rows.pieces) + (len(promise["lines"]) if promise else 0)
    right = len(rows.fees) + 2 * sum(len(price.differs) for price in prices)  # narrow rows of two lines
    several = PaperPrices(prices, left < right, choice_rows(opened_text, {}))
    return presented(opened_text, digest(snapshot)), rows, several


def keep(pdf: bytes) -> str:
    """Stores the bytes once under their SHA-256, and returns it."""
    mark = hashlib.sha256(pdf).hexdigest()
    if not default_storage.exists(path_of(mark)):
        default_storage.save(path_of(mark), ContentFile(pdf))
    return mark


def kept_paper(mark: str) -> bytes:
    with default_storage.open(path_of(mark)) as file:
        return bytes(file.read())


def response(revision: Revision) -> HttpResponse:
    """The stored paper as a response, for the counter and for the customer."""
    answer = HttpResponse(kept_paper(revision.pdf_sha256), content_type="application/pdf")
    answer["Content-Disposition"] = f'inline; filename="Q-{revision.quote.number}-{revision.number}.pdf"'
    answer["Cache-Control"] = "no-store"
    return answer


def path_of(mark: str) -> str:
    return f"papers/{mark[:2]}/{mark}.pdf"
