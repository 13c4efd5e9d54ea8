"""An advisor shows a photograph of what happened on the customer's link, and takes it off again."""

import io
from typing import Any

import pytest
from PIL import Image

from quotes.models import Link, ShownPhotograph
from shop.models import History
from tests.calc.test_pictures import jpeg, with_place
from tests.quotes.phone import Phone
from tests.quotes.stage import Stage
from tests.quotes.test_photographs import Camera

pytestmark = pytest.mark.once

ALT = "Photograph 1: "


class Viewing:
    """A photograph of a stud that broke, and the customer's phone."""

    def __init__(self, stage: Stage, body: bytes) -> None:
        self.stage, self.camera = stage, Camera(stage)
        assert self.camera.send(body).status_code == 201
        (self.id,) = self.camera.photographs()
        links = stage.client.post(f"quotes/{self.camera.happening.quote['id']}/links", {"recipient": "01632 960 417"})
        self.phone = Phone(links.json()["url"])

    def mark(self, visible: bool = True, role: str = "advisor") -> Any:
        path = f"{self.camera.happening.path}/photographs/{self.id}/shown"
        return self.stage.cast.signed_in(role).post(path, {"shown": visible})

    def look(self, phone: Phone | None = None) -> Any:
        phone = phone or self.phone
        return phone.client.get(f"{phone.page}photographs/{self.id}")

    @property
    def pages(self) -> list[str]:
        return [self.phone.client.get(self.phone.page + path).content.decode() for path in ("", "receipt")]


@pytest.fixture
def viewing(stage: Stage) -> Viewing:
    return Viewing(stage, jpeg())


def test_the_customer_sees_it_only_once_it_is_marked(viewing: Viewing) -> None:
    assert viewing.look().status_code == 410 and all("photographs/" not in page for page in viewing.pages)
    answer = viewing.mark()
    assert answer.status_code == 201, answer.content
    assert answer.json()["lines"][0]["records"][0]["shown"] == [viewing.id]
    picture = viewing.look()
    assert picture.status_code == 200 and picture["Content-Type"] == "image/jpeg"
    assert (
        picture["Cache-Control"] == "no-store" and picture["Content-Security-Policy"] == "default-src 'none'; sandbox"
    )
    for page in viewing.pages:
        assert page.count(f"photographs/{viewing.id}") == 1 and 'loading="lazy"' in page and f'alt="{ALT}' in page


def test_the_mark_taken_away_takes_it_off_the_page(viewing: Viewing) -> None:
    viewing.mark()
    assert viewing.mark(False).json()["lines"][0]["records"][0]["shown"] == []
    assert viewing.look().status_code == 410 and all("photographs/" not in page for page in viewing.pages)
    assert viewing.mark().status_code == 201 and viewing.look().status_code == 200
    verbs = History.objects.filter(verb__endswith="the customer").order_by("id").values_list("verb", flat=True)
    assert list(verbs) == ["shown to the customer", "hidden from the customer", "shown to the customer"]


def test_a_second_mark_writes_nothing(viewing: Viewing) -> None:
    viewing.mark()
    viewing.mark()
    assert ShownPhotograph.objects.count() == 1


def test_no_other_link_opens_it(viewing: Viewing) -> None:
    viewing.mark()
    for other in (Phone(viewing.stage.sent()["link"]["url"]), Viewing(viewing.stage, jpeg()).phone):
        assert viewing.look(other).status_code == 410
    Link.objects.filter(quote=viewing.camera.happening.quote["id"]).update(revoked_at="2026-01-01T00:00:00Z")
    assert viewing.look().status_code == 410


def test_a_record_that_was_reversed_shows_nothing(viewing: Viewing) -> None:
    viewing.mark()
    record = viewing.camera.happening.read()["records"][0]["id"]
    path = f"{viewing.camera.happening.path}/occurrences/{record}/reversal"
    assert viewing.stage.client.post(path, {}).status_code == 201
    assert viewing.look().status_code == 410


def test_the_copy_is_small_and_tells_no_place(stage: Stage) -> None:
    viewing = Viewing(stage, with_place(1400, 1000))
    viewing.mark()
    body = viewing.look().content
    picture = Image.open(io.BytesIO(body))
    assert max(picture.size) == 800 and not picture.getexif() and b"Anwen" not in body


def test_a_technician_shows_nothing_to_the_customer(viewing: Viewing) -> None:
    assert viewing.mark(role="technician").status_code == 403
