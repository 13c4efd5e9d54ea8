"""Every change of a draft can be undone and made again, by anybody at the counter and after a reload."""

import random
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from quotes.models import DraftStep, OutsideWork, Override, Quote, Revision
from quotes.queries.draft_state import DERIVED, OF_QUOTE, OF_REVISION, state_of
from quotes.services.draft_steps import KEPT
from shop.models import History
from tests.factories import OfferFactory, PartFactory
from tests.quotes.stage import Stage
from tests.quotes.test_newer_rules import enact
from tests.quotes.test_query_counts import grow, queries

pytestmark = pytest.mark.once

Made = dict[str, Any]
OUTSIDE = {"title": "Calibration", "firm": "Lathe & Lambda", "cost": "480.00", "tax_class": "labour", "days": 3}


def press(stage: Stage, quote: Made, button: str = "undo") -> Any:
    return stage.client.post(f"quotes/{quote['id']}/{button}", {"version": quote["version"]})


def state(quote: Made) -> Any:
    return state_of(Revision.objects.select_related("quote", "shop").get(quote=quote["id"]))


def seen(quote: Made) -> str:
    return f'"{quote["version"]}"'


def removed(stage: Stage, quote: Made, line: str) -> Made:
    answer: Made = stage.client.delete(f"quotes/{quote['id']}/lines/{line}", seen=seen(quote)).json()
    return answer


def test_a_new_draft_has_nothing_to_undo(stage: Stage) -> None:
    quote = stage.quote().json()
    assert (quote["undo"], quote["redo"]) == (None, None)
    for button in ("undo", "redo"):
        refused = press(stage, quote, button)
        assert (refused.status_code, refused.json()["type"]) == (409, f"/problems/nothing-to-{button}")


def test_a_removed_kit_comes_back_with_its_own_price_and_its_place(stage: Stage) -> None:
    quote = stage.quote().json()
    key = quote["kits"][0]["key"]
    own = {"value": "900.00", "because": "A friend"}
    priced = stage.client.put(f"quotes/{quote['id']}/overrides/{key}", own, seen=seen(quote)).json()
    less = removed(stage, priced, priced["kits"][0]["line"])
    assert less["undo"] == {"words": "Turbocharger kit removed"} and not Override.objects.exists()
    back = press(stage, less).json()
    assert back["kits"] == priced["kits"] and back["totals"] == priced["totals"]
    assert (back["version"], back["undo"], back["redo"]) == (
        less["version"] + 1,
        {"words": "Own figure for Turbocharger kit"},
        {"words": "Turbocharger kit removed"},
    )
    assert press(stage, back, "redo").json()["kits"] == less["kits"]


def test_it_survives_a_reload_and_is_told_to_whoever_opens_the_draft(stage: Stage) -> None:
    quote = stage.quote().json()
    stage.client.patch(f"quotes/{quote['id']}", {"note": "Rings on Monday"}, seen=seen(quote))
    reread = stage.cast.signed_in("manager").get(f"quotes/{quote['id']}").json()
    assert reread["undo"] == {"words": "Note changed"}
    assert press(stage, reread).json()["note"] == ""


def test_customer_and_vehicle_go_and_come_back_together(stage: Stage) -> None:
    bare = stage.client.post("quotes", {"kits": [str(stage.turbo.pk)]}).json()
    with_both = stage.client.patch(f"quotes/{bare['id']}", {"vehicle": str(stage.vehicle.pk)}, seen=seen(bare)).json()
    assert with_both["customer"]["name"] == "Maren Oldacre" and with_both["undo"] == {"words": "Vehicle changed"}
    without = press(stage, with_both).json()
    assert (without["customer"], without["vehicle"]) == (None, None)
    assert press(stage, without, "redo").json()["customer"] == with_both["customer"]


