"""Vector files: the calculations of kitting, from JSON strings to JSON strings."""

from collections.abc import Mapping
from dataclasses import fields
from datetime import date, datetime
from decimal import Decimal
from typing import Any

from kitting.calc.coolant import Refill, refill
from kitting.calc.counting import Event, Tally, fold
from kitting.calc.drained import drained_litres
from kitting.calc.explosion import ChildLine, Condition, ContentLine, KitTree, Node, Ships, flatten
from kitting.calc.line_figures import line_figures, line_standing
from kitting.calc.line_state import Flags
from kitting.calc.lots import Lot, LotInput, take_lots
from kitting.calc.missing import NeededItem
from kitting.calc.needs import CircuitAssumptions, NeedRow
from kitting.calc.observed import ObservedEvent, flags
from kitting.calc.packs import Pack, PackSet, choose_packs
from kitting.calc.pooling import allocate_pieces
from kitting.calc.readiness import ReadinessInput, SheetOperation, judge_readiness
from kitting.calc.weighing import Weighing, weigh
from shop.calc.money import rounded
from shop.calc.quantity import plain
from shop.calc.rules import CoolantRule
from shop.vectors.reading import VectorError, decimal, flag, many, mapping, number, text, texts, whole
from shop.vectors.registry import Calculation


def packs(case: dict[str, Any]) -> dict[str, Any]:
    """The calculation of packs (section 2)."""
    offered = [Pack(text(pack, "id"), number(pack, "size"), number(pack, "price")) for pack in many(case, "packs")]
    choice = choose_packs(number(case, "need"), number(case, "on_hand", "0"), offered, whole(case, "exponent", "2"))
    runner_up = choice.runner_up and _pack_set(choice.runner_up)
    return _pack_set(choice) | {"runner_up": runner_up}


def _pack_set(chosen: PackSet) -> dict[str, Any]:
    return {
        "packs": {name: str(count) for name, count in chosen.packs},
        "cost": format(chosen.cost, "f"),
        "left": format(rounded(chosen.left, 3), "f"),
    }


def coolant(case: dict[str, Any]) -> dict[str, Any]:
    """The calculation of coolant (section 3)."""
    stated = [field.name for field in fields(Refill) if field.name in case and field.name != "glycol"]
    mix = refill(Refill(**{name: number(case, name) for name in stated}, glycol=case.get("glycol")))
    amounts = {field.name: getattr(mix, field.name) for field in fields(mix)}
    return {name: format(value, "f") if isinstance(value, Decimal) else value for name, value in amounts.items()}


def explode(case: dict[str, Any]) -> dict[str, Any]:
    """The calculation of explode (section 7)."""
    contents = flatten(
        KitTree(
            root=text(case, "root"),
            nodes={name: _node(node) for name, node in mapping(case, "nodes").items()},
            vehicle=mapping(case, "vehicle"),
            superseded_by=mapping(case, "superseded_by"),
        )
    )
    return {
        "parts": _quantities(contents.parts),
        "paths": {part: [list(path) for path in paths] for part, paths in contents.paths.items()},
        "decide": list(contents.decide),
        "other": _quantities(contents.other),
        "lines": [_content_line(line) for line in contents.lines],
        "other_lines": [_content_line(line) for line in contents.other_lines],
    }


def _node(node: dict[str, Any]) -> Node:
    return Node(part=node.get("part"), children=tuple(_step(step) for step in many(node, "children")))


def _step(step: dict[str, Any]) -> ChildLine:
    when = tuple(Condition(text(condition, "attribute"), texts(condition, "in")) for condition in many(step, "when"))
    return ChildLine(text(step, "node"), _quantity(step.get("quantity")), when, _ships(text(step, "ships", "always")))


def _ships(value: str) -> Ships:
    match value:
        case "always" | "when":
            return value
    raise VectorError(f"ships is neither always nor when: {value}")


def _quantity(value: Any) -> Decimal:
    """The quantity. Anything that is not a number becomes NaN, which the calculation refuses."""
    try:
        return decimal(value, "quantity")
    except VectorError:
        return Decimal("NaN")


