"""Figures of the price rules as they are typed, a part of a rule set, and the difference between two sets."""

import copy
import json
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

import pytest
from django.conf import settings

from shop.calc.errors import CalculationError
from shop.calc.rule_changes import RuleChange, difference, merged, with_figures
from shop.calc.rule_fields import FIELDS, SKILL_MAPS, texts
from shop.calc.rules import Rules
from shop.calc.rules_schema import rules_schema
from tests.quotes.stage import RULES

NAMES = ("copperfell", "minimal", "saltmarsh")
PRESETS = [Path(settings.BASE_DIR) / "fixtures" / "rules" / f"{name}.json" for name in NAMES]


def preset(path: Path) -> dict[str, Any]:
    content: dict[str, Any] = json.loads(path.read_text("utf-8"))
    return content


def paths(schema: Mapping[str, Any], above: str = "") -> Iterator[str]:
    """Every field that `Rules` reads: a list or a map of names counts as one."""
    for name, below in schema["properties"].items():
        if below.get("properties") is not None and below["type"] != "array":
            yield from paths(below, f"{above}{name}.")
        else:
            yield f"{above}{name}"


def test_every_field_that_is_read_is_in_one_section() -> None:
    typed_texts = [path for path in FIELDS if path != "labour"] + [*SKILL_MAPS.values()]
    assert sorted(typed_texts) == sorted(paths(rules_schema()))
    columns = {path: {column.path for column in field.columns} for path, field in FIELDS.items() if field.columns}
    properties = rules_schema()["properties"]
    assert columns["fees"] == set(properties["fees"]["items"]["properties"])
    assert columns["taxes"] == set(properties["taxes"]["items"]["properties"])
    assert columns["markup.bands"] == set(properties["markup"]["properties"]["bands"]["items"]["properties"])
    words = properties["words"]["properties"]
    assert columns["words.cautions"] == set(words["cautions"]["items"]["properties"])
    assert columns["words.consents"] == set(words["consents"]["items"]["properties"])


@pytest.mark.parametrize("path", PRESETS, ids=lambda path: path.stem)
def test_every_figure_typed_as_it_is_shown_changes_nothing(path: Path) -> None:
    content = preset(path)
    typed_texts = texts(content, 2)
    figures = {name: text for name, text in typed_texts.items() if isinstance(text, str)}
    tables = {name: rows for name, rows in typed_texts.items() if not isinstance(rows, str)}
    if not content.get("supplies"):
        figures = {name: text for name, text in figures.items() if not name.startswith("supplies.")}
    typed = with_figures(content, figures, tables, 2)
    assert difference(content, typed, 2) == ()
    assert Rules.from_json(typed) == Rules.from_json(content)


def test_figures_are_read_as_a_person_types_them() -> None:
    before = copy.deepcopy(RULES)
    changed = with_figures(
        RULES,
        {"supplies.rate": "4%", "supplies.cap": " 60.00 ", "supplies.basis": "labour, fabrication", "offer": "estimate"}
        | {"words.standing": "One.\n\n Two. ", "supplies.stated": "yes", "minimum.hours": "0.5", "margin_floor": ""},
        {"labour": [{"skill": "mechanical", "rate": "170"}, {"skill": "paint", "rate": "99.50", "tax_class": "paint"}]},
        2,
    )
    assert changed["supplies"] == {
        **{"basis": ["labour", "fabrication"], "rate": "0.04", "cap": "60", "tax_class": "supplies"},
        "stated": True,
    }
    assert (changed["offer"], changed["words"]["standing"], changed["minimum"]) == (
        *("estimate", ["One.", "Two."]),
        {"hours": "0.5"},
    )
    assert changed["labour_rates"] == {"mechanical": "170", "paint": "99.5"}
    assert (changed["labour_costs"], changed["labour_classes"]) == ({}, {"paint": "paint"})
    assert "margin_floor" not in changed and before == RULES


@pytest.mark.parametrize(
    ("typed", "stored"),
    [("A Quote", "quote"), ("per litre  drained", "litre drained"), ("Gear oil", "Gear oil")],
)
def test_a_name_is_spelled_as_in_a_file(typed: str, stored: str) -> None:
    """A fee once a quote would otherwise be one of a family that no fluid belongs to, and never charged."""
    fee = {"code": "F", "title": "Waste", "amount": "2", "tax_class": "fee", "per": typed, "fluid": " Brake  Fluid"}
    (row,) = with_figures(RULES, {}, {"fees": [fee]}, 2)["fees"]
    assert (row["per"], row["fluid"]) == (stored, "brake fluid")
    labour = [{"skill": "Body Work", "rate": "90"}]
    assert with_figures(RULES, {}, {"labour": labour}, 2)["labour_rates"] == {"body work": "90"}


