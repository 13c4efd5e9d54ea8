"""A large file is read and imported in the background: once, wholly or not at all, with its progress on the screen."""

from datetime import timedelta
from typing import Any

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.db import OperationalError
from django.utils import timezone

from kitting.models import KitLine, KitRevision, Part
from shop.access import file_read
from shop.models import FileRead, FileTask
from shop.services import file_tasks, imports
from shop.services.file_work import LARGE
from shop.serving.file_worker import work_next
from tests.cast import Cast
from tests.client import CheckedClient

LINES = 600
ROWS = "".join(f"LG-{n:04d};{'Bracket with a long description ' * 4};{n % 5 + 1}\r\n" for n in range(LINES))
BODY = f"Kit number;LG-1\r\n\r\nPart no;Description;Qty\r\n{ROWS}".encode()


@pytest.fixture
def parts(cast: Cast) -> CheckedClient:
    assert len(BODY) > LARGE
    return cast.signed_in("parts")


def sent(client: CheckedClient, body: bytes = BODY) -> str:
    """The address of a large file that was sent, and that nobody has read yet."""
    upload = SimpleUploadedFile("large.csv", body)
    answer = client.post("imports", {"kind": "kit", "file": upload}, format="multipart")
    assert answer.status_code == 202, answer.content
    return f"imports/{answer.json()['id']}"


def task(client: CheckedClient, path: str) -> Any:
    return client.get(path).json()["task"]


def overtaken(*args: Any) -> FileRead:
    """Reads the file as `access.file_read` does; then its task ends."""
    row = file_read(*args)
    assert work_next()
    return row


def test_it_is_read_and_imported_while_nobody_waits(parts: CheckedClient, monkeypatch: pytest.MonkeyPatch) -> None:
    path = sent(parts)
    file = parts.get(path).json()
    assert (file["task"]["kind"], file["task"]["state"], file["rows"]) == ("read", "waiting", 0)
    assert parts.get("imports").json()["items"][0]["title"] == "Not read yet"
    assert parts.post(f"{path}/take-in").status_code == 409
    assert work_next()
    file = parts.get(path).json()
    assert (file["task"], file["rows"], file["can_take_in"]) == (None, LINES, True)

    answer = parts.post(f"{path}/take-in")
    assert (answer.status_code, answer.json()["task"]["kind"], answer.json()["state"]) == (202, "take_in", "read")
    assert parts.post(f"{path}/take-in").status_code == 409
    assert parts.post(f"{path}/steps", {"do": "field", "field": "title", "text": "Large"}).status_code == 409
    with monkeypatch.context() as patched:
        patched.setattr("shop.access.file_read", overtaken)
        file = parts.get(path).json()
    assert (file["state"], file["task"]["kind"]) == ("read", "take_in"), "the import ended between two statements"
    assert not work_next()
    file = parts.get(path).json()
    assert (file["state"], file["task"], file["by"]) == ("taken", None, "Parts")
    assert KitLine.objects.filter(revision__kit__code="LG-1").count() == LINES


def test_a_decision_is_kept_at_once_and_read_beside_the_server(parts: CheckedClient) -> None:
    path = sent(parts, BODY.replace(b"LG-0003;", b"LG-0002;"))
    assert work_next() and not parts.get(path).json()["can_take_in"]
    assert parts.post(f"{path}/take-in").status_code == 409
    row = parts.get(f"{path}/lines").json()["lines"][3]["row"]
    step = {"do": "value", "sheet": "", "rows": [row], "field": "number", "text": "LG-0003"}
    answer = parts.post(f"{path}/steps", step)
    assert (answer.status_code, answer.json()["task"]["kind"], len(answer.json()["steps"])) == (202, "read", 1)
    assert work_next() and parts.get(path).json()["can_take_in"]
    undone = parts.delete(f"{path}/steps/{answer.json()['steps'][0]['id']}")
    assert undone.status_code == 202 and work_next() and not parts.get(path).json()["can_take_in"]


class KilledError(BaseException):
    """The process was killed: nothing after it runs."""


