"""Several files of one kit become one version, each line in the carton that its file names."""

import io
import zipfile
from typing import Any

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile

from kitting.imports.kit import KIND
from kitting.models import KitLine, KitRevision
from shop.tables import several
from shop.tables.engine import read
from tests.cast import Cast
from tests.client import CheckedClient

A = b"Kit number;K-7\r\n\r\nBag;Part no;Description;Qty\r\n1;A-1;Bolt;2\r\n1;A-2;Nut;4\r\n"
B = b"Kit number;%s\r\n\r\nBag;Part no;Description;Qty\r\n1;B-1;Hose;1\r\n"


def sent(client: CheckedClient, *files: tuple[str, bytes]) -> Any:
    uploads = [SimpleUploadedFile(name, body) for name, body in files]
    answer = client.post("imports", {"kind": "kit", "file": uploads}, format="multipart")
    assert answer.status_code == 201, answer.content
    return answer.json()


def test_two_files_are_one_version(cast: Cast) -> None:
    parts = cast.signed_in("parts")
    file = sent(parts, ("carton A.csv", A), ("carton_B.csv", B % b"K-7"))
    assert (file["rows"], file["can_take_in"]) == (3, True), file["findings"]
    assert parts.post(f"imports/{file['id']}/take-in").status_code == 200
    revision = KitRevision.objects.get(kit__code="K-7")
    lines = KitLine.objects.filter(revision=revision, kind="part").order_by("position")
    places = [(str(line.part), line.parent.label, line.parent.parent.label) for line in lines if line.parent]
    assert places == [("A-1", "1", "A"), ("A-2", "1", "A"), ("B-1", "1", "B")]
    original = parts.get(f"imports/{file['id']}/original")
    with zipfile.ZipFile(io.BytesIO(original.content)) as archive:
        assert {name: archive.read(name) for name in archive.namelist()} == {
            "carton A.csv": A,
            "carton_B.csv": B % b"K-7",
        }


def test_files_of_two_kits_are_refused(cast: Cast) -> None:
    file = sent(cast.signed_in("parts"), ("carton A.csv", A), ("carton B.csv", B % b"K-8"))
    assert not file["can_take_in"]
    refused = [finding["words"] for finding in file["findings"] if finding["weight"] == "must_fix"]
    assert len(refused) == 1 and "K-8" in refused[0] and "K-7" in refused[0]


def archived(*files: tuple[str, bytes]) -> bytes:
    return several.together(files)[1]


def packed(name: str, body: bytes) -> bytes:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr(name, body)
    return out.getvalue()


@pytest.mark.parametrize(
    ("body", "code"),
    [
        (archived(*((f"{n}.csv", A) for n in range(several.MOST + 1))), "too_many_files"),
        (packed("a.csv", b"0" * 6 * 1024 * 1024), "unpacks_too_large"),
        (archived(("a.zip", archived(("a.csv", A)))), "not_a_table"),
        (archived(("a.exe", A)), "unknown_extension"),
        (archived(("a.csv", A))[:-30], "damaged_workbook"),
    ],
)
def test_an_archive_that_is_no_list_is_refused(body: bytes, code: str) -> None:
    file = read(KIND, "list.zip", body)
    assert [finding.code for finding in file.findings] == [code] and not file.rows
