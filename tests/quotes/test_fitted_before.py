"""The first fit of a kit costs more hours, unless the workshop says that it has fitted it before."""

from typing import Any

import pytest

from shop.models import History, RuleSet
from tests.kit_form import change_kit
from tests.quotes.stage import RULES, Stage

pytestmark = pytest.mark.once


@pytest.fixture
def quote(stage: Stage) -> Any:
    """The turbocharger kit, 6.4 h; the first time 1.5 times as long."""
    RuleSet.objects.update(rules=RULES | {"first_fit_factor": "1.5"})
    return stage.quote(stage.turbo).json()


def change(stage: Stage, quote: dict[str, Any], **changes: Any) -> Any:
    path = f"quotes/{quote['id']}/lines/{quote['kits'][0]['line']}"
    return stage.client.patch(path, changes, seen=f'"{quote["version"]}"')


def first_fit(quote: dict[str, Any]) -> tuple[Any, ...]:
    (kit,) = quote["kits"]
    return kit["first_fit"], kit["fitted_before"], quote["labour"]["hours"]


def test_it_is_stated_on_the_quote_and_taken_back(stage: Stage, quote: dict[str, Any]) -> None:
    assert first_fit(quote) == ("1.5", False, "9.9")  # 2.3 + 3.1 (3.6 less 0.5 shared) + 4.5
    stated = change(stage, quote, fitted_before=True).json()
    assert first_fit(stated) == (None, True, "6.4")
    assert History.objects.get(verb="line changed").changes == {"fitted_before": ["False", "True"]}
    assert first_fit(change(stage, stated, fitted_before=False).json()) == ("1.5", False, "9.9")


def test_it_is_stated_with_the_kit_for_every_quote(stage: Stage, quote: dict[str, Any]) -> None:
    answer = change_kit(stage.client, stage.turbo.pk, fitted_before=12)
    assert (answer.status_code, answer.json()["fitted_before"]) == (200, 12)
    assert first_fit(stage.client.get(f"quotes/{quote['id']}").json()) == (None, False, "6.4")
    assert first_fit(stage.quote(stage.turbo).json()) == (None, False, "6.4")
    change_kit(stage.client, stage.turbo.pk, fitted_before=0)
    assert first_fit(stage.quote(stage.turbo).json()) == ("1.5", False, "9.9")


def test_of_a_kit_nothing_else_changes_and_nothing_else_is_fitted(stage: Stage, quote: dict[str, Any]) -> None:
    assert change(stage, quote, fitted_before=True, title="Mine").json()["type"] == "/problems/kit-line-fixed"
    line = {"kind": "text", "title": "Polish", "unit_price": "40", "tax_class": "part"}
    with_line = stage.client.post(f"quotes/{quote['id']}/lines", line).json()
    path = f"quotes/{quote['id']}/lines/{with_line['extras'][0]['line']}"
    answer = stage.client.patch(path, {"fitted_before": True}, seen=f'"{with_line["version"]}"')
    assert (answer.status_code, answer.json()["errors"][0]["pointer"]) == (400, "/fitted_before")


def test_the_next_version_begins_with_it(stage: Stage, quote: dict[str, Any]) -> None:
    stated = change(stage, quote, fitted_before=True).json()
    stage.client.post(f"quotes/{quote['id']}/send", {"version": stated["version"], "recipient": "Maren"})
    assert first_fit(stage.client.post(f"quotes/{quote['id']}/revise").json()) == (None, True, "6.4")
