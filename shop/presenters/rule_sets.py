"""Sets of price rules as answers: figures, what they do, and differences in words."""

from collections.abc import Iterable
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
from shop.calc.rule_fields import SECTIONS, RuleField, texts
from shop.models import RuleSet, Shop
from shop.queries.rule_sets import InForce
from shop.tables.rule_wording import (
    change_side,
    change_title,
    change_words,
    choice_title,
    column_title,
    field_title,
    shown,
)
from shop.words import say

FEW = 3  # changes named in the list of sets


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
    changes = difference(row.before_rules, row.rules, exponent)
    if not changes:
        return [say("rule.set.same")]
    rest = len(changes) - FEW
    return [change_words(change) for change in changes[:FEW]] + ([say("rule.set.more", n=rest)] if rest > 0 else [])


def change_answers(changes: Iterable[RuleChange]) -> list[RuleChangeOut]:
    return [
        RuleChangeOut(
            path=change.path,
            title=change_title(change),
            before=change_side(change, change.before),
            after=change_side(change, change.after),
        )
        for change in changes
    ]


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
    return [RuleChoiceOut(value=value, title=choice_title(value)) for value in values]
