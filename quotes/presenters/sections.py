"""The sections of a quote on the customer's page and on paper: lines, sums and taxes, all text."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from quotes.calc.forms import FrozenContent
from quotes.presenters.line_photographs import LinePictures, line_pictures
from shop.words import say
from shop.words.figures import figure, listed

FOLDED = ("labour", "needs", "fees")  # sections that the page folds into their sum; the paper has every line


@dataclass(frozen=True, slots=True)
class SectionLine:
    """A line with the notes under it; `quantity` holds the hours of an operation."""

    title: str
    why: Sequence[str]
    price: str
    quantity: str = ""
    photographs: LinePictures | None = None


@dataclass(frozen=True, slots=True)
class SectionStage:
    """An install stage with its charged operations. `run` names it with its hours in a row of stages."""

    title: str
    hours: str
    hours_words: str
    run: str
    price: str
    operations: Sequence[FrozenContent]
    lines: Sequence[SectionLine]


@dataclass(frozen=True, slots=True)
class Section:
    """A section with its sum. `hours` and `run` are those of labour, else empty."""

    name: str
    title: str
    lines: Sequence[SectionLine]
    sum: str
    why: Sequence[str]
    folded: bool
    stages: Sequence[SectionStage]
    hours: str
    run: str


@dataclass(frozen=True, slots=True)
class SumRow:
    """Net or a tax."""

    title: str
    amount: str


def sections_of(document: FrozenContent) -> list[Section]:
    """The sections of a frozen text with their sums, without empty ones."""
    content, pictures = document["shown"], line_pictures(document)
    operations, taken = content["labour"]["operations"], content.get("taken")
    sections = [
        _section("kits", [_kit_line(kit, pictures) for kit in content["kits"]], content),
        _section("labour", [_labour_line(work) for work in operations if is_charged(work)], content),
        _section("needs", _need_lines(content["needs"]), content),
        _section("outside", [_outside_line(work, pictures) for work in content["outside"]], content),
        _section("extras", [_extra_line(part, pictures) for part in content["extras"]], content),
        _section("fees", [_line(fee["title"], fee["why"], fee["price"]) for fee in content["fees"]], content),
        *([_section("taken", [_taken_line(line) for line in taken], content)] if taken else []),
        _section("discount", _discount_lines(content["discount"]), content),
    ]
    return [section for section in sections if section.lines]


def is_charged(operation: FrozenContent) -> bool:
    """Returns whether the operation has a price. One that another includes has none and is not listed."""
    return bool(operation["hours"] != "0.0")


def _need_lines(needs: Sequence[FrozenContent]) -> list[SectionLine]:
    """A line for each charged need, and one line for all needs that shop supplies cover."""
    charged = [_line(need["title"], need_why(need), need["price"]) for need in needs if not is_covered(need)]
    return [*charged, *covered_lines(needs)]


def covered_lines(needs: Sequence[FrozenContent]) -> list[SectionLine]:
    """One line for all needs that shop supplies cover; empty if there are none."""
    covered = [need["title"] for need in needs if is_covered(need)]
    if not covered:
        return []
    titles = say("customer.covered_items", n=len(covered), titles=listed(covered))
    return [SectionLine(say("customer.covered"), [titles], say("customer.included"))]


def is_covered(need: FrozenContent) -> bool:
    """Returns whether shop supplies cover the need. A price set by a person prevents it."""
    return need["charge"] == "supplies" and not need["override"]


def is_stated(fees: Sequence[FrozenContent]) -> bool:
    """Returns whether the amount of the shop supplies must stand in sight. Older texts do not say."""
    return any(fee.get("stated") for fee in fees)


def _discount_lines(discount: FrozenContent | None) -> list[SectionLine]:
    if discount is None:
        return []
    return [_line(say("customer.discount", because=discount["because"]), discount["why"], discount["price"])]


def _section(name: str, lines: Sequence[SectionLine], content: FrozenContent) -> Section:
    labour = content["labour"] if name == "labour" else None
    stages = stages_of(labour) if labour else []
    return Section(
        name=name,
        title=say(f"customer.section.{name}"),
        lines=lines,
        sum=figure(content["totals"][name]),
        why=_section_why(name, content),
        folded=name in FOLDED and not (name == "fees" and is_stated(content["fees"])),
        stages=stages,
        hours=say("customer.hours", hours=figure(labour["hours"])) if labour else "",
        run="; ".join(stage.run for stage in stages),
    )


def stages_of(labour: FrozenContent) -> list[SectionStage]:
    """The work by install stage; empty with a single stage, or for an older text without stages."""
    by_key = {operation["key"]: operation for operation in labour["operations"]}
    stages = labour.get("stages", [])
    if len(stages) < 2:
        return []
    charged = [(stage, [by_key[key] for key in stage["keys"] if is_charged(by_key[key])]) for stage in stages]
    return [_stage(stage, operations) for stage, operations in charged if operations]


def _stage(stage: FrozenContent, operations: Sequence[FrozenContent]) -> SectionStage:
    return SectionStage(
        title=stage["title"],
        hours=figure(stage["hours"]),
        hours_words=say("customer.hours", hours=figure(stage["hours"])),
        run=say("customer.run_stage", title=stage["title"], hours=figure(stage["hours"])),
        price=figure(stage["price"]),
        operations=operations,
        lines=[_labour_line(operation) for operation in operations],
    )


def _section_why(name: str, content: FrozenContent) -> list[str]:
    if name == "labour":
        return [*content["labour"]["why"], *corroded_work(content["labour"]["operations"])]
    packs = name == "needs" and any(need["charge"] == "pack" for need in content["needs"])
    return [say("customer.whole_packs")] if packs else []


def corroded_work(operations: Sequence[FrozenContent]) -> list[str]:
    """Sentences on the surcharge for corroded fasteners, with the number of operations; empty for older texts."""
    raised = [operation["corroded"] for operation in operations if operation.get("corroded") and is_charged(operation)]
    return [
        say("customer.corroded_work", n=raised.count(percent), percent=figure(percent))
        for percent in dict.fromkeys(raised)
    ]


def _line(
    title: str, why: Sequence[str], price: str, quantity: str = "", photographs: LinePictures | None = None
) -> SectionLine:
    return SectionLine(title, why, figure(price), quantity, photographs)


def _labour_line(operation: FrozenContent) -> SectionLine:
    hours = say("customer.hours_at", hours=figure(operation["hours"]), rate=figure(operation["rate"]))
    corroded = operation.get("corroded")
    raised = [say("customer.corroded", percent=figure(corroded))] if corroded else []
    return _line(operation["title"], [hours, *raised], operation["price"], figure(operation["hours"]))


def _kit_line(kit: FrozenContent, pictures: Mapping[str, LinePictures]) -> SectionLine:
    return _line(kit["title"], _kit_why(kit), kit["price"], photographs=pictures.get(kit["line"]))


def _kit_why(kit: FrozenContent) -> list[str]:
    listed = kit.get("listed", kit["parts"])
    if kit.get("supplied"):  # whether it is new is not ours to say
        return [say("customer.kit_brought", code=kit["code"], n=kit["parts"]), say("customer.supplied_kit")]
    if not listed:
        words = say("customer.kit_new", code=kit["code"])
    elif kit["parts"] != listed:
        words = say("customer.kit_applies", code=kit["code"], n=kit["parts"], listed=listed)
    else:
        words = say("customer.kit_parts", code=kit["code"], n=kit["parts"])
    return [say("customer.kit_kept", words=words) if not_returnable(kit) else words]


def not_returnable(line: FrozenContent) -> list[str]:
    """The words on a line that cannot be sent back; none for an older text, which does not say so."""
    return [] if line.get("returnable", True) else [say("customer.not_returnable")]


def need_why(need: FrozenContent) -> list[str]:
    """The packs, or the amount where that is what is charged. Older texts name the packs in either case."""
    if need["charge"] == "used" and need.get("charged_because"):
        return [say("customer.used", quantity=figure(need["quantity"]), unit=need["unit"])]
    packs = "; ".join(say("customer.pack", count=p["count"], title=p["title"]) for p in need["packs"])
    return [packs] if packs else []


def _outside_line(work: FrozenContent, pictures: Mapping[str, LinePictures]) -> SectionLine:
    days = [say("customer.outside_days", n=work["days"])] if work["days"] else []
    warranty = [say("customer.outside_warranty", words=work["warranty"])] if work["warranty"] else []
    why = [*_they_do(work), *days, *warranty, *_we_warrant(work), *not_returnable(work)]
    return _line(work["name"], why, work["price"], photographs=pictures.get(work["line"]))


def _they_do(work: FrozenContent) -> list[str]:
    """The lines on the firm's work and the number of rounds sold; none for an older text, which has neither."""
    words, rounds = work.get("they_do"), work.get("rounds")
    key = "customer.outside_rounds_each" if work.get("per_round") else "customer.outside_rounds"
    return [
        *([say("customer.outside_does", words=words)] if words else []),
        *([say(key, n=rounds)] if rounds else []),
    ]


