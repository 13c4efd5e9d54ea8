"""Flattening a kit: properties of every tree; the worked cases are in the vectors."""

from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kitting.calc.explosion import ChildLine, Condition, KitTree, Node, flatten
from shop.calc.errors import CalculationError
from tests.examples import many

ATTRIBUTES = ("gearbox", "drive", "trim")
VALUES = ("a", "b")

conditions = st.lists(
    st.builds(
        Condition,
        st.sampled_from(ATTRIBUTES),
        st.lists(st.sampled_from(VALUES), min_size=1, max_size=2, unique=True).map(tuple),
    ),
    max_size=2,
).map(tuple)
quantities = st.decimals(Decimal("0.01"), Decimal("9"), places=2)


@st.composite
def kits(draw: st.DrawFn) -> KitTree:
    """Node i contains only nodes below i, so there is no loop. The first three are parts; nested bags are likely."""
    nodes = {f"n{at}": Node(part=f"P{at % 2}") for at in range(3)}
    for at in range(3, draw(st.integers(4, 7))):
        steps = st.builds(
            ChildLine,
            st.sampled_from([f"n{below}" for below in (*range(at), at - 1, at - 1)]),
            quantities,
            conditions,
            st.sampled_from(["always", "when"]),
        )
        nodes[f"n{at}"] = Node(children=tuple(draw(st.lists(steps, min_size=1, max_size=3))))
    stated = st.dictionaries(st.sampled_from(ATTRIBUTES), st.sampled_from([*VALUES, None]))
    return KitTree(
        f"n{len(nodes) - 1}",
        nodes,
        draw(stated),
        draw(st.sampled_from([{}, {"P0": "P1"}, {"P1": "P9"}, {"P0": "P1", "P1": "P9"}])),
    )


def every_leaf(kit: KitTree, node: str, way: tuple[str, ...] = (), steps: tuple[ChildLine, ...] = ()):
    """A second, recursive implementation: (leaf, path, steps) for each place in the tree."""
    if kit.nodes[node].part:
        yield node, way, steps
    for step in kit.nodes[node].children:
        yield from every_leaf(kit, step.node, (*way, node), (*steps, step))


def verdict(kit: KitTree, steps: tuple[ChildLine, ...]) -> str:
    """taken, out or undecided, from all conditions on the path together."""
    conditions = [condition for step in steps for condition in step.when]
    stated = {attribute: value for attribute, value in kit.vehicle.items() if value is not None}
    if any(
        condition.attribute in stated and stated[condition.attribute] not in condition.values
        for condition in conditions
    ):
        return "out"
    return "undecided" if any(condition.attribute not in stated for condition in conditions) else "taken"


def latest(kit: KitTree, leaf: str) -> str:
    part = kit.nodes[leaf].part or ""
    while part in kit.superseded_by:
        part = kit.superseded_by[part]
    return part


def product(steps: tuple[ChildLine, ...]) -> Decimal:
    total = Decimal(1)
    for step in steps:
        total *= step.quantity
    return total


@settings(max_examples=many(300))
@given(kits())
def test_lines_are_the_places_that_hold_in_tree_order(kit):
    expected = [
        (leaf, way[1:], latest(kit, leaf), product(steps))
        for leaf, way, steps in every_leaf(kit, kit.root)
        if verdict(kit, steps) == "taken"
    ]
    assert [(line.node, line.path, line.part, line.quantity) for line in flatten(kit).lines] == expected


@given(kits())
def test_the_box_holds_what_is_not_taken_and_ships_all_the_same(kit):
    expected = [
        (leaf, way[1:], latest(kit, leaf), product(steps))
        for leaf, way, steps in every_leaf(kit, kit.root)
        if verdict(kit, steps) != "taken"
        and all(step.ships == "always" or verdict(kit, (step,)) == "taken" for step in steps)
    ]
    assert [(line.node, line.path, line.part, line.quantity) for line in flatten(kit).other_lines] == expected


