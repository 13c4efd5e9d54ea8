"""Prices one quote by the rules in force and by a change of them that somebody is writing."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from quotes.answers.newer_rules import ComparedFigureOut, RulesExampleOut
from quotes.models import Revision
from quotes.presenters.examples import Example
from quotes.presenters.margin import draft_margin, rate_words
from quotes.presenters.newer_rules import Said, compared_lines, total_words
from quotes.presenters.undecided import between, hours_between
from quotes.queries.pricing import QuoteFigures, figures, shop_day
from shop.calc.errors import CalculationError
from shop.calc.quantity import money
from shop.calc.rule_changes import RuleChange
from shop.models import RuleSet, Shop
from shop.presenters.dates import date_only
from shop.presenters.errors import calculation_words
from shop.presenters.rule_sets import change_answers
from shop.words import say
from shop.words.figures import figure


@dataclass(frozen=True, slots=True)
class TwoSets:
    """The rules in force on a day, the rules that would follow them, and their differences."""

    now: RuleSet
    then: RuleSet
    changes: Sequence[RuleChange]


def rules_example(example: Example, sets: TwoSets, now: datetime) -> RulesExampleOut:
    """The example priced by both sets."""
    revision, choices = example
    changes = change_answers(sets.changes)
    if revision is None:
        return RulesExampleOut(None, say("rules_example.none"), None, [], [], changes, choices)
    stops, rows, lines = None, [], []
    try:
        current, then = figures(revision, now, sets.now), figures(revision, now, sets.then)
        rows = compared_prices(current, then, revision.shop)
        lines = list(compared_lines(current, then))
    except CalculationError as refused:
        stops = calculation_words(refused)
    words = _words(revision, sets, now)
    return RulesExampleOut(revision.quote_id, words, stops, rows, lines, changes, choices)


def _words(revision: Revision, sets: TwoSets, now: datetime) -> str:
    day = date_only(sets.then.valid_from, shop_day(revision.shop, now))
    key = "begun" if revision.state == Revision.State.DRAFT else "sent"
    return say(
        f"rules_example.{key}" if sets.changes else "rules_example.unchanged", quote=str(revision.quote), day=day
    )


def _said(priced: QuoteFigures, shop: Shop) -> Said:
    """Hours, total and margin in words, in the order of the screen. Several prices are a range."""
    lowest, highest = priced.priced.totals, priced.dearest.priced.totals
    hours = [price.priced.hours for price in priced.possible if not price.unfit] or [priced.priced.hours]
    return {
        "hours": hours_between(hours),
        "net": between(lowest.net, highest.net, lambda amount: figure(money(amount, shop.exponent))),
        "tax": between(
            lowest.gross - lowest.net, highest.gross - highest.net, lambda amount: figure(money(amount, shop.exponent))
        ),
        "total": total_words(priced, shop.exponent),
        "margin": rate_words(draft_margin(priced, shop)),
    }


def compared_prices(current: QuoteFigures, then: QuoteFigures, shop: Shop) -> list[ComparedFigureOut]:
    """Hours, net, tax, total and margin of one quote priced twice."""
    before, after = _said(current, shop), _said(then, shop)
    return [
        ComparedFigureOut(
            code=code,
            title=say(f"newer_rules.{code}"),
            now=before[code],
            then=after[code],
            moved=before[code] != after[code],
        )
        for code in before
    ]
