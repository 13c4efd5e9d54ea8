"""Compares a draft that was begun with older price rules with the rules in force today."""

from collections.abc import Iterator
from datetime import datetime

from msgspec import to_builtins
from msgspec.structs import replace

from quotes.answers.newer_rules import ComparedFigureOut, ComparedLineOut, FigureCode, RulesComparedOut
from quotes.calc.difference import difference
from quotes.models import Revision
from quotes.presenters.figures import figures_answer
from quotes.presenters.margin import draft_margin, rate_words
from quotes.presenters.promise_date import quote_promise
from quotes.presenters.undecided import between, hours_between
from quotes.queries.pricing import QuoteFigures, figures, shop_day
from shop.access import rules_on
from shop.calc.errors import CalculationError
from shop.calc.quantity import money
from shop.models import RuleSet
from shop.presenters.dates import date_only
from shop.presenters.errors import calculation_words
from shop.words import say
from shop.words.figures import figure

Said = dict[FigureCode, str | None]


def newer_rules(revision: Revision, now: datetime) -> RuleSet | None:
    """The set in force, if the draft has another; None for a sent revision, and for a change, which keeps its job's."""
    if revision.state != Revision.State.DRAFT or revision.quote.additional:
        return None
    in_force = rules_on(revision.shop, shop_day(revision.shop, now))
    return in_force if in_force is not None and in_force.pk != revision.rules_id else None


def rules_compared(revision: Revision, now: datetime) -> RulesComparedOut | None:
    """The figures that differ between the draft's rules and the newer ones; None without newer rules."""
    newer = newer_rules(revision, now)
    if newer is None:
        return None
    day = date_only(newer.valid_from, shop_day(revision.shop, now))
    compared = RulesComparedOut(newer.number, newer.valid_from, words="", stops=None, figures=[], lines=[])
    try:
        current, then = figures(revision, now), figures(revision, now, newer)
    except CalculationError as refused:
        return replace(compared, words=say("newer_rules.cannot", day=day), stops=calculation_words(refused))
    before, after = _said(revision, current, now), _said(revision, then, now)
    key = "same" if before["total"] == after["total"] else "title"
    return replace(
        compared,
        words=say(f"newer_rules.{key}", day=day, now=before["total"], then=after["total"]),
        figures=list(_figures(before, after)),
        lines=list(compared_lines(current, then)),
    )


def _said(revision: Revision, priced: QuoteFigures, now: datetime) -> Said:
    """Hours, date, total and margin in words, in the order of the screen."""
    promise, _ = quote_promise(revision, priced, {}, None, now)
    hours = [price.priced.hours for price in priced.possible if not price.unfit] or [priced.priced.hours]
    return {
        "hours": hours_between(hours),
        "ready": promise.ready.words if promise else None,
        "total": total_words(priced, revision.shop.exponent),
        "margin": rate_words(draft_margin(priced, revision.shop)),
    }


def total_words(figures: QuoteFigures, e: int) -> str:
    """'5,569.56', or '5,569.56 to 7,061.71' for several prices."""
    return between(figures.priced.totals.gross, figures.highest, lambda amount: figure(money(amount, e)))


def _figures(before: Said, after: Said) -> Iterator[ComparedFigureOut]:
    """Total and margin always; hours and date if they differ."""
    for code in before:
        moved = before[code] != after[code]
        if moved or code in ("total", "margin"):
            title = say(f"newer_rules.{code}")
            yield ComparedFigureOut(code=code, title=title, now=before[code], then=after[code], moved=moved)


def compared_lines(current: QuoteFigures, then: QuoteFigures) -> Iterator[ComparedLineOut]:
    """Every line whose price differs; the total is among the figures."""
    for line in difference(to_builtins(figures_answer(current)), to_builtins(figures_answer(then))):
        if line.title:
            now, later = (figure(price) if price else None for price in (line.before, line.after))
            yield ComparedLineOut(title=line.title, now=now, then=later)
