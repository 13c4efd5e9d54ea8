import pytest

from kitting.models import Kit, PullLine, PullList
from quotes.models import Decision, Link, Quote, Revision
from shop.models import Job, JobOperation, RuleSet, StepCaution
from tests.forms import FormClient
from tests.quotes.phone import Phone
from tests.quotes.stage import Stage

pytestmark = pytest.mark.once


@pytest.fixture
def sent(stage: Stage) -> dict:
    return stage.sent()


@pytest.fixture
def phone(sent: dict) -> Phone:
    return Phone(sent["link"]["url"])


def test_the_first_look_swaps_the_secret_for_a_cookie_of_its_own_path(sent: dict, phone: Phone) -> None:
    cookie = phone.first.cookies["quote"]
    assert phone.first.status_code == 303 and phone.first["Location"] == f"/q/{sent['link']['id']}/"
    assert cookie["path"] == f"/q/{sent['link']['id']}/" and cookie["httponly"]
    assert phone.first["Referrer-Policy"] == "no-referrer"
    page = phone.client.get(phone.page)
    assert (page["Cache-Control"], page["X-Robots-Tag"]) == ("no-store", "noindex")
    assert page["Referrer-Policy"] == "same-origin"  # else the form's own Origin would be null, and refused


def test_the_page_greets_with_the_plate_where_it_is_recorded(stage: Stage) -> None:
    assert "this is for your Tessark T35 estate. " in Phone(stage.sent()["link"]["url"]).html
    stage.vehicle.plate = "QQ 417 AH"
    stage.vehicle.save()
    assert "this is for your Tessark T35 estate, QQ 417 AH." in Phone(stage.sent()["link"]["url"]).html


def test_the_page_shows_what_is_fitted_the_total_and_how_long_it_is_good(phone: Phone) -> None:
    for phrase in (
        "Turbocharger kit",
        "Towing kit",
        "3,207.38",
        "VIN … BX4417",
        "valid until the end of",
        "Removed parts are yours.",
    ):
        assert phrase in phone.html
    assert "<script" not in phone.html and "style=" not in phone.html


def test_looking_changes_nothing(stage: Stage, phone: Phone) -> None:
    before = Revision.objects.values().get()
    for path in ("", "receipt", "paper"):
        phone.client.get(f"{phone.page}{path}")
    assert Revision.objects.values().get() == before and not Decision.objects.exists()


def test_yes_opens_the_job_and_its_pull_list_together(stage: Stage, phone: Phone) -> None:
    answer = phone.answer()
    assert (answer.status_code, answer["Location"]) == (303, f"{phone.page}receipt")
    assert Revision.objects.get().state == "accepted"
    decision, job = Decision.objects.get(), Job.objects.get()
    assert decision.digest == Revision.objects.get().digest and decision.record["name"] == "Maren Oldacre"
    assert decision.record["consents"][0]["text"].startswith("I have read") and decision.record["gross"] == "3207.38"
    assert Quote.objects.get().job == job
    work = [
        (job_operation.code, str(job_operation.quoted_hours))
        for job_operation in JobOperation.objects.order_by("position")
    ]
    assert work == [("SETUP", "1.80"), ("BUMPER", "1.90"), ("TURBO", "3.00"), ("WIRING", "2.00")]
    assert [row.text for row in StepCaution.objects.filter(step__code="TURBO")] == ["Let it cool first."]
    kinds = [line.kind for line in PullLine.objects.filter(pull_list=PullList.objects.get()).order_by("position")]
    assert kinds == ["box", "box", "box", "beside"] * 2 + ["need", "need"]
    assert "Accepted by Maren Oldacre" in phone.client.get(answer["Location"]).content.decode()
    again = stage.client.post(f"quotes/{decision.quote_id}/revise")
    assert (again.status_code, again.json()["type"]) == (409, "/problems/cannot-revise")


