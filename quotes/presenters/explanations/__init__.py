"""Explains every figure of a quote: the rule in plain words, and the numbers of the line.

Nothing is worked out again: the figures are those that priced the quote. No cost is in it (see the margin).
"""

from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from msgspec import to_builtins

from quotes.answers.figures import ShownOut
from quotes.answers.how import HowOut
from quotes.calc.forms import FrozenContent
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


def explanations(figures: Figures) -> list[HowOut]:
    """The explanations of all figures, in the order of the quote."""
    return list(_all(figures))


def kept_explanations(document: FrozenContent) -> list[HowOut]:
    """Reads the explanations of a frozen text, in whatever form it keeps them: nobody else reads its `how`.

    A figure sent before its explanation was kept has the general rule and the short reasons.
    """
    if "how" not in document:
        return [_in_general(figure) for figure in _keyed(kept_figures(document))]
    stored = [from_kept(explanation, HowOut) for explanation in unpack_explanations(document["how"])]
    keys = {explanation.key for explanation in stored}
    figures = _contingent(document.get("shown", {}).get("contingencies", ()))
    return [*stored, *(_in_general(figure) for figure in figures if figure.key not in keys)]


def hours_explained(figures: Figures) -> list[HowOut]:
    """The explanations of every operation's hours, without prices, for the technician."""
    return list(labour.work(figures.loaded.input, figures.priced))


def one_of(explained: Sequence[HowOut], key: str) -> HowOut:
    """The explanation of that figure; refused with one key of each kind where there is none."""
    explanation = next((candidate for candidate in explained if candidate.key == key), None)
    if explanation is None:
        kinds = {candidate.key.partition(":")[:2]: candidate.key for candidate in reversed(explained)}
        raise field_error("/key", "no_such_figure_known", key=key, known=", ".join(reversed(kinds.values())))
    return explanation


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


def _all(figures: Figures) -> Iterator[HowOut]:
    quote_input, priced = figures.loaded.input, figures.priced
    yield from kits.kits(quote_input, priced)
    yield from saved.taken_off(quote_input, priced, {saving.line: saving for saving in figures.saved})
    yield labour.whole(quote_input, priced)
    yield from labour.operations(quote_input, priced)
    yield from needs.needs(quote_input, priced.needs)
    yield from kits.outside(quote_input, priced)
    yield from kits.extras(quote_input, priced)
    yield from kits.contingencies(quote_input, priced)
    yield from sums.fees(quote_input, priced)
    yield from sums.supplies(quote_input, priced)
    yield from sums.discount(quote_input, priced)
    yield from sums.taxes(quote_input, priced)
    yield sums.total(quote_input, priced)


_GENERAL = {
    "kit": "kit_any",
    "saves": "saving",
    "labour": "gathered",
    "need": "pooled",
    "extra": "times",
    "contingency": "contingency",
    "fee": "fee",
    "minimum": "minimum",
    "supplied": "supplied",
    "supplies": "supplies",
    "tax": "tax_any",
    "total": "total_any",
}


def _keyed(content: ShownOut) -> Iterator[ShownFigure]:
    """Every figure of a shown quote."""
    yield from (ShownFigure(kit.key, kit.title, kit.price, kit.why) for kit in content.kits)
    yield from (ShownFigure(need.key, need.title, need.price, need.why) for need in content.needs)
    yield from (ShownFigure(fee.key, fee.title, fee.price, fee.why) for fee in content.fees)
    yield from (ShownFigure(work.key, work.title, work.price, work.why) for work in content.labour.operations)
    for kit in content.kits:
        yield ShownFigure(f"saves:{kit.line}", say("how.title.saves", title=kit.title), kit.saves_amount)
    yield ShownFigure("labour", say("how.title.labour"), content.labour.amount, content.labour.why)
    for extra in content.extras:
        yield ShownFigure(f"extra:{extra.line}", extra.title, extra.price)
    yield from _contingent(to_builtins(content.contingencies or ()))
    for tax in content.totals.taxes:
        yield ShownFigure(f"tax:{tax.code}", say("how.title.tax", title=tax.title, rate=tax.rate), tax.amount)
    yield ShownFigure("total", say("how.title.total"), content.totals.gross)


def _contingent(lines: Iterable[FrozenContent]) -> Iterator[ShownFigure]:
    for line in lines:
        yield ShownFigure(f"contingency:{line['line']}", line["event"], line["highest"], line["why"])