def _content_line(line: ContentLine) -> dict[str, Any]:
    return {"node": line.node, "path": list(line.path), "part": line.part, "quantity": plain(line.quantity)}


def _quantities(amounts: Mapping[str, Decimal]) -> dict[str, str]:
    return {name: plain(amount) for name, amount in amounts.items()}


def counting(case: dict[str, Any]) -> dict[str, Any]:
    """The calculation of counting (section 8). Its numbers are JSON integers."""
    tallies = fold(
        Event(**{field.name: event[field.name] for field in fields(Event) if field.name in event})
        for event in many(case, "events")
    )
    return {
        "lines": {
            line: {"total": tally.total, "damaged": tally.damaged, "low": tally.low, "confirm": tally.confirm}
            for line, tally in tallies.items()
        }
    }


def weigh_case(case: dict[str, Any]) -> dict[str, Any]:
    """The calculation of weigh (section 6)."""
    weighed = weigh(
        Weighing(
            sample_count=whole(case, "sample_count"),
            sample_mass=number(case, "sample_mass"),
            batch_mass=number(case, "batch_mass"),
            scale_step=number(case, "scale_step"),
            piece_variation=number(case, "piece_variation"),
            expected=None if case.get("expected") is None else whole(case, "expected"),
            tare=number(case, "tare", "0"),
        )
    )
    return {
        "estimate": format(weighed.estimate, "f"),
        "sd": format(weighed.sd, "f"),
        "trust": weighed.trust,
        "count": None if weighed.count is None else str(weighed.count),
        "action": weighed.action,
        "difference": None if weighed.difference is None else str(weighed.difference),
    }


def _instants(case: dict[str, Any], name: str) -> dict[str, str]:
    """The instants of a map, without those that are null."""
    return {key: instant for key, instant in mapping(case, name).items() if instant is not None}


def readiness(case: dict[str, Any]) -> dict[str, Any]:
    """The calculation of readiness (section 9)."""
    due, starts = _instants(case, "due"), _instants(case, "starts")
    judged = judge_readiness(
        ReadinessInput(
            operations=tuple(_sheet_operation(operation) for operation in many(case, "operations")),
            on_hand={item: decimal(amount, item) for item, amount in mapping(case, "on_hand").items()},
            minor=frozenset(texts(case, "minor")),
            due={item: datetime.fromisoformat(instant) for item, instant in due.items()},
            starts={code: datetime.fromisoformat(instant) for code, instant in starts.items()},
            buffer=whole(case, "buffer", "0"),
        )
    )
    arrivals = [
        {
            "code": arrival.code,
            "item": arrival.item,
            "due": due[arrival.item],
            "needed_at": starts[arrival.code],
            "slack_minutes": str(arrival.slack_minutes),
        }
        for arrival in judged.arrivals
    ]
    return {
        "clear": list(judged.clear),
        "cleared_hours": format(rounded(judged.cleared_hours, 1), "f"),
        "total_hours": format(rounded(judged.total_hours, 1), "f"),
        "blocked": [
            {"code": operation.code, "missing": _quantities(operation.missing)} for operation in judged.blocked
        ],
        "hold_before": judged.hold_before,
        "verdict": judged.verdict,
        "arrivals": arrivals,
        "minor_missing": _quantities(judged.minor_missing),
        "short": _quantities(judged.short),
    }


def _sheet_operation(operation: dict[str, Any]) -> SheetOperation:
    return SheetOperation(
        code=text(operation, "code"),
        hours=number(operation, "hours"),
        after=texts(operation, "after"),
        needs={item: _quantity(need) for item, need in mapping(operation, "needs").items()},
        no_return=flag(operation, "no_return"),
        mobile_again=flag(operation, "mobile_again"),
    )