def test_a_repeated_yes_gets_the_same_receipt(phone: Phone) -> None:
    assert phone.answer()["Location"] == phone.answer()["Location"]
    assert Decision.objects.count() == Job.objects.count() == PullList.objects.count() == 1


@pytest.mark.parametrize(
    ("fields", "words"), [({"name": "  "}, "Type your full name"), ({"consent": ()}, "Please tick")]
)
def test_a_yes_without_name_or_consent_is_asked_again(phone: Phone, fields: dict, words: str) -> None:
    answer = phone.answer(**fields)
    assert answer.status_code == 400 and words in answer.content.decode()
    assert not Decision.objects.exists() and Revision.objects.get().state == "sent"


def test_a_no_is_kept_and_opens_nothing(phone: Phone) -> None:
    assert phone.answer("decline", consent=()).status_code == 303
    assert Revision.objects.get().state == "declined" and not Job.objects.exists()
    assert phone.answer("accept").status_code == 409
    other = phone.answer("accept", digest="0" * 40)
    html = other.content.decode()
    assert other.status_code == 409 and "already has an answer" in html and "Look at what changed" not in html
    assert "valid until" not in html and 'name="question"' in html


def test_a_quote_that_was_withdrawn_is_not_valid_and_asks_for_no_question(
    stage: Stage, sent: dict, phone: Phone
) -> None:
    seen = {"revision": 1, "digest": sent["quote"]["digest"]}
    assert stage.client.post(f"quotes/{sent['quote']['id']}/withdraw", seen).status_code == 200
    html = phone.client.get(phone.page).content.decode()
    assert "We have withdrawn this quote" in html and "valid until" not in html and 'name="question"' not in html


def test_a_yes_to_an_older_version_shows_what_changed(stage: Stage, sent: dict, phone: Phone) -> None:
    path = f"quotes/{sent['quote']['id']}"
    draft = stage.client.post(f"{path}/revise").json()
    less = stage.client.delete(f"{path}/lines/{draft['kits'][1]['line']}", seen=f'"{draft["version"]}"').json()
    stage.client.post(f"{path}/send", {"version": less["version"], "recipient": "again"})
    answer = phone.answer()
    html = answer.content.decode()
    assert answer.status_code == 409 and not Decision.objects.exists()
    assert "What changed since you opened it" in html and "Towing kit" in html and "2,287.88" in html


@pytest.mark.parametrize("field", ["revision", "digest"])
def test_a_yes_to_something_that_was_never_shown_is_refused(phone: Phone, field: str) -> None:
    assert phone.answer(**{field: "999999" if field == "revision" else "0" * 64}).status_code == 409
    assert not Decision.objects.exists()


def test_after_its_last_day_it_cannot_be_accepted(stage: Stage, phone: Phone, monkeypatch: pytest.MonkeyPatch) -> None:
    from datetime import timedelta

    from django.utils import timezone

    later = Revision.objects.get().valid_until + timedelta(seconds=1)
    monkeypatch.setattr(timezone, "now", lambda: later)
    answer = phone.answer()
    html = answer.content.decode()
    assert answer.status_code == 410 and "This quote has expired" in html and "was valid until" in html
    assert stage.client.get(f"quotes/{Quote.objects.get().pk}").json()["state"] == "expired"
    listed = [len(stage.client.get("quotes", {"state": state}).json()["items"]) for state in ("sent", "expired")]
    assert listed == [0, 1]


def test_a_cancelled_link_and_a_guess_look_alike(stage: Stage, sent: dict, phone: Phone) -> None:
    link = Link.objects.get()
    guess = FormClient().get(f"/q/{link.pk}/{'x' * 43}")
    assert stage.client.delete(f"quotes/{sent['quote']['id']}/links/{link.pk}").status_code == 204
    revoked = phone.client.get(phone.page)
    assert guess.status_code == revoked.status_code == 410
    assert phone.answer().status_code == 410 and not Decision.objects.exists()
    assert "no longer works" in guess.content.decode() and guess.content == revoked.content


