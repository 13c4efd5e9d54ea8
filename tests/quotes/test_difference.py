"""A new version begins with today's rules, prices and kits, and lists its changes from the version before."""

import html
from datetime import timedelta
from typing import Any

import pytest
from django.db import IntegrityError, transaction
from django.utils import timezone

from kitting.models import KitLine, KitRevision
from quotes.models import Revision
from quotes.queries.pricing import shop_day
from shop.models import RuleSet
from shop.presenters.dates import date_only
from tests.quotes.phone import Phone
from tests.quotes.stage import Stage
from tests.quotes.test_newer_rules import DEARER
from tests.quotes.test_query_counts import grow, queries

pytestmark = pytest.mark.once


def revised(stage: Stage, sent: dict[str, Any]) -> dict[str, Any]:
    draft: dict[str, Any] = stage.client.post(f"quotes/{sent['quote']['id']}/revise").json()
    return draft


def without_towing(stage: Stage, draft: dict[str, Any]) -> dict[str, Any]:
    path = f"quotes/{draft['id']}/lines/{draft['kits'][1]['line']}"
    less: dict[str, Any] = stage.client.delete(path, seen=f'"{draft["version"]}"').json()
    return less


def difference(stage: Stage, quote: dict[str, Any]) -> dict[str, Any]:
    compared: dict[str, Any] = stage.client.get(f"quotes/{quote['id']}/difference").json()
    return compared


def send(stage: Stage, draft: dict[str, Any]) -> dict[str, Any]:
    body = {"version": draft["version"], "recipient": "again"}
    sent: dict[str, Any] = stage.client.post(f"quotes/{draft['id']}/send", body).json()
    return sent


def dearer_from_today(stage: Stage) -> None:
    day = shop_day(stage.shop, timezone.now())
    RuleSet.objects.create(shop=stage.shop, number=2, valid_from=day, rules=DEARER)


def test_the_first_version_differs_from_nothing(stage: Stage) -> None:
    assert stage.client.get(f"quotes/{stage.quote().json()['id']}/difference").status_code == 404


def test_a_new_version_as_it_was_begun_does_not_differ(stage: Stage) -> None:
    compared = difference(stage, revised(stage, stage.sent()))
    assert (compared["words"], compared["more"], compared["groups"]) == (
        "The total is unchanged: 3,207.38",
        "0.00",
        [],
    )


def test_a_kit_that_was_removed_is_told_with_the_total_first(stage: Stage) -> None:
    compared = difference(stage, without_towing(stage, revised(stage, stage.sent())))
    day = date_only(shop_day(stage.shop, timezone.now()))
    assert (compared["title"], compared["words"]) == (
        f"Changed since version 1 of {day}",
        "Total 3,207.38 → 2,287.88, −919.50",
    )
    (group,) = compared["groups"]
    assert (group["cause"], group["more"]) == ("since", "-919.50")
    lines = {line["title"]: (line["before"], line["after"], line["more"], line["why"]) for line in group["lines"]}
    assert lines["Towing kit"] == ("510.00", None, "-510.00", "")
    assert lines["Set-up, protect, road test"] == ("297.00", "247.50", "-49.50", "1.8 h → 1.5 h")


def test_what_the_day_changed_stands_apart_from_what_the_advisor_changed(stage: Stage) -> None:
    """6.7 h mechanical at 175 and not at 165 is 67.00 more."""
    sent = stage.sent()
    dearer_from_today(stage)
    draft = revised(stage, sent)
    assert draft["rules"]["number"] == 2 and draft["rules"]["newer"] is None
    by_day, by_hand = difference(stage, without_towing(stage, draft))["groups"]
    assert (by_day["cause"], by_day["more"]) == ("begun", "67.00")
    today = date_only(shop_day(stage.shop, timezone.now()))
    assert by_day["words"] == [f"Price rules of {today} instead of 1 Jan"]
    moved = {line["title"]: (line["before"], line["after"]) for line in by_day["lines"]}
    assert moved["Turbocharger fitted"] == ("495.00", "525.00") and "Towing kit" not in moved
    assert by_hand["cause"] == "since" and "Towing kit" in {line["title"] for line in by_hand["lines"]}


