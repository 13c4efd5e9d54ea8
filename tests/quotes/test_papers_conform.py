"""Every paper for a customer holds the list of PDF/A-3a, and the receipt says what its acceptance says."""

import io
import json
from typing import Any

import pytest
from django.utils import timezone
from pypdf import PdfReader

from quotes.models import Decision
from tests.documents.conformance import faults
from tests.quotes.changing import begin, job_of, send, text_line
from tests.quotes.phone import Phone
from tests.quotes.stage import RULES, Stage

pytestmark = pytest.mark.paper

HELD = {
    **RULES,
    "deposit_share": "0.5",
    "words": {**RULES["words"], "bring": ["Both keys."], "payment": ["Transfer it, with the number of the quote."]},
}


def printed(stage: Stage, path: str) -> PdfReader:
    answer = stage.client.get(path)
    assert answer.status_code == 200 and answer["Content-Type"] == "application/pdf", answer.content[:200]
    assert answer.content == stage.client.get(path).content
    return PdfReader(io.BytesIO(answer.content))


def text_of(reader: PdfReader) -> str:
    return " ".join(" ".join(page.extract_text().split()) for page in reader.pages)


def test_quote_receipt_authorisation_and_closing_account_hold_the_list(stage: Stage) -> None:
    stage.enact(HELD)
    job = job_of(stage)
    quote = Decision.objects.get().quote_id
    papers = {"quote": f"quotes/{quote}/paper", "receipt": f"quotes/{quote}/receipt"}
    change = send(stage, text_line(stage, begin(stage, job)))
    assert stage.client.get(f"quotes/{change['quote']['id']}/receipt").status_code == 409  # not accepted yet
    assert Phone(change["link"]["url"]).answer().status_code == 303
    papers |= {name: f"quotes/{change['quote']['id']}/{path}" for name, path in CHANGE.items()}
    today = timezone.now().date().isoformat()
    for state in ("in-bay", "hand-over"):
        stage.client.post(f"jobs/{job.pk}/{state}", {"day": today, "odometer": 84_200})
    due = stage.client.get(f"jobs/{job.pk}/account").json()["due"]
    assert stage.client.post(f"jobs/{job.pk}/closing-account", {"due": due}).status_code == 201
    papers["closing account"] = f"jobs/{job.pk}/closing-account/paper"
    readers = {name: printed(stage, path) for name, path in papers.items()}
    assert {name: faults(reader) for name, reader in readers.items()} == dict.fromkeys(papers, [])
    assert "not a tax invoice" in text_of(readers["closing account"]).lower()
    the_receipt_says_what_was_accepted(readers["receipt"])
    assert "Both keys." not in text_of(readers["its receipt"])  # the vehicle is there


CHANGE = {"authorisation": "paper", "its receipt": "receipt"}


def the_receipt_says_what_was_accepted(reader: PdfReader) -> None:
    text, record = text_of(reader), Decision.objects.earliest("answered_at").record
    for phrase in (
        "Receipt of acceptance Q-1",
        "Accepted by Maren Oldacre on",
        "Turbocharger kit",
        "3,207.38",
        "Please bring – Both keys.",
        "Transfer it, with the number of the quote.",
        "I have read what this may mean for road use.",
        "Removed parts are yours.",
    ):
        assert phrase in text, text
    attached: Any = json.loads(reader.attachments["receipt.json"][0])
    assert attached["record"]["consents"] == record["consents"] and attached["record"]["gross"] == "3207.38"
    assert "address" not in attached["record"] and "agent" not in attached["record"]
