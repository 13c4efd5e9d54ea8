"""A text of the first form, frozen before there were further ones: it opens, prints and is accepted as it was."""

from datetime import timedelta
from decimal import Decimal
from pathlib import Path

import pytest
from django.utils import timezone

from quotes.documents import quote_pdf
from quotes.models import Decision, Quote, Revision
from quotes.presenters.customer import presented
from quotes.queries import frozen
from quotes.services.links import make_link
from shop.access import Actor
from shop.calc.snapshot import digest
from shop.models import Job
from tests.factories import CustomerFactory, PackFactory, VehicleFactory
from tests.quotes.phone import Phone
from tests.quotes.stage import Stage

pytestmark = pytest.mark.once

TEXT = (Path(__file__).parent / "frozen" / "form-1-gearbox.json").read_text("utf-8")
DIGEST = "0c7252a9be4072733f0e616d97cc98844e5f5948185ce2a4fc75da0a05ca49ea"


@pytest.fixture
def phone(stage: Stage) -> Phone:
    """The text as the revision of a quote, with the rows that it names."""
    content, shop, now = frozen.opened(TEXT), stage.cast.shop, timezone.now()
    customer = CustomerFactory(shop=shop, pk=content["customer"]["id"])
    VehicleFactory(shop=shop, pk=content["vehicle"]["id"], customer=customer)
    for need in content["shown"]["needs"]:
        for pack in need["packs"]:
            PackFactory(shop=shop, pk=pack["part"])
    quote = Quote.objects.get(pk=stage.quote().json()["id"])
    gross = Decimal(content["shown"]["totals"]["gross"])
    Revision.objects.filter(quote=quote).update(
        state="sent",
        sent_at=now,
        valid_until=now + timedelta(days=9),
        net=gross,
        tax=0,
        gross=gross,
        snapshot=TEXT,
        digest=DIGEST,
        pdf_sha256=quote_pdf.keep(quote_pdf.quote_paper(TEXT)),
    )
    actor = Actor(shop=shop, member=stage.cast.advisor)
    _, path = make_link(actor=actor, quote=quote, recipient="x", valid_until=now + timedelta(days=9))
    return Phone(path)


def test_it_has_the_digest_and_check_code_that_it_was_sent_with() -> None:
    assert digest(TEXT) == DIGEST
    assert presented(frozen.opened(TEXT), digest(TEXT)).mark == "0C72 52A9"
    assert frozen.gross_of(frozen.opened(TEXT)) == "3207.38"


def test_it_opens_says_what_it_said_and_is_accepted(stage: Stage, phone: Phone) -> None:
    assert "0C72 52A9" in phone.html and "3,207.38" in phone.html
    assert "We do not know yet whether yours is manual or automatic." in phone.html
    assert 'name="price"' not in phone.html
    assert phone.answer().status_code == 303
    decision = Decision.objects.get()
    assert (decision.digest, decision.record["gross"], decision.record["stated"]) == (DIGEST, "3207.38", [])
    assert Revision.objects.get().agreed is None
    receipt = phone.client.get(f"{phone.page}receipt").content.decode()
    assert "0C72 52A9" in receipt and "3,207.38" in receipt
    codes = list(Job.objects.get().operations.order_by("position").values_list("code", flat=True))
    assert codes == ["SETUP", "BUMPER", "TURBO", "WIRING"]


@pytest.mark.paper
def test_its_paper_prints_with_its_check_code() -> None:
    from io import BytesIO

    from pypdf import PdfReader

    text = "\n".join(page.extract_text() for page in PdfReader(BytesIO(quote_pdf.quote_paper(TEXT))).pages)
    assert "0C72 52A9" in text and "3,207.38" in text and "Still to be decided" in text