def test_a_new_version_takes_the_newest_version_of_a_kit_and_says_so(stage: Stage) -> None:
    sent = stage.sent()
    old = KitRevision.objects.get(kit=stage.turbo)
    newer = KitRevision.objects.create(
        shop=stage.shop, kit=stage.turbo, number=2, labour=old.labour, price="1000", hours="7.0"
    )
    draft = revised(stage, sent)
    assert draft["kits"][0]["issue"] == 2 and KitRevision.objects.get(pk=newer.pk).used_at is not None
    assert not KitLine.objects.filter(revision=newer).exists()
    (group,) = difference(stage, draft)["groups"]
    assert group["words"] == ["Turbocharger kit: version 2 of the kit instead of 1"]
    assert Revision.objects.get(number=1).lines.get(kit_revision__kit=stage.turbo).kit_revision == old


@pytest.mark.both
def test_a_sent_version_keeps_what_it_differs_in(stage: Stage) -> None:
    draft = without_towing(stage, revised(stage, stage.sent()))
    before = difference(stage, draft)
    assert difference(stage, send(stage, draft)["quote"]) == before
    with pytest.raises(IntegrityError), transaction.atomic():
        Revision.objects.filter(number=2).update(begun={})


def test_a_version_begun_before_this_was_kept_has_its_lines_in_one_group(stage: Stage) -> None:
    draft = without_towing(stage, revised(stage, stage.sent()))
    Revision.objects.filter(number=2).update(begun={})
    (group,) = difference(stage, draft)["groups"]
    assert (group["cause"], group["more"]) == ("all", "-919.50")


def test_the_customer_reads_what_has_changed_on_the_page_and_before_it_is_sent(stage: Stage) -> None:
    sent = stage.sent()
    draft = without_towing(stage, revised(stage, sent))
    seen = html.unescape(stage.client.get(f"quotes/{draft['id']}/as-customer").content.decode())
    received = html.unescape(Phone(send(stage, draft)["link"]["url"]).html)
    day = date_only(shop_day(stage.shop, timezone.now()))
    for page in (seen, received):
        section = page.split(f"What has changed since {day}")[1].split("</section>")[0]
        assert "Total 3,207.38 → 2,287.88, −919.50" in section
        assert "<td>Towing kit</td>" in section and "not on the quote" in section


def test_the_first_version_says_nothing_of_changes(stage: Stage) -> None:
    assert "What has changed" not in Phone(stage.sent()["link"]["url"]).html


def test_an_answer_to_a_replaced_page_shows_the_total_first_and_the_changes_once(stage: Stage) -> None:
    sent = stage.sent()
    phone = Phone(sent["link"]["url"])
    send(stage, without_towing(stage, revised(stage, sent)))
    page = html.unescape(phone.answer().content.decode())
    rows = page.split("What changed since you opened it")[1].split("<tbody>")[1]
    assert rows.startswith('<tr><td>Total with tax</td><td class="num">3,207.38</td>')
    assert "What has changed since" not in page


def test_the_day_of_another_year_is_said_with_its_year(stage: Stage, monkeypatch: pytest.MonkeyPatch) -> None:
    sent = stage.sent()
    draft = revised(stage, sent)
    later = timezone.now() + timedelta(days=400)
    monkeypatch.setattr(timezone, "now", lambda: later)
    day = shop_day(stage.shop, Revision.objects.get(number=1).sent_at)
    assert difference(stage, draft)["title"].endswith(f" of {day.day} {day:%b %Y}".replace("Sep ", "Sept "))


def test_the_number_of_queries_does_not_grow_with_a_kit(stage: Stage) -> None:
    def look(sent: dict[str, Any]) -> int:
        draft = revised(stage, sent)
        return queries(lambda: stage.client.get(f"quotes/{draft['id']}/difference"))

    few = look(stage.sent(stage.turbo))
    grow(stage)
    assert look(stage.sent()) <= few
