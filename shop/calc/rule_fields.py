"""The figures of a rule set in sections, each as the text that a person types.

`SECTIONS` lists every field that `Rules` reads. Percentages are typed as 4 and stored as the rate 0.04, lists are typed
with commas, sentences one a line. A table has rows of columns; the first column names its row, unless the table is in
`WITHOUT_NAMES`.
"""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal
from functools import cache
from typing import Any, Literal

from shop.calc.errors import CalculationError
from shop.calc.quantity import at_least, plain
from shop.calc.rules import (
    BEGIN_EARLY,
    CEILING_FIGURES,
    CHARGES,
    DEPOSIT_BASES,
    MARKUP_MODES,
    OFFERS,
    OPTIONAL,
    REQUIRED,
    fee_base,
)
from shop.calc.rules_schema import rules_schema

Kind = Literal[
    "percent",
    "money",
    "cost",
    "factor",
    "number",
    "hours",
    "litres",
    "whole",
    "days",
    "months",
    "years",
    "flag",
    "choice",
    "list",
    "lines",
    "text",
    "table",
]
Row = Mapping[str, str]
Texts = Mapping[str, str | tuple[Row, ...]]

NUMBER = re.compile(r"[0-9]{1,12}(\.[0-9]{1,6})?")
WHOLE = ("whole", "days", "months", "years")
DECIMALS = {"cost": 4, "factor": 6, "number": 4, "hours": 1, "litres": 3, "percent": 4}
"""The most decimal places that each kind of figure can have. Money has those of the shop's currency."""
MAPS = {"condition_factors": ("condition", "factor"), "charges": ("family", "charge")}
"""Tables that are stored as a map, with the columns of its names and values."""
SKILL_MAPS = {"rate": "labour_rates", "cost": "labour_costs", "tax_class": "labour_classes"}
HUNDRED = Decimal(100)
WITHOUT_NAMES = ("markup.bands", "words.cautions")
PRICE_STEPS = ("", "0.05", "0.1", "1")


@dataclass(frozen=True, slots=True)
class RuleField:
    """A field by its dotted path, or a column of a table by its name."""

    path: str
    kind: Kind
    choices: tuple[str, ...] = ()
    columns: tuple["RuleField", ...] = ()

    def column(self, name: str) -> "RuleField":
        return next(column for column in self.columns if column.path == name)


@dataclass(frozen=True, slots=True)
class RuleSection:
    code: str
    fields: tuple[RuleField, ...]


def _table(path: str, *columns: RuleField) -> RuleField:
    return RuleField(path, "table", columns=columns)


