"""One count of a list's lines, wherever it stands."""

from typing import Any

import pytest

from kitting.models import PullLine
from tests.kitting.floor import Floor, local
from tests.kitting.stage import send

pytestmark = pytest.mark.once


def test_list_report_and_readiness_count_the_same_lines(floor: Floor) -> None:
    """The list has a line beside the vehicle's parts, a sealed one, a wrong part without a count and a retired line."""
    beside = floor.line("Bracket, automatic", "FIT", kind="beside")
    floor.line("Bumper bolts", "FIT", kind="reused", part=None)
    gone = floor.line("Old clip", "FIT")
    floor.count((floor.clip, 6), (beside, 1), (gone, 1))
    PullLine.objects.filter(pk=gone.pk).update(retired_at=local(1))
    client = floor.cast.signed_in("parts")
    send(client, floor.list, floor.phone.note(floor.pack, "sealed"), floor.phone.note(floor.ring, "wrong_part"))
    (listed,) = client.get("pull-lists").json()["items"]
    report, readiness = client.get(f"pull-lists/{floor.list.pk}/report").json(), floor.readiness()
    assert [(answer["counted"], answer["lines"]) for answer in (listed, report, readiness)] == [(3, 5)] * 3
    figures = {step["words"]: step["figure"] for step in readiness["how"]["steps"]}
    assert figures["Lines of the pull list counted"] == "3 of 5"


def test_the_report_names_who_noted_a_wrong_part_until_a_full_count_lifts_it(floor: Floor) -> None:
    client = floor.cast.signed_in("parts")
    floor.count((floor.ring, 3))
    send(client, floor.list, floor.phone.note(floor.ring, "wrong_part"))
    assert counted_by(floor, floor.ring) == [("Parts", "counted 3"), ("Parts", "noted a wrong part")]
    send(client, floor.list, floor.phone.note(floor.duct, "wrong_part"))
    assert counted_by(floor, floor.duct) == [("Parts", "noted a wrong part")]
    floor.count((floor.ring, 5))
    assert counted_by(floor, floor.ring) == [("Parts", "counted 5")]


def counted_by(floor: Floor, line: PullLine) -> list[tuple[str, str]]:
    report: dict[str, Any] = floor.cast.signed_in("parts").get(f"pull-lists/{floor.list.pk}/report").json()
    (row,) = [row for row in report["differences"] if row["line"] == str(line.pk)]
    return [(person["who"], person["words"]) for person in row["counted_by"]]
