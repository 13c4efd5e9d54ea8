"""The parts and fluids of a step: how many, where they lie, and the hazard text of their packs."""

from collections import defaultdict
from collections.abc import Sequence
from decimal import Decimal

from kitting.answers.readiness import StepPartOut
from kitting.calc.contents import COUNTED_IN
from kitting.calc.missing import NeededItem
from kitting.calc.pooling import PieceAllocation
from kitting.models import PullLine
from kitting.presenters.boxes import amount
from kitting.presenters.readiness_context import Told, because, kit_of, place_of
from shop.calc.quantity import plain
from shop.words import say

UNCLASSIFIED = "none classified"
LITRE = "L"


def parts_of_steps(told: Told) -> dict[str, list[StepPartOut]]:
    """Step -> its parts, in the order of the list; lines of one part are one entry. Spares belong to no step."""
    asking: dict[str, dict[str, list[PieceAllocation]]] = defaultdict(lambda: defaultdict(list))
    for handed in sorted(told.found.allocations, key=lambda each: told.rows[each.item.line].position):
        code = _step_of(handed, told)
        if code:
            asking[code][handed.item.pool].append(handed)
    return {code: [_part(told, lines) for lines in pools.values()] for code, pools in asking.items()}


def _step_of(handed: PieceAllocation, told: Told) -> str:
    """The step that lists the line: the one that waits for it; for leaflets and shop supplies, their operation."""
    row = told.rows[handed.item.line]
    if handed.step is not None:
        return handed.step
    return row.operation if row.operation in told.steps and row.detail.get("role") != "spare" else ""


def _part(told: Told, asking: Sequence[PieceAllocation]) -> StepPartOut:
    row = told.rows[asking[0].item.line]
    sources = [source for each in asking for source in each.sources]
    need, here = sum(each.item.need for each in asking), sum(pieces for _, pieces in sources)
    lacking = [each for each in asking if each.shortfall]
    states = [words for each in lacking for words in because(told, each.item)]
    places, kit = _where(told, sources or [(each.item, 0) for each in asking])
    return StepPartOut(
        line=row.pk,
        title=row.title,
        number=row.number,
        need=need,
        here=here,
        counted=any(each.item.counted for each in asking),
        states=list(dict.fromkeys(states)),
        minor=all(each.item.minor for each in asking),
        amount=_amount(row, need),
        places=places,
        kit=kit,
    )


def _amount(row: PullLine, need: int) -> str | None:
    """How long a piece of hose is, or how much of the packs the step takes; None where the pieces say it."""
    if "need" in row.detail:
        filled = (
            row.detail["unit"] == LITRE
        )  # by the manufacturer's figure, or the coolant page's: not by what was bought
        words = "readiness.bought_amount" if filled else "readiness.for_amount"
        return say(words, quantity=row.detail["quantity"], unit=row.detail["unit"])
    if row.unit in COUNTED_IN:
        return None if row.unit == "pc" else amount(Decimal(need), row.unit)
    return f"{plain(row.quantity)} {row.unit}"


def _where(told: Told, sources: Sequence[tuple[NeededItem, int]]) -> tuple[list[str], str | None]:
    """The places of its pieces, with how many where there are several; the kit's name once where one kit has all."""
    kits = {kit_of(item, told.loaded) if item.kit else "" for item, _ in sources}
    found: dict[str, int] = defaultdict(int)
    for item, pieces in sources:
        found[place_of(item, told.loaded, with_kit=len(kits) > 1)] += pieces
    places = [
        place if len(found) == 1 else say("readiness.from_place", n=pieces, place=place)
        for place, pieces in found.items()
    ]
    several = len(told.loaded.kits) > 1 or any(len(boxes) > 1 for boxes in told.loaded.boxes.values())
    return places, kits.pop() or None if several and len(kits) == 1 else None


def hazards_of(told: Told, parts: Sequence[StepPartOut]) -> list[str]:
    """The hazard texts of the consumables among these parts, each once."""
    return list(dict.fromkeys(filter(None, (_hazard(told.rows[str(each.line)]) for each in parts))))


def _hazard(row: PullLine) -> str | None:
    consumable = row.part.consumable if row.part else None
    words = str(consumable.hazard.get("words") or "") if consumable else ""
    words = words.removeprefix(UNCLASSIFIED).lstrip(" ;,.")
    if not words:
        return None
    return say("readiness.hazard", what=str(consumable), says=words.rstrip("."))
