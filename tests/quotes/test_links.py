"""A link belongs to one quote, ends when it is cancelled, and leads to a version with the rules of its day."""

from datetime import timedelta
from typing import Any

import pytest
from django.utils import timezone

from quotes.calc.answer import AcceptanceError, AnswerForm
from quotes.models import Decision, Link, Quote, Revision
from quotes.services.acceptance import accept_revision, decline_revision
from quotes.services.links import revoke_link
from quotes.services.revising import revise
from shop.models import Job, RuleSet
from tests.cast import make_shop
from tests.forms import FormClient
from tests.quotes.stage import RULES, Stage

pytestmark = pytest.mark.once


@pytest.fixture
def sent(stage: Stage) -> dict[str, Any]:
    return stage.sent(stage.towing)


def answer_to(sent: dict[str, Any]) -> AnswerForm:
    return AnswerForm(1, sent["quote"]["digest"], "Maren Oldacre", ("road",), "127.0.0.1", "test")


def test_a_link_is_cancelled_at_the_address_of_its_own_quote_alone(stage: Stage, sent: dict[str, Any]) -> None:
    other = stage.quote(stage.towing).json()["id"]
    link = sent["link"]["id"]
    assert stage.client.delete(f"quotes/{other}/links/{link}").status_code == 404
    assert Link.objects.get().revoked_at is None
    assert stage.client.delete(f"quotes/{sent['quote']['id']}/links/{link}").status_code == 204
    assert Link.objects.get().revoked_at is not None


@pytest.mark.parametrize("act", [accept_revision, decline_revision])
def test_a_link_cancelled_between_the_look_and_the_lock_answers_nothing(
    stage: Stage, sent: dict[str, Any], act: Any
) -> None:
    looked_at = Link.objects.get()
    revoke_link(actor=stage.cast.acting("advisor"), quote=Quote.objects.get(), link=Link.objects.get())
    assert looked_at.revoked_at is None
    with pytest.raises(AcceptanceError) as refused:
        act(source=looked_at, answer=answer_to(sent), now=timezone.now())
    assert refused.value.code == "link"
    assert Revision.objects.get().state == "sent" and not Decision.objects.exists() and not Job.objects.exists()


@pytest.mark.parametrize("act", [accept_revision, decline_revision])
def test_a_link_answers_for_its_own_quote_alone(stage: Stage, sent: dict[str, Any], act: Any) -> None:
    other = stage.sent(stage.turbo)
    with pytest.raises(AcceptanceError) as refused:
        act(source=Link.objects.get(pk=sent["link"]["id"]), answer=answer_to(other), now=timezone.now())
    assert refused.value.code == "replaced"
    assert not Decision.objects.exists() and not Job.objects.exists()


def test_a_version_that_was_withdrawn_is_not_accepted(stage: Stage, sent: dict[str, Any]) -> None:
    digest = sent["quote"]["digest"]
    stage.client.post(f"quotes/{sent['quote']['id']}/withdraw", {"revision": 1, "digest": digest})
    with pytest.raises(AcceptanceError) as refused:
        accept_revision(source=Link.objects.get(), answer=answer_to(sent), now=timezone.now())
    assert refused.value.code == "withdrawn" and not Decision.objects.exists()


def test_a_link_answers_until_its_own_last_day(stage: Stage, sent: dict[str, Any]) -> None:
    link = Link.objects.get()
    with pytest.raises(AcceptanceError) as refused:
        accept_revision(source=link, answer=answer_to(sent), now=link.expires_at + timedelta(seconds=1))
    assert refused.value.code == "link"


def test_a_link_that_was_cancelled_twice_keeps_the_first_moment(stage: Stage, sent: dict[str, Any], later: Any) -> None:
    where = f"quotes/{sent['quote']['id']}/links/{sent['link']['id']}"
    assert stage.client.delete(where).status_code == 204
    first = Link.objects.get().revoked_at
    later(minutes=5)
    assert stage.client.delete(where).status_code == 204
    assert Link.objects.get().revoked_at == first


def test_no_link_is_made_to_a_version_that_was_withdrawn(stage: Stage, sent: dict[str, Any]) -> None:
    path, digest = f"quotes/{sent['quote']['id']}", sent["quote"]["digest"]
    assert stage.client.post(f"{path}/withdraw", {"revision": 1, "digest": digest}).status_code == 200
    answer = stage.client.post(f"{path}/links", {"recipient": "another"})
    assert answer.status_code == 409
    assert answer.json()["type"] == "/problems/not-sent"
    assert Link.objects.count() == 1


def test_the_next_version_has_the_house_rules_of_its_own_day(stage: Stage, sent: dict[str, Any]) -> None:
    quote = Quote.objects.get()
    dearer = RULES | {"labour_rates": {"mechanical": "200.00", "electrical": "220.00"}}
    today = RuleSet.objects.create(
        shop=stage.cast.shop, number=2, valid_from=timezone.now().date() - timedelta(days=1), rules=dearer
    )
    new = revise(actor=stage.cast.acting("advisor"), quote=quote)
    assert (new.number, new.rules_id) == (2, today.pk)
    assert Revision.objects.get(number=1).rules.number == 1
    draft = stage.client.get(f"quotes/{quote.pk}").json()
    assert draft["totals"]["gross"] != sent["quote"]["totals"]["gross"]


@pytest.mark.parametrize("path", ["", "x", "0192f000-0000-7000-8000-000000000000/", f"{'0' * 8}-{'0' * 3}"])
def test_a_mistyped_link_names_the_workshop_where_there_is_only_one(db: None, path: str) -> None:
    house = make_shop("saltmarsh", "Saltmarsh Lane Motor Works")
    house.phone = "01632 960 900"
    house.save(update_fields=["phone"])
    answer = FormClient().get(f"/q/{path}")
    assert answer.status_code == 410 and "01632 960 900" in answer.content.decode()
    make_shop("copperfell", "Copper Fell Fitting")
    answer = FormClient().get(f"/q/{path}")
    assert answer.status_code == 410 and "01632 960 900" not in answer.content.decode()
