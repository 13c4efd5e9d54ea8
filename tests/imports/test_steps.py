"""Correcting a file before it is imported: answers, typed facts, cells, rows left out, bags, and undoing each."""

from io import StringIO
from pathlib import Path
from typing import Any

import pytest
from django.core.management import CommandError, call_command
from django.db import connection
from django.test.utils import CaptureQueriesContext

from kitting.models import Kit, KitLine, Supplier
from shop.models import FileRead
from shop.services import imports
from tests.cast import Cast
from tests.client import CheckedClient
from tests.imports.test_api import give

pytestmark = pytest.mark.once

ROWS = "A-1;Bolt;2\nA-2;Nut;2\nA-3;Hose;2.5\nA-4;Clip;4\n"
UGLY = "Part no.;Description;Qty\nBrackets;;\n" + ROWS + "Hoses;;\nA-5;Hose, automatic only;1\n"


def step(client: CheckedClient, file: dict[str, Any], **fields: Any) -> dict[str, Any]:
    answer = client.post(f"imports/{file['id']}/steps", fields)
    assert answer.status_code == 200, answer.content
    return dict(answer.json())


def lines(client: CheckedClient, file: dict[str, Any], query: str = "") -> list[dict[str, Any]]:
    return list(client.get(f"imports/{file['id']}/lines{query}").json()["lines"])


def mended(client: CheckedClient, file: dict[str, Any]) -> dict[str, Any]:
    """The file with every problem of UGLY settled."""
    step(client, file, do="field", field="kit", text="UG-1")
    step(client, file, do="field", field="supplier", text="Quillfen Supply")
    step(client, file, do="answer", question="sections", text="bag")
    return step(client, file, do="value", sheet="", rows=[5], field="quantity", text="2")


@pytest.mark.both
def test_an_ugly_file_is_mended_on_the_screen_and_imported(cast: Cast) -> None:
    client = cast.signed_in("parts")
    file = give(client, "kit", UGLY).json()
    assert [question["key"] for question in file["questions"]] == ["sections"]
    assert not file["can_take_in"] and client.post(f"imports/{file['id']}/take-in").status_code == 409
    file = mended(client, file)
    assert [(place["bag"], place["lines"], place["must_fix"]) for place in file["places"]] == [
        ("Brackets", 4, 0),
        ("Hoses", 1, 0),
    ]
    assert file["can_take_in"] and file["becomes"]["title"] == "Kit UG-1, version 1: UG-1"
    assert client.post(f"imports/{file['id']}/take-in").json()["state"] == "taken"
    parts = KitLine.objects.filter(kind="part").order_by("position")
    assert [(line.part.number, line.quantity) for line in parts if line.part][2] == ("A-3", 2)
    kit = Kit.objects.select_related("part__preferred").get()
    assert kit.part.preferred == Supplier.objects.get(), "also without a price the kit is ordered there"


def test_an_open_question_alone_keeps_a_file_out(cast: Cast) -> None:
    client = cast.signed_in("parts")
    file = give(client, "kit", "Kit;K-1\n" + UGLY.replace("2.5", "2")).json()
    assert file["counts"]["must_fix"] == 0 and not file["can_take_in"]
    refused = client.post(f"imports/{file['id']}/take-in")
    assert refused.status_code == 409 and "1 problem to fix" in refused.json()["detail"]


def test_each_problem_stands_at_its_line_with_what_one_tap_corrects(cast: Cast) -> None:
    client = cast.signed_in("parts")
    file = give(client, "kit", UGLY).json()
    by_part = {line["part"]: line for line in lines(client, file)}
    assert [remark["words"] for remark in by_part["A-3"]["findings"]] == [
        "Row 5, quantity: 2.5 pieces: a piece cannot be divided."
    ]
    assert by_part["A-5"]["findings"][0]["offers"] == [{"field": "when", "text": "transmission=automatic"}]
    step(client, file, do="value", sheet="", rows=[8], field="when", text="transmission=automatic")
    assert lines(client, file)[-1]["when"] == "transmission=automatic"
    assert not lines(client, file)[-1]["findings"]


