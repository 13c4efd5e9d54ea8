"""Steps that a change adds stand in their place among the steps of the job."""

from datetime import UTC, datetime
from decimal import Decimal
from typing import Any

from shop.calc.placing import AgreedStep, JoiningStep, free_code, joining_steps, place_steps
from shop.calc.sheet import SheetStep

MORNING, NOON = datetime(2026, 12, 1, 8, tzinfo=UTC), datetime(2026, 12, 1, 12, tzinfo=UTC)
JOB = [
    AgreedStep("SETUP", "1. Strip"),
    AgreedStep("BUMPER", "1. Strip", ("SETUP",)),
    AgreedStep("TURBO", "2. Fit", ("BUMPER",)),
    AgreedStep("ROAD", "3. Test", ("TURBO",)),
]


def later(code: str, stage: str = "", after: tuple[str, ...] = (), **fields: Any) -> AgreedStep:
    return AgreedStep(code, stage, after, **({"agreement": 2, "agreed_at": NOON} | fields))


def order(*steps: AgreedStep) -> str:
    return " ".join(place_steps([*JOB, *steps]))


def test_it_follows_the_last_step_of_its_stage_whatever_number_its_kit_gives_that() -> None:
    assert order(later("GRILLE", "4) Strip")) == "SETUP BUMPER GRILLE TURBO ROAD"
    assert order(later("A", "Fit"), later("B", "Fit", ("A",))) == "SETUP BUMPER TURBO A B ROAD"


def test_without_a_stage_it_follows_its_predecessors_else_it_is_last() -> None:
    added = later("WIRING", "", ("SETUP",)), later("LAMP", "", ("SETUP",))
    assert order(*added) == "SETUP WIRING LAMP BUMPER TURBO ROAD"
    assert order(later("WASH")) == "SETUP BUMPER TURBO ROAD WASH"


def test_it_stands_behind_its_predecessors_and_ahead_of_what_waits_for_it() -> None:
    assert order(later("BLEED", "Strip", ("TURBO",))) == "SETUP BUMPER TURBO BLEED ROAD"
    assert order(later("LATE", "Test", before=("ROAD",))) == "SETUP BUMPER TURBO LATE ROAD"
    assert order(later("WASH", before=("TURBO",))) == "SETUP BUMPER WASH TURBO ROAD"


def test_work_that_had_begun_when_it_was_agreed_stays_ahead_of_it() -> None:
    begun = [AgreedStep(step.code, step.stage, step.after, begun_at=MORNING) for step in JOB[:3]]
    grille = later("GRILLE", "Strip")
    assert " ".join(place_steps([*begun, JOB[3], grille])) == "SETUP BUMPER TURBO GRILLE ROAD"
    since = [AgreedStep(step.code, step.stage, step.after, begun_at=NOON.replace(hour=13)) for step in JOB]
    assert " ".join(place_steps([*since, grille])) == "SETUP BUMPER GRILLE TURBO ROAD"  # it does not jump later


def test_more_hours_of_a_step_are_a_step_of_their_own_behind_it() -> None:
    added = [
        SheetStep("SETUP"),
        SheetStep("BUMPER", ("SETUP",), hours=Decimal("0.4")),
        SheetStep("LAMP", ("BUMPER",), hours=Decimal(1)),
        SheetStep("ROAD", ("LAMP",)),
    ]
    standing = {"SETUP", "BUMPER", "TURBO", "ROAD"}
    joining = joining_steps(added, standing, {*standing, "BUMPER~2"})
    assert joining == (
        JoiningStep("BUMPER", "BUMPER~3", ("BUMPER", "SETUP"), ()),
        JoiningStep("LAMP", "LAMP", ("BUMPER~3",), ("ROAD",)),
    )
    again = joining_steps([SheetStep("WIRING")], {"SETUP"}, {"SETUP", "WIRING"})
    assert again == (JoiningStep("WIRING", "WIRING", (), ()),)  # taken off before, so its code is free


def test_a_code_keeps_to_the_length_of_its_column() -> None:
    long = "X" * 60
    assert free_code(long, ()) == "X" * 40 and free_code(long, {"X" * 40}) == "X" * 38 + "~2"
