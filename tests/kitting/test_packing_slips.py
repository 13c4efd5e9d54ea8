"""A packing slip as a file: looked at first, then all of its goods get their day, or none."""

from decimal import Decimal
from typing import Any

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from kitting.models import PullLine
from shop.models import FileRead, History
from tests.factories import PackFactory
from tests.imports.despatch import packed, slip
from tests.imports.test_api import give
from tests.kitting.floor import Floor, local

pytestmark = pytest.mark.once

DAY = "2026-12-04"


def due(floor: Floor) -> dict[str, Any]:
    """{title: day of arrival} of the lines that have one."""
    return dict(PullLine.objects.filter(due_at__isnull=False).values_list("title", "due_at"))


def read(floor: Floor, body: str | bytes, name: str = "slip.xml") -> Any:
    return give(floor.cast.signed_in("parts"), "packing_slip", body, name=name)


def problems(answer: Any) -> list[str]:
    return [finding["words"] for finding in answer.json()["findings"] if finding["weight"] == "must_fix"]


def test_the_goods_of_a_slip_get_their_day_once_it_is_imported(floor: Floor) -> None:
    floor.count((floor.clip, 6), (floor.ring, 1))
    number, parts = floor.ring.part.number, floor.cast.signed_in("parts")
    lines = [packed(number, "2"), packed("OIL-5", "2", title="=1+1"), packed("NOT-OURS", "1")]
    answer = read(floor, slip(f"{floor.job}-1", DAY, lines))
    assert answer.status_code == 201 and answer.json()["can_take_in"], answer.content
    words = [finding["words"] for finding in answer.json()["findings"] if finding["weight"] == "please_check"]
    assert [text.partition(": ")[2] for text in words] == [
        f"the slip has 1 fewer than a line of {floor.job} lacks, so that line gets no day.",
        f"{floor.job} does not wait for NOT-OURS.",
    ]
    path = f"imports/{answer.json()['id']}"
    listed = parts.get(f"{path}/lines").json()["lines"]
    assert [any(remark["leaves_out"] for remark in line["findings"]) for line in listed] == [True, False, True]
    assert answer.json()["rows"] == answer.json()["good"] == answer.json()["places"][0]["lines"] == 1
    becomes = answer.json()["becomes"]["title"]
    assert due(floor) == {} and becomes == f"{floor.job}: 1 line of its list arrives on Fri 4 Dec 2026"
    imported = parts.post(f"{path}/take-in")
    assert imported.status_code == 200 and imported.json()["made"] == str(floor.list.job_id)
    assert due(floor) == {"Engine oil, 5 L": local(4, 17)}
    assert History.objects.filter(verb="due", subject_id=floor.list.pk).count() == 1
    assert [entry["quantity"] for order in floor.readiness()["to_order"] for entry in order["lines"]] == ["3"]


@pytest.mark.both
def test_a_kit_of_a_slip_brings_every_line_of_its_box_and_a_day_can_be_typed(floor: Floor) -> None:
    parts = floor.cast.signed_in("parts")
    answer = read(floor, slip(str(floor.job), "", [packed("BI-T", "1", "KT")]))
    assert not answer.json()["can_take_in"]
    path = f"imports/{answer.json()['id']}"
    late = parts.post(f"{path}/steps", {"do": "field", "field": "day", "text": "2026-11-30"}).json()
    assert not late["can_take_in"]
    typed = parts.post(f"{path}/steps", {"do": "field", "field": "day", "text": DAY}).json()
    assert typed["can_take_in"], typed["findings"]
    with CaptureQueriesContext(connection) as queries:
        assert parts.post(f"{path}/take-in").status_code == 200
    assert set(due(floor).values()) == {local(4, 17)} and len(due(floor)) == 3 and len(queries) < 60


def test_a_slip_of_many_lines_takes_no_more_queries(floor: Floor) -> None:
    shop, parts = floor.cast.shop, floor.cast.signed_in("parts")
    numbers = [f"OIL-{n}" for n in range(30, 70)]
    for number in numbers:
        pack = PackFactory(shop=shop, number=number, preferred=floor.oil.preferred)
        floor.line(number, "CLOSE", kind="need", kit="", part=pack, quantity=Decimal(1), number=number)

    def queries(numbers: list[str]) -> int:
        with CaptureQueriesContext(connection) as captured:
            file = read(floor, slip(str(floor.job), DAY, [packed(number, "1") for number in numbers])).json()
            assert file["can_take_in"], file["findings"]
            assert parts.post(f"imports/{file['id']}/take-in").status_code == 200
        return len(captured)

    few = queries(numbers[:1])
    assert queries(numbers[1:]) <= few and len(due(floor)) == 40


def test_what_cannot_be_read_or_is_another_shops_changes_nothing(floor: Floor) -> None:
    good = packed("OIL-5", "2")
    assert "Line 16 of the file" in problems(read(floor, slip(str(floor.job), DAY, [good, packed("A", "", id=2)])))[0]
    assert "XYZ" in problems(read(floor, slip(str(floor.job), DAY, [good, packed("A", "1", "XYZ")])))[0]
    assert len(problems(read(floor, slip("PO 17", DAY, [good])))) == 1
    assert len(problems(read(floor, slip("", DAY, [good])))) == 1
    assert len(problems(read(floor, slip(str(floor.job), DAY, [packed("NOT-OURS", "1")])))) == 1
    assert len(problems(read(floor, "<?xml version='1.0'?><Order/>"))) == 1
    elsewhere = floor.cast.signed_in("stranger")
    elsewhere.shop = floor.cast.elsewhere.slug
    stranger = give(elsewhere, "packing_slip", slip(str(floor.job), DAY, [good]), name="slip.xml")
    assert stranger.status_code == 201 and len(problems(stranger)) == 1
    assert read(floor, b"<?xml version='1.0'?>" + b" " * 10 * 1024 * 1024).status_code == 413
    for file in FileRead.objects.filter(shop=floor.cast.shop):
        assert floor.cast.signed_in("parts").post(f"imports/{file.pk}/take-in").status_code == 409
    assert due(floor) == {}
