"""The items agreed on a job, each with the amount by which its removal reduces the total.

An item counts at its price less its share of a discount in percent; a discount of a fixed sum stays with the job.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal, localcontext
from typing import Any, Literal

from shop.calc.money import EXACT, allocate

ItemKind = Literal["kit", "labour", "need", "extra", "outside"]
_NOTHING = Decimal(0)


@dataclass(frozen=True, slots=True)
class AgreedItem:
    """An item of a frozen text. `price` is that of the text, `value` the amount by which its removal reduces the total.

    `key` is kit:LINE, labour:CODE, need:KEY, extra:LINE or outside:LINE. `kits` are the letters of the kits that it is
    for: a kit has its own letter, a loose part none. `hours` are those of an operation.
    """

    key: str
    kind: ItemKind
    title: str
    tax_class: str
    price: Decimal
    value: Decimal
    kits: frozenset[str] = frozenset()
    hours: Decimal = _NOTHING
    core: bool = False  # a core deposit, which has no share of a discount


def agreed_items(document: Mapping[str, Any]) -> tuple[AgreedItem, ...]:
    """The items of a frozen text that can be taken off: all but fees, supplies and the minimum charge."""
    items = tuple(_priced(document))
    discount = document["shown"]["discount"]
    allowances = document["inputs"]["allowances"] if discount and discount["percent"] is not None else ()
    shares = discount_shares(
        [("" if item.core else item.tax_class, item.price) for item in items],
        {allowance["tax_class"]: Decimal(allowance["amount"]) for allowance in allowances},
        document["inputs"]["exponent"],
    )
    return tuple(_valued(item, share) for item, share in zip(items, shares, strict=True))


def discount_shares(
    lines: Sequence[tuple[str, Decimal]], allowances: Mapping[str, Decimal], exponent: int
) -> tuple[Decimal, ...]:
    """Each line's share of the allowance of its tax class, by largest remainder; shares add up to the allowances."""
    shares = [_NOTHING] * len(lines)
    for tax_class, amount in allowances.items():
        places = [place for place, line in enumerate(lines) if line[0] == tax_class]
        for place, share in zip(places, allocate(amount, [lines[at][1] for at in places], exponent), strict=True):
            shares[place] = share
    return tuple(shares)


def with_own_work(items: Iterable[AgreedItem], chosen: Iterable[str], gone: Iterable[str] = ()) -> tuple[str, ...]:
    """The keys that go when `chosen` are taken off: a kit takes the work and the needs with it that no other kit has.

    `gone` are the keys that were taken off before: work that was for two kits goes with the second of them.
    """
    items, before = tuple(items), set(gone)
    chosen = set(chosen) | before
    letters = {letter for item in items if item.kind == "kit" and item.key in chosen for letter in item.kits}
    follows = {
        item.key for item in items if item.kind in ("labour", "need") and item.kits and item.kits <= letters
    } | chosen
    return tuple(item.key for item in items if item.key in follows and item.key not in before)


def _priced(document: Mapping[str, Any]) -> Iterable[AgreedItem]:
    classes = {line["id"]: line["tax_class"] for line in document["inputs"]["lines"]}
    content = document["shown"]
    for kit in content["kits"]:
        key = f"kit:{kit['line']}"
        yield _item(key, "kit", kit["title"], classes[key], kit["price"], [kit["letter"]])
    for work in content["labour"]["operations"]:
        tax_class = classes[f"labour:{work['skill']}"]
        kits = [] if work.get("lines") else work["kits"]  # labour that a person added stays without the kits
        yield _item(work["key"], "labour", work["title"], tax_class, work["price"], kits, work["hours"])
    for need in content["needs"]:
        key = f"need:{need['key'].removeprefix('need:')}"
        yield _item(key, "need", need["title"], classes[key], need["price"], need["kits"])
    for extra in content["extras"]:
        key = f"extra:{extra['line']}"
        item = _item(key, "extra", extra["title"], classes[key], extra["price"])
        yield replace(item, core=bool(extra.get("core")))
    for work in content["outside"]:
        key = f"outside:{work['line']}"
        yield _item(key, "outside", work["title"], classes[key], work["price"])


def _item(
    key: str, kind: ItemKind, title: str, tax_class: str, price: str, kits: Iterable[str] = (), hours: str = "0"
) -> AgreedItem:
    amount = Decimal(price)
    return AgreedItem(key, kind, title, tax_class, amount, amount, frozenset(kits), Decimal(hours))


def _valued(item: AgreedItem, share: Decimal) -> AgreedItem:
    with localcontext(EXACT):
        value = item.price - share
    return replace(item, value=value)
