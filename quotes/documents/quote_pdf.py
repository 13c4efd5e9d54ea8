"""The paper of a sent revision: printed from the frozen text, stored under the hash of its bytes."""

import hashlib
import json
from dataclasses import asdict
from datetime import datetime
from typing import Any

from django.core.files.base import ContentFile
from django.core.files.storage import default_storage
from django.http import HttpResponse
from django.template.loader import render_to_string

from quotes.documents.paper_rows import paper_rows
from quotes.models import Revision
from quotes.presenters.customer import for_customer, presented
from quotes.presenters.possible_prices import rows_of
from quotes.presenters.sections import totals_of
from quotes.queries.frozen import opened
from shop.calc.snapshot import canonical, digest
from shop.documents import pdf
from shop.words import say
from shop.words.figures import figure


def quote_paper(snapshot: str) -> bytes:
    """The PDF of a frozen text, without reading live rows. Equal texts give equal bytes."""
    document = json.loads(snapshot)
    return pdf.render(
        paper_html(snapshot),
        title=say("paper.quote_title", number=document["quote"]["number"], revision=document["quote"]["issue"]),
        made_at=datetime.fromisoformat(document["quote"]["sent_at"]),
        attachment=canonical(for_customer({**document, "possible": opened(snapshot)["possible"]})).encode("utf-8"),
        attachment_name="quote.json",
    )


def paper_html(snapshot: str) -> str:
    return render_to_string("quotes/paper.html", paper_facts(snapshot))


def paper_facts(snapshot: str) -> dict[str, Any]:
    """The context of the paper's template: the customer's page's, with the rows of the paper and every price."""
    opened_text = opened(snapshot)
    documents = [possible["document"] for possible in opened_text["possible"]]
    prices = [
        asdict(row)
        | {
            "taxes": totals_of(document["shown"]["totals"]),
            "labour_hours": figure(document["shown"]["labour"]["hours"]),
        }
        for row, document in zip(rows_of(opened_text, []), documents, strict=True)
    ]
    return presented(opened_text, digest(snapshot)) | paper_rows(opened_text) | {"possible": prices}


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
