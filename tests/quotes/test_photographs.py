"""A photograph of what happened is kept as a JPEG of our own, for the people of the shop."""

import io
from typing import Any

import pytest
from django.core.files.storage import default_storage
from PIL import Image

from quotes.models import OccurrencePhotograph
from shop.backups.take import stored_files
from shop.models import Photograph, StoredFile
from shop.pictures import MOST_BYTES
from tests.calc.test_pictures import jpeg, with_place
from tests.client import CheckedClient
from tests.quotes.stage import Stage
from tests.quotes.test_occurrences import Happening

pytestmark = pytest.mark.once


class Camera:
    """A technician with a phone beside a stud that broke."""

    def __init__(self, stage: Stage) -> None:
        self.happening = Happening(stage)
        record = self.happening.record().json()["lines"][0]["records"][0]
        self.path = f"{self.happening.path}/occurrences/{record['id']}/photographs"

    def send(self, body: bytes, role: str = "technician") -> Any:
        file = io.BytesIO(body)
        file.name = "photograph.jpg"
        return self.happening.stage.cast.signed_in(role).post(self.path, {"file": file}, format="multipart")

    def photographs(self) -> list[str]:
        return list(self.happening.read()["records"][0]["photographs"])

    def look(self, id: str, client: CheckedClient) -> Any:
        return client.get(f"{self.happening.path}/photographs/{id}")


@pytest.fixture
def camera(stage: Stage) -> Camera:
    return Camera(stage)


def test_it_is_kept_without_its_place_and_shown(camera: Camera) -> None:
    answer = camera.send(with_place())
    assert answer.status_code == 201, answer.content
    (id,) = camera.photographs()
    response = camera.look(id, camera.happening.stage.cast.signed_in("parts"))
    assert response.status_code == 200 and response["Content-Type"] == "image/jpeg"
    picture = Image.open(io.BytesIO(response.content))
    assert picture.size == (30, 40) and not picture.getexif() and b"Anwen" not in response.content
    row = Photograph.objects.select_related("file").get()
    assert (row.width, row.height, row.recorded_by) == (30, 40, camera.happening.stage.cast.technician)
    assert (row.file.media_type, row.file.size) == ("image/jpeg", len(response.content))


def test_its_headers_let_a_browser_do_nothing_but_show_it(camera: Camera) -> None:
    camera.send(jpeg())
    response = camera.look(camera.photographs()[0], camera.happening.stage.client)
    assert response["X-Content-Type-Options"] == "nosniff" and response["Cache-Control"] == "no-store"
    assert response["Content-Security-Policy"] == "default-src 'none'; sandbox"
    assert response["Content-Disposition"] == 'inline; filename="photograph.jpg"'


def test_the_same_bytes_are_one_file(camera: Camera) -> None:
    camera.send(jpeg())
    camera.send(jpeg())
    assert len(camera.photographs()) == 2 and StoredFile.objects.filter(media_type="image/jpeg").count() == 1


def test_the_backup_covers_it(camera: Camera) -> None:
    camera.send(jpeg())
    path = Photograph.objects.get().file.path
    assert path in set(stored_files()) and default_storage.exists(path)


@pytest.mark.parametrize(
    ("body", "words"),
    [
        (b"<svg/>", "not a JPEG"),
        (jpeg() + b"<script>", "more in this file"),
        (jpeg()[:300], "cannot be read"),
    ],
)
def test_what_is_no_photograph_is_refused_and_not_kept(camera: Camera, body: bytes, words: str) -> None:
    answer = camera.send(body)
    assert answer.status_code == 400
    (error,) = answer.json()["errors"]
    assert error["pointer"] == "/file" and words in error["detail"]
    assert not Photograph.objects.exists() and not OccurrencePhotograph.objects.exists()


def test_more_than_six_mebibytes_are_refused(camera: Camera) -> None:
    answer = camera.send(jpeg() + bytes(MOST_BYTES))
    assert (answer.status_code, answer.json()["type"].rpartition("/")[2]) == (413, "too-large")


def test_a_record_has_six_photographs_at_most(camera: Camera) -> None:
    assert [camera.send(jpeg(10 + n)).status_code for n in range(7)] == [201] * 6 + [409]


def test_another_shop_and_another_job_do_not_see_it(camera: Camera) -> None:
    camera.send(jpeg())
    (id,) = camera.photographs()
    stranger = CheckedClient()
    stranger.force_login(camera.happening.stage.cast.stranger.user)
    assert camera.look(id, stranger).status_code == 404
    other = Happening(camera.happening.stage)
    assert camera.happening.stage.client.get(f"{other.path}/photographs/{id}").status_code == 404
