"""A draft leaves choices to the customer; every selection is priced like a quote of its own."""

from collections.abc import Iterator, Sequence
from decimal import Decimal
from typing import Any

import pytest
from django.db import transaction
from django.utils import timezone

from quotes import access
from quotes.models import Choice, Line, Quote
from quotes.queries.pricing import QuoteFigures, figures
from tests.quotes.choosing import Draft, draft, pads_and_towing
from tests.quotes.open_gearbox import open_gearbox
from tests.quotes.stage import Stage

pytestmark = pytest.mark.once


def priced(proposal: Draft) -> QuoteFigures:
    return figures(access.current(Quote.objects.get(pk=proposal.now["id"])), timezone.now())


def test_the_quote_shows_what_the_workshop_proposes(stage: Stage) -> None:
    alone = stage.quote(stage.turbo).json()
    proposal = pads_and_towing(stage)
    assert [kit["title"] for kit in proposal.now["kits"]] == ["Turbocharger kit"]
    assert [extra["title"] for extra in proposal.now["extras"]] == ["Road pads"]
    assert proposal.now["totals"]["gross"] == alone["totals"]["gross"]
    assert proposal.now["labour"] == alone["labour"] and proposal.now["stops"] == []


def test_each_option_says_what_it_changes(stage: Stage) -> None:
    proposal = pads_and_towing(stage)
    options = proposal.options()
    both, alone = stage.quote().json(), stage.quote(stage.turbo).json()
    gross, hours = (
        Decimal(both["totals"]["gross"]) - Decimal(alone["totals"]["gross"]),
        Decimal(both["labour"]["hours"]) - Decimal(alone["labour"]["hours"]),
    )
    assert (options["Towing kit, fitted"]["gross"], options["Towing kit, fitted"]["hours"]) == (str(gross), str(hours))
    assert [options[name]["price"] for name in ("Road pads", "Fast-road pads", "Heat coating")] == [
        "included",
        "+84.00",
        "+264.00",
    ]
    assert options["Fast-road pads"]["why"] == ["no change to the date"] and options["Road pads"]["why"] == []
    assert options["Towing kit, fitted"]["why"][0] == f"{hours} h more work"


@pytest.mark.both
def test_every_selection_costs_what_a_quote_of_these_lines_costs(stage: Stage) -> None:
    """They agree to the cent and in every line, hours that kits share included, for both gearboxes."""
    proposal = pads_and_towing(open_gearbox(stage))
    priced_quote = priced(proposal)
    assert len(priced_quote.possible) == 3 * 4 * 2 and len(priced_quote.as_proposed) == 2
    for price in priced_quote.possible:
        for alone in only(proposal, price.selection):
            same = next(other for other in alone.possible if other.stated == price.stated).priced
            assert (same.totals, same.document, same.hours) == (
                price.priced.totals,
                price.priced.document,
                price.priced.hours,
            )
            assert (same.needs, same.fees, same.extras) == (price.priced.needs, price.priced.fees, price.priced.extras)


def only(proposal: Draft, selection: Sequence[str]) -> Iterator[QuoteFigures]:
    """The figures of the draft with the lines of these options alone, and without choices."""
    try:
        with transaction.atomic():
            Line.objects.exclude(option=None).exclude(option__in=selection).delete()
            Line.objects.update(option=None)
            Choice.objects.all().delete()
            yield priced(proposal)
            raise PutBackError
    except PutBackError:
        pass


class PutBackError(Exception):
    pass


def test_another_option_can_be_proposed(stage: Stage) -> None:
    proposal = pads_and_towing(stage)
    before = Decimal(proposal.now["totals"]["gross"])
    assert (
        proposal.patch(f"options/{proposal.options()['Fast-road pads']['id']}", {"preselected": True}).status_code
        == 200
    )
    assert Decimal(proposal.now["totals"]["gross"]) == before + 84
    assert [option["preselected"] for option in proposal.now["choices"][0]["options"]] == [False, True, False]
    assert proposal.options()["Road pads"]["price"] == "−84.00"
    answer = proposal.patch(f"options/{proposal.options()['Fast-road pads']['id']}", {"preselected": False})
    assert answer.status_code == 400 and answer.json()["errors"][0]["pointer"] == "/preselected"
    proposal.patch(f"options/{proposal.options()['Heat coating']['id']}", {"preselected": True})
    assert proposal.options()["Heat coating"]["why"] == ["−264.00 without it", "no change to the date"]


def test_an_unknown_field_of_an_option_is_refused(stage: Stage) -> None:
    choice = {"title": "Extras", "take": "any", "options": [{"title": "Search", "preseleted": True}]}
    answer = stage.client.post(f"quotes/{stage.quote().json()['id']}/choices", choice)
    assert (answer.status_code, answer.json()["errors"][0]["pointer"]) == (400, "/options/0/preseleted")


