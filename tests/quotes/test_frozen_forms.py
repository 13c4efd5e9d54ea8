"""A text sent by an earlier form still opens, prints and is accepted, with the check code it was sent with."""

from datetime import timedelta
from decimal import Decimal
from pathlib import Path

import pytest
from django.utils import timezone
from msgspec import to_builtins

from kitting.models import PullLine
from quotes.calc.forms import FORM, READERS, read_text
from quotes.documents import quote_pdf
from quotes.models import Decision, Line, Quote, Revision
from quotes.presenters.figures import kept_figures
from quotes.queries.frozen import opened
from quotes.services.links import make_link
from shop.calc.snapshot import digest
from shop.models import Job, RuleSet
from tests.cast import Cast
from tests.factories import (
    CustomerFactory,
    KitFactory,
    KitRevisionFactory,
    PartFactory,
    VehicleFactory,
)
from tests.quotes.phone import Phone
from tests.quotes.stage import RULES

pytestmark = pytest.mark.once

FROZEN = Path(__file__).parent / "frozen"
CHECK_CODES = {1: "B190 97E3", 2: "855A A47E"}


def frozen(form: int) -> str:
    return (FROZEN / f"form-{form}.json").read_text("utf-8")


def sent(cast: Cast, text: str) -> str:
    """The link's address of a sent revision with that text, and every row that the text names."""
    shop, content, now = cast.shop, read_text(text), timezone.now()
    rules = RuleSet.objects.create(shop=shop, number=1, valid_from=now.date(), rules=RULES, used_at=now)
    customer = CustomerFactory(shop=shop, pk=content["customer"]["id"], name=content["customer"]["name"])
    vehicle = VehicleFactory(shop=shop, pk=content["vehicle"]["id"], customer=customer)
    advisor = cast.advisor
    quote = Quote.objects.create(
        shop=shop, number=1, customer=customer, vehicle=vehicle, advisor=advisor, created_at=now
    )
    revision = Revision.objects.create(
        shop=shop, quote=quote, number=1, rules=rules, changed_at=now, changed_by=advisor
    )
    for position, kit in enumerate(content["shown"]["kits"], start=1):
        part = PartFactory(shop=shop, number=kit["code"], title=kit["title"])
        contents = KitRevisionFactory(shop=shop, kit=KitFactory(shop=shop, pk=kit["kit"], code=kit["code"], part=part))
        Line.objects.create(
            shop=shop,
            pk=kit["line"],
            revision=revision,
            position=position,
            kind="kit",
            title=kit["title"],
            tax_class="part",
            kit_revision=contents,
            quantity=1,
            amount=Decimal(kit["price"]),
        )
    for pack in (pack for need in content["shown"]["needs"] for pack in need["packs"]):
        PartFactory(shop=shop, pk=pack["part"], number=pack["number"], title=pack["title"])
    totals = content["shown"]["totals"]
    revision.state, revision.sent_at, revision.valid_until = Revision.State.SENT, now, now + timedelta(days=14)
    revision.net, revision.tax, revision.gross = (Decimal(totals[name]) for name in ("net", "tax", "gross"))
    revision.snapshot, revision.digest = text, digest(text)
    revision.pdf_sha256 = quote_pdf.keep(quote_pdf.quote_paper(text))
    revision.save()
    _, path = make_link(actor=cast.acting("advisor"), quote=quote, recipient="Maren", valid_until=revision.valid_until)
    return path


@pytest.mark.parametrize("form", CHECK_CODES)
@pytest.mark.paper
def test_it_opens_prints_and_is_accepted_with_its_check_code(cast: Cast, form: int) -> None:
    text, code = frozen(form), CHECK_CODES[form]
    phone = Phone(sent(cast, text))
    assert code in phone.html and "3,207.38" in phone.html
    assert phone.client.get(f"{phone.page}paper").status_code == 200
    answer = phone.answer()
    assert answer.status_code == 303, answer.content
    assert code in phone.client.get(answer["Location"]).content.decode()
    decision, revision = Decision.objects.get(), Revision.objects.get()
    assert (decision.digest, decision.record["gross"]) == (digest(text), "3207.38")
    assert revision.snapshot == text and revision.state == "accepted"
    assert Job.objects.count() == 1 and PullLine.objects.exists()
    quote = cast.signed_in("advisor").get(f"quotes/{revision.quote_id}").json()
    assert (quote["mark"], quote["totals"]["gross"], quote["discount"]) == (code, "3207.38", None)
    assert quote["outside"] == []


def test_every_form_but_the_newest_has_a_frozen_text_and_a_reader() -> None:
    assert set(CHECK_CODES) == set(READERS) == set(range(1, FORM))


def test_an_answer_leaves_out_what_an_older_text_does_not_hold() -> None:
    content = opened(frozen(1))
    figures = to_builtins(kept_figures(content))
    assert figures == content["shown"]
    assert (
        not {"listed", "first_fit", "fitted_before"} & figures["kits"][0].keys() and "stages" not in figures["labour"]
    )


def test_a_form_that_is_not_known_is_not_guessed_at() -> None:
    with pytest.raises(KeyError):
        read_text(frozen(1).replace('"form":1', f'"form":{FORM + 1}'))
