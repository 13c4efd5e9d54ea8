"""The differences of two versions of a kit, and how the one becomes the other."""

from dataclasses import replace
from decimal import Decimal

from hypothesis import given
from hypothesis import strategies as st

from kitting.calc.kit_changes import KitChange, KitItem, kit_changes

BOLT = KitItem("line", "QF-101", "Bolt", Decimal(4), place=("1", "A"), operation="BRAKE", ships="always")
NUT = KitItem("line", "QF-102", "Nut", Decimal(2), place=("1", "B"), ships="always")
OIL = KitItem("need", "oil", "Engine oil", Decimal("5.5"), "L")

ITEMS = st.builds(
    KitItem,
    group=st.sampled_from(["line", "need"]),
    key=st.sampled_from("abc"),
    name=st.just("x"),
    quantity=st.integers(1, 3).map(Decimal),
    place=st.tuples(st.sampled_from("12")),
    operation=st.sampled_from(["", "P"]),
    ships=st.sampled_from(["always", "when"]),
)
VERSIONS = st.lists(ITEMS, max_size=8, unique_by=lambda item: (item.group, item.key, item.place))


def test_each_difference_is_told_once() -> None:
    more = replace(BOLT, quantity=Decimal(6), operation="", ships="when")
    assert tuple(kit_changes([BOLT, NUT], [more, OIL])) == (
        KitChange("removed", NUT),
        KitChange("quantity", more, Decimal(4), Decimal(6)),
        KitChange("operation", more, "BRAKE", ""),
        KitChange("ships", more, "always", "when"),
        KitChange("added", OIL),
    )


def test_a_part_that_changes_its_bag_has_moved() -> None:
    other_bag = replace(BOLT, place=("2", "C"), quantity=Decimal(3))
    assert tuple(kit_changes([BOLT], [other_bag])) == (
        KitChange("moved", other_bag, ("1", "A"), ("2", "C")),
        KitChange("quantity", other_bag, Decimal(4), Decimal(3)),
    )
    two_bags = [BOLT, replace(BOLT, place=("1", "D"))]
    assert [change.code for change in kit_changes(two_bags, [other_bag])] == ["removed", "removed", "added"]
    assert [change.code for change in kit_changes([BOLT], [replace(OIL, key="QF-101")])] == ["removed", "added"]


@given(VERSIONS, VERSIONS)
def test_the_changes_make_the_one_version_of_the_other(before: list[KitItem], after: list[KitItem]) -> None:
    rows = {(item.group, item.key, item.place): item for item in before}
    for change in kit_changes(before, after):
        item = change.item
        place = (item.group, item.key, item.place)
        if change.code == "removed":
            del rows[place]
        elif change.code == "added":
            assert place not in rows
            rows[place] = item
        elif change.code == "moved":
            rows[place] = replace(rows.pop((item.group, item.key, change.before)), place=item.place)
        else:
            assert getattr(rows[place], change.code) == change.before != change.after
            rows[place] = replace(rows[place], **{change.code: change.after})
    assert set(rows.values()) == set(after)
    assert not list(kit_changes(after, after))
