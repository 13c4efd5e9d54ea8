"""Verdict, steps, their parts and the date agree about the same counts."""

from typing import Any

import pytest

from kitting.models import PullLine
from tests.kitting.floor import Floor, group
from tests.kitting.stage import send

pytestmark = pytest.mark.once

SUPPLIES = {"charge": "supplies"}


def shelf(floor: Floor, title: str, operation: str, **detail: str) -> PullLine:
    return floor.line(title, operation, kind="need", kit="", carton="", quantity=1, detail=detail)


def figures(readiness: dict[str, Any]) -> dict[str, str]:
    return {step["words"]: step["figure"] for step in readiness["how"]["steps"]}


def test_a_step_that_lacks_only_shop_supplies_can_start_and_is_not_all_here(floor: Floor) -> None:
    glove = shelf(floor, "Nitrile glove", "SETUP", **SUPPLIES)
    floor.count_all()
    step = floor.readiness()["steps"][0]
    part = step["parts"][-1]
    assert (step["state"], step["words"], step["missing"]) == ("clear", "can start", [])
    assert (part["title"], part["here"], part["need"], part["counted"]) == ("Nitrile glove", 0, 1, False)
    assert (part["states"], part["minor"]) == (["not counted"], True)
    floor.count((glove, 1))
    step = floor.readiness()["steps"][0]
    assert (step["words"], step["parts"][-1]["states"]) == ("all here", [])


def test_the_verdict_names_first_what_the_first_waiting_step_needs(floor: Floor) -> None:
    """A bag of a step far behind does not count, nor one that only holds a leaflet."""
    floor.line("Leaflet", "SETUP", carton="", bag="A", detail={"role": "paper"})
    floor.line("Plug", "CLOSE", bag="B")
    loose = floor.line("Clamp", "CLOSE", carton="", bag="A")
    PullLine.objects.filter(pk=floor.pack.pk).update(**floor.needed_at("SETUP"))
    floor.count((floor.clip, 6), (floor.ring, 4), (floor.duct, 1))
    floor.count((floor.line("Counted", "FIT", carton="", bag="A", quantity=1), 1))
    readiness = floor.readiness()
    assert readiness["sentence"] == (
        "Do not start. 1 line from the shelf not counted yet: count it, and 2 more lines that the work needs"
    )
    assert f"{readiness['reach']}. {readiness['count_first']}" == readiness["sentence"]
    assert readiness["reach"] == "Do not start"
    floor.count((floor.pack, 2), (loose, 4))
    readiness = floor.readiness()
    assert readiness["sentence"].endswith(". 1 line of bag B not counted yet: count it")
    assert readiness["steps"][3]["missing"] == ["Not counted yet: Plug"]


def test_lines_not_counted_are_told_of_what_they_are(floor: Floor) -> None:
    """The verdict and the date name the lines that the work needs; lines that stop nothing are named apart."""
    for n in range(2):
        shelf(floor, f"Glove {n}", "SETUP", **SUPPLIES)
    for n in range(3):
        floor.line(f"Plug {n}", "CLOSE", bag=str(n))
    floor.line("Bracket, automatic", "FIT", kind="beside")
    floor.count_all()
    readiness = floor.readiness()
    assert readiness["sentence"].endswith(
        "1 line of bag 0 not counted yet: count it, and 2 more lines that the work needs"
    )
    assert readiness["promise"]["unknown"].startswith("3 lines that the work needs are not counted yet.")
    assert figures(readiness)["Lines that the work needs and that only have to be counted"] == "3"
    assert figures(readiness)["Lines to count that no step waits for"] == "2"
    assert figures(readiness)["Lines of the pull list counted"] == "4 of 10"
    assert sum(part["needed"] for part in readiness["missing"]) == 3
    assert [part["title"] for part in readiness["missing"] if not part["needed"]] == ["From the shelf"]


def test_damaged_and_wrong_pieces_are_not_told_as_missing(floor: Floor) -> None:
    floor.count_all()
    floor.count((floor.ring, 4), damaged=1)
    floor.count((floor.duct, 1))
    send(floor.cast.signed_in("parts"), floor.list, floor.phone.note(floor.duct, "wrong_part"))
    readiness = floor.readiness()
    step = readiness["steps"][2]
    assert step["missing"] == [
        "O-ring 14.0 x 2.5: 3 of 4 can be used (damaged 1), no delivery date yet",
        "Duct, hot side: 0 of 1 can be used (wrong part 1), no delivery date yet",
    ]
    assert [(part["here"], part["states"]) for part in step["parts"]] == [(3, ["damaged 1"]), (0, ["wrong part 1"])]
    assert readiness["hold_before"]["words"].startswith("Stop before step 2: 2 parts missing or not usable: ")
    assert group(readiness, "O-ring 14.0 x 2.5")["words"] == "damaged 1"


def test_what_nobody_has_counted_is_not_told_as_missing(floor: Floor) -> None:
    floor.count((floor.pack, 2), (floor.clip, 6))
    floor.line("Hose", "FIT", carton="2")
    floor.line("Bracket", "FIT", carton="2")
    floor.count((floor.ring, 4), (floor.duct, 1))
    floor.due(*PullLine.objects.filter(carton="2"), day="2026-12-22")
    hold = lambda: floor.readiness()["hold_before"]["words"]  # noqa: E731
    assert hold() == "Stop before step 2: 2 parts not here yet: Turbocharger kit, carton 2, due Tue 22 Dec."
    floor.due(floor.line("Lamp", "FIT", carton="3"), day="2026-12-23")
    assert floor.readiness()["steps"][2]["missing"][-1] == "Lamp: 4 of 4 not here yet, due Wed 23 Dec"
    floor.count((floor.ring, 2))
    assert hold().startswith("Stop before step 2: 4 parts missing: ")
