"""The frozen text as a customer reads it: dates in words, figures with separators. Page and paper both use it."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any, Literal

from quotes.calc.consents import kind_of
from quotes.calc.forms import FrozenContent
from quotes.calc.frozen_parts import FrozenCustomer, FrozenHouse, FrozenQuote, FrozenVehicle
from quotes.calc.job_ceiling import job_ceiling
from quotes.presenters.change_text import ChangeText, change_text
from quotes.presenters.contingencies import ContingencyText, contingency_text
from quotes.presenters.deposit import CustomerDeposit, customer_deposit
from quotes.presenters.sections import Section, SumRow, sections_of, totals_of
from shop.calc.quantity import money
from shop.calc.rules import OPTIONAL, REQUIRED
from shop.calc.snapshot import mark
from shop.presenters.dates import day_words
from shop.presenters.vehicles import attribute_words
from shop.words import knows, say
from shop.words.figures import figure

HouseFact = Literal["address", "phone", "email", "registration", "tax_number"]
HOUSE_FACTS: tuple[HouseFact, ...] = ("address", "phone", "email", "registration", "tax_number")


@dataclass(frozen=True, slots=True)
class TickedByHand:
    """A consent on paper: `word` says whether one has to give it, `without` what happens without it."""

    word: str
    text: str
    without: str


@dataclass(frozen=True, slots=True)
class CustomerText:
    """The sentences that page, receipt and paper of a quote share: parts of the frozen text, and their words."""

    kept: FrozenContent
    house: FrozenHouse
    quote: FrozenQuote
    offer: str
    customer: FrozenCustomer
    vehicle: FrozenVehicle
    shown: FrozenContent
    undecided: Sequence[str]
    sections: Sequence[Section]
    totals: Sequence[SumRow]
    includes_tax: bool
    tax_words: str
    gross: str
    deposit: CustomerDeposit | None
    contingent: ContingencyText | None
    currency: str
    good_until: str
    mark: str
    standing: Sequence[str]
    cautions: Sequence[str]
    consents: Sequence[TickedByHand]
    not_included: Sequence[str]
    after_work: Sequence[str]
    withdrawal: Sequence[str]
    who: Sequence[str]
    may_order: str
    change: ChangeText | None
    note: str


def presented(document: FrozenContent, digest: str) -> CustomerText:
    """The words of a frozen text; `digest` is that of the frozen text itself, in the form it was sent."""
    content = document["shown"]
    return CustomerText(
        kept=document,
        house=document["shop"],
        quote=document["quote"],
        offer=offer_of(document),
        customer=document["customer"],
        vehicle=document["vehicle"],
        shown=content,
        undecided=[_undecided(entry["attribute"], document) for entry in content["decide"]],
        sections=sections_of(document),
        totals=totals_of(content["totals"]),
        includes_tax=document["rules"]["prices_include_tax"],
        tax_words=_tax_words(document),
        gross=figure(content["totals"]["gross"]),
        deposit=customer_deposit(document),
        contingent=contingency_text(document),
        currency=document["shop"]["currency"],
        good_until=day_words(date.fromisoformat(document["quote"]["valid_day"])),
        mark=mark(digest),
        standing=document["rules"]["standing"],
        cautions=document["rules"]["cautions"],
        consents=_consents(document["rules"]),
        not_included=_not_included(document),
        after_work=_after_work(document),
        withdrawal=withdrawal_words(document),
        who=_who(document["shop"]),
        may_order=say("customer.may_order", vehicle=document["vehicle"]["title"]),
        change=change_text(document),
        note=document.get("note", ""),
    )


def offer_of(document: FrozenContent) -> str:
    """`estimate` or `quotation`, as older texts were called without saying so."""
    offer: str = document["rules"].get("offer", "quotation")
    return offer


def _consents(rules: FrozenContent) -> list[TickedByHand]:
    """The consents as a list to tick by hand; the first word says whether the consent is required."""
    words = {kind: say(f"customer.consent.{kind}") for kind in (REQUIRED, OPTIONAL)}
    return [
        TickedByHand(words.get(kind_of(consent), words[OPTIONAL]), consent["text"], consent.get("without", ""))
        for consent in rules["consents"]
    ]


def _not_included(document: FrozenContent) -> list[str]:
    """The exclusions of the workshop's rules and the limit of extra work; empty for a quote from before both."""
    if "ceiling" not in document["rules"]:
        return []
    if "change" in document:  # it names what is left of the ceiling of its job
        return list(document["rules"]["not_included"])
    ceiling, currency = document["rules"]["ceiling"], document["shop"]["currency"]
    check = job_ceiling(document)
    amounts = {name: ceiling[name] for name in ("amount", "floor", "cap", "maximum") if name in ceiling}
    amounts["allowed"] = money(check.ceiling, document["shop"]["exponent"]) if check else "0"
    words = {name: f"{figure(amount)} {currency}" for name, amount in amounts.items()}
    extra = say(f"customer.extra_work.{ceiling['kind']}", share=figure(ceiling["share"]), **words)
    return [*document["rules"]["not_included"], extra]


