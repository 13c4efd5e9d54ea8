"""The frozen text as a customer reads it: dates as words, figures with separators. Used by page and paper alike."""

from collections.abc import Mapping
from datetime import date
from typing import Any

from quotes.calc.consents import kind_of
from shop.calc.quantity import figure
from shop.calc.rules import OPTIONAL, REQUIRED
from shop.calc.snapshot import mark
from shop.presenters.dates import day_words
from shop.presenters.rows import attribute_words
from shop.words import knows, say

FOLDED = ("labour", "needs", "fees")  # they stay behind their sum on the page; the paper has every line


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


def _consents(rules: dict[str, Any]) -> list[dict[str, Any]]:
    """As a list to tick by hand: the first word says whether one has to."""
    words = {kind: say(f"customer.consent.{kind}") for kind in (REQUIRED, OPTIONAL)}
    return [{**each, "word": words.get(kind_of(each), words[OPTIONAL])} for each in rules["consents"]]


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
        return say("customer.undecided_parts", attribute=attribute_title(attribute))
    if knows(key := f"customer.undecided_about.{attribute}"):
        return say(key)
    return say("customer.undecided_line", attribute=attribute_title(attribute))


def attribute_title(attribute: str) -> str:
    name = attribute_words(attribute)
    return name[:1].upper() + name[1:]


def _tax_words(kept: dict[str, Any]) -> str:
    """Nobody says that a price holds everything while it is open what belongs to the work."""
    if not kept["rules"]["prices_include_tax"]:
        return "tax_shown"
    open_price = kept.get("form", 1) == 1 and kept["shown"]["decide"]
    return "includes_settled" if open_price else "includes"


def sections_of(shown: dict[str, Any]) -> list[dict[str, Any]]:
    """Ruled sections with their own sums; an empty one is left out."""
    found = [
        _section("kits", [_line(kit["title"], _kit_why(kit), kit["price"]) for kit in shown["kits"]], shown),
        _section("labour", [_labour_line(each) for each in shown["labour"]["operations"] if is_charged(each)], shown),
        _section("needs", _need_lines(shown["needs"]), shown),
        _section("outside", [_outside_line(each) for each in shown["outside"]], shown),
        _section("extras", [_line(each["title"], _extra_why(each), each["price"]) for each in shown["extras"]], shown),
        _section("fees", [_line(each["title"], each["why"], each["price"]) for each in shown["fees"]], shown),
        _section("discount", _discount_lines(shown["discount"]), shown),
    ]
    return [section for section in found if section["lines"]]


def is_charged(operation: dict[str, Any]) -> bool:
    """An operation that another one includes costs nothing and is no line of its own to a customer."""
    return bool(operation["hours"] != "0.0")