def lots(case: dict[str, Any]) -> dict[str, Any]:
    """The calculation of lots (section 17)."""
    taking = take_lots(
        LotInput(
            lots=tuple(_lot(lot) for lot in many(case, "lots")),
            need=number(case, "need"),
            today=date.fromisoformat(text(case, "today")),
        )
    )
    return {
        "take": [{"id": lot.id, "quantity": plain(lot.quantity)} for lot in taking.take],
        "short": plain(taking.short),
        "expired": list(taking.expired),
        "next_expiry": None if taking.next_expiry is None else taking.next_expiry.isoformat(),
    }


def _lot(lot: dict[str, Any]) -> Lot:
    expires = None if lot.get("expires") is None else date.fromisoformat(text(lot, "expires"))
    return Lot(text(lot, "id"), number(lot, "quantity"), expires, flag(lot, "opened"))


def line_state_case(case: dict[str, Any]) -> dict[str, Any]:
    """The states of a line, and the figures that it is counted in."""
    tally = None if case.get("tally") is None else _tally(mapping(case, "tally"))
    noted = Flags(whole(case, "wrong_part", "0"), whole(case, "late", "0"), flag(case, "sealed"))
    line = line_standing(whole(case, "expected"), tally, text(case, "kind"), noted)
    figures = line_figures([line])
    names = ("counted", "not_counted", "differ", "count_again", "sealed")
    return {
        "states": [[code, str(count)] for code, count in line.states],
        "figures": [name for name in names if getattr(figures, name)],
    }


def line_notes(case: dict[str, Any]) -> dict[str, Any]:
    """The flags of lines from observations other than counts. The numbers of its events are JSON integers."""
    events = [
        ObservedEvent(Event(**{field.name: event[field.name] for field in fields(Event) if field.name in event}), event)
        for event in many(case, "events")
    ]
    expected = mapping(case, "expected")
    flags_by_line = flags(events, {line: whole(expected, line) for line in expected})
    return {
        "lines": {
            line: {
                "wrong_part": str(flags_of_line.wrong_part),
                "late": str(flags_of_line.late),
                "sealed": flags_of_line.sealed,
            }
            for line, flags_of_line in flags_by_line.items()
        }
    }


def pooling(case: dict[str, Any]) -> dict[str, Any]:
    """The allocation of pieces to steps. `steps` are in the order of service."""
    steps = texts(case, "steps")
    allocations = allocate_pieces([_item(line) for line in many(case, "lines")], steps, steps)
    return {
        "handed": [
            {
                "line": allocation.item.line,
                "step": allocation.step,
                "from": {source.line: str(pieces) for source, pieces in allocation.sources},
                "lacks": str(allocation.shortfall),
            }
            for allocation in allocations
        ]
    }


def _item(line: dict[str, Any]) -> NeededItem:
    need, have = whole(line, "need"), whole(line, "have")
    part, minor = text(line, "part"), flag(line, "minor")
    return NeededItem(text(line, "id"), "", text(line, "step"), need, have, minor=minor, part=part)


def _tally(case: dict[str, Any]) -> Tally:
    return Tally(whole(case, "total"), whole(case, "damaged"), whole(case, "low"), flag(case, "confirm"))


def drained(case: dict[str, Any]) -> dict[str, Any]:
    """Litres by the name of a capacity; null if it is not recorded."""
    rows = [
        NeedRow("", "", text(need, "rule"), number(need, "quantity", "0"), text(need, "of"))
        for need in many(case, "needs")
    ]
    share, none = number(case, "drained_share"), Decimal(0)
    capacities = {name: decimal(litres, name) for name, litres in mapping(case, "capacities").items()}
    assumed = CoolantRule(share, residual=none, target=none, premix=none, order_allowance=none, top_up=none)
    litres = drained_litres(rows, CircuitAssumptions(capacities, assumed, none))
    return {"drained": {of: None if volume is None else format(volume, "f") for of, volume in litres.items()}}


CALCULATIONS: dict[str, Calculation] = {
    "packs": packs,
    "coolant": coolant,
    "explode": explode,
    "counting": counting,
    "weigh": weigh_case,
    "readiness": readiness,
    "lots": lots,
    "line_state": line_state_case,
    "line_notes": line_notes,
    "pooling": pooling,
    "drained": drained,
}