@given(kits())
def test_only_an_attribute_that_would_settle_a_part_is_asked_for(kit):
    attributes = {
        condition.attribute
        for _, _, steps in every_leaf(kit, kit.root)
        if verdict(kit, steps) == "undecided"
        for step in steps
        for condition in step.when
        if kit.vehicle.get(condition.attribute) is None
    }
    assert flatten(kit).decide == tuple(sorted(attributes))


@given(kits())
def test_sums_and_paths_are_those_of_the_lines(kit):
    contents = flatten(kit)
    for summed, lines in ((contents.parts, contents.lines), (contents.other, contents.other_lines)):
        assert summed == {part: sum(o.quantity for o in lines if o.part == part) for part in {o.part for o in lines}}
    assert contents.paths == {
        part: tuple(dict.fromkeys(line.path for line in contents.lines if line.part == part)) for part in contents.parts
    }


@given(kits(), st.sampled_from(VALUES))
def test_with_every_attribute_stated_nothing_is_asked(kit, value):
    decided = flatten(replace(kit, vehicle=dict.fromkeys(ATTRIBUTES, value)))
    assert decided.decide == ()


@given(kits(), st.dictionaries(st.sampled_from(ATTRIBUTES), st.sampled_from(VALUES)))
def test_stating_more_never_moves_what_was_settled_and_asks_for_nothing_new(kit, more):
    """Lines that were taken keep their place and quantity; only undecided lines change."""
    recorded = {attribute: value for attribute, value in kit.vehicle.items() if value is not None}
    first, second = flatten(kit), flatten(replace(kit, vehicle={**more, **recorded}))
    assert set(first.lines) <= set(second.lines)
    assert set(second.decide) <= set(first.decide) - more.keys()
    if not first.decide:
        assert second == first


@given(kits(), st.decimals("0.5", "7", places=1))
def test_twice_the_number_of_every_part_is_twice_the_kit(kit, times):
    root = kit.nodes[kit.root]
    steps = tuple(replace(step, quantity=step.quantity * times) for step in root.children)
    more = flatten(replace(kit, nodes={**kit.nodes, kit.root: Node(children=steps)}))
    assert more.parts == {part: quantity * times for part, quantity in flatten(kit).parts.items()}
    assert (more.paths, more.decide) == (flatten(kit).paths, flatten(kit).decide)


WRONG = {
    "unknown_node": {"new": Node(children=(ChildLine("nowhere", Decimal(1)),))},
    "bad_node": {"new": Node()},
    "bad_quantity": {"new": Node(children=(ChildLine("n0", Decimal(0)),))},
    "kit_loop": {"new": Node(children=(ChildLine("new", Decimal(1)),))},
    "supersession_loop": {"new": Node("PX")},
}


@given(kits(), st.sampled_from(sorted(WRONG)), st.data())
def test_one_fault_anywhere_below_the_root_is_refused_and_one_beside_it_is_nobodys(kit, code, data):
    circle = {**kit.superseded_by, "PX": "PY", "PY": "PX"}
    beside = replace(kit, nodes={**kit.nodes, **WRONG[code]}, superseded_by=circle)
    assert flatten(beside) == flatten(kit)
    names = sorted({node for _, way, _ in every_leaf(kit, kit.root) for node in way})
    name = data.draw(st.sampled_from(names))
    never = ChildLine("new", Decimal(1), (Condition("gearbox", ()),))
    node = Node(children=(*kit.nodes[name].children, never))
    with pytest.raises(CalculationError, match=f"^{code}: .*[A-Za-z]"):
        flatten(replace(beside, nodes={**beside.nodes, name: node}))


def chain(depth: int, quantity: str, *, last: Node | None = None) -> KitTree:
    nodes = {f"n{at}": Node(children=(ChildLine(f"n{at + 1}", Decimal(quantity)),)) for at in range(depth)}
    return KitTree("n0", nodes | {f"n{depth}": last or Node("P")}, {}, {})


