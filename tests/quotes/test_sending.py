import hashlib
import json
import uuid

import pytest
from django.core.files.storage import default_storage
from django.db import IntegrityError, transaction

from quotes.documents.quote_pdf import paper_html
from quotes.models import Line, Link, Revision
from quotes.queries.frozen import read
from tests.costs import keys_of
from tests.quotes.stage import Stage

pytestmark = pytest.mark.once


def send(stage: Stage, quote: dict, **fields: object) -> object:
    body = {"version": quote["version"], "recipient": "01632 960 417"} | fields
    return stage.client.post(f"quotes/{quote['id']}/send", body)


def test_sending_freezes_what_was_shown(stage: Stage) -> None:
    draft = stage.quote().json()
    quote = send(stage, draft).json()["quote"]
    assert (quote["state"], quote["editable"], quote["totals"]) == ("sent", False, draft["totals"])
    revision = Revision.objects.get()
    assert hashlib.sha256(revision.snapshot.encode()).hexdigest() == revision.digest == quote["digest"]
    assert quote["mark"] == f"{revision.digest[:4]} {revision.digest[4:8]}".upper()
    assert str(revision.gross) == "3207.380" and revision.gross == revision.net + revision.tax
    kinds = [line.kind for line in Line.objects.order_by("position")]
    assert kinds == ["kit", "kit", "labour", "labour", "need", "fee", "supplies"]
    assert sum(line.amount for line in Line.objects.all()) == revision.gross


def test_the_snapshot_holds_no_cost_and_recomputes(stage: Stage) -> None:
    from quotes.queries.frozen import gross_of

    stage.sent()
    content = read(Revision.objects.get())
    assert gross_of(content) == content["shown"]["totals"]["gross"] == "3207.38"
    assert not {key for key in keys_of(content) if "cost" in key or "margin" in key}


@pytest.mark.both
def test_a_sent_version_never_changes(stage: Stage) -> None:
    quote = stage.sent()["quote"]
    path = f"quotes/{quote['id']}"
    answer = stage.client.patch(path, {"condition": "light"}, seen='"1"')
    assert (answer.status_code, answer.json()["type"]) == (409, "/problems/not-a-draft")
    for change in (
        lambda: Revision.objects.update(gross=1, net=1, tax=0),
        lambda: Revision.objects.update(snapshot="{}"),
        lambda: Revision.objects.update(state="draft"),
        lambda: Line.objects.update(amount=0),
        lambda: Line.objects.all().delete(),
    ):
        with pytest.raises(IntegrityError), transaction.atomic():
            change()


def test_new_prices_do_not_touch_what_was_sent(stage: Stage) -> None:
    from datetime import date
    from decimal import Decimal

    from tests.factories import OfferFactory

    quote = stage.sent()["quote"]
    part = stage.towing.part
    OfferFactory(
        shop=stage.cast.shop, supplier=part.preferred, part=part, unit_cost=Decimal(9), valid_from=date(2026, 11, 1)
    )
    assert stage.client.get(f"quotes/{quote['id']}").json()["totals"] == quote["totals"]
    sold = stage.client.get(f"quotes/{quote['id']}/margin").json()
    assert (sold["cost"], sold["profit"]) == ("1868.00", "804.82")


@pytest.mark.parametrize("missing", ["customer", "vehicle", "kits"])
def test_it_says_what_keeps_it_from_being_sent(stage: Stage, missing: str) -> None:
    fields = (
        {"customer": None, "vehicle": None} if missing == "customer" else {missing: [] if missing == "kits" else None}
    )
    draft = stage.quote(**fields).json()
    answer = send(stage, draft)
    assert answer.status_code == 409 and draft["stops"][0] in answer.json()["detail"]
    assert Revision.objects.get().state == "draft" and not Link.objects.exists()


def test_a_draft_that_moved_is_not_sent(stage: Stage) -> None:
    first = stage.quote()
    stage.client.patch(f"quotes/{first.json()['id']}", {"condition": "light"}, seen=first)
    answer = send(stage, first.json())
    assert (answer.status_code, answer.json()["type"]) == (409, "/problems/draft-moved")
    assert Revision.objects.get().state == "draft" and not Link.objects.exists()


