"""Price rules, opening hours, closed days and exchange rates as the sheets of the file that brings them back."""

from collections.abc import Iterator, Mapping
from datetime import date
from decimal import Decimal
from typing import Any
from zoneinfo import ZoneInfo

from django.utils import timezone

from shop.access import Actor, rules_on
from shop.calc.quantity import plain
from shop.calc.rule_fields import FIELDS, HUNDRED
from shop.calc.rules import BEGIN_EARLY, OPTIONAL, REQUIRED
from shop.imports.rules_tables import NAMED
from shop.models import ClosedDay, Rate, Shop
from shop.queries.calendar import WEEK, in_force, weeks_of
from shop.rule_presets import PRESETS
from shop.tables.writing import FileRow, StoredRows

CHOICES = {
    "goods_and_freight": "goods and freight",
    "percent_capped": "percent with cap",
    "banded": "percent with floor and cap",
}
"""The words of a file for values that are stored under another name."""
WORDS = {
    "standing": "standing",
    "withdrawal": "withdrawal",
    "not_included": "not included",
    "bay": "bay",
    "bring": "bring",
    "payment": "payment",
    "supplies": "supplies",
}
CONSENTS = {
    REQUIRED: "required consent",
    OPTIONAL: "optional consent",
    BEGIN_EARLY: "consent to begin within withdrawal",
}


def stored(actor: Actor) -> StoredRows:
    """The price rules in force today, the opening hours of today and later, and all closed days and exchange rates."""
    today = timezone.now().astimezone(ZoneInfo(actor.shop.zone)).date()
    current = rules_on(actor.shop, today)
    closed = ClosedDay.objects.filter(shop=actor.shop).order_by("date")
    rates = Rate.objects.filter(shop=actor.shop).order_by("currency", "valid_from")
    return {
        **(rows_of(current.rules) if current else {}),
        "calendar": list(_hours(actor.shop, today)),
        "closed days": [{"date": row.date.isoformat(), "why": row.reason} for row in closed],
        "exchange rates": [
            {"currency": row.currency, "valid_from": row.valid_from.isoformat(), "rate": row.rate} for row in rates
        ],
    }


def rows_of(rules: Mapping[str, Any]) -> StoredRows:
    """The rows of a rule set. Single rules without a value are left out."""
    return {
        "rules": list(_single(rules)),
        "labour rates": [
            {
                "skill": skill,
                "rate": Decimal(rate),
                "cost": _amount(rules.get("labour_costs", {}).get(skill)),
                "tax_class": rules.get("labour_classes", {}).get(skill),
            }
            for skill, rate in rules.get("labour_rates", {}).items()
        ],
        "bands": [
            {"up_to": _amount(band.get("up_to")), "x": Decimal(band["x"])}
            for band in rules.get("markup", {}).get("bands", ())
        ],
        "taxes": [
            {
                "code": tax["code"],
                "title": tax.get("title"),
                "rate": percent(tax["rate"]),
                "classes": "; ".join(tax["classes"]),
                "on_top_of": "; ".join(tax.get("on_top_of", ())),
            }
            for tax in rules.get("taxes", ())
        ],
        "fees": [
            {name: _amount(value) if name == "amount" else value for name, value in fee.items()}
            for fee in rules.get("fees", ())
        ],
        "words": list(_words(rules.get("words", {}))),
        "conditions": [
            {"condition": name, "factor": Decimal(factor)}
            for name, factor in rules.get("condition_factors", {}).items()
        ],
        "consumables": [{"family": name, "charge": way} for name, way in rules.get("charges", {}).items()],
    }


def percent(rate: str) -> str:
    """'20 %' of the rate 0.2."""
    return f"{plain(Decimal(rate) * HUNDRED)} %"


def _single(rules: Mapping[str, Any]) -> Iterator[FileRow]:
    """A row for each single rule under the first of its names; `valid from` is empty, which means from today on."""
    names: dict[str, str] = {}
    for name, (path, _) in NAMED.items():
        names.setdefault(path, name)
    yield {"rule": names.pop("valid_from"), "value": None}
    for path, name in names.items():
        value: Any = rules
        for part in path.split("."):
            value = value.get(part) if isinstance(value, Mapping) else None
        if value is not None and value != "":
            yield {"rule": name, "value": _written(path, value)}


def _written(path: str, value: Any) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, list):
        return "; ".join(value)
    field = FIELDS.get(path)
    return percent(value) if field and field.kind == "percent" else CHOICES.get(str(value), str(value))


def _words(words: Mapping[str, Any]) -> Iterator[FileRow]:
    for name, kind in WORDS.items():
        yield from ({"kind": kind, "text": text} for text in words.get(name, ()))
    for caution in words.get("cautions", ()):
        with_names = caution if isinstance(caution, Mapping) else {"text": caution}
        names = "; ".join(with_names.get("applies_to", ()))
        yield {"kind": "caution", "text": with_names["text"], "applies_to": names}
    for consent in words.get("consents", ()):
        kind = CONSENTS[consent.get("kind", REQUIRED)]
        yield {"kind": kind, **{name: consent.get(name, "") for name in ("code", "text", "without")}}


def _hours(shop: Shop, today: date) -> Iterator[FileRow]:
    """The hours in force, without a day, and those that begin later."""
    rows = weeks_of(shop)
    current = in_force(rows, today)
    for row in rows:
        if row is not current and row.valid_from <= today:
            continue
        valid_from = None if row is current else row.valid_from.isoformat()
        for day in WEEK:
            for opens, closes in row.week.get(day, ()):
                yield {"day": day, "opens": opens, "closes": closes, "valid_from": valid_from}


def _amount(text: str | None) -> Decimal | None:
    return Decimal(text) if text not in (None, "") else None


EXAMPLE: StoredRows = {
    **{name: rows for name, rows in rows_of(PRESETS["private"]).items() if rows},
    "fees": [
        {"code": "waste", "title": "Sorting of waste", "amount": Decimal("6.60"), "tax_class": "fee", "per": "quote"}
    ],
    "words": [
        {"kind": "standing", "text": "Parts we remove are yours. Tell us if you want them back."},
        {
            "kind": "required consent",
            "code": "terms",
            "text": "I have read the cautions and agree to the work as listed.",
        },
    ],
    "conditions": [{"condition": "light", "factor": Decimal("1.1")}],
    "calendar": [
        {"day": day, "opens": opens, "closes": closes}
        for day in WEEK[:5]
        for opens, closes in (("08:00", "12:00"), ("12:45", "17:30"))
    ],
    "closed days": [{"date": "2027-01-01", "why": "New Year"}],
    "exchange rates": [{"currency": "NOK", "valid_from": "2026-11-02", "rate": Decimal("0.0861")}],
}
"""Rows that show how a file of price rules is filled in."""
