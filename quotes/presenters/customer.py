"""The frozen text as a customer reads it: dates as words, figures with separators. Used by page and paper alike."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

from quotes.calc.consents import kind_of
from quotes.presenters.sections import sections_of, totals_of
from shop.calc.rules import OPTIONAL, REQUIRED
from shop.calc.snapshot import mark
from shop.presenters.dates import day_words
from shop.presenters.vehicles import attribute_words
from shop.words import knows, say
from shop.words.figures import figure


def presented(kept: dict[str, Any], digest: str) -> dict[str, Any]:
    """The facts of the templates, all text; `digest` is that of the frozen text itself, in the form it was sent."""
    shown = kept["shown"]
    return {
        "kept": kept,
        "house": kept["shop"],
        "quote": kept["quote"],
        "customer": kept["customer"],
        "vehicle": kept["vehicle"],
        "shown": shown,
        "undecided": [_undecided(each["attribute"], kept) for each in shown["decide"]],
        "sections": sections_of(shown),
        "totals": totals_of(shown["totals"]),
        "includes_tax": kept["rules"]["prices_include_tax"],
        "tax_words": say(f"customer.{_tax_words(kept)}"),
        "gross": figure(shown["totals"]["gross"]),
        "currency": kept["shop"]["currency"],
        "good_until": day_words(date.fromisoformat(kept["quote"]["valid_day"])),
        "mark": mark(digest),
        "standing": kept["rules"]["standing"],
        "cautions": kept["rules"]["cautions"],
        "consents": _consents(kept["rules"]),
        "not_included": _not_included(kept),
        "after_work": _after_work(kept),
        "withdrawal": withdrawal_words(kept),
        "who": _who(kept["shop"]),
        "may_order": say("customer.may_order", vehicle=kept["vehicle"]["title"]),
    }


@dataclass(frozen=True, slots=True)
class TickedByHand:
    """A consent on paper: `word` says whether one has to give it, `without` what happens without it."""

    word: str
    text: str
    without: str


def _consents(rules: dict[str, Any]) -> list[TickedByHand]:
    """As a list to tick by hand: the first word says whether one has to."""
    words = {kind: say(f"customer.consent.{kind}") for kind in (REQUIRED, OPTIONAL)}
    return [
        TickedByHand(words.get(kind_of(each), words[OPTIONAL]), each["text"], each.get("without", ""))
        for each in rules["consents"]
    ]


def _not_included(kept: dict[str, Any]) -> list[str]:
    """The exclusions of the workshop's rules and the limit of extra work; empty for a quote from before both."""
    if "ceiling" not in kept["rules"]:
        return []
    ceiling = kept["rules"]["ceiling"]
    amount = f"{figure(ceiling['amount'])} {kept['shop']['currency']}"
    extra = say(f"customer.extra_work.{ceiling['kind']}", share=ceiling["share"], amount=amount)
    return [*kept["rules"]["not_included"], extra]


def _after_work(kept: dict[str, Any]) -> list[str]:
    """Sentences on the checks that the vehicle needs once it is back on the road."""
    wheels = kept["rules"].get("wheel_check")
    return [say("customer.wheel_check", distance=wheels["after"])] if wheels else []


def withdrawal_words(kept: dict[str, Any]) -> list[str]:
    """The right to withdraw as the workshop's own rules word it, with its days."""
    found = kept["rules"].get("withdrawal")
    return [*found["text"], say("customer.withdrawal_days", n=found["days"])] if found else []


def _who(house: dict[str, Any]) -> list[str]:
    """The workshop's name, address and registrations, as far as its settings have them."""
    return [house["name"], *house_words(house, "address", "phone", "email", "registration", "tax_number")]


def house_words(house: Mapping[str, Any], *names: str) -> list[str]:
    """These facts of the workshop, each in words, as far as its settings have them."""
    return [say(f"customer.who.{name}", value=house[name]) for name in names if house.get(name)]


def _undecided(attribute: str, kept: Mapping[str, Any]) -> str:
    """The sentence on an attribute that is not recorded yet, with its own words where we have them.

    In the first form of a frozen text it may decide the price; later ones ask about that with the acceptance.
    """
    if kept.get("form", 1) > 1:
        return say("customer.undecided_parts", attribute=attribute_words(attribute))
    if knows(key := f"customer.undecided_about.{attribute}"):
        return say(key)
    return say("customer.undecided_line", attribute=attribute_words(attribute))


def _tax_words(kept: dict[str, Any]) -> str:
    """Nobody says that a price holds everything while it is open what belongs to the work."""
    if not kept["rules"]["prices_include_tax"]:
        return "tax_shown"
    open_price = kept.get("form", 1) == 1 and kept["shown"]["decide"]
    return "includes_settled" if open_price else "includes"


OPENED = ("possible", "undecided", "combination", "combinations")  # of the way a text is read
NOT_OF_THE_TEXT = (*OPENED, "how", "hours", "plan", "circuits")
OWN_BUSINESS = (
    "why",
    "override",
    "first_fit",
    "fitted_before",
    "saves_hours",
    "saves_amount",
    "alone_hours",
    "key",
    "notices",
    "they_need",
)


def for_customer(kept: dict[str, Any]) -> dict[str, Any]:
    """The frozen text without what is the workshop's own business: its reasons, its notices, what a kit would save."""

    def stripped(value: Any) -> Any:
        if isinstance(value, dict):
            return {key: stripped(each) for key, each in value.items() if key not in OWN_BUSINESS}
        return [stripped(each) for each in value] if isinstance(value, list) else value

    left = {name: each for name, each in kept.items() if name not in NOT_OF_THE_TEXT}
    told = {name: kept["plan"][name] for name in ("promised", "no_date", "waits") if name in kept.get("plan", ())}
    plan = {"plan": told} if "plan" in kept else {}
    shown = stripped(kept["shown"])
    decide = [{**each, "words": _undecided(each["attribute"], kept)} for each in shown["decide"]]
    return {**left, **plan, **_prices_for_customer(kept), "shown": {**shown, "decide": decide}}


def _prices_for_customer(kept: Mapping[str, Any]) -> dict[str, Any]:
    """Every price of the text with its lines, where there are several."""
    prices = [
        {name: each[name] for name in ("stated", "words", "unfit")}
        | {name: for_customer(each["document"])[name] for name in ("shown", "inputs")}
        for each in kept.get("possible", ())
    ]
    return {"prices": prices} if prices else {}