def test_a_corrected_cell_says_what_the_file_has_and_each_step_is_undone_by_its_id(cast: Cast) -> None:
    client = cast.signed_in("parts")
    file = mended(client, give(client, "kit", UGLY).json())
    line = lines(client, file)[2]
    assert (line["quantity"], line["corrected"]) == ("2", [{"field": "quantity", "words": "quantity", "was": "2.5"}])
    id = file["steps"][-1]["id"]
    answer = client.delete(f"imports/{file['id']}/steps/{id}")
    assert answer.status_code == 200 and answer.json()["counts"]["must_fix"] == 1
    assert lines(client, file)[2]["quantity"] == "2.5"
    assert client.delete(f"imports/{file['id']}/steps/{id}").status_code == 404


def test_rows_are_left_out_and_put_into_a_bag(cast: Cast) -> None:
    client = cast.signed_in("parts")
    file = give(client, "kit", UGLY).json()
    step(client, file, do="answer", question="sections", text="none")
    step(client, file, do="leave_out", sheet="", rows=[5, 6])
    file = step(client, file, do="place", sheet="", rows=[3, 4], carton="1", bag="A")
    assert [(place["carton"], place["bag"], place["lines"]) for place in file["places"]] == [("1", "A", 2), ("", "", 1)]
    assert [line["part"] for line in lines(client, file, "?place=0")] == ["A-1", "A-2"]
    by_you = [(line["row"], line["text"]) for line in file["left_out"] if line["by_you"]]
    assert by_you == [(5, "A-3 · Hose · 2.5"), (6, "A-4 · Clip · 4")]


def test_the_suppliers_next_file_asks_less(cast: Cast) -> None:
    client = cast.signed_in("parts")
    file = mended(client, give(client, "kit", UGLY).json())
    file = step(client, file, do="leave_out", sheet="", rows=[6])
    assert client.post(f"imports/{file['id']}/take-in").status_code == 200
    again = give(client, "kit", UGLY, supplier="Quillfen Supply").json()
    assert [question["value"] for question in again["questions"]] == ["bag"]
    assert [line["part"] for line in lines(client, again)] == ["A-1", "A-2", "A-3", "A-5"]
    assert lines(client, again)[2]["quantity"] == "2"
    assert any("as it was corrected" in finding["words"] for finding in again["findings"])


def test_another_kits_number_is_never_taken_over_in_silence(cast: Cast) -> None:
    client = cast.signed_in("parts")
    file = mended(client, give(client, "kit", UGLY).json())
    step(client, file, do="field", field="currency", text="EUR")
    client.post(f"imports/{file['id']}/take-in")
    again = give(client, "kit", UGLY, supplier="Quillfen Supply").json()
    typed = {field["field"]: field["text"] for field in again["typed"]}
    assert typed == {"kit": "", "title": "", "supplier": "Quillfen Supply", "currency": "EUR"}
    assert Supplier.objects.get().answers["kit"]["fields"] == {"currency": "EUR"}


@pytest.mark.both
def test_two_people_do_not_correct_one_file_over_one_another(cast: Cast, monkeypatch: pytest.MonkeyPatch) -> None:
    client, read_with = cast.signed_in("parts"), imports.read_with
    file = give(client, "kit", UGLY).json()
    other = cast.signed_in("manager")

    def overtaken(**arguments: Any) -> Any:
        monkeypatch.setattr(imports, "read_with", read_with)
        step(other, file, do="field", field="kit", text="UG-2")
        return read_with(**arguments)

    monkeypatch.setattr(imports, "read_with", overtaken)
    answer = client.post(f"imports/{file['id']}/steps", {"do": "field", "field": "kit", "text": "UG-1"})
    assert answer.status_code == 409
    assert [entry["text"] for entry in FileRead.objects.get().repairs] == ["UG-2"]


