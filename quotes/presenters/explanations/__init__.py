"""How every figure of a quote was worked out: the rule in plain words, and the numbers of the line.

Nothing is worked out again: the figures are those that priced the quote. No cost is in it (see the margin).
"""

from collections.abc import Iterator, Mapping, Sequence
from typing import Any, NamedTuple

from quotes.answers.figures import ShownOut
from quotes.answers.how import HowOut
from quotes.calc.kept_explanations import unpack_explanations
from quotes.presenters.explanations import kits, labour, needs, saved, sums
from quotes.presenters.explanations.words import explained
from quotes.presenters.figures import kept_figures
from quotes.queries.pricing import Figures
from shop.answers.base import from_kept
from shop.answers.explained import HowStepOut
from shop.errors import field_error
from shop.words import say
from shop.words.figures import figure


def explanations(found: Figures) -> list[HowOut]:
    """One of every figure, in the order of the quote."""
    return list(_all(found))


def kept_explanations(kept: Mapping[str, Any]) -> list[HowOut]:
    """From a frozen text, in whatever form it was kept: nobody else reads its `how`.

    A revision sent before they were kept has the general rule and the short reasons.
    """
    if "how" in kept:
        return [from_kept(each, HowOut) for each in unpack_explanations(kept["how"])]
    return [_in_general(each) for each in _keyed(kept_figures(kept))]


def hours_explained(found: Figures) -> list[HowOut]:
    """The hours of every operation, for who does the work: without any price."""
    return list(labour.work(found.loaded.input, found.priced))


def one_of(known: Sequence[HowOut], key: str) -> HowOut:
    """The explanation of that figure; refused with one key of each kind where there is none."""
    found = next((each for each in known if each.key == key), None)
    if found is None:
        kinds = {each.key.partition(":")[:2]: each.key for each in reversed(known)}
        raise field_error("/key", "no_such_figure_known", key=key, known=", ".join(reversed(kinds.values())))
    return found


class ShownFigure(NamedTuple):
    """A figure of a shown quote, with its short reasons."""

    key: str
    title: str
    result: str
    why: Sequence[str] = ()


def _in_general(line: ShownFigure) -> HowOut:
    kind = line.key.partition(":")[0]
    rule = [say(f"how.rule.{_GENERAL[kind]}"), say("how.not_kept")]
    steps = [HowStepOut(why, "") for why in line.why]
    return explained(line.key, line.title, rule, steps, figure(line.result))


def _all(found: Figures) -> Iterator[HowOut]:
    given, priced = found.loaded.input, found.priced
    yield from kits.kits(given, priced)
    yield from saved.taken_off(given, priced, {each.line: each for each in found.saved})
    yield labour.whole(given, priced)
    yield from labour.operations(given, priced)
    yield from needs.needs(given, priced.needs)
    yield from kits.outside(given, priced)
    yield from kits.extras(given, priced)
    yield from sums.fees(given, priced)
    yield from sums.supplies(given, priced)
    yield from sums.discount(given, priced)
    yield from sums.taxes(given, priced)
    yield sums.total(given, priced)


_GENERAL = {
    "kit": "kit_any",
    "saves": "saving",
    "labour": "gathered",
    "need": "pooled",
    "extra": "times",
    "fee": "fee",
    "supplies": "supplies",
    "tax": "tax_any",
    "total": "total_any",
}


def _keyed(shown: ShownOut) -> Iterator[ShownFigure]:
    """Every figure of a shown quote."""
    yield from (ShownFigure(kit.key, kit.title, kit.price, kit.why) for kit in shown.kits)
    yield from (ShownFigure(need.key, need.title, need.price, need.why) for need in shown.needs)
    yield from (ShownFigure(fee.key, fee.title, fee.price, fee.why) for fee in shown.fees)
    yield from (ShownFigure(work.key, work.title, work.price, work.why) for work in shown.labour.operations)
    for kit in shown.kits:
        yield ShownFigure(f"saves:{kit.line}", say("how.title.saves", title=kit.title), kit.saves_amount)
    yield ShownFigure("labour", say("how.title.labour"), shown.labour.amount, shown.labour.why)
    for extra in shown.extras:
        yield ShownFigure(f"extra:{extra.line}", extra.title, extra.price)
    for tax in shown.totals.taxes:
        yield ShownFigure(f"tax:{tax.code}", say("how.title.tax", title=tax.title, rate=tax.rate), tax.amount)
    yield ShownFigure("total", say("how.title.total"), shown.totals.gross)