def test_another_links_cookie_opens_nothing(stage: Stage, sent: dict, phone: Phone) -> None:
    other = stage.sent(stage.towing)
    assert phone.client.get(f"/q/{other['link']['id']}/").status_code == 410


def test_a_yes_needs_the_form_it_came_from(phone: Phone) -> None:
    assert phone.answer(csrfmiddlewaretoken="x" * 32).status_code == 403
    assert not Decision.objects.exists()


def test_a_yes_from_a_foreign_page_is_refused(phone: Phone) -> None:
    body = {"revision": phone.field("revision"), "digest": phone.field("digest"), "name": "M", "answer": "accept"}
    body |= {"consent": ["road"], "csrfmiddlewaretoken": phone.field("csrfmiddlewaretoken")}
    for origin in ("null", "https://elsewhere.example"):
        assert phone.client.post(f"{phone.page}answer", body, headers={"Origin": origin}).status_code == 403
    assert not Decision.objects.exists()


def test_text_is_never_trusted(stage: Stage) -> None:
    stage.customer.name = "<script>alert(1)</script>"
    stage.customer.save()
    assert "<script" not in Phone(stage.sent()["link"]["url"]).html


def test_the_yes_stands_while_a_newer_draft_is_open(stage: Stage, sent: dict, phone: Phone) -> None:
    path = f"quotes/{sent['quote']['id']}"
    stage.client.post(f"{path}/revise")
    assert phone.answer().status_code == 303
    quote = stage.client.get(path).json()
    assert (quote["state"], quote["revision"], quote["editable"]) == ("accepted", 1, False)
    (row,) = stage.client.get("counter").json()["answers"]
    assert (row["state"], row["answered_at"]) == ("accepted", quote["answer"]["at"])
    assert [row["revision"] for row in stage.client.get("quotes", {"state": "accepted"}).json()["items"]] == [1]
    assert stage.client.get("quotes", {"state": "draft"}).json()["items"] == []
    assert stage.client.post(f"{path}/revise").status_code == 409


def test_the_job_is_for_whom_it_was_shown_to(stage: Stage, sent: dict, phone: Phone) -> None:
    from tests.factories import VehicleFactory

    path = f"quotes/{sent['quote']['id']}"
    draft = stage.client.post(f"{path}/revise")
    other = VehicleFactory(shop=stage.cast.shop, title="Vell 2.4 coupe")
    moved = {"vehicle": str(other.pk), "customer": str(other.customer_id)}
    assert stage.client.patch(path, moved, seen=draft).status_code == 200
    phone.answer()
    job = Job.objects.get()
    assert (job.vehicle, job.customer) == (stage.vehicle, stage.customer)
    assert (Quote.objects.get().vehicle, Quote.objects.get().customer) == (stage.vehicle, stage.customer)


def test_a_loose_part_that_was_sold_is_pulled(stage: Stage) -> None:
    from tests.factories import OfferFactory, PartFactory

    part = PartFactory(shop=stage.cast.shop, title="Boost gauge")
    OfferFactory(shop=stage.cast.shop, part=part)
    quote = stage.quote(stage.towing).json()
    path = f"quotes/{quote['id']}"
    added = stage.client.post(f"{path}/lines", {"kind": "part", "part": str(part.pk), "quantity": "2"}).json()
    url = stage.client.post(f"{path}/send", {"version": added["version"], "recipient": "x"}).json()["link"]["url"]
    Phone(url).answer()
    assert [(line.kind, str(line.quantity)) for line in PullLine.objects.filter(part=part)] == [("need", "2.0000")]


def test_a_kit_of_hours_alone_cannot_be_mistaken_for_an_operation(stage: Stage) -> None:
    from decimal import Decimal

    from tests.factories import KitFactory, KitRevisionFactory

    kit = KitFactory(shop=stage.cast.shop, code="TURBO", title="T" * 195)
    KitRevisionFactory(shop=stage.cast.shop, kit=kit, price=Decimal("240.0000"), hours=Decimal("1.50"))
    url = stage.sent(stage.turbo, kit)["link"]["url"]
    assert Phone(url).answer().status_code == 303
    assert JobOperation.objects.filter(code__endswith="TURBO").count() == 2


