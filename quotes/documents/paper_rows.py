"""The rows of a quote's paper: the whole quote on its first page, then the labour by stage and what the sums hold."""

from collections.abc import Mapping, Sequence
from datetime import datetime
from typing import Any
from zoneinfo import ZoneInfo

from quotes.presenters import sections
from quotes.presenters.customer import house_words
from quotes.presenters.sections import Section
from shop.presenters.dates import day_words
from shop.words import say
from shop.words.figures import figure

Kept = dict[str, Any]
Row = dict[str, Any]
PIECES = "pc"
SUMMED = ("labour", "needs", "fees")  # one row on the first page; what they hold comes after it


def paper_rows(kept: Kept) -> dict[str, Any]:
    """The facts that only the paper has, all text."""
    shown = kept["shown"]
    charged = [each for each in shown["needs"] if not sections.is_covered(each)]
    return {
        "issued": day_words(_sent_day(kept)),
        "letterhead": _letterhead(kept["shop"]),
        "summary": _summary(shown),
        "hours": shown["labour"]["hours"] if shown["labour"]["operations"] else "",
        "stages": _stages(shown["labour"]),
        "rates": _rates(shown["labour"]),
        "fluids": [_fluid(each) for each in charged if each["unit"] != PIECES],
        "pieces": [_piece(each) for each in charged if each["unit"] == PIECES],
        "covered": sections.covered_lines(shown["needs"]),
        "fees": _fees(shown["fees"]),
    }


def _sent_day(kept: Kept) -> Any:
    return datetime.fromisoformat(kept["quote"]["sent_at"]).astimezone(ZoneInfo(kept["shop"]["zone"])).date()


def _letterhead(house: Kept) -> list[str]:
    """The workshop's address, contact and registration, a line each."""
    groups = (("address",), ("phone", "email"), ("registration", "tax_number"))
    lines = ("; ".join(house_words(house, *names)) for names in groups)
    return [line for line in lines if line]


def _row(title: str, why: Sequence[str], price: str, hours: str = "") -> Row:
    return {"title": title, "why": why, "price": price, "hours": hours}


def _summary(shown: Kept) -> list[Row]:
    """Everything that has a price: kits and the like by name, labour, fluids and fees as their sums."""
    found = []
    for section in sections.sections_of(shown):
        if section.name in SUMMED:
            found.append(_sum(section, shown))
        else:
            found += [_row(line.title, line.why, line.price) for line in section.lines]
    return found


def _sum(section: Section, shown: Kept) -> Row:
    if section.name == "labour":
        why = [*shown["labour"]["why"], *sections.corroded_work(shown["labour"]["operations"])]
        return _row(section.title, why, section.sum, shown["labour"]["hours"])
    lines = section.lines
    if section.name == "fees" and len(lines) == 1:
        return _row(lines[0].title, lines[0].why, lines[0].price)
    if section.name == "needs" and all(sections.is_covered(each) for each in shown["needs"]):
        return _row(section.title, section.why, say("customer.included"))
    return _row(section.title, section.why, section.sum)


def _stages(labour: Kept) -> list[Row]:
    """A row for each stage with its steps in one run; a row for each step where there are no stages."""
    stages = sections.stages_of(labour)
    if not stages:
        return [_step_row(each) for each in labour["operations"] if sections.is_charged(each)]
    return [_row(each.title, [_run(each.operations)], each.price, each.hours) for each in stages]


def _step_row(operation: Kept) -> Row:
    raised = operation.get("corroded")
    why = [say("customer.corroded", percent=raised)] if raised else []
    return _row(operation["title"], why, figure(operation["price"]), operation["hours"])


def _run(operations: Sequence[Mapping[str, Any]]) -> str:
    return "; ".join(_step(each) for each in operations)


def _step(operation: Mapping[str, Any]) -> str:
    raised = operation.get("corroded")
    facts = {"title": operation["title"], "hours": operation["hours"]}
    return say("paper.step_corroded", percent=raised, **facts) if raised else say("paper.step", **facts)


def _rates(labour: Kept) -> str:
    """The hourly rate of each skill."""
    rates = {each["skill"]: figure(each["rate"]) for each in labour["operations"] if sections.is_charged(each)}
    return say("paper.rates", rates="; ".join(f"{skill} {rate}" for skill, rate in rates.items())) if rates else ""


def _fluid(need: Kept) -> Row:
    return _row(need["title"], _packs(need), figure(need["price"]))


def _packs(need: Kept) -> list[str]:
    """'1 × 5 L; 1 × 1 L': the packs by their size alone, for they bear the name of the row."""
    packs = need["packs"]
    return ["; ".join(f"{each['count']} × {each['size']} {need['unit']}" for each in packs)] if packs else []


def _piece(need: Kept) -> Row:
    if all(each["size"] == "1" for each in need["packs"]):
        return _row(say("customer.pack", count=need["quantity"], title=need["title"]), [], figure(need["price"]))
    return _row(need["title"], sections.need_why(need), figure(need["price"]))


def _fees(fees: list[Kept]) -> list[Row]:
    """None where there is one: it stands on the first page by its name."""
    return [_row(each["title"], each["why"], figure(each["price"])) for each in fees] if len(fees) > 1 else []
