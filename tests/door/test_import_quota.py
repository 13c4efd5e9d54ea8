"""Files that wait to be imported have a limit; an imported one stays with its bytes."""

from datetime import timedelta
from typing import Any

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.utils import timezone

from shop.models import FileRead
from shop.services import imports
from tests.cast import Cast
from tests.client import CheckedClient

ROWS = b"name,phone\nAda Quill,01632 960 417\n"


def send(client: CheckedClient) -> Any:
    fields = {"kind": "customers", "file": SimpleUploadedFile("customers.csv", ROWS)}
    return client.post("imports", fields, format="multipart")


@pytest.mark.parametrize(("name", "most"), [("MOST_WAITING", 2), ("MOST_BYTES_WAITING", len(ROWS) * 2)])
def test_one_more_than_a_shop_keeps_is_refused(
    cast: Cast, monkeypatch: pytest.MonkeyPatch, name: str, most: int
) -> None:
    monkeypatch.setattr(imports, name, most)
    client = cast.signed_in("manager")
    first, _ = send(client).json(), send(client)
    answer = send(client)
    assert (answer.status_code, FileRead.objects.count()) == (409, 2)
    assert answer.json()["detail"].startswith("2 files wait") and "Import or remove one" in answer.json()["detail"]
    assert client.delete(f"imports/{first['id']}").status_code == 204
    assert send(client).status_code == 201


def test_another_shops_files_take_no_room(cast: Cast, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(imports, "MOST_WAITING", 1)
    stranger = CheckedClient(shop=cast.elsewhere.slug)
    stranger.force_login(cast.stranger.user)
    assert send(stranger).status_code == send(cast.signed_in("manager")).status_code == 201


def test_what_nobody_imports_goes(cast: Cast) -> None:
    client = cast.signed_in("manager")
    imported, old = send(client).json()["id"], send(client).json()["id"]
    client.post(f"imports/{imported}/take-in")
    FileRead.objects.update(read_at=timezone.now() - imports.KEPT - timedelta(minutes=1))
    new = send(client).json()["id"]
    assert client.get(f"imports/{old}").status_code == 404
    assert client.get(f"imports/{new}").status_code == client.get(f"imports/{imported}").status_code == 200


def test_an_imported_file_stays_as_it_was_sent(cast: Cast) -> None:
    client = cast.signed_in("manager")
    id = send(client).json()["id"]
    assert client.post(f"imports/{id}/take-in").status_code == 200
    assert bytes(FileRead.objects.get().body) == ROWS
    assert client.get(f"imports/{id}").json()["state"] == "taken"
    assert client.delete(f"imports/{id}").status_code == 409
    assert client.post(f"imports/{id}/take-in").status_code == 409