def _after_work(document: FrozenContent) -> list[str]:
    """Sentences on the checks that the vehicle needs once it is back on the road."""
    wheels = document["rules"].get("wheel_check")
    return [say("customer.wheel_check", distance=wheels["after"])] if wheels else []


def withdrawal_words(document: FrozenContent) -> list[str]:
    """The right to withdraw in the words of the workshop's rules, with its days."""
    terms = document["rules"].get("withdrawal")
    return [*terms["text"], say("customer.withdrawal_days", n=terms["days"])] if terms else []


def _who(house: FrozenHouse) -> list[str]:
    """The workshop's name, address and registrations, without those that are not set."""
    return [house["name"], *house_words(house, *HOUSE_FACTS)]


def house_words(house: FrozenHouse, *names: HouseFact) -> list[str]:
    """The named facts of the workshop in words, without those that are not set."""
    return [say(f"customer.who.{name}", value=house[name]) for name in names if house.get(name)]


def _undecided(attribute: str, document: FrozenContent) -> str:
    """The sentence on an attribute that is not recorded yet, with its own words where we have them.

    In the first form of a frozen text it may decide the price; later ones ask about that with the acceptance.
    """
    if document.get("form", 1) > 1:
        return say("customer.undecided_parts", attribute=attribute_words(attribute))
    if knows(key := f"customer.undecided_about.{attribute}"):
        return say(key)
    return say("customer.undecided_line", attribute=attribute_words(attribute))


def _tax_words(document: FrozenContent) -> str:
    """The sentence on tax. A price with open work is not said to include everything."""
    if not document["rules"]["prices_include_tax"]:
        return say("customer.tax_shown")
    open_price = document.get("form", 1) == 1 and document["shown"]["decide"]
    return say("customer.includes_settled" if open_price else "customer.includes")


OPENED = ("possible", "undecided", "combination", "combinations", "choices")  # added when a text is read
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
    "reference",
)


def for_customer(document: FrozenContent) -> FrozenContent:
    """The frozen text without the workshop's internal facts: its reasons, its notices, the saving of a kit."""

    def stripped(value: Any) -> Any:
        if isinstance(value, dict):
            return {key: stripped(member) for key, member in value.items() if key not in OWN_BUSINESS}
        return [stripped(item) for item in value] if isinstance(value, list) else value

    left = {name: member for name, member in document.items() if name not in NOT_OF_THE_TEXT}
    dates = {
        name: document["plan"][name] for name in ("promised", "no_date", "waits") if name in document.get("plan", ())
    }
    plan = {"plan": dates} if "plan" in document else {}
    content = stripped(document["shown"])
    decide = [{**entry, "words": _undecided(entry["attribute"], document)} for entry in content["decide"]]
    return {**left, **plan, **_prices_for_customer(document), "shown": {**content, "decide": decide}}


def _prices_for_customer(document: FrozenContent) -> FrozenContent:
    """The choices and the prices of the text with their lines; empty for a text with one price."""
    prices = [
        {name: price[name] for name in ("stated", "words", "unfit")}
        | ({"selection": price["selection"]} if document["choices"] else {})
        | {name: for_customer(price["document"])[name] for name in ("shown", "inputs")}
        for price in document.get("possible", ())
    ]
    choices = {"choices": document["choices"]} if document.get("choices") else {}
    return {**choices, "prices": prices} if prices else {}
