"""Figures of the price rules, and the differences of two sets, in words."""

from decimal import Decimal

from shop.calc.rule_changes import RuleChange
from shop.calc.rule_fields import FIELDS, RuleField
from shop.words import say
from shop.words.figures import figure

NUMBERS = ("money", "cost", "factor", "number", "whole")
COUNTED = ("days", "months", "years")
MEASURED = ("percent", "hours", "litres")


def change_words(change: RuleChange) -> str:
    """'Skills, mechanical, Rate: 165.00 → 175.00'."""
    title = change_title(change)
    before, after = change_side(change, change.before), change_side(change, change.after)
    if before is None:
        return say("rule.set.added", what=title, after=after)
    if after is None:
        return say("rule.set.removed", what=title, before=before)
    return say("rule.set.changed", what=title, before=before, after=after)


def change_title(change: RuleChange) -> str:
    """'Skills, mechanical, Rate'."""
    title = field_title(change.path)
    if FIELDS[change.path].kind != "table":
        return title
    row = change.row or say("rule.rest")
    if not change.column:
        return say("rule.row", field=title, row=row)
    return say("rule.cell", field=title, row=row, column=column_title(change.column))


def change_side(change: RuleChange, text: str | None) -> str | None:
    """One side of a difference as a person reads it."""
    if text is None or (FIELDS[change.path].kind == "table" and not change.column):
        return text
    field = FIELDS[change.path]
    return shown(field.column(change.column) if change.column else field, text)


def choice_title(value: str) -> str:
    """A value that is chosen and not typed."""
    if value[:1].isdigit():
        return figure(value)
    return say(f"rule.choice.{value or 'unrounded'}")


def field_title(path: str) -> str:
    return say(f"rule.title.{path}")


def column_title(name: str) -> str:
    return say(f"rule.column.{name}")


def shown(field: RuleField, text: str) -> str:
    """The text of a figure as a person reads it."""
    if field.kind in ("choice", "flag"):
        return choice_title(text)
    if not text:
        return say("rule.empty")
    if field.kind in MEASURED:
        return say(f"rule.shown.{field.kind}", n=figure(text))
    if field.kind in COUNTED:
        return say(f"rule.shown.{field.kind}", n=Decimal(text))
    return figure(text) if field.kind in NUMBERS else text
