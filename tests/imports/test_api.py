"""Reading a file over HTTP, viewing the findings, and importing it."""

import io
from typing import Any

import pytest

from kitting.models import Kit, KitRevision
from shop.errors import RequestError
from shop.models import Customer, FileRead, History
from shop.services import imports
from tests.cast import Cast
from tests.client import CheckedClient
from tests.imports.files import workbook

PEOPLE = "Name;Phone\nAda Quill;01632 960 401\nBo Tarn;01632 960 402\n"
KIT = "Kit number;K-1\nSupplier;Quillfen Supply\n\n\nPart no;Qty;Bag;Fits\nA-1;2 pcs;1;manual only\nA-2;{};1;\n"


def give(client: CheckedClient, kind: str, body: str | bytes, **fields: Any) -> Any:
    file = io.BytesIO(body.encode() if isinstance(body, str) else body)
    file.name = fields.pop("name", "list.csv")
    return client.post("imports", {"kind": kind, "file": file, **fields}, format="multipart")


def test_a_file_is_read_looked_at_and_taken_in(cast: Cast) -> None:
    client = cast.signed_in("advisor")
    answer = give(client, "customers", PEOPLE)
    answer_body = answer.json()
    assert answer.status_code == 201
    assert answer_body["becomes"] == {"title": "2 customers: 2 new, 0 already on file", "words": []}
    assert (answer_body["state"], answer_body["rows"], answer_body["good"], answer_body["can_take_in"]) == (
        "read",
        2,
        2,
        True,
    )
    assert [(entry["column"], entry["field"]) for entry in answer_body["columns"]] == [("A", "name"), ("B", "phone")]
    assert not Customer.objects.exists()
    taken = client.post(f"imports/{answer_body['id']}/take-in")
    assert (taken.status_code, taken.json()["state"]) == (200, "taken")
    assert Customer.objects.count() == 2
    assert list(History.objects.filter(subject="fileread").values_list("verb", flat=True)) == ["imported"]
    again = client.post(f"imports/{answer_body['id']}/take-in")
    assert (again.status_code, again.json()["type"]) == (409, "/problems/import-taken-already")
    assert Customer.objects.count() == 2


def test_a_file_removed_while_it_is_read_again_is_not_there(cast: Cast, monkeypatch: pytest.MonkeyPatch) -> None:
    client, read_again = cast.signed_in("advisor"), imports.read_again
    path = f"imports/{give(client, 'customers', PEOPLE).json()['id']}"

    def overtaken(**arguments: Any) -> Any:
        reading = read_again(**arguments)
        assert cast.signed_in("manager").delete(path).status_code == 204
        return reading

    monkeypatch.setattr(imports, "read_again", overtaken)
    assert client.post(f"{path}/take-in").status_code == 404
    assert not Customer.objects.exists()


def test_every_problem_is_told_by_its_cell_and_keeps_the_file_out(cast: Cast) -> None:
    client = cast.signed_in("parts")
    answer_body = give(client, "kit", KIT.format("a few")).json()
    assert answer_body["counts"]["must_fix"] == 1 and not answer_body["can_take_in"] and answer_body["good"] == 1
    first = answer_body["findings"][0]
    assert (first["weight"], first["cell"], first["row"], first["says"]) == ("must_fix", "B7", 7, "a few")
    assert first["words"] == "Row 7, quantity: this is not a number."
    assert first["remedy"] == "Enter a number in B7, or leave the row out."
    refused = client.post(f"imports/{answer_body['id']}/take-in")
    assert refused.status_code == 409 and "1 problem to fix" in refused.json()["detail"]
    assert FileRead.objects.get().state == "read"


def test_the_corrected_file_goes_in(cast: Cast) -> None:
    client = cast.signed_in("parts")
    answer_body = give(client, "kit", KIT.format("3")).json()
    assert answer_body["becomes"]["title"] == "Kit K-1, version 1: K-1"
    assert (answer_body["taken_by"], answer_body["made"]) == (None, None)
    taken = client.post(f"imports/{answer_body['id']}/take-in").json()
    kit_id = str(Kit.objects.get(shop=cast.shop, code="K-1").pk)
    assert (taken["state"], taken["taken_by"], taken["made"]) == ("taken", cast.parts.user.name, kit_id)


def test_columns_may_be_told(cast: Cast) -> None:
    client = cast.signed_in("advisor")
    body = "Wer;Nummer\nAda Quill;01632 960 401\n"
    unread = give(client, "customers", body).json()
    name = next(field for field in unread["fields"] if field["field"] == "name")
    assert not unread["can_take_in"] and (name["words"], name["required"]) == ("name", True)
    kit = give(client, "kit", "Art. No;Denomination;Bag\nA-1;Bolt;1\n").json()
    assert [field["field"] for field in kit["fields"] if field["required"]] == ["number", "quantity"]
    tables = {field["field"]: field["tables"] for field in kit["fields"]}
    assert (tables["number"], tables["off_at"]) == (["contents", "needs"], ["re used"])
    assert [column["field"] for column in kit["columns"]] == ["number", "title", "bag"]
    answer_body = give(client, "customers", body, mapping='{"name": "Wer", "phone": "Nummer"}').json()
    assert answer_body["can_take_in"] and answer_body["rows"] == 1
    assert [entry["heading"] for entry in answer_body["headings"]] == ["Wer", "Nummer"]


