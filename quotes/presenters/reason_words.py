"""The reasons of a quote's figures as sentences."""

from collections.abc import Iterable
from datetime import date
from decimal import Decimal
from typing import Any, cast

from kitting.calc import pouring
from quotes.answers.figures import NoticeCode, NoticeOut
from shop.calc.quantity import money, plain, unit_money
from shop.calc.reason import Facts, Reason
from shop.presenters.dates import date_only
from shop.presenters.vehicles import attribute_words
from shop.words import say
from shop.words.figures import figure, listed, number, tenths

MIXES = ("need_refill", "need_refill_water", "protects", "mix_drain_more", "mix_too_strong")


def worded(reasons: Iterable[Reason], e: int) -> list[str]:
    return [sentence for reason in reasons if (sentence := _sentence(reason, e))]


def worded_notice(reason: Reason, e: int) -> NoticeOut:
    """`about` lets a screen ask for just that fact."""
    facts = reason.named
    about = next(
        (str(facts[name]) for name in ("line", "of", "currency", "title", "item", "tax_class") if name in facts), ""
    )
    return NoticeOut(cast(NoticeCode, reason.code), about, _sentence(reason, e))


def _sentence(reason: Reason, e: int) -> str:
    facts = dict(reason.facts)
    if reason.code in ("once", "summed", "need_once"):
        count = len(facts["kits"]) if reason.code == "need_once" else facts["count"]  # type: ignore[arg-type]
        facts["how_many"] = _count_word(int(count))  # type: ignore[arg-type]
    if reason.code == "condition":
        return say("why.condition", percent=figure(raised_by(reason)))
    if reason.code == "need_per_fastener":
        return say("why.need_per_fastener", n=number(facts["count"]))  # type: ignore[arg-type]
    if reason.code in ("overridden", "runner_up", "fee_per_litre", "fee_per_litre_drained"):
        return _money_sentence(reason.code, facts, e)
    if reason.code == "discount_too_large":
        return say("why.discount_too_large", **{name: figure(money(value, e)) for name, value in facts.items()})  # type: ignore[arg-type]
    if reason.code == "landed":
        return _landed_sentence(facts)
    if reason.code in MIXES:
        facts |= _poured(facts)
    if reason.code == "packs":
        return _pack_sentence(facts)
    return say(f"why.{reason.code}", **{name: _fact(name, value) for name, value in facts.items()})


def raised_by(condition: Reason) -> str:
    """The percentage by which corroded fasteners raise the hours."""
    return plain((condition.named["factor"] - 1) * 100)  # type: ignore[operator, arg-type]


def _count_word(count: int) -> str:
    return say(f"number.{count}") if count < 10 else str(count)


def _money_sentence(code: str, facts: Facts, e: int) -> str:
    if code == "overridden":
        computed = (
            say("how.hours", n=tenths(facts["computed"]))
            if facts["unit"] == "h"
            else figure(money(facts["computed"], e))
        )
        return say("why.overridden", because=facts["because"], computed=computed)
    if code == "runner_up":
        more = facts["more"]
        key = "why.runner_up" if more else "why.runner_up_same"
        return say(key, sizes=" + ".join(map(figure, facts["sizes"])), more=figure(money(more, e)))
    litres, amount = number(facts["litres"]), figure(unit_money(facts["amount"], e))
    named = {name: facts[name] for name in ("family", "of") if name in facts}
    return say(f"why.{code}", litres=litres, amount=amount, **named)


def _landed_sentence(facts: Facts) -> str:
    if not facts["days"]:
        return say("why.landed.today", currency=facts["currency"])
    day = date_only(date.fromisoformat(facts["date"]))
    return say("why.landed", currency=facts["currency"], date=day, n=facts["days"])


def _poured(facts: Facts) -> dict[str, Decimal]:
    """A mix and its freeze point, rounded as people pour and read them."""
    if "degrees" in facts:
        return {"degrees": pouring.degrees(facts["degrees"])}
    if "litres" in facts:
        return {"litres": pouring.drained_at_least(facts["litres"])}
    fill, concentrate, water = pouring.parts(facts["fill"], facts["concentrate"])
    return {"fill": fill, "concentrate": concentrate, "water": water, "order": pouring.litres(facts["order"])}


def _pack_sentence(facts: Facts) -> str:
    sizes, unit = facts["sizes"], facts["unit"]
    words = {
        "quantity": number(facts["quantity"]),
        "unit": unit,
        "sizes": " + ".join(map(figure, sizes)),
        "left": number(facts["left"]),
    }
    if unit == "pc":
        return say("why.pieces", **words)
    return say("why.packs" if facts["left"] else "why.packs_even", **words)


def _fact(name: str, value: Any) -> str:
    if isinstance(value, Decimal):
        return number(value)
    if name == "values":
        return listed(value, choice=True)
    if isinstance(value, tuple):
        return listed(value)
    if name == "attribute":
        return attribute_words(str(value))
    if name == "of":  # a capacity
        return str(value).replace("_", " ")
    return str(value)