SECTIONS = (
    RuleSection(
        "labour",
        (
            _table(
                "labour",
                RuleField("skill", "text"),
                RuleField("rate", "money"),
                RuleField("cost", "cost"),
                RuleField("tax_class", "text"),
            ),
            _table("condition_factors", RuleField("condition", "text"), RuleField("factor", "factor")),
            RuleField("first_fit_factor", "factor"),
            RuleField("minimum.hours", "hours"),
            RuleField("supplied_share", "percent"),
            RuleField("technicians", "whole"),
            RuleField("efficiency", "number"),
        ),
    ),
    RuleSection(
        "parts",
        (
            RuleField("markup.mode", "choice", MARKUP_MODES),
            _table("markup.bands", RuleField("up_to", "cost"), RuleField("x", "number")),
            RuleField("markup.step", "choice", PRICE_STEPS),
            RuleField("margin_floor", "percent"),
            RuleField("duty_base", "choice", ("goods", "goods_and_freight")),
            RuleField("recoverable_tax_rate", "percent"),
            RuleField("bead_waste", "factor"),
            RuleField("rate_stale_days", "days"),
        ),
    ),
    RuleSection(
        "charges",
        (
            RuleField("supplies.rate", "percent"),
            RuleField("supplies.basis", "list"),
            RuleField("supplies.cap", "money"),
            RuleField("supplies.tax_class", "text"),
            RuleField("supplies.stated", "flag"),
            RuleField("words.supplies", "lines"),
            _table("charges", RuleField("family", "text"), RuleField("charge", "choice", CHARGES)),
            _table(
                "fees",
                RuleField("code", "text"),
                RuleField("title", "text"),
                RuleField("amount", "cost"),
                RuleField("tax_class", "text"),
                RuleField("per", "text"),
                RuleField("fluid", "text"),
            ),
        ),
    ),
    RuleSection(
        "taxes",
        (
            _table(
                "taxes",
                RuleField("code", "text"),
                RuleField("title", "text"),
                RuleField("rate", "percent"),
                RuleField("classes", "list"),
                RuleField("on_top_of", "list"),
            ),
            RuleField("prices_include_tax", "flag"),
            RuleField("rounding", "choice", ("document", "line")),
        ),
    ),
    RuleSection(
        "quote",
        (
            RuleField("offer", "choice", OFFERS),
            RuleField("validity_days", "days"),
            RuleField("currency_days", "days"),
            RuleField("words.standing", "lines"),
            RuleField("words.not_included", "lines"),
            RuleField("words.bring", "lines"),
            _table("words.cautions", RuleField("text", "text"), RuleField("applies_to", "list")),
            _table(
                "words.consents",
                RuleField("code", "text"),
                RuleField("text", "text"),
                RuleField("kind", "choice", (REQUIRED, OPTIONAL, BEGIN_EARLY)),
                RuleField("without", "text"),
            ),
            RuleField("withdrawal.days", "days"),
            RuleField("words.withdrawal", "lines"),
        ),
    ),
    RuleSection(
        "money",
        (
            RuleField("deposit_share", "percent"),
            RuleField("deposit.base", "choice", DEPOSIT_BASES),
            RuleField("deposit.cover", "flag"),
            RuleField("deposit.releases", "flag"),
            RuleField("words.payment", "lines"),
            RuleField("ceiling.kind", "choice", ("none", *CEILING_FIGURES)),
            RuleField("ceiling.share", "percent"),
            RuleField("ceiling.amount", "money"),
            RuleField("ceiling.floor", "money"),
            RuleField("ceiling.cap", "money"),
            RuleField("ceiling.maximum", "money"),
        ),
    ),
    RuleSection(
        "workshop",
        (
            RuleField("coolant.drained_share", "percent"),
            RuleField("coolant.residual", "percent"),
            RuleField("coolant.target", "percent"),
            RuleField("coolant.premix", "percent"),
            RuleField("coolant.order_allowance", "percent"),
            RuleField("coolant.top_up", "litres"),
            RuleField("wheel_check", "text"),
            RuleField("words.bay", "lines"),
            RuleField("retention_years", "years"),
            RuleField("retention_months", "months"),
            RuleField("import_months", "months"),
        ),
    ),
)

FIELDS = {field.path: field for section in SECTIONS for field in section.fields}


def texts(content: Mapping[str, Any], exponent: int) -> dict[str, str | tuple[Row, ...]]:
    """{path: text, or the rows of a table} of every field of stored rules, with the default where they lack it."""
    return {
        path: tuple(_rows(field, content, exponent)) if field.kind == "table" else _single(field, content, exponent)
        for path, field in FIELDS.items()
    }


def _single(field: RuleField, content: Mapping[str, Any], exponent: int) -> str:
    value = stored(content, field.path)
    return text_of(field, defaults().get(field.path) if value is None else value, exponent)


def stored(content: Any, path: str) -> Any:
    """The value at a dotted path; None where an object on the way is missing."""
    for name in path.split("."):
        content = content.get(name) if isinstance(content, Mapping) else None
    return content


@cache
def defaults() -> dict[str, Any]:
    """{path: default} of the fields that stored rules may lack, from the schema."""
    return dict(_defaults(rules_schema(), ""))


def _defaults(schema: Mapping[str, Any], path: str) -> Iterator[tuple[str, Any]]:
    for name, below in schema.get("properties", {}).items():
        if "default" in below:
            yield f"{path}{name}", below["default"]
        yield from _defaults(below, f"{path}{name}.")


