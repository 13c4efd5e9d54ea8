"""A kit's bill of materials, flattened for one vehicle: the calculation named explode (fixtures/vectors/explode.json).

Units: quantities are in each part's own unit. They multiply exactly down the tree, whatever their length.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from decimal import MAX_EMAX, MAX_PREC, MIN_EMIN, Context, Decimal
from typing import Literal

from shop.calc.errors import CalculationError

Ships = Literal["always", "when"]

_UNBOUNDED = Context(prec=MAX_PREC, Emax=MAX_EMAX, Emin=MIN_EMIN)
"""Keeps every digit of products and sums; nothing is divided here."""


@dataclass(frozen=True, slots=True)
class Condition:
    """The vehicle's `attribute` must equal one of `values`."""

    attribute: str
    values: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ChildLine:
    """One line of a carton or bag: `quantity` > 0 of `node`, if all conditions hold.

    `ships` says whether the box contains it even if they do not hold.
    """

    node: str
    quantity: Decimal
    when: tuple[Condition, ...] = ()
    ships: Ships = "always"


@dataclass(frozen=True, slots=True)
class Node:
    """Either a `part` (its number), or a carton or bag with `children`; never both, never neither."""

    part: str | None = None
    children: tuple[ChildLine, ...] = ()


@dataclass(frozen=True, slots=True)
class KitTree:
    """The tree below `root`, the vehicle's recorded attributes, and the supersessions of parts."""

    root: str
    nodes: Mapping[str, Node]
    vehicle: Mapping[str, str | None]
    superseded_by: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class ContentLine:
    """A leaf of the tree, the nodes between root and leaf, and the part under its latest number."""

    node: str
    path: tuple[str, ...]
    part: str
    quantity: Decimal


@dataclass(frozen=True, slots=True)
class Contents:
    """A kit's contents for one vehicle (`lines`, summed in `parts`) and the other contents of the box.

    `paths` lists each distinct place of a part in tree order; `decide` lists the attributes that someone must state.
    """

    parts: Mapping[str, Decimal]
    paths: Mapping[str, tuple[tuple[str, ...], ...]]
    decide: tuple[str, ...]
    other: Mapping[str, Decimal]
    lines: tuple[ContentLine, ...]
    other_lines: tuple[ContentLine, ...]


_Trail = tuple["_Trail | None", str]


@dataclass(frozen=True, slots=True)
class _Place:
    """A node met in the tree: its quantity, the path to it, and whether the conditions on the path hold."""

    node: str
    quantity: Decimal
    above: _Trail | None
    out: bool = False
    undecided: frozenset[str] = frozenset()
    in_box: bool = True

    @property
    def taken(self) -> bool:
        """True if all conditions hold."""
        return not self.out and not self.undecided


def flatten(kit: KitTree) -> Contents:
    """All leaves of the kit: what the vehicle takes, what is undecided, and what else the box contains.

    Refuses, for anything reachable from the root and any vehicle: `unknown_node`, `bad_node` (the node), `bad_quantity`
    (parent and child), `kit_loop`, `supersession_loop` (their codes in order).
    """
    _check(kit)
    leaves = tuple(_leaves(kit))
    lines = tuple(_line(place, kit) for place in leaves if place.taken)
    other_lines = tuple(_line(place, kit) for place in leaves if not place.taken and place.in_box)
    undecided: set[str] = set().union(*(place.undecided for place in leaves if not place.out))
    return Contents(
        parts=_sums(lines),
        paths=_paths(lines),
        decide=tuple(sorted(undecided)),
        other=_sums(other_lines),
        lines=lines,
        other_lines=other_lines,
    )