def test_choices_and_options_are_renamed_and_moved(stage: Stage) -> None:
    proposal = pads_and_towing(stage)
    pads, extras = (choice["id"] for choice in proposal.now["choices"])
    proposal.patch(f"choices/{extras}", {"position": 1, "title": "More for your vehicle"})
    assert [choice["title"] for choice in proposal.now["choices"]] == ["More for your vehicle", "Brake pads"]
    proposal.patch(f"options/{proposal.options()['Endurance pads']['id']}", {"position": 1})
    assert [option["title"] for option in proposal.now["choices"][1]["options"]] == [
        "Endurance pads",
        "Road pads",
        "Fast-road pads",
    ]
    proposal.patch(f"choices/{pads}", {"take": "any"})
    proposal.patch(f"options/{proposal.options()['Endurance pads']['id']}", {"preselected": True})
    proposal.patch(f"choices/{pads}", {"take": "one"})
    assert [option["preselected"] for option in proposal.now["choices"][1]["options"]] == [True, False, False]


def test_what_is_removed_leaves_its_lines_on_the_quote(stage: Stage) -> None:
    proposal = pads_and_towing(stage)
    proposal.delete(f"options/{proposal.options()['Heat coating']['id']}")
    assert [extra["title"] for extra in proposal.now["extras"]] == ["Road pads", "Coating"]
    proposal.delete(f"choices/{proposal.now['choices'][1]['id']}")
    assert [kit["title"] for kit in proposal.now["kits"]] == ["Turbocharger kit", "Towing kit"]


def test_a_line_moves_into_an_option_and_out_again(stage: Stage) -> None:
    proposal = pads_and_towing(stage)
    turbo = next(kit["line"] for kit in proposal.now["kits"])
    proposal.patch(f"lines/{turbo}", {"option": proposal.options()["Heat coating"]["id"]})
    assert proposal.now["kits"] == [] and [line["title"] for line in proposal.options()["Heat coating"]["lines"]] == [
        "Turbocharger kit",
        "Coating",
    ]
    proposal.patch(f"lines/{turbo}", {"option": None})
    assert [kit["letter"] for kit in proposal.now["kits"]] == ["A"]


def test_a_choice_without_options_stops_sending(stage: Stage) -> None:
    proposal = draft(stage)
    pads = proposal.choice("Brake pads", "one")
    proposal.option(pads, "Road pads")
    assert proposal.now["stops"] == ["“Brake pads” has not enough options yet. Add one, or remove the choice."]
    assert [point["place"] for point in proposal.now["to_settle"]] == ["choices"]
    proposal.option(pads, "Fast-road pads")
    assert proposal.now["stops"] == []
    extras = proposal.choice("Extras", "any")
    proposal.option(extras, "Heat coating", proposal.text("Coating", "264.00"))
    assert proposal.now["stops"] == []
    proposal.option(extras, "Wheel wash")
    assert [point["place"] for point in proposal.now["to_settle"]] == ["choices"]
    sent = stage.client.post(f"{proposal.path}/send", {"version": proposal.now["version"], "recipient": "x"})
    assert sent.status_code == 409 and sent.json()["detail"].startswith(
        "“Extras”: the option “Wheel wash” has no lines"
    )


def test_more_than_sixty_four_prices_have_to_be_split(stage: Stage) -> None:
    proposal = draft(stage)
    extras = proposal.choice("Extras", "any")
    for number in range(7):
        proposal.option(extras, f"Extra {number}")
    assert len(priced(proposal).possible) == 1 and "make 128 prices" in proposal.now["stops"][0]
    assert proposal.options()["Extra 0"]["gross"] is None and proposal.options()["Extra 0"]["price"] == ""
    proposal.delete(f"options/{proposal.options()['Extra 6']['id']}")
    assert len(priced(proposal).possible) == 64 and "make" not in " ".join(proposal.now["stops"])


def test_the_next_version_has_the_same_choices(stage: Stage) -> None:
    proposal = pads_and_towing(stage)
    sent = proposal.send()
    assert [option["price"] for option in sent["quote"]["choices"][0]["options"]] == ["included", "+84.00", "+148.80"]
    after = stage.client.post(f"{proposal.path}/revise").json()

    def options_of(quote: dict[str, Any]) -> Any:
        return [
            (choice["title"], choice["take"], [(o["title"], o["preselected"], o["gross"]) for o in choice["options"]])
            for choice in quote["choices"]
        ]

    assert options_of(after) == options_of(proposal.now) and after["totals"] == proposal.now["totals"]