def _we_warrant(work: FrozenContent) -> list[str]:
    words = work.get("we_warrant")
    return [say("customer.outside_we_warrant", words=words)] if words else []


def _taken_line(line: FrozenContent) -> SectionLine:
    hours = [say("customer.hours", hours=figure(line["hours"]))] if line["kind"] == "labour" else []
    return _line(line["title"], hours, line["price"])


def _extra_line(extra: FrozenContent, pictures: Mapping[str, LinePictures]) -> SectionLine:
    return _line(extra["title"], _extra_why(extra), extra["price"], photographs=pictures.get(extra["line"]))


def _extra_why(extra: FrozenContent) -> list[str]:
    """The condition of a part, and the price of one where there are several. Older texts do not say the condition."""
    why = []
    if extra.get("condition"):
        sold = f"{extra['condition']}_original" if extra["original"] else extra["condition"]
        why.append(say("customer.part_sold", sold=sold))
    if extra.get("supplied"):
        why.append(say("customer.supplied"))
    if extra.get("core"):
        why.append(say("customer.core"))
    why += not_returnable(extra)
    if extra["quantity"] != "1":
        why.append(say("customer.each", quantity=figure(extra["quantity"]), price=figure(extra["unit_price"])))
    return why


def totals_of(totals: FrozenContent) -> list[SumRow]:
    """Net, every tax and the total, in the order in which they add up."""
    inside = totals["prices_include_tax"]
    taxes = [
        SumRow(
            say("customer.tax_inside" if inside else "customer.tax", title=tax["title"], rate=figure(tax["rate"])),
            figure(tax["amount"]),
        )
        for tax in totals["taxes"]
        if tax["rate"] != "0"  # no tax is no row
    ]
    return taxes if inside else [SumRow(say("customer.net"), figure(totals["net"])), *taxes]