def test_a_quantity_keeps_every_digit_however_long_it_gets():
    (line,) = flatten(chain(1500, "1.1")).lines
    assert (line.quantity.as_integer_ratio()) == (11**1500, 10**1500)
    nodes = {"K": Node(children=(ChildLine("A", Decimal("1e-40")), ChildLine("A", Decimal("1e40")))), "A": Node("P")}
    assert flatten(KitTree("K", nodes, {}, {})).parts["P"] == Decimal("1" + "0" * 40 + "." + "0" * 39 + "1")


def test_no_tree_is_too_deep():
    (line,) = flatten(chain(5000, "1")).lines
    assert (line.node, len(line.path)) == ("n5000", 4999)


def test_a_long_chain_of_replacements_is_followed_to_its_end():
    newer = {f"P{at}": f"P{at + 1}" for at in range(5000)}
    kit = KitTree("A", {"A": Node("P0")}, {}, newer)
    assert flatten(kit).lines[0].part == "P5000"


def refused(kit: KitTree) -> str:
    with pytest.raises(CalculationError) as refusal:
        flatten(kit)
    return str(refusal.value)


def a_kit(*steps: ChildLine, **nodes: Node) -> KitTree:
    return KitTree("K", {"K": Node(children=steps), "P": Node("P-1")} | nodes, {}, {})


def test_a_loop_is_named_from_where_it_begins():
    assert refused(chain(5000, "1", last=Node(children=(ChildLine("n4998", Decimal(1)),)))) == (
        "kit_loop: n4998 > n4999 > n5000 > n4998"
    )
    kit = replace(a_kit(ChildLine("P", Decimal(1))), superseded_by={"P-1": "P-2", "P-2": "P-3", "P-3": "P-2"})
    assert refused(kit) == "supersession_loop: P-2 > P-3 > P-2"
    assert refused(replace(kit, superseded_by={"P-1": "P-1"})) == "supersession_loop: P-1 > P-1"


def test_what_is_wrong_is_named_with_its_place():
    assert refused(a_kit(ChildLine("B", Decimal(1)))) == "unknown_node: B"
    assert refused(KitTree("X", {}, {}, {})) == "unknown_node: X"
    assert refused(a_kit(ChildLine("P", Decimal("NaN")))) == "bad_quantity: K > P: NaN"
    assert refused(a_kit(ChildLine("P", Decimal("Infinity")))) == "bad_quantity: K > P: Infinity"
    assert refused(a_kit(ChildLine("B", Decimal(1)), B=Node("P-2", (ChildLine("P", Decimal(1)),)))) == "bad_node: B"


def test_a_fault_counts_even_where_this_vehicle_never_goes():
    never = (Condition("gearbox", ()),)
    assert refused(a_kit(ChildLine("P", Decimal(0), never, "when"))) == "bad_quantity: K > P: 0"


def test_a_bag_packed_in_every_bag_above_it_is_a_place_each_time():
    nodes = {"n0": Node("P")}
    for at in range(1, 12):
        nodes[f"n{at}"] = Node(children=(ChildLine(f"n{at - 1}", Decimal(1)), ChildLine(f"n{at - 1}", Decimal(2))))
    contents = flatten(KitTree("n11", nodes, {}, {}))
    assert contents.parts == {"P": Decimal(3**11)}
    assert len(contents.lines) == 2**11


def test_every_node_is_checked_once_however_often_it_is_packed():
    class Described(dict[str, Node]):
        names: list[str]

        def get(self, name: str, default: Node | None = None) -> Node | None:
            self.names.append(name)
            return super().get(name, default)

    nodes = Described(n0=Node("P"))
    nodes.names = []
    for at in range(1, 8):
        nodes[f"n{at}"] = Node(children=(ChildLine(f"n{at - 1}", Decimal(1)), ChildLine(f"n{at - 1}", Decimal(2))))
    flatten(KitTree("n7", nodes, {}, {}))
    assert sorted(nodes.names) == sorted(nodes)
