"""The parts and fluids of a step: amount, place, and the hazard text of their packs."""

from collections import defaultdict
from collections.abc import Sequence
from decimal import Decimal

from kitting.answers.readiness import StepPartOut
from kitting.calc.contents import COUNTED_IN
from kitting.calc.missing import NeededItem
from kitting.calc.pooling import PieceAllocation
from kitting.models import PullLine
from kitting.presenters.boxes import amount
from kitting.presenters.readiness_context import ReadinessContext, because, kit_of, place_of
from shop.words import say
from shop.words.figures import figure, number

UNCLASSIFIED = "none classified"
LITRE = "L"


def parts_of_steps(context: ReadinessContext) -> dict[str, list[StepPartOut]]:
    """{step: its parts}, in the order of the list, one entry for each part. Spares belong to no step."""
    asking: dict[str, dict[str, list[PieceAllocation]]] = defaultdict(lambda: defaultdict(list))
    for handed in sorted(
        context.shortages.allocations, key=lambda allocation: context.rows[allocation.item.line].position
    ):
        code = _step_of(handed, context)
        if code:
            asking[code][handed.item.pool].append(handed)
    return {code: [_part(context, lines) for lines in pools.values()] for code, pools in asking.items()}


def _step_of(handed: PieceAllocation, context: ReadinessContext) -> str:
    """The step that waits for the line; for leaflets and shop supplies, the step of their operation."""
    item = handed.item
    if handed.step is not None:
        return handed.step
    return item.operation if context.rows[item.line].detail.get("role") != "spare" else ""


def _part(context: ReadinessContext, asking: Sequence[PieceAllocation]) -> StepPartOut:
    row = context.rows[asking[0].item.line]
    sources = [source for allocation in asking for source in allocation.sources]
    need, here = sum(allocation.item.need for allocation in asking), sum(pieces for _, pieces in sources)
    lacking = [allocation for allocation in asking if allocation.shortfall]
    states = [words for allocation in lacking for words in because(context, allocation.item)]
    places, kit = _where(context, sources or [(allocation.item, 0) for allocation in asking])
    return StepPartOut(
        line=row.pk,
        title=row.title,
        number=row.number,
        need=need,
        here=here,
        counted=any(allocation.item.counted for allocation in asking),
        states=list(dict.fromkeys(states)),
        minor=all(allocation.item.minor for allocation in asking),
        amount=_amount(row, need),
        places=places,
        kit=kit,
    )


def _amount(row: PullLine, need: int) -> str | None:
    """The length of cut goods, or the amount the step takes of its packs; None if pieces are enough."""
    if "need" in row.detail:
        # Fluids are filled to the manufacturer's figure or by the coolant page, not by the packs that were bought.
        if row.detail["unit"] == "pc":
            return say("readiness.for_pieces", n=Decimal(row.detail["quantity"]))
        filled = row.detail["unit"] == LITRE
        words = "readiness.bought_amount" if filled else "readiness.for_amount"
        return say(words, quantity=figure(row.detail["quantity"]), unit=row.detail["unit"])
    if row.unit in COUNTED_IN:
        return None if row.unit == "pc" else amount(Decimal(need), row.unit)
    return say("readiness.amount", quantity=number(row.quantity), unit=row.unit)


def _where(context: ReadinessContext, sources: Sequence[tuple[NeededItem, int]]) -> tuple[list[str], str | None]:
    """(places of the pieces, kit). Several places have their numbers of pieces; a single kit is named once."""
    kits = {kit_of(item, context.loaded) if item.kit else "" for item, _ in sources}
    pieces_at: dict[str, int] = defaultdict(int)
    for item, pieces in sources:
        pieces_at[place_of(item, context.loaded, with_kit=len(kits) > 1)] += pieces
    places = [
        place if len(pieces_at) == 1 else say("readiness.from_place", n=pieces, place=place)
        for place, pieces in pieces_at.items()
    ]
    several = len(context.loaded.kits) > 1 or any(len(boxes) > 1 for boxes in context.loaded.boxes.values())
    return places, kits.pop() or None if several and len(kits) == 1 else None


def hazards_of(context: ReadinessContext, parts: Sequence[StepPartOut]) -> list[str]:
    """The distinct hazard texts of the consumables among these parts."""
    return list(dict.fromkeys(filter(None, (_hazard(context.rows[str(part.line)]) for part in parts))))


def _hazard(row: PullLine) -> str | None:
    consumable = row.part.consumable if row.part else None
    words = str(consumable.hazard.get("words") or "") if consumable else ""
    words = words.removeprefix(UNCLASSIFIED).lstrip(" ;,.")
    if not words:
        return None
    return say("readiness.hazard", what=str(consumable), says=words.rstrip("."))
