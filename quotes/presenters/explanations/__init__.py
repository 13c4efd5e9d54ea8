"""How every figure of a quote was worked out: the rule in plain words, and the numbers of the line.

Nothing is worked out again: the figures are those that priced the quote. No cost is in it (see the margin).
"""

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from quotes.calc.kept_explanations import as_told
from quotes.presenters.explanations import kits, labour, needs, saved, sums
from quotes.presenters.explanations.words import Explained, explained
from quotes.queries.pricing import Figures
from shop.api.problems import field_problem
from shop.calc.quantity import figure
from shop.words import say


def explanations(found: Figures) -> list[Explained]:
    """{key, title, rule, steps: {words, figure}, result} of every figure, in the order of the quote."""
    return list(_all(found))


def kept_explanations(kept: Mapping[str, Any]) -> list[Explained]:
    """From a frozen text, in whatever form it was kept: nobody else reads its `how`.

    A revision sent before they were kept has the general rule and the short reasons.
    """
    if "how" in kept:
        return as_told(kept["how"])
    return [_in_general(each) for each in _keyed(kept["shown"])]


def hours_explained(found: Figures) -> list[Explained]:
    """The hours of every operation, for who does the work: without any price."""
    return list(labour.work(found.loaded.input, found.priced))


def one_of(known: Sequence[Explained], key: str) -> Explained:
    """The explanation of that figure; refused with one key of each kind where there is none."""
    found = next((each for each in known if each["key"] == key), None)
    if found is None:
        kinds = {each["key"].partition(":")[:2]: each["key"] for each in reversed(known)}
        raise field_problem("/key", "no_such_figure_known", key=key, known=", ".join(reversed(kinds.values())))
    return found


def _in_general(line: Mapping[str, Any]) -> Explained:
    kind = line["key"].partition(":")[0]
    rule = [say(f"how.rule.{_GENERAL[kind]}"), say("how.not_kept")]
    steps = [{"words": why, "figure": ""} for why in line.get("why", [])]
    return explained(line["key"], line["title"], rule, steps, figure(line["result"]))


def _all(found: Figures) -> Iterator[Explained]:
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


def _keyed(shown: Mapping[str, Any]) -> Iterator[dict[str, Any]]:
    """Every figure of a shown quote with its key, title, short reasons and what it comes to."""
    for each in (*shown["kits"], *shown["needs"], *shown["fees"], *shown["labour"]["operations"]):
        yield {**each, "result": each["price"]}
    for each in shown["kits"]:
        title = say("how.title.saves", title=each["title"])
        yield {"key": f"saves:{each['line']}", "title": title, "result": each["saves_amount"]}
    yield {**shown["labour"], "key": "labour", "title": say("how.title.labour"), "result": shown["labour"]["amount"]}
    for each in shown["extras"]:
        yield {"key": f"extra:{each['line']}", "title": each["title"], "result": each["price"]}
    for each in shown["totals"]["taxes"]:
        title = say("how.title.tax", title=each["title"], rate=each["rate"])
        yield {"key": f"tax:{each['code']}", "title": title, "result": each["amount"]}
    yield {"key": "total", "title": say("how.title.total"), "result": shown["totals"]["gross"]}