@pytest.mark.parametrize(
    ("fields", "pointer"),
    [
        ({"do": "field", "field": "price", "text": "1"}, "/field"),
        ({"do": "value", "field": "colour", "rows": [3], "text": "red"}, "/field"),
        ({"do": "leave_out"}, "/rows"),
        ({"do": "paint"}, "/do"),
    ],
)
def test_a_wrong_step_is_refused_by_its_field(cast: Cast, fields: dict[str, Any], pointer: str) -> None:
    client = cast.signed_in("parts")
    file = give(client, "kit", UGLY).json()
    answer = client.post(f"imports/{file['id']}/steps", fields)
    assert answer.status_code == 400 and [entry["pointer"] for entry in answer.json()["errors"]] == [pointer]


def test_a_technician_and_a_stranger_see_no_line(cast: Cast) -> None:
    file = give(cast.signed_in("parts"), "kit", UGLY).json()
    assert cast.signed_in("technician").get(f"imports/{file['id']}/lines").status_code == 403
    assert cast.signed_in("stranger").get(f"imports/{file['id']}/lines").status_code == 404


def test_the_lines_of_a_longer_list_cost_no_more_queries(cast: Cast) -> None:
    client = cast.signed_in("parts")
    counts = []
    for n in (5, 60):
        rows = "".join(f"A-{row};Bolt;2\n" for row in range(n))
        file = give(client, "kit", "Kit;K-1\nPart no.;Description;Qty\n" + rows).json()
        with CaptureQueriesContext(connection) as queries:
            assert len(lines(client, file)) == n
            step(client, file, do="leave_out", sheet="", rows=[3])
        counts.append(len(queries))
    assert counts[0] == counts[1]


def test_the_command_takes_what_the_screen_takes(cast: Cast, tmp_path: Path) -> None:
    path = tmp_path / "ugly.csv"
    path.write_text(UGLY.replace("2.5", "2"))
    arguments = ["import", "kit", str(path), "--shop", cast.shop.slug, "--kit", "UG-1", "--title", "Ugly kit"]
    out = StringIO()
    with pytest.raises(CommandError, match="1 problem to fix"):
        call_command(*arguments, stdout=out)
    assert "--answer sections=bag" in out.getvalue()
    call_command(*arguments, "--answer", "sections=bag", stdout=out)
    assert "Kit UG-1, version 1: Ugly kit" in out.getvalue()
    assert {line.label for line in KitLine.objects.filter(kind="bag")} == {"Brackets", "Hoses"}


ALIKE = "Kit;K-1\n\nPart no.;Description;Qty\nA-1;Bolt;2.5\nA-2;Nut;2\nA-3;Clip;2.5\nA-4;Lead;3.5\nA-5;Cap;2.5\n"


def test_one_correction_mends_every_row_with_the_same_problem_and_is_undone_at_once(cast: Cast) -> None:
    client = cast.signed_in("parts")
    file = give(client, "kit", ALIKE).json()
    remarks = [line["findings"][0] if line["findings"] else None for line in lines(client, file)]
    assert [remark and remark["same"] for remark in remarks] == [2, None, 2, 0, 2]
    value = {"do": "value", "sheet": "", "rows": [4], "problem": remarks[0]["problem"], "field": "quantity"}
    mended = step(client, file, **value, text="4")
    assert (mended["counts"]["must_fix"], mended["steps"][-1]["rows"]) == (1, [4, 6, 8])
    assert [line["quantity"] for line in lines(client, file)] == ["4", "2", "4", "3.5", "4"]
    undone = client.delete(f"imports/{file['id']}/steps/{mended['steps'][-1]['id']}").json()
    assert undone["counts"]["must_fix"] == 4
    left = step(client, file, **{**value, "do": "leave_out", "field": ""})
    assert [row["row"] for row in left["left_out"] if row["by_you"]] == [4, 6, 8]


def test_a_long_bag_lists_its_problems_before_lines_without_any(cast: Cast) -> None:
    client = cast.signed_in("parts")
    rows = "".join(f"P-{n:04d};Bolt;{n % 599 and 1 or 2.5}\n" for n in range(1, 600))
    file = give(client, "kit", f"Kit;K-1\n\nPart no.;Description;Qty\n{rows}").json()
    answer = client.get(f"imports/{file['id']}/lines?place=0").json()
    assert (len(answer["lines"]), answer["all"]) == (500, 599)
    assert [line["part"] for line in answer["lines"] if line["findings"]] == ["P-0599"]