def _need_lines(needs: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """A line for each need that is charged, and one line for all that the shop supplies cover."""
    charged = [_line(each["title"], need_why(each), each["price"]) for each in needs if not is_covered(each)]
    return [*charged, *covered_lines(needs)]


def covered_lines(needs: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """One line for all that the shop supplies cover, or none."""
    covered = [each["title"] for each in needs if is_covered(each)]
    if not covered:
        return []
    titles = say("customer.covered_items", n=len(covered), titles="; ".join(covered))
    return [{**_line(say("customer.covered"), [titles], "0"), "price": say("customer.included")}]


def is_covered(need: dict[str, Any]) -> bool:
    """By the shop supplies, unless a person has given it a price of its own."""
    return need["charge"] == "supplies" and not need["override"]


def _discount_lines(discount: dict[str, Any] | None) -> list[dict[str, Any]]:
    if discount is None:
        return []
    return [_line(say("customer.discount", because=discount["because"]), discount["why"], discount["price"])]


def _section(name: str, lines: list[dict[str, Any]], shown: dict[str, Any]) -> dict[str, Any]:
    labour = shown["labour"] if name == "labour" else None
    stages = stages_of(labour) if labour else []
    return {
        "name": name,
        "title": say(f"customer.section.{name}"),
        "lines": lines,
        "sum": figure(shown["totals"][name]),
        "why": _section_why(name, shown),
        "folded": name in FOLDED,
        "stages": stages,
        "hours": say("customer.hours", hours=labour["hours"]) if labour else "",
        "run": "; ".join(each["run"] for each in stages),
    }


def stages_of(labour: dict[str, Any]) -> list[dict[str, Any]]:
    """The work by install stage; none where it is all of one stage, or sent before stages were kept."""
    by_key = {each["key"]: each for each in labour["operations"]}
    found = [
        {
            "title": stage["title"],
            "hours": stage["hours"],
            "hours_words": say("customer.hours", hours=stage["hours"]),
            "run": say("customer.run_stage", title=stage["title"], hours=stage["hours"]),
            "price": figure(stage["price"]),
            "operations": [by_key[key] for key in stage["keys"] if is_charged(by_key[key])],
        }
        for stage in labour.get("stages", [])
    ]
    charged = [stage for stage in found if stage["operations"]] if len(found) > 1 else []
    return [{**stage, "lines": [_labour_line(each) for each in stage["operations"]]} for stage in charged]


def _section_why(name: str, shown: dict[str, Any]) -> list[str]:
    if name == "labour":
        return [*shown["labour"]["why"], *corroded_work(shown["labour"]["operations"])]
    packs = name == "needs" and any(each["charge"] == "pack" for each in shown["needs"])
    return [say("customer.whole_packs")] if packs else []


def corroded_work(operations: list[dict[str, Any]]) -> list[str]:
    """The surcharge for corroded fasteners, on how much of the work; a quote from before it was kept is silent."""
    raised = [each["corroded"] for each in operations if each.get("corroded") and is_charged(each)]
    return [say("customer.corroded_work", n=raised.count(each), percent=each) for each in dict.fromkeys(raised)]


def _line(title: str, why: list[str], price: str, quantity: str = "") -> dict[str, Any]:
    return {"title": title, "why": why, "price": figure(price), "quantity": quantity}


def _labour_line(operation: dict[str, Any]) -> dict[str, Any]:
    hours = say("customer.hours_at", hours=operation["hours"], rate=figure(operation["rate"]))
    corroded = operation.get("corroded")
    raised = [say("customer.corroded", percent=corroded)] if corroded else []
    return _line(operation["title"], [hours, *raised], operation["price"], operation["hours"])


def _kit_why(kit: dict[str, Any]) -> list[str]:
    listed = kit.get("listed", kit["parts"])
    if not listed:
        return [say("customer.kit_new", code=kit["code"])]
    if kit["parts"] != listed:
        return [say("customer.kit_applies", code=kit["code"], n=kit["parts"], listed=listed)]
    return [say("customer.kit_parts", code=kit["code"], n=kit["parts"])]


def need_why(need: dict[str, Any]) -> list[str]:
    packs = "; ".join(say("customer.pack", count=p["count"], title=p["title"]) for p in need["packs"])
    return [packs] if packs else []


def _outside_line(work: dict[str, Any]) -> dict[str, Any]:
    days = [say("customer.outside_days", n=work["days"])] if work["days"] else []
    warranty = [say("customer.outside_warranty", words=work["warranty"])] if work["warranty"] else []
    return _line(work["name"], [*days, *warranty], work["price"])


def _extra_why(extra: dict[str, Any]) -> list[str]:
    if extra["quantity"] == "1":
        return []
    return [say("customer.each", quantity=extra["quantity"], price=figure(extra["unit_price"]))]


def totals_of(totals: dict[str, Any]) -> list[dict[str, Any]]:
    """Net, every tax and the total, in the order in which they add up."""
    inside = totals["prices_include_tax"]
    taxes = [
        {
            "title": say("customer.tax_inside" if inside else "customer.tax", title=tax["title"], rate=tax["rate"]),
            "amount": figure(tax["amount"]),
        }
        for tax in totals["taxes"]
        if tax["rate"] != "0"  # no tax is no row
    ]
    net = {"title": say("customer.net"), "amount": figure(totals["net"])}
    return taxes if inside else [net, *taxes]


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
