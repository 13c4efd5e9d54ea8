"""The rows of a quote's paper: the whole quote on its first page, then labour by stage and the details of the sums."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime
from zoneinfo import ZoneInfo

from quotes.calc.forms import FrozenContent
from quotes.calc.frozen_parts import FrozenHouse
from quotes.presenters import sections
from quotes.presenters.customer import house_words
from quotes.presenters.sections import Section, SectionLine
from shop.presenters.dates import day_words
from shop.words import say
from shop.words.figures import figure

PIECES = "pc"
SUMMED = ("labour", "needs", "fees")  # one row each on the first page; details, unless in sight, on the next pages


@dataclass(frozen=True, slots=True)
class PaperRow:
    """A row of a table; `hours` only where it is work."""

    title: str
    why: Sequence[str]
    price: str
    hours: str


@dataclass(frozen=True, slots=True)
class PaperRows:
    """The facts that stand on paper only, all text."""

    issued: str
    letterhead: Sequence[str]
    summary: Sequence[PaperRow]
    hours: str
    stages: Sequence[PaperRow]
    rates: str
    fluids: Sequence[PaperRow]
    pieces: Sequence[PaperRow]
    covered: Sequence[SectionLine]
    fees: Sequence[PaperRow]


def paper_rows(document: FrozenContent) -> PaperRows:
    """The rows of a frozen text."""
    content = document["shown"]
    charged = [need for need in content["needs"] if not sections.is_covered(need)]
    return PaperRows(
        issued=day_words(_sent_day(document)),
        letterhead=_letterhead(document["shop"]),
        summary=_summary(document),
        hours=figure(content["labour"]["hours"]) if content["labour"]["operations"] else "",
        stages=_stages(content["labour"]),
        rates=_rates(content["labour"]),
        fluids=[_fluid(need) for need in charged if need["unit"] != PIECES],
        pieces=[_piece(need) for need in charged if need["unit"] == PIECES],
        covered=sections.covered_lines(content["needs"]),
        fees=_fees(content["fees"]),
    )


def _sent_day(document: FrozenContent) -> date:
    return datetime.fromisoformat(document["quote"]["sent_at"]).astimezone(ZoneInfo(document["shop"]["zone"])).date()


def _letterhead(house: FrozenHouse) -> list[str]:
    """The lines of the letterhead: address, contact, registration and tax number."""
    groups = (("address",), ("phone", "email"), ("registration",), ("tax_number",))
    lines = ("; ".join(house_words(house, *names)) for names in groups)
    return [line for line in lines if line]


def _row(title: str, why: Sequence[str], price: str, hours: str = "") -> PaperRow:
    return PaperRow(title, why, price, hours)


def _summary(document: FrozenContent) -> list[PaperRow]:
    """A row for everything with a price: kits and other lines by name; labour, fluids and fees as sums."""
    rows, content = [], document["shown"]
    for section in sections.sections_of(document):
        if section.name in SUMMED and section.folded:
            rows.append(_sum(section, content))
        else:
            rows += [_row(line.title, _why_on_paper(line), line.price) for line in section.lines]
    return rows


def _why_on_paper(line: SectionLine) -> list[str]:
    return [*line.why, *([line.photographs.on_paper] if line.photographs else [])]


def _sum(section: Section, content: FrozenContent) -> PaperRow:
    if section.name == "labour":
        why = [*content["labour"]["why"], *sections.corroded_work(content["labour"]["operations"])]
        return _row(section.title, why, section.sum, figure(content["labour"]["hours"]))
    lines = section.lines
    if section.name == "fees" and len(lines) == 1:
        return _row(lines[0].title, lines[0].why, lines[0].price)
    if section.name == "needs" and all(sections.is_covered(need) for need in content["needs"]):
        return _row(section.title, section.why, say("customer.included"))
    return _row(section.title, section.why, section.sum)


def _stages(labour: FrozenContent) -> list[PaperRow]:
    """A row for each stage with its steps as one text; without stages, a row for each step."""
    stages = sections.stages_of(labour)
    if not stages:
        return [_step_row(operation) for operation in labour["operations"] if sections.is_charged(operation)]
    return [_row(stage.title, [_run(stage.operations)], stage.price, stage.hours) for stage in stages]


def _step_row(operation: FrozenContent) -> PaperRow:
    raised = operation.get("corroded")
    why = [say("customer.corroded", percent=figure(raised))] if raised else []
    return _row(operation["title"], why, figure(operation["price"]), figure(operation["hours"]))


def _run(operations: Sequence[FrozenContent]) -> str:
    return "; ".join(_step(operation) for operation in operations)


def _step(operation: FrozenContent) -> str:
    raised = operation.get("corroded")
    facts = {"title": operation["title"], "hours": figure(operation["hours"])}
    return say("paper.step_corroded", percent=figure(raised), **facts) if raised else say("paper.step", **facts)


def _rates(labour: FrozenContent) -> str:
    """The hourly rate of each skill."""
    rates = {
        operation["skill"]: figure(operation["rate"])
        for operation in labour["operations"]
        if sections.is_charged(operation)
    }
    return say("paper.rates", rates="; ".join(f"{skill} {rate}" for skill, rate in rates.items())) if rates else ""


def _fluid(need: FrozenContent) -> PaperRow:
    return _row(need["title"], _packs(need), figure(need["price"]))


def _packs(need: FrozenContent) -> list[str]:
    """'1 × 5 L; 1 × 1 L': the packs by size; their name is that of the row."""
    packs = need["packs"]
    return ["; ".join(f"{pack['count']} × {figure(pack['size'])} {need['unit']}" for pack in packs)] if packs else []


def _piece(need: FrozenContent) -> PaperRow:
    if all(pack["size"] == "1" for pack in need["packs"]):
        return _row(
            say("customer.pack", count=figure(need["quantity"]), title=need["title"]), [], figure(need["price"])
        )
    return _row(need["title"], sections.need_why(need), figure(need["price"]))


def _fees(fees: list[FrozenContent]) -> list[PaperRow]:
    """The rows of the fees; empty where the first page names each."""
    named = len(fees) == 1 or sections.is_stated(fees)
    return [] if named else [_row(fee["title"], fee["why"], figure(fee["price"])) for fee in fees]