def test_what_cannot_be_read_is_said_like_any_other_problem(cast: Cast) -> None:
    client = cast.signed_in("advisor")
    for body, name, words in [
        (b"", "a.csv", "There is nothing in this file."),
        (b"%PDF-1.7", "a.pdf", "This is not a list: neither a workbook nor text in columns."),
        (workbook({"S": [["Name"], ["Ada"]]})[:500], "a.xlsx", "The workbook is damaged."),
    ]:
        answer_body = give(client, "customers", body, name=name).json()
        assert [entry["words"] for entry in answer_body["findings"]] == [words] and not answer_body["can_take_in"]


@pytest.mark.parametrize(
    ("fields", "pointer"),
    [
        ({"kind": "stock"}, "/kind"),
        ({"mapping": "[1]"}, "/mapping"),
        ({"mapping": "{"}, "/mapping"),
        ({"mapping": '{"name": 3}'}, "/mapping"),
        ({"colour": "red"}, "/colour"),
    ],
)
def test_a_wrong_form_is_refused_by_its_field(cast: Cast, fields: dict[str, str], pointer: str) -> None:
    answer = give(cast.signed_in("manager"), fields.pop("kind", "customers"), PEOPLE, **fields)
    assert answer.status_code == 400 and [entry["pointer"] for entry in answer.json()["errors"]] == [pointer]
    assert not FileRead.objects.exists()


def test_a_file_too_large_is_refused(cast: Cast) -> None:
    answer = give(cast.signed_in("manager"), "customers", b"x" * (5 * 1024 * 1024 + 1))
    assert (answer.status_code, answer.json()["type"]) == (413, "/problems/too-large")


@pytest.mark.parametrize(
    ("role", "kind", "status"),
    [
        ("advisor", "rules", 403),
        ("parts", "rules", 403),
        ("manager", "rules", 201),
        ("advisor", "labour", 403),
        ("parts", "customers", 403),
        ("advisor", "customers", 201),
        ("parts", "consumables", 201),
        ("technician", "kit", 403),
    ],
)
def test_each_kind_has_its_people(cast: Cast, role: str, kind: str, status: int) -> None:
    assert give(cast.signed_in(role), kind, PEOPLE).status_code == status


def test_a_file_of_another_kind_of_people_stays_closed(cast: Cast) -> None:
    id = give(cast.signed_in("manager"), "rules", PEOPLE).json()["id"]
    parts = cast.signed_in("parts")
    assert parts.get(f"imports/{id}").status_code == 403
    assert parts.post(f"imports/{id}/take-in").status_code == 403
    assert parts.get("imports").json()["items"] == []


def test_a_stranger_finds_nothing(cast: Cast) -> None:
    id = give(cast.signed_in("manager"), "customers", PEOPLE).json()["id"]
    stranger = CheckedClient(shop="elsewhere")
    stranger.force_login(cast.stranger.user)
    assert stranger.get(f"imports/{id}").status_code == 404
    assert stranger.post(f"imports/{id}/take-in").status_code == 404
    assert not Customer.objects.exists()


def test_the_list_is_newest_first_by_kind(cast: Cast) -> None:
    client = cast.signed_in("manager")
    for kind in ("customers", "vehicles", "customers"):
        give(client, kind, PEOPLE, name=f"{kind}.csv")
    items = client.get("imports").json()["items"]
    assert [entry["kind"] for entry in items] == ["customers", "vehicles", "customers"]
    assert items[0]["title"] == "2 customers: 2 new, 0 already on file" and items[0]["by"] == "Manager"
    assert len(client.get("imports", {"kind": "vehicles"}).json()["items"]) == 1


def test_the_same_key_reads_a_file_once(cast: Cast) -> None:
    client = cast.signed_in("advisor")
    key = "0197f2aa-0000-7000-8000-00000000beef"
    first, again = (
        client.post("imports", {"kind": "customers", "file": named(PEOPLE)}, format="multipart", key=key).json()
        for _ in range(2)
    )
    assert first == again and FileRead.objects.count() == 1
    other = client.post("imports", {"kind": "customers", "file": named(PEOPLE + "Cy;1\n")}, format="multipart", key=key)
    assert (other.status_code, other.json()["type"]) == (422, "/problems/key-reused")


def named(text: str) -> io.BytesIO:
    file = io.BytesIO(text.encode())
    file.name = "list.csv"
    return file


def test_what_was_true_when_read_is_looked_at_again_when_taken_in(cast: Cast) -> None:
    client = cast.signed_in("manager")
    give_vehicle = "Vehicle;Owner\nVell 2.4;Ada Quill\n"
    client.post("customers", {"name": "Ada Quill", "phone": "01632 960 801"})
    answer_body = give(client, "vehicles", give_vehicle).json()
    assert answer_body["can_take_in"]
    client.post("customers", {"name": "Ada Quill", "phone": "01632 960 802"})
    assert client.post(f"imports/{answer_body['id']}/take-in").status_code == 409


def test_of_two_who_import_a_file_at_once_the_second_is_refused(cast: Cast) -> None:
    id, actor = give(cast.signed_in("parts"), "kit", KIT.format("3")).json()["id"], cast.acting("parts")
    file = FileRead.objects.get(pk=id)
    reading = imports.read_again(actor=actor, file=file)  # both have read the file before either gets the lock
    imports.take_in(actor=actor, file=file, reading=reading)
    with pytest.raises(RequestError):
        imports.take_in(actor=actor, file=file, reading=reading)
    assert KitRevision.objects.count() == 1