def _check(kit: KitTree) -> None:
    """Validates each node that is reachable from the root, by depth-first search without recursion."""
    checked: set[str] = set()
    path: dict[str, Iterator[ChildLine]] = {}
    _enter(kit.root, path, kit)
    while path:
        node, steps = next(reversed(path.items()))
        step = next(steps, None)
        if step is None:
            checked.add(node)
            del path[node]
            continue
        _check_quantity(node, step)
        if step.node in path:
            raise CalculationError("kit_loop", _loop(tuple(path), step.node))
        if step.node not in checked:
            _enter(step.node, path, kit)


def _last_revision(part: str, superseded_by: Mapping[str, str]) -> str:
    """The part at the end of the chain of supersessions. Refuses `supersession_loop`."""
    chain = {part: None}
    while (newer := superseded_by.get(part)) is not None:
        if newer in chain:
            raise CalculationError("supersession_loop", _loop(tuple(chain), newer))
        chain[part := newer] = None
    return part


def _enter(node: str, path: dict[str, Iterator[ChildLine]], kit: KitTree) -> None:
    content = kit.nodes.get(node)
    if content is None:
        raise CalculationError("unknown_node", node)
    if bool(content.part) == bool(content.children):
        raise CalculationError("bad_node", node)
    if content.part:
        _last_revision(content.part, kit.superseded_by)
    path[node] = iter(content.children)


def _check_quantity(node: str, step: ChildLine) -> None:
    if not step.quantity.is_finite() or step.quantity <= 0:
        raise CalculationError("bad_quantity", f"{node} > {step.node}: {step.quantity}")


def _loop(path: tuple[str, ...], again: str) -> str:
    return " > ".join((*path[path.index(again) :], again))


def _leaves(kit: KitTree) -> Iterator[_Place]:
    """The leaves in tree order, by an explicit stack, so that no tree is too deep."""
    waiting = [_Place(kit.root, Decimal(1), None)]
    while waiting:
        place = waiting.pop()
        node = kit.nodes[place.node]
        if node.part:
            yield place
        else:
            waiting.extend(_below(place, step, kit) for step in reversed(node.children))


def _below(place: _Place, step: ChildLine, kit: KitTree) -> _Place:
    fails, unstated = _judged(step.when, kit.vehicle)
    holds = not fails and not unstated
    return _Place(
        node=step.node,
        quantity=_UNBOUNDED.multiply(place.quantity, step.quantity),
        above=(place.above, place.node),
        out=place.out or fails,
        undecided=place.undecided | unstated,
        in_box=place.in_box and (holds or step.ships == "always"),
    )


def _judged(when: tuple[Condition, ...], vehicle: Mapping[str, str | None]) -> tuple[bool, frozenset[str]]:
    """(True if a recorded attribute fails a condition, the attributes that are not recorded)"""
    if not when:
        return False, frozenset()
    stated = {condition.attribute: vehicle.get(condition.attribute) for condition in when}
    fails = any(
        value is not None and value not in condition.values
        for condition in when
        for value in [stated[condition.attribute]]
    )
    return fails, frozenset(attribute for attribute, value in stated.items() if value is None)


def _line(place: _Place, kit: KitTree) -> ContentLine:
    part = kit.nodes[place.node].part or ""
    return ContentLine(place.node, _path(place), _last_revision(part, kit.superseded_by), place.quantity)


def _path(place: _Place) -> tuple[str, ...]:
    path: list[str] = []
    above = place.above
    while above is not None:
        above, node = above
        path.append(node)
    return tuple(reversed(path[:-1]))


def _sums(lines: tuple[ContentLine, ...]) -> dict[str, Decimal]:
    sums: dict[str, Decimal] = {}
    for line in lines:
        sums[line.part] = _UNBOUNDED.add(sums.get(line.part, Decimal(0)), line.quantity)
    return sums


def _paths(lines: tuple[ContentLine, ...]) -> dict[str, tuple[tuple[str, ...], ...]]:
    paths: dict[str, dict[tuple[str, ...], None]] = {}
    for line in lines:
        paths.setdefault(line.part, {})[line.path] = None
    return {part: tuple(distinct) for part, distinct in paths.items()}
