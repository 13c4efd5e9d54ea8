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


def priced(made: Draft) -> QuoteFigures:
    return figures(access.current(Quote.objects.get(pk=made.now["id"])), timezone.now())


def test_the_quote_shows_what_the_workshop_proposes(stage: Stage) -> None:
    alone = stage.quote(stage.turbo).json()
    made = pads_and_towing(stage)
    assert [kit["title"] for kit in made.now["kits"]] == ["Turbocharger kit"]
    assert [each["title"] for each in made.now["extras"]] == ["Road pads"]
    assert made.now["totals"]["gross"] == alone["totals"]["gross"]
    assert made.now["labour"] == alone["labour"] and made.now["stops"] == []


def test_each_option_says_what_it_changes(stage: Stage) -> None:
    made = pads_and_towing(stage)
    told = made.options()
    both, alone = stage.quote().json(), stage.quote(stage.turbo).json()
    gross, hours = (
        Decimal(both["totals"]["gross"]) - Decimal(alone["totals"]["gross"]),
        Decimal(both["labour"]["hours"]) - Decimal(alone["labour"]["hours"]),
    )
    assert (told["Towing kit, fitted"]["gross"], told["Towing kit, fitted"]["hours"]) == (str(gross), str(hours))
    assert [told[name]["price"] for name in ("Road pads", "Fast-road pads", "Heat coating")] == [
        "included",
        "+84.00",
        "+264.00",
    ]
    assert told["Fast-road pads"]["why"] == ["no change to the date"] and told["Road pads"]["why"] == []
    assert told["Towing kit, fitted"]["why"][0] == f"{hours} h more work"


@pytest.mark.both
def test_every_selection_costs_what_a_quote_of_these_lines_costs(stage: Stage) -> None:
    """To the cent and with every line, hours that kits share included, for both gearboxes."""
    made = pads_and_towing(open_gearbox(stage))
    found = priced(made)
    assert len(found.possible) == 3 * 4 * 2 and len(found.as_proposed) == 2
    for each in found.possible:
        for alone in only(made, each.selection):
            same = next(one for one in alone.possible if one.stated == each.stated).priced
            assert (same.totals, same.document, same.hours) == (
                each.priced.totals,
                each.priced.document,
                each.priced.hours,
            )
            assert (same.needs, same.fees, same.extras) == (each.priced.needs, each.priced.fees, each.priced.extras)


def only(made: Draft, selection: Sequence[str]) -> Iterator[QuoteFigures]:
    """The figures of the draft with the lines of these options alone, and without choices."""
    try:
        with transaction.atomic():
            Line.objects.exclude(option=None).exclude(option__in=selection).delete()
            Line.objects.update(option=None)
            Choice.objects.all().delete()
            yield priced(made)
            raise PutBackError
    except PutBackError:
        pass


class PutBackError(Exception):
    pass


def test_another_option_can_be_proposed(stage: Stage) -> None:
    made = pads_and_towing(stage)
    before = Decimal(made.now["totals"]["gross"])
    assert made.patch(f"options/{made.options()['Fast-road pads']['id']}", {"preselected": True}).status_code == 200
    assert Decimal(made.now["totals"]["gross"]) == before + 84
    assert [each["preselected"] for each in made.now["choices"][0]["options"]] == [False, True, False]
    assert made.options()["Road pads"]["price"] == "−84.00"
    answer = made.patch(f"options/{made.options()['Fast-road pads']['id']}", {"preselected": False})
    assert answer.status_code == 400 and answer.json()["errors"][0]["pointer"] == "/preselected"
    made.patch(f"options/{made.options()['Heat coating']['id']}", {"preselected": True})
    assert made.options()["Heat coating"]["why"] == ["−264.00 without it", "no change to the date"]


def test_choices_and_options_are_renamed_and_moved(stage: Stage) -> None:
    made = pads_and_towing(stage)
    pads, extras = (each["id"] for each in made.now["choices"])
    made.patch(f"choices/{extras}", {"position": 1, "title": "More for your vehicle"})
    assert [each["title"] for each in made.now["choices"]] == ["More for your vehicle", "Brake pads"]
    made.patch(f"options/{made.options()['Endurance pads']['id']}", {"position": 1})
    assert [each["title"] for each in made.now["choices"][1]["options"]] == [
        "Endurance pads",
        "Road pads",
        "Fast-road pads",
    ]
    made.patch(f"choices/{pads}", {"take": "any"})
    made.patch(f"options/{made.options()['Endurance pads']['id']}", {"preselected": True})
    made.patch(f"choices/{pads}", {"take": "one"})
    assert [each["preselected"] for each in made.now["choices"][1]["options"]] == [True, False, False]


def test_what_is_removed_leaves_its_lines_on_the_quote(stage: Stage) -> None:
    made = pads_and_towing(stage)
    made.delete(f"options/{made.options()['Heat coating']['id']}")
    assert [each["title"] for each in made.now["extras"]] == ["Road pads", "Coating"]
    made.delete(f"choices/{made.now['choices'][1]['id']}")
    assert [kit["title"] for kit in made.now["kits"]] == ["Turbocharger kit", "Towing kit"]


def test_a_line_moves_into_an_option_and_out_again(stage: Stage) -> None:
    made = pads_and_towing(stage)
    turbo = next(kit["line"] for kit in made.now["kits"])
    made.patch(f"lines/{turbo}", {"option": made.options()["Heat coating"]["id"]})
    assert made.now["kits"] == [] and [each["title"] for each in made.options()["Heat coating"]["lines"]] == [
        "Turbocharger kit",
        "Coating",
    ]
    made.patch(f"lines/{turbo}", {"option": None})
    assert [kit["letter"] for kit in made.now["kits"]] == ["A"]


def test_a_choice_without_options_stops_sending(stage: Stage) -> None:
    made = draft(stage)
    pads = made.choice("Brake pads", "one")
    made.option(pads, "Road pads")
    assert made.now["stops"] == ["“Brake pads” has not enough options yet. Add one, or remove the choice."]
    assert [each["place"] for each in made.now["to_settle"]] == ["choices"]
    made.option(pads, "Fast-road pads")
    assert made.now["stops"] == []


def test_more_than_sixty_four_prices_have_to_be_split(stage: Stage) -> None:
    made = draft(stage)
    extras = made.choice("Extras", "any")
    for number in range(7):
        made.option(extras, f"Extra {number}")
    assert len(priced(made).possible) == 1 and "make 128 prices" in made.now["stops"][0]
    assert made.options()["Extra 0"]["gross"] is None and made.options()["Extra 0"]["price"] == ""
    made.delete(f"options/{made.options()['Extra 6']['id']}")
    assert len(priced(made).possible) == 64 and made.now["stops"] == []


def test_the_next_version_has_the_same_choices(stage: Stage) -> None:
    made = pads_and_towing(stage)
    sent = made.send()
    assert [option["price"] for option in sent["quote"]["choices"][0]["options"]] == ["included", "+84.00", "+148.80"]
    after = stage.client.post(f"{made.path}/revise").json()

    def told(quote: dict[str, Any]) -> Any:
        return [
            (choice["title"], choice["take"], [(o["title"], o["preselected"], o["gross"]) for o in choice["options"]])
            for choice in quote["choices"]
        ]

    assert told(after) == told(made.now) and after["totals"] == made.now["totals"]