def test_the_record_says_from_where(phone: Phone) -> None:
    body = {"revision": phone.field("revision"), "digest": phone.field("digest"), "name": "Maren", "consent": ["road"]}
    body |= {"answer": "accept", "csrfmiddlewaretoken": phone.field("csrfmiddlewaretoken")}
    phone.client.post(f"{phone.page}answer", body, headers={"User-Agent": "a phone"}, REMOTE_ADDR="203.0.113.7")
    record = Decision.objects.get().record
    assert (record["address"], record["agent"]) == ("203.0.113.7", "a phone")


def test_an_answer_that_is_neither_yes_nor_no_is_asked_again(phone: Phone) -> None:
    assert phone.answer("perhaps").status_code == 400 and not Decision.objects.exists()


def test_a_link_ends_with_its_day(phone: Phone, monkeypatch: pytest.MonkeyPatch) -> None:
    from datetime import timedelta

    from django.utils import timezone

    later = Link.objects.get().expires_at + timedelta(seconds=1)
    monkeypatch.setattr(timezone, "now", lambda: later)
    assert FormClient().get(phone.url).status_code == 410
    assert phone.client.get(phone.page).status_code == 410 and phone.answer().status_code == 410


def test_the_secret_is_in_no_log_whatever_is_done_with_it(phone: Phone, caplog: pytest.LogCaptureFixture) -> None:
    token = phone.url.rsplit("/", 1)[1]
    Link.objects.update(revoked_at=Link.objects.get().made_at)
    for path in (phone.url, f"{phone.url}/", f"{phone.url}/more"):
        assert FormClient().get(path).status_code == 410
    answer = FormClient().post(phone.url)
    assert (answer.status_code, answer["Cache-Control"]) == (410, "no-store")
    assert token not in caplog.text


def test_two_kits_whose_codes_begin_alike_are_both_work_of_the_job(stage: Stage) -> None:
    for end in "12":
        kit = {"code": "K" * 38 + end, "title": f"Own {end}", "price": "100.00", "hours": "2.0"}
        stage.client.post("kits", kit)
    stage.accepted(*Kit.objects.filter(code__startswith="KKK"))
    codes = JobOperation.objects.order_by("position").values_list("code", flat=True)
    assert list(codes) == ["own:" + "K" * 36, "own:" + "K" * 34 + "~2"]


def with_cautions(*cautions: object) -> None:
    row = RuleSet.objects.get()
    row.rules["words"]["cautions"] = list(cautions)
    RuleSet.objects.filter(pk=row.pk).update(rules=row.rules)


@pytest.mark.parametrize("named", ["qf-t", "WIRING", "Electrical"])
def test_a_caution_stands_only_on_quotes_for_what_it_applies_to(stage: Stage, named: str) -> None:
    with_cautions("Tell your insurer.", {"text": "Mind the weight you tow.", "applies_to": ["OTHER", named]})
    without = Phone(stage.sent(stage.turbo)["link"]["url"]).html
    assert "Tell your insurer." in without and "Mind the weight you tow." not in without
    assert "Mind the weight you tow." in Phone(stage.sent(stage.turbo, stage.towing)["link"]["url"]).html


def test_the_button_counts_the_cautions_after_the_fourth_and_all_are_on_the_page(stage: Stage) -> None:
    every = [f"Caution number {n}." for n in range(1, 7)]
    with_cautions(*every)
    html = Phone(stage.sent(stage.turbo)["link"]["url"]).html
    before, folded = html.split("Read 2 more cautions")
    assert all(phrase in before for phrase in every[:4]) and all(
        phrase in folded.split("</details>")[0] for phrase in every[4:]
    )