def _rows(field: RuleField, content: Mapping[str, Any], exponent: int) -> Iterator[Row]:
    for row in _stored_rows(field, content):
        yield {column.path: text_of(column, row.get(column.path), exponent) for column in field.columns}


def _stored_rows(field: RuleField, content: Mapping[str, Any]) -> Iterator[Mapping[str, Any]]:
    if field.path == "labour":
        maps = {column: content.get(name) or {} for column, name in SKILL_MAPS.items()}
        for skill in dict.fromkeys(name for values in maps.values() for name in values):
            yield {"skill": skill} | {column: values.get(skill) for column, values in maps.items()}
    elif field.path in MAPS:
        name, value = MAPS[field.path]
        for key, stored_value in (content.get(field.path) or {}).items():
            yield {name: key, value: stored_value}
    else:
        for row in stored(content, field.path) or ():
            yield {"text": row} if isinstance(row, str) else {"kind": REQUIRED, "per": "quote"} | row


def text_of(field: RuleField, value: Any, exponent: int) -> str:
    """The text of a stored value; empty for none."""
    if value is None:
        return ""
    match field.kind:
        case "percent":
            return plain(Decimal(value) * HUNDRED)
        case "money":
            return at_least(Decimal(value), exponent)
        case "cost" | "factor" | "number" | "hours" | "litres":
            return plain(Decimal(value))
        case "flag":
            return "yes" if value else "no"
        case "list":
            return ", ".join(value)
        case "lines":
            return "\n".join(value)
        case "choice" if field.path == "markup.step":
            return plain(Decimal(value))
    return str(value)


def value_of(field: RuleField, typed: str, exponent: int, place: str) -> Any:
    """The stored value of a typed text; None for an empty one. `place` names the figure in a refusal.

    Refuses `rule_number`, `rule_whole`, `rule_finer`, `rule_percent`, `rule_factor`, `rule_choice` and `rule_skill`.
    """
    typed = typed.strip()
    if field.kind == "lines":
        return [line.strip() for line in typed.splitlines() if line.strip()]
    if field.kind == "list":
        return [name.strip() for name in typed.split(",") if name.strip()]
    if not typed:
        return None
    if field.path == "skill" and not has_letter(typed):
        raise CalculationError("rule_skill", place)
    if field.kind == "text":
        return SPELLINGS.get(field.path, str)(typed)
    if field.kind == "flag":
        return _one_of(typed, ("yes", "no"), place) == "yes"
    if field.kind == "choice":
        return _one_of(typed, field.choices, place)
    if field.kind in WHOLE:
        if not (typed.isascii() and typed.isdecimal() and len(typed) < 6):
            raise CalculationError("rule_whole", place)
        return int(typed)
    return _figure(field.kind, typed, exponent, place)


def has_letter(name: str) -> bool:
    """Whether a name has a letter: without one it is a figure in the wrong column."""
    return any(character.isalpha() for character in name)


def _lower(typed: str) -> str:
    return " ".join(typed.casefold().split())


SPELLINGS = {"per": fee_base, "skill": _lower, "condition": _lower, "fluid": _lower}
"""Columns of text that name something by one spelling, as in a file of rules."""


def _one_of(typed: str, choices: tuple[str, ...], place: str) -> str:
    if typed not in choices:
        raise CalculationError("rule_choice", place)
    return typed


def _figure(kind: str, typed: str, exponent: int, place: str) -> str:
    if kind == "percent":
        typed = typed.removesuffix("%").rstrip()
    if not NUMBER.fullmatch(typed):
        raise CalculationError("rule_number", place)
    number = Decimal(typed)
    if len(plain(number).partition(".")[2]) > DECIMALS.get(kind, exponent):
        raise CalculationError("rule_finer", place)
    if kind == "percent":
        if number > HUNDRED:
            raise CalculationError("rule_percent", place)
        number /= HUNDRED
    if kind == "factor" and number < 1:
        raise CalculationError("rule_factor", place)
    return plain(number)