def test_price_rules_go_back_to_those_before(stage: Stage) -> None:
    quote = stage.quote().json()
    enact(stage)
    dearer = stage.client.patch(f"quotes/{quote['id']}", {"rules": 2}, seen=seen(quote)).json()
    back = press(stage, dearer).json()
    assert (back["rules"]["number"], back["totals"]["gross"]) == (1, quote["totals"]["gross"])


def test_outside_work_is_found_again_once_it_is_back(stage: Stage) -> None:
    quote = stage.quote().json()
    added = stage.client.post(f"quotes/{quote['id']}/outside", OUTSIDE).json()
    less = removed(stage, added, added["outside"][0]["line"])
    assert stage.client.get("find", {"q": "calibration"}).json()["items"] == []
    back = press(stage, less).json()
    assert back["outside"] == added["outside"] and OutsideWork.objects.count() == 1
    (work,) = stage.client.get("find", {"q": "calibration"}).json()["items"]
    assert work["kind"] == "outside"


def test_a_new_change_takes_the_place_of_what_was_undone(stage: Stage) -> None:
    quote = stage.quote().json()
    undone = press(stage, removed(stage, quote, quote["kits"][0]["line"])).json()
    other = stage.client.patch(f"quotes/{quote['id']}", {"note": "Other"}, seen=seen(undone)).json()
    assert other["redo"] is None and other["undo"] == {"words": "Note changed"}


def test_a_draft_that_somebody_changed_in_the_meantime_is_not_undone(stage: Stage) -> None:
    quote = stage.quote().json()
    changed = stage.client.patch(f"quotes/{quote['id']}", {"note": "One"}, seen=seen(quote)).json()
    stage.client.patch(f"quotes/{quote['id']}", {"note": "Two"}, seen=seen(changed))
    refused = press(stage, changed)
    assert (refused.status_code, refused.json()["type"]) == (412, "/problems/changed-meanwhile")
    assert Quote.objects.get(pk=quote["id"]).note == "Two"


def test_the_last_fifty_are_kept(stage: Stage) -> None:
    quote = stage.quote(stage.towing).json()
    revision = Revision.objects.get(quote=quote["id"])
    DraftStep.objects.bulk_create(
        DraftStep(shop=stage.shop, revision=revision, number=number, verb="changed", state={})
        for number in range(1, KEPT + 1)
    )
    stage.client.patch(f"quotes/{quote['id']}", {"note": "One more"}, seen=seen(quote))
    numbers = DraftStep.objects.order_by("number").values_list("number", flat=True)
    assert [*numbers] == [*range(2, KEPT + 2)]


def test_a_sent_version_has_no_steps(stage: Stage) -> None:
    quote = stage.quote().json()
    changed = stage.client.patch(f"quotes/{quote['id']}", {"note": "One"}, seen=seen(quote)).json()
    body = {"version": changed["version"], "recipient": "x"}
    sent = stage.client.post(f"quotes/{quote['id']}/send", body).json()["quote"]
    assert (sent["undo"], sent["redo"], DraftStep.objects.count()) == (None, None, 0)
    assert press(stage, sent).json()["type"] == "/problems/not-a-draft"


def test_history_says_what_was_undone(stage: Stage) -> None:
    quote = stage.quote().json()
    press(stage, removed(stage, quote, quote["kits"][0]["line"]))
    newest = History.objects.order_by("-id").first()
    assert newest is not None
    assert (newest.verb, newest.changes) == ("undone", {"line removed": ["Turbocharger kit", ""]})


KNOWN = {
    *("id", "shop_id", "quote_id", "number", "state", "version", "changed_at", "changed_by_id", "begun"),
    *("sent_at", "valid_until", "net", "tax", "gross", "gross_high", "snapshot", "digest", "bought", "pdf_sha256"),
    *("paper_id", "combination", "agreed"),
}


