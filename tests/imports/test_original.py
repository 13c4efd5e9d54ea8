"""An imported file is downloaded as it was sent, by roles that may import its kind."""

from datetime import UTC, datetime

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.core.management import call_command
from django.db import DatabaseError, transaction
from django.utils import timezone

from kitting.models import KitRevision
from kitting.services import kits
from shop.models import FileRead
from tests.cast import Cast
from tests.client import CheckedClient
from tests.quotes.stage import RULES, make_stage

BODY = b"\xef\xbb\xbfname;phone\r\n=1+1;0\r\n\x00"


def sent(client: CheckedClient, kind: str, name: str) -> str:
    upload = SimpleUploadedFile(name, BODY)
    answer = client.post("imports", {"kind": kind, "file": upload}, format="multipart")
    assert answer.status_code == 201, answer.content
    return f"imports/{answer.json()['id']}/original"


def test_it_has_the_bytes_and_the_name_that_were_sent(cast: Cast) -> None:
    advisor = cast.signed_in("advisor")
    answer = advisor.get(sent(advisor, "customers", "Kunden <März>.csv"))
    assert (answer.status_code, answer.content) == (200, BODY)
    assert answer["Content-Type"] == "application/octet-stream" and answer["X-Content-Type-Options"] == "nosniff"
    assert answer["Content-Disposition"].startswith("attachment; filename")
    assert answer["Cache-Control"] == "no-store"


def test_who_may_not_import_a_kind_does_not_read_its_files(cast: Cast) -> None:
    path = sent(cast.signed_in("advisor"), "customers", "customers.csv")
    assert [cast.signed_in(role).get(path).status_code for role in ("parts", "technician")] == [403, 403]
    rules = sent(cast.signed_in("manager"), "rules", "rules.xlsx")
    assert cast.signed_in("advisor").get(rules).status_code == 403


KIT = b"Kit number;K-1\r\n\r\nPart no;Qty\r\nA-1;%d\r\n"


def test_each_version_of_a_kit_leads_to_the_file_that_it_came_from(cast: Cast) -> None:
    parts = cast.signed_in("parts")
    for n in (1, 2):
        upload = SimpleUploadedFile(f"kit v{n}.csv", KIT % n)
        file = parts.post("imports", {"kind": "kit", "file": upload}, format="multipart").json()
        assert parts.post(f"imports/{file['id']}/take-in").status_code == 200
    revisions = KitRevision.objects.filter(shop=cast.shop).order_by("number").select_related("file")
    assert [(row.number, row.file.file_name if row.file else "") for row in revisions] == [
        (1, "kit v1.csv"),
        (2, "kit v2.csv"),
    ]
    path = f"kits/{revisions[0].kit_id}"
    answer = parts.get(path).json()
    of_two = {"id": str(revisions[1].file_id), "name": "kit v2.csv", "revision": 2, "is_kept": True}
    assert answer["file"] == of_two
    assert [file["name"] for file in answer["earlier_files"]] == ["kit v1.csv"]
    assert parts.get(f"imports/{answer['file']['id']}/original").content == KIT % 2
    answer = cast.signed_in("technician").get(path).json()
    assert answer["file"] is None and not answer["earlier_files"]


def test_a_file_is_kept_as_long_as_the_rules_of_the_shop_say(cast: Cast, monkeypatch: pytest.MonkeyPatch) -> None:
    stage = make_stage(cast)

    def imported(n: int, on: datetime) -> str:
        upload = SimpleUploadedFile(f"kit v{n}.csv", KIT % n)
        file = stage.client.post("imports", {"kind": "kit", "file": upload}, format="multipart").json()
        assert stage.client.post(f"imports/{file['id']}/take-in").status_code == 200
        FileRead.objects.filter(pk=file["id"]).update(taken_at=on)
        return f"imports/{file['id']}"

    now = datetime(2026, 12, 1, 9, tzinfo=UTC)
    old = imported(1, datetime(2025, 11, 30, 12, tzinfo=UTC))
    recent = imported(2, datetime(2025, 12, 1, 12, tzinfo=UTC))
    monkeypatch.setattr(timezone, "now", lambda: now)
    call_command("purge", verbosity=0)
    assert stage.client.get(f"{old}/original").status_code == 200, "rules that say nothing keep it"
    stage.enact(RULES | {"import_months": 12})
    call_command("purge", verbosity=0)
    gone = stage.client.get(f"{old}/original")
    assert (gone.status_code, gone.json()["type"]) == (410, "/problems/file-not-kept")
    assert stage.client.get(old).json()["state"] == "taken", "what it became stays"
    assert stage.client.get(f"{recent}/original").content == KIT % 2
    kit = KitRevision.objects.get(file=old.split("/")[1]).kit_id
    assert [file["is_kept"] for file in stage.client.get(f"kits/{kit}").json()["earlier_files"]] == [False]


def test_the_file_of_a_version_in_use_stays_it(cast: Cast) -> None:
    parts = cast.signed_in("parts")
    files = [sent(parts, "kit", f"{n}.csv").split("/")[1] for n in (1, 2)]
    revision = kits.add_kit(
        actor=cast.acting("parts"),
        code="K-9",
        title="Kit",
        contents=kits.NewRevision(),
    )
    KitRevision.objects.filter(pk=revision.pk).update(file=files[0], used_at=timezone.now())
    with pytest.raises(DatabaseError), transaction.atomic():
        KitRevision.objects.filter(pk=revision.pk).update(file=files[1])