def test_the_secret_is_shown_once_and_kept_nowhere(stage: Stage) -> None:
    draft, key = stage.quote().json(), str(uuid.uuid4())
    body = {"version": draft["version"], "recipient": "01632 960 417"}
    first = stage.client.post(f"quotes/{draft['id']}/send", body, key=key).json()
    token = first["link"]["url"].rsplit("/", 1)[1]
    assert len(token) >= 43
    again = stage.client.post(f"quotes/{draft['id']}/send", body, key=key)
    assert again.status_code == 201 and again.json()["link"] == first["link"] | {"url": None, "message": None}
    link = Link.objects.get()
    assert link.token_hash == hashlib.sha256(token.encode()).hexdigest()
    from shop.models import Command, History

    assert token not in json.dumps(
        [*Command.objects.values_list("result", flat=True), *History.objects.values_list("changes", flat=True)]
    )


def test_the_next_version_replaces_the_sent_one_when_it_is_sent(stage: Stage) -> None:
    quote = stage.sent()["quote"]
    path = f"quotes/{quote['id']}"
    draft = stage.client.post(f"{path}/revise").json()
    assert (draft["revision"], draft["state"], draft["totals"]) == (2, "draft", quote["totals"])
    assert [revision.state for revision in Revision.objects.order_by("number")] == ["sent", "draft"]
    assert stage.client.post(f"{path}/revise").status_code == 409
    send(stage, draft)
    assert [revision.state for revision in Revision.objects.order_by("number")] == ["replaced", "sent"]


def test_it_can_be_taken_back_as_it_was_seen(stage: Stage) -> None:
    quote = stage.sent()["quote"]
    path = f"quotes/{quote['id']}/withdraw"
    assert stage.client.post(path, {"revision": 1, "digest": "0" * 64}).status_code == 409
    assert stage.client.post(path, {"revision": 1, "digest": quote["digest"]}).json()["state"] == "withdrawn"


def test_the_paper_is_the_frozen_one_byte_for_byte(stage: Stage) -> None:
    quote = stage.sent()["quote"]
    revision = Revision.objects.get()
    answer = stage.client.get(f"quotes/{quote['id']}/paper")
    assert answer["Content-Type"] == "application/pdf"
    assert hashlib.sha256(answer.content).hexdigest() == revision.pdf_sha256
    from quotes.documents.quote_pdf import quote_paper

    assert quote_paper(revision.snapshot) == answer.content
    assert default_storage.exists(f"papers/{revision.pdf_sha256[:2]}/{revision.pdf_sha256}.pdf")
    paper = revision.paper
    assert paper is not None and (paper.sha256, paper.size) == (revision.pdf_sha256, len(answer.content))
    with default_storage.open(paper.path) as file:
        assert file.read() == answer.content


@pytest.mark.paper
def test_the_paper_shows_every_line_and_carries_the_frozen_text(stage: Stage) -> None:
    import io

    from pypdf import PdfReader

    quote = stage.sent()["quote"]
    reader = PdfReader(io.BytesIO(stage.client.get(f"quotes/{quote['id']}/paper").content))
    text = "\n".join(page.extract_text() for page in reader.pages)
    for phrase in ("Turbocharger kit", "3,207.38", "Set-up, protect, road test", quote["mark"], "Used oil"):
        assert phrase in text
    attached = reader.attachments["quote.json"][0].decode()
    assert json.loads(attached)["inputs"] == json.loads(Revision.objects.get().snapshot)["inputs"]


@pytest.mark.paper
def test_the_paper_keeps_the_workshops_own_reasons_to_itself(stage: Stage) -> None:
    import io

    from pypdf import PdfReader

    first = stage.quote()
    path = f"quotes/{first.json()['id']}"
    changed = stage.client.put(
        f"{path}/overrides/labour:TURBO", {"value": "2", "because": "mate of the boss"}, seen=first
    ).json()
    send(stage, changed)
    reader = PdfReader(io.BytesIO(stage.client.get(f"{path}/paper").content))
    assert "mate of the boss" in Revision.objects.get().snapshot
    for own in ("mate of the boss", "saves_amount", "rate of", "override"):
        assert own not in reader.attachments["quote.json"][0].decode()
        assert own not in "".join(page.extract_text() for page in reader.pages)


def test_prices_that_moved_after_they_were_seen_are_not_sent(stage: Stage) -> None:
    draft = stage.quote().json()
    stage.vehicle.capacities = {"engine oil": "9.9"}
    stage.vehicle.save()
    answer = send(stage, draft, gross=draft["totals"]["gross"])
    assert (answer.status_code, answer.json()["type"]) == (409, "/problems/draft-moved")
    now = stage.client.get(f"quotes/{draft['id']}").json()
    assert send(stage, now, gross=now["totals"]["gross"]).status_code == 201