def broken(error: BaseException) -> Any:
    def fall(*args: object, **kw: object) -> None:
        raise error

    return fall


def counts() -> tuple[int, int]:
    return Part.objects.count(), KitRevision.objects.count()


def test_a_server_that_is_killed_leaves_nothing_half_and_takes_it_up_again(
    parts: CheckedClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = sent(parts)
    work_next()
    parts.post(f"{path}/take-in")
    before = counts()
    for _ in range(file_tasks.MOST_TRIES):
        with monkeypatch.context() as patched, pytest.raises(KilledError):
            patched.setattr("kitting.services.kits._reused", broken(KilledError()))
            work_next()
        assert counts() == before and task(parts, path)["state"] == "begun"
        assert not work_next(), "its lease has not ended"
        FileTask.objects.update(due_at=timezone.now())
    assert not work_next()
    failed = task(parts, path)
    assert failed["state"] == "failed" and "stopped 3 times" in failed["reason"]

    assert parts.post(f"{path}/take-in").status_code == 202
    with monkeypatch.context() as patched, pytest.raises(KilledError):
        patched.setattr("kitting.services.kits._reused", broken(KilledError()))
        work_next()
    file_tasks.release_all(timezone.now())
    assert work_next() and parts.get(path).json()["state"] == "taken"


def test_an_error_is_told_with_its_remedy(parts: CheckedClient, monkeypatch: pytest.MonkeyPatch) -> None:
    path = sent(parts)
    with monkeypatch.context() as patched:
        patched.setattr("shop.services.imports.look", broken(OperationalError("locked")))
        assert work_next()
    assert task(parts, path)["state"] == "waiting", "a busy database passes"
    FileTask.objects.update(due_at=timezone.now() - timedelta(seconds=1))
    assert work_next() and parts.get(path).json()["can_take_in"]
    before = counts()
    parts.post(f"{path}/take-in")
    with monkeypatch.context() as patched:
        patched.setattr("kitting.services.kits._reused", broken(RuntimeError("a fault of the tool")))
        assert work_next() and not work_next()
    failed = task(parts, path)
    assert failed["state"] == "failed" and "nothing of it was saved" in failed["reason"] and counts() == before
    assert parts.delete(path).status_code == 204 and not FileTask.objects.exists()


def test_a_file_that_is_removed_or_changed_while_it_is_read_stays_so(
    parts: CheckedClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    read = imports.read_again
    steps = {"do": "field", "field": "title", "text": "Large kit"}

    def meanwhile(**kw: Any) -> Any:
        reading = read(**kw)
        change()
        return reading

    path = sent(parts)
    with monkeypatch.context() as patched:
        patched.setattr(imports, "read_again", meanwhile)
        change = lambda: parts.post(f"{path}/steps", steps)  # noqa: E731
        assert work_next() and task(parts, path)["state"] == "waiting"
        change = lambda: FileTask.objects.update(tries=2)  # noqa: E731  # another process has begun it again
        assert work_next() and task(parts, path)["state"] == "begun" and not parts.get(path).json()["rows"]
        file_tasks.release_all(timezone.now())
        change = lambda: parts.delete(path)  # noqa: E731
        assert work_next() and not work_next()
    assert not FileRead.objects.exists() and not FileTask.objects.exists()


def test_its_progress_is_noted_as_it_is_read(parts: CheckedClient, monkeypatch: pytest.MonkeyPatch) -> None:
    path = sent(parts)
    noted = []
    note = file_tasks.note

    def watched(task: FileTask, done: int, in_all: int, now: Any) -> None:
        note(task, done, in_all, now)
        row = FileTask.objects.get(pk=task.pk)
        noted.append((row.rows_done, row.rows_in_all, row.due_at > now))

    monkeypatch.setattr(file_tasks, "note", watched)
    monkeypatch.setattr("shop.services.file_work.SECONDS", 0)
    assert work_next() and task(parts, path) is None
    assert noted[0] == (0, LINES + 2, True) and (500, LINES + 2, True) in noted