def test_every_column_of_a_draft_is_chosen_by_a_person_or_known_not_to_be() -> None:
    columns = {field.attname for field in Revision._meta.concrete_fields}
    assert columns - KNOWN == set(OF_REVISION)
    assert set(OF_QUOTE) <= {field.attname for field in Quote._meta.concrete_fields}
    assert {"shop", "revision", "amount"} == DERIVED


class Clerk:
    """Somebody who makes any change of a draft that is possible at the moment."""

    def __init__(self, stage: Stage, dice: random.Random) -> None:
        self.stage, self.dice = stage, dice
        self.quote: Made = stage.quote().json()
        self.path = f"quotes/{self.quote['id']}"
        self.part = PartFactory(shop=stage.shop, title="Boost gauge")
        OfferFactory(shop=stage.shop, part=self.part)

    def change(self) -> None:
        acts = [self.add_kit, self.add_part, self.write, self.note, self.discount, self.choice, self.away]
        if self.quote["kits"]:
            acts += [self.remove, self.price]
        act = self.dice.choice(acts)
        answer = act()
        assert answer.status_code in (200, 201), (act.__name__, answer.content)
        self.quote = answer.json()

    def lines(self, **line: Any) -> Any:
        return self.stage.client.post(f"{self.path}/lines", line)

    def add_kit(self) -> Any:
        return self.lines(kind="kit", kit=str(self.stage.towing.pk))

    def add_part(self) -> Any:
        return self.lines(kind="part", part=str(self.part.pk), quantity="2")

    def write(self) -> Any:
        return self.lines(kind="text", title=f"Polish {self.dice.random()}", unit_price="40.00", tax_class="part")

    def note(self) -> Any:
        return self.stage.client.patch(self.path, {"note": str(self.dice.random())}, seen=seen(self.quote))

    def discount(self) -> Any:
        terms = {"percent": str(self.dice.randint(1, 9)), "because": "Second job"}
        return self.stage.client.put(f"{self.path}/discount", terms, seen=seen(self.quote))

    def choice(self) -> Any:
        lines = [kit["line"] for kit in self.quote["kits"][:1]]
        options = [{"title": "With", "lines": lines}, {"title": "Without"}]
        return self.stage.client.post(f"{self.path}/choices", {"title": "Take", "take": "any", "options": options})

    def away(self) -> Any:
        return self.stage.client.post(f"{self.path}/outside", OUTSIDE)

    def remove(self) -> Any:
        line = self.dice.choice(self.quote["kits"])["line"]
        return self.stage.client.delete(f"{self.path}/lines/{line}", seen=seen(self.quote))

    def price(self) -> Any:
        key = self.dice.choice(self.quote["kits"])["key"]
        own = {"value": f"{self.dice.randint(1, 999)}.00", "because": "A friend"}
        return self.stage.client.put(f"{self.path}/overrides/{key}", own, seen=seen(self.quote))


@given(st.integers(0, 10**6), st.integers(1, 6))
@settings(max_examples=6, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_any_changes_undone_lead_to_the_beginning_and_made_again_to_the_end(stage: Stage, seed: int, n: int) -> None:
    clerk = Clerk(stage, random.Random(seed))
    states = [state(clerk.quote)]
    for _ in range(n):
        clerk.change()
        states.append(state(clerk.quote))
    for before in reversed(states[:-1]):
        clerk.quote = press(stage, clerk.quote).json()
        assert state(clerk.quote) == before
    assert press(stage, clerk.quote).status_code == 409
    for after in states[1:]:
        clerk.quote = press(stage, clerk.quote, "redo").json()
        assert state(clerk.quote) == after
    assert press(stage, clerk.quote, "redo").status_code == 409


def test_the_number_of_queries_does_not_grow_with_a_kit(stage: Stage) -> None:
    def undoing(quote: Made) -> int:
        less = removed(stage, quote, quote["kits"][0]["line"])
        return queries(lambda: press(stage, less))

    few = undoing(stage.quote(stage.turbo).json())
    grow(stage)
    assert undoing(stage.quote(stage.towing).json()) <= few
