"""The server is killed while it reads and while it imports a large file: the next start ends both, once and wholly."""

import json
import time
import uuid
from typing import Any

import pytest

from tests.drills.installation import READY, Installation, kill
from tests.drills.visitor import Visitor

ROWS = 4_000
LINES = "".join(
    f"oil;grade {n % 50};L;KD-{n:05};Engine oil, bottle {n};1 L;Ottermouth Oils;4.50\r\n" for n in range(ROWS)
)
BODY = f"Family;Specification;Unit;Number;Title;Pack size;Supplier;Cost\r\n{LINES}"
COUNTED = """
import django, json
django.setup()
from kitting.models import Offer, Part, PartWord
from shop.models import FileTask, History
packs = Part.objects.filter(number__startswith="KD-")
print(json.dumps([
    packs.count(),
    Offer.objects.filter(part__number__startswith="KD-").count(),
    PartWord.objects.filter(target__number__startswith="KD-").values("target").distinct().count(),
    History.objects.filter(verb="imported").count(),
    FileTask.objects.count(),
]))
"""
EXPIRED = """
import django
django.setup()
from django.utils import timezone
from shop.models import FileTask
FileTask.objects.update(due_at=timezone.now())
"""


class Sender(Visitor):
    """Somebody who sends a large file and looks how far it is."""

    def send_file(self) -> str:
        boundary = uuid.uuid4().hex
        parts = [('name="kind"', "consumables"), ('name="file"; filename="packs.csv"', BODY)]
        form = "".join(
            f"--{boundary}\r\nContent-Disposition: form-data; {part}\r\n\r\n{text}\r\n" for part, text in parts
        )
        key = {"Idempotency-Key": str(uuid.uuid4()), "Content-Type": f"multipart/form-data; boundary={boundary}"}
        status, answer = self.ask("POST", self.imports, f"{form}--{boundary}--\r\n".encode(), **key)
        assert status == 202, answer
        return f"{self.imports}/{answer['id']}"

    def take_in(self, path: str) -> None:
        status, answer = self.ask("POST", f"{path}/take-in", {}, **{"Idempotency-Key": str(uuid.uuid4())})
        assert status == 202, answer

    @property
    def imports(self) -> str:
        return f"/api/v1/shops/{self.world['slug']}/imports"

    def watch(self, path: str, until: Any) -> dict[str, Any]:
        """The file as soon as `until(file)` holds."""
        give_up = time.monotonic() + 2 * READY
        while time.monotonic() < give_up:
            status, file = self.ask("GET", path)
            assert status == 200, file
            if until(file):
                return dict(file)
            time.sleep(0.01)
        raise AssertionError(f"not reached: {file['task']}")


def is_begun(file: dict[str, Any]) -> bool:
    return file["task"] is not None and file["task"]["state"] == "begun"


def is_read(file: dict[str, Any]) -> bool:
    """Its rows are read: what becomes of them is planned and written next."""
    return is_begun(file) and 0 < file["task"]["rows_in_all"] == file["task"]["rows_done"]


def is_done(file: dict[str, Any]) -> bool:
    assert file["task"] is None or file["task"]["state"] != "failed", file["task"]
    return file["task"] is None


def counted(installation: Installation) -> list[int]:
    return list(json.loads(installation.python("-c", COUNTED).splitlines()[-1]))


@pytest.mark.drill
@pytest.mark.parametrize("seconds", [(0.3,), (0.0, 1.0)])
def test_a_large_file_outlives_a_killed_server(
    installation: Installation, world: dict[str, Any], seconds: tuple[float, ...]
) -> None:
    """`seconds` are from the end of the reading to each kill during an import. A task is begun three times at most."""
    person = Sender(installation, world, "")
    with installation.served() as server:
        person.sign_in()
        path = person.send_file()
        person.watch(path, is_begun)
        kill(server)
    assert counted(installation) == [0, 0, 0, 0, 1]
    with started(installation):
        file = person.watch(path, is_done)
        assert (file["rows"], file["can_take_in"], file["state"]) == (ROWS, True, "read")
    for nth, pause in enumerate(seconds):
        with started(installation) as server:
            if nth == 0:  # not before: the server that ends would have begun it once already
                person.take_in(path)
            if is_done(person.watch(path, lambda file: is_read(file) or is_done(file))):
                break
            time.sleep(pause)
            kill(server)
        numbers = counted(installation)
        assert numbers in ([0, 0, 0, 0, 1], [ROWS, ROWS, ROWS, 1, 0]), "half imported"
    with started(installation):
        assert person.watch(path, is_done)["state"] == "taken"
    assert counted(installation) == [ROWS, ROWS, ROWS, 1, 0]
    print(f"\n{len(seconds) + 1} kills: {ROWS} rows imported, lost 0, doubled 0")


def started(installation: Installation) -> Any:
    """A server that takes up the task at once. Of many processes on PostgreSQL one waits until its lease has ended."""
    if not installation.on_sqlite:
        installation.python("-c", EXPIRED)
    return installation.served()
