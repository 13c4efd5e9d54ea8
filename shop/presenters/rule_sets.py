"""Sets of price rules as answers: figures, what they do, and differences in words."""

from collections.abc import Iterable
from decimal import Decimal
from typing import Any

from msgspec.structs import asdict

from shop.answers.base import utc_or_none
from shop.answers.rule_sets import (
    RuleChangeOut,
    RuleChoiceOut,
    RuleColumnOut,
    RuleFieldOut,
    RuleSectionOut,
    RuleSetOut,
    RuleSetRowOut,
    RuleSetState,
)
from shop.calc.rule_changes import RuleChange, difference
from shop.calc.rule_fields import FIELDS, SECTIONS, RuleField, texts
from shop.models import RuleSet, Shop
from shop.queries.rule_sets import InForce
from shop.words import say
from shop.words.figures import figure

FEW = 3  # changes named in the list of sets
NUMBERS = ("money", "cost", "factor", "number", "whole")
COUNTED = ("days", "months", "years")
MEASURED = ("percent", "hours", "litres")


def rule_set_row(row: Any, shop: Shop, standing: InForce) -> RuleSetRowOut:
    """A set from `shop.access.rule_sets`, with the first few of its changes in words."""
    return RuleSetRowOut(
        id=row.pk,
        number=row.number,
        title=say("rule.set.number", number=row.number),
        valid_from=row.valid_from,
        state=_state(row, standing),
        by=row.author_name,
        added_at=utc_or_none(row.added_at),
        words=_words(row, shop.exponent),
    )


def rule_set_answer(row: Any, shop: Shop, standing: InForce) -> RuleSetOut:
    """A set with all its figures."""
    changes = () if row.before_rules is None else difference(row.before_rules, row.rules, shop.exponent)
    return RuleSetOut(
        **asdict(rule_set_row(row, shop, standing)),
        sections=_sections(row, shop.exponent),
        changes=change_answers(changes),
        before=row.before_id,
    )


def _state(row: RuleSet, standing: InForce) -> RuleSetState:
    if standing.today is not None and row.pk == standing.today.pk:
        return "in_force"
    return "later" if row.pk in standing.later else "replaced"


def _words(row: Any, exponent: int) -> list[str]:
    if row.before_rules is None:
        return [say("rule.set.first")]
    changes = change_answers(difference(row.before_rules, row.rules, exponent))
    if not changes:
        return [say("rule.set.same")]
    rest = len(changes) - FEW
    return [change_words(change) for change in changes[:FEW]] + ([say("rule.set.more", n=rest)] if rest > 0 else [])


def change_words(change: RuleChangeOut) -> str:
    """'Skills, mechanical, Rate: 165.00 → 175.00'."""
    if change.before is None:
        return say("rule.set.added", what=change.title, after=change.after)
    if change.after is None:
        return say("rule.set.removed", what=change.title, before=change.before)
    return say("rule.set.changed", what=change.title, before=change.before, after=change.after)


def change_answers(changes: Iterable[RuleChange]) -> list[RuleChangeOut]:
    return [
        RuleChangeOut(
            path=change.path,
            title=_place(change),
            before=_side(change, change.before),
            after=_side(change, change.after),
        )
        for change in changes
    ]


def _place(change: RuleChange) -> str:
    title = field_title(change.path)
    if FIELDS[change.path].kind != "table":
        return title
    row = change.row or say("rule.rest")
    if not change.column:
        return say("rule.row", field=title, row=row)
    return say("rule.cell", field=title, row=row, column=column_title(change.column))


def _side(change: RuleChange, text: str | None) -> str | None:
    if text is None or (FIELDS[change.path].kind == "table" and not change.column):
        return text
    field = FIELDS[change.path]
    return shown(field.column(change.column) if change.column else field, text)


def _sections(row: RuleSet, exponent: int) -> list[RuleSectionOut]:
    typed = texts(row.rules, exponent)
    return [
        RuleSectionOut(
            code=section.code,  # type: ignore[arg-type]
            title=say(f"rule.section.{section.code}"),
            words=say(f"rule.about.{section.code}"),
            fields=[_field(field, typed[field.path]) for field in section.fields],
        )
        for section in SECTIONS
    ]


def _field(field: RuleField, typed: Any) -> RuleFieldOut:
    table = field.kind == "table"
    return RuleFieldOut(
        path=field.path,
        title=field_title(field.path),
        words=say(f"rule.does.{field.path}"),
        kind=field.kind,
        value="" if table else typed,
        shown="" if table else shown(field, typed),
        choices=_choices(field),
        columns=[
            RuleColumnOut(name=column.path, title=column_title(column.path), kind=column.kind, choices=_choices(column))
            for column in field.columns
        ],
        rows=[dict(row) for row in typed] if table else [],
    )


def _choices(field: RuleField) -> list[RuleChoiceOut]:
    values = ("yes", "no") if field.kind == "flag" else field.choices
    return [RuleChoiceOut(value=value, title=_choice(value)) for value in values]


def _choice(value: str) -> str:
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
        return _choice(text)
    if not text:
        return say("rule.empty")
    if field.kind in MEASURED:
        return say(f"rule.shown.{field.kind}", n=figure(text))
    if field.kind in COUNTED:
        return say(f"rule.shown.{field.kind}", n=Decimal(text))
    return figure(text) if field.kind in NUMBERS else text
