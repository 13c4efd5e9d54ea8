"""Explains the quantity of a need and its packs."""

from collections.abc import Iterator, Mapping
from decimal import Decimal
from typing import Any

from quotes.answers.how import HowOut
from quotes.calc.priced import PricedNeed
from quotes.calc.quote_input import QuoteInput
from quotes.presenters.explanations.words import (
    amount_of,
    cash,
    explained,
    percent,
    put_in_place,
    sentences,
    step,
)
from quotes.presenters.reason_words import worded
from shop.answers.explained import HowStepOut
from shop.calc.money import rounded
from shop.calc.reason import Reason
from shop.words import say
from shop.words.figures import figure, listed, number

SHARES = ("share", "concentration", "target", "allowance")
ASKS = ("ask", "ask_per_fastener", "ask_bead")


def needs(quote_input: QuoteInput, priced: tuple[PricedNeed, ...]) -> Iterator[HowOut]:
    e = quote_input.exponent
    for need in priced:
        key = f"need:{need.key}"
        override = quote_input.overrides.get(key)
        computed = next((r.named["computed"] for r in need.reasons if r.code == "overridden"), need.price)
        steps = [
            *_quantity(need, quote_input.titles),
            *_packs(need, e),
            *_charge(need, computed, e),  # type: ignore[arg-type]
            *_missing(need, e),
            *put_in_place(override, cash(computed, e), cash(need.price, e)),  # type: ignore[arg-type]
        ]
        yield explained(key, need.title, sentences(*_rules(need)), steps, cash(need.price, e))


def _rules(need: PricedNeed) -> Iterator[str]:
    codes = {reason.code for reason in need.steps}
    if len(need.kits) > 1 or any(reason.code == "need_besides" for reason in need.reasons):
        yield "pooled"
    for code, rule in (("at_most", "need_once"), ("share_of_capacity", "capacity"), ("fill", "refill")):
        if code in codes:
            yield rule
    for code in ("order", "water"):
        if code in codes:
            yield f"refill_{code}"
    if need.unit != "pc":
        yield "packs"
    yield f"charge_{need.charge}"


def _quantity(need: PricedNeed, titles: Mapping[str, str]) -> Iterator[HowStepOut]:
    steps = [_step(reason, need.unit, titles) for reason in need.steps]
    yield from steps
    needed = amount_of(need.quantity, need.unit)
    if not steps or steps[-1].figure != needed:
        yield step("needed", needed)


def _step(reason: Reason, unit: str, titles: Mapping[str, str]) -> HowStepOut:
    facts = dict(reason.facts)
    quantity: Any = facts.pop("quantity", None) or facts.pop("litres", Decimal(0))
    worded = {name: _fact(name, fact, unit) for name, fact in facts.items()}
    if reason.code in ASKS:
        work = worded.get("work", "")
        worded["asks"] = (
            say("how.asks_for", kit=worded["kit"], work=titles.get(work, work)) if work else _asks(worded["kit"])
        )
    return step(reason.code, amount_of(quantity, unit), **worded)


def _asks(kit: str) -> str:
    return say("how.asks", kit=kit)


def _fact(name: str, value: Any, unit: str) -> str:
    if name in SHARES:
        return percent(value)
    if name == "each":
        return amount_of(value, unit)
    if isinstance(value, Decimal):
        return number(value)
    if isinstance(value, tuple):
        return listed(value)
    return str(value).replace("_", " ")


def _packs(need: PricedNeed, e: int) -> Iterator[HowStepOut]:
    total = sum((pack.sold.price * pack.count for pack in need.packs), Decimal(0))
    for pack in need.packs:
        price = cash(pack.sold.price, e)
        yield step("pack", cash(pack.sold.price * pack.count, e), n=pack.count, title=pack.title, each=price)
    if len(need.packs) > 1:
        yield step("packs", cash(total, e))
    if need.packs and need.left:
        yield step("left", amount_of(need.left, need.unit))
    for reason in need.reasons:
        if reason.code == "runner_up":
            sizes, more = " + ".join(map(figure, reason.named["sizes"])), reason.named["more"]  # type: ignore[arg-type]
            difference = say("how.more", figure=cash(more, e)) if more else say("how.same")  # type: ignore[arg-type]
            yield step("runner_up", difference, sizes=sizes, unit=need.unit)


def _charge(need: PricedNeed, computed: Decimal, e: int) -> Iterator[HowStepOut]:
    if need.charge == "pack" or not need.packs:
        return
    size = sum((pack.size * pack.count for pack in need.packs), Decimal(0))
    facts = {"quantity": amount_of(need.quantity, need.unit), "size": amount_of(size, need.unit)}
    yield step(f"charged_{need.charge}", cash(rounded(computed, e), e), **facts)


def _missing(need: PricedNeed, e: int) -> Iterator[HowStepOut]:
    for reason in need.reasons:
        if reason.code in ("capacity_unknown", "no_pack", "mix_drain_more", "mix_too_strong"):
            yield HowStepOut(worded([reason], e)[0], "")