def test_an_unknown_capacity_keeps_it_from_being_sent(stage: Stage) -> None:
    stage.vehicle.capacities = {}
    stage.vehicle.save()
    draft = stage.quote(stage.turbo).json()
    assert "engine oil" in draft["stops"][0] and send(stage, draft).status_code == 409


def test_the_next_version_keeps_what_people_chose(stage: Stage) -> None:
    from tests.factories import PartFactory

    first = stage.quote()
    path = f"quotes/{first.json()['id']}"
    part = PartFactory(shop=stage.cast.shop, title="Boost gauge")
    added = stage.client.post(f"{path}/lines", {"kind": "part", "part": str(part.pk)})
    line = added.json()["extras"][0]["line"]
    priced = stage.client.patch(f"{path}/lines/{line}", {"unit_price": "42", "because": "agreed"}, seen=added)
    own = stage.client.put(f"{path}/overrides/labour:TURBO", {"value": "4.5", "because": "studs"}, seen=priced)
    kit = own.json()["kits"][0]
    set_ = stage.client.put(f"{path}/overrides/{kit['key']}", {"value": "1000", "because": "agreed"}, seen=own)
    sent = send(stage, set_.json()).json()["quote"]
    draft = stage.client.post(f"{path}/revise").json()
    assert draft["totals"] == sent["totals"] and draft["extras"][0]["unit_price"] == "42.00"
    assert draft["kits"][0]["override"] == {"value": "1000.00", "because": "agreed"}
    assert draft["out"] == {"revision": 1, "digest": sent["digest"]}
    assert stage.client.post(f"{path}/withdraw", draft["out"]).status_code == 200


def test_a_version_that_expired_is_no_longer_out(stage: Stage, monkeypatch: pytest.MonkeyPatch) -> None:
    from datetime import timedelta

    from django.utils import timezone

    path = f"quotes/{stage.sent()['quote']['id']}"
    assert stage.client.post(f"{path}/revise").json()["out"]["revision"] == 1
    later = Revision.objects.get(number=1).valid_until + timedelta(seconds=1)
    monkeypatch.setattr(timezone, "now", lambda: later)
    assert stage.client.get(path).json()["out"] is None


def test_the_last_day_ends_at_midnight_where_the_shop_is(stage: Stage) -> None:
    from datetime import UTC, datetime

    from quotes.services.sending import last_moment

    late = datetime(2026, 11, 24, 23, 30, tzinfo=UTC)  # already the 25th in Berlin
    assert last_moment(late, "Europe/Berlin", 14).isoformat() == "2026-12-09T23:59:59+01:00"


def test_a_link_leads_only_to_what_is_out(stage: Stage) -> None:
    quote = stage.sent()["quote"]
    path = f"quotes/{quote['id']}"
    assert stage.client.post(f"{path}/links", {"recipient": "partner"}).status_code == 201
    stage.client.post(f"{path}/withdraw", {"revision": 1, "digest": quote["digest"]})
    assert stage.client.post(f"{path}/links", {"recipient": "partner"}).status_code == 409


def test_a_repeat_that_overtook_its_first_gets_the_same_answer(stage: Stage, monkeypatch: pytest.MonkeyPatch) -> None:
    from shop.services import commands

    draft, key = stage.quote().json(), str(uuid.uuid4())
    body = {"version": draft["version"], "recipient": "x"}
    first = stage.client.post(f"quotes/{draft['id']}/send", body, key=key)
    looked, really = [], commands.stored

    def late(**kw: object) -> object:
        looked.append(kw)
        return really(**kw) if len(looked) > 1 else None  # the first look comes before the first answer is stored

    monkeypatch.setattr(commands, "stored", late)
    monkeypatch.setattr("quotes.services.sending.prepare", lambda revision, below_floor: None)
    again = stage.client.post(f"quotes/{draft['id']}/send", body, key=key)
    assert (again.status_code, again.json()["quote"]) == (first.status_code, first.json()["quote"])


def test_the_paper_has_the_customers_address_of_that_day(stage: Stage) -> None:
    stage.customer.address = "4 Quay Row, Wendlow"
    stage.customer.save()
    stage.sent()
    stage.customer.address = "9 Quay Row, Wendlow"
    stage.customer.save()
    revision = Revision.objects.get()
    assert "4 Quay Row, Wendlow" in paper_html(revision.snapshot)