def test_an_emptied_figure_takes_its_object_along() -> None:
    """Without it an empty object would stand for supplies without a rate."""
    gone = with_figures(RULES, {f"supplies.{name}": "" for name in ("rate", "cap", "tax_class")}, {}, 2)
    assert gone["supplies"] == {"basis": ["labour"]}
    assert with_figures({"minimum": {"hours": "1"}}, {"minimum.hours": ""}, {}, 2) == {}


@pytest.mark.parametrize(
    ("figures", "tables", "refusal"),
    [
        ({"supplies.rate": "four"}, {}, "rule_number: supplies.rate"),
        ({"supplies.rate": "-4"}, {}, "rule_number: supplies.rate"),
        ({"supplies.cap": "60%"}, {}, "rule_number: supplies.cap"),
        ({"supplies.rate": "101"}, {}, "rule_percent: supplies.rate"),
        ({"supplies.cap": "60.005"}, {}, "rule_finer: supplies.cap"),
        ({"minimum.hours": "0.25"}, {}, "rule_finer: minimum.hours"),
        ({"first_fit_factor": "0.9"}, {}, "rule_factor: first_fit_factor"),
        ({"validity_days": "14.5"}, {}, "rule_whole: validity_days"),
        ({"offer": "guess"}, {}, "rule_choice: offer"),
        ({"offers": "guess"}, {}, "rule_unknown: offers"),
        ({"labour": "9"}, {}, "rule_unknown: labour"),
        ({}, {"offer": []}, "rule_unknown: offer"),
        ({}, {"labour": [{"skill": "paint", "rate": "x"}]}, "rule_number: labour/0/rate"),
        ({}, {"labour": [{"skill": "", "rate": "9"}]}, "rule_missing: labour/0/skill"),
        ({}, {"labour": [{"skill": "97", "rate": "9"}]}, "rule_skill: labour/0/skill"),
        ({}, {"labour": [{"skill": "a", "rate": "9"}, {"skill": "a", "rate": "8"}]}, "rule_twice: labour/1/skill"),
        ({}, {"labour": [{"skil": "paint"}]}, "rule_unknown: labour/0/skil"),
    ],
)
def test_it_refuses_at_the_figure(figures: dict[str, str], tables: dict[str, Any], refusal: str) -> None:
    with pytest.raises(CalculationError, match=f"^{refusal}$"):
        with_figures(RULES, figures, tables, 2)


def test_a_part_changes_only_what_it_names() -> None:
    part = {"labour_rates": {"mechanical": "175"}, "supplies": {"cap": None}, "taxes": []}
    changed = merged(RULES, part)
    assert changed == RULES | {
        "labour_rates": {"mechanical": "175", "electrical": "180.00"},
        "supplies": {name: value for name, value in RULES["supplies"].items() if name != "cap"},
        "taxes": [],
    }
    assert merged({}, {"a": {"b": {"c": None, "d": "1"}}}) == {"a": {"b": {"d": "1"}}}


def test_the_difference_names_rows_and_columns() -> None:
    tax = RULES["taxes"][0]
    after = RULES | {
        "labour_rates": {"mechanical": "175", "electrical": "180", "paint": "99"},
        "markup": {"mode": "floored", "bands": [{"up_to": "100", "x": "1.5"}, {"x": "1.25"}]},
        "fees": [],
        "taxes": [{**tax, "rate": "0.2"}],
        "validity_days": 21,
        "words": {**RULES["words"], "standing": ["Removed parts are yours.", "We test-drive."]},
    }
    assert difference(RULES, after, 2) == (
        RuleChange("labour", "mechanical", "rate", "165.00", "175.00"),
        RuleChange("labour", "paint", "", None, "99.00"),
        RuleChange("markup.mode", "", "", "graduated", "floored"),
        RuleChange("markup.bands", "", "x", "1.2", "1.25"),
        RuleChange("fees", "oil", "", "Used oil, 0.8, fee, engine oil", None),
        RuleChange("validity_days", "", "", "14", "21"),
        RuleChange("words.standing", "", "", None, "We test-drive."),
    )


def test_two_rows_of_one_name_and_a_new_order_are_differences() -> None:
    twice = {"markup": {"mode": "graduated", "bands": [{"up_to": "9", "x": "2"}, {"up_to": "9", "x": "3"}]}}
    once = {"markup": {"mode": "graduated", "bands": [{"up_to": "9", "x": "2"}]}}
    assert difference(twice, once, 2) == (RuleChange("markup.bands", "9 (2)", "", "3", None),)
    turned = {"words": {"bay": ["A", "B"]}}, {"words": {"bay": ["B", "A"]}}
    assert difference(*turned, 2) == (RuleChange("words.bay", "", "", "A\nB", "B\nA"),)
