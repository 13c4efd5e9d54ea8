"""An advisor adds a photograph to a line of a draft; sending freezes it, and the customer sees it if it is shown."""

import hashlib
import io
import json
from typing import Any

import pytest
from PIL import Image

from quotes.documents.quote_pdf import paper_html
from quotes.models import DraftStep, LinePhotograph, Revision
from shop.calc.snapshot import digest
from tests.api.asked import upload
from tests.calc.test_pictures import jpeg, with_place
from tests.factories import CustomerFactory
from tests.quotes.phone import Phone
from tests.quotes.stage import Stage

pytestmark = pytest.mark.once

CAPTION = "Your rusted bracket"


class Album:
    """A draft with a hand-written line, and the photographs of its lines."""

    def __init__(self, stage: Stage) -> None:
        self.stage = stage
        self.id = stage.quote().json()["id"]
        line = {"kind": "text", "title": "New bracket", "unit_price": "40.00", "tax_class": "part"}
        self.quote = stage.client.post(f"quotes/{self.id}/lines", line).json()
        self.line = self.quote["extras"][0]["line"]

    def add(self, body: bytes | None = None, line: str = "", role: str = "advisor", **fields: Any) -> Any:
        """The answer to a new photograph of the hand-written line, shown unless said otherwise."""
        path = f"quotes/{self.id}/lines/{line or self.line}/photographs"
        form = {"file": upload(body or jpeg()), "caption": CAPTION, "seen_by": "customer"} | fields
        answer = self.stage.cast.signed_in(role).post(path, form, format="multipart")
        self.quote = answer.json() if answer.status_code == 201 else self.quote
        return answer

    def patch(self, photograph: str, **changes: Any) -> Any:
        return self.stage.client.patch(self.path(photograph), changes, seen=f'"{self.quote["version"]}"')

    def path(self, photograph: str) -> str:
        return f"quotes/{self.id}/photographs/{photograph}"

    def send(self) -> Phone:
        version = self.stage.client.get(f"quotes/{self.id}").json()["version"]
        body = {"version": version, "recipient": "Maren", "below_floor": True}
        answer = self.stage.client.post(f"quotes/{self.id}/send", body)
        assert answer.status_code == 201, answer.content
        self.quote = answer.json()["quote"]
        return Phone(answer.json()["link"]["url"])

    @property
    def captions(self) -> list[tuple[str, bool]]:
        quote = self.stage.client.get(f"quotes/{self.id}").json()
        return [(row["caption"], row["shown"]) for row in quote["photographs"]]


@pytest.fixture
def album(stage: Stage) -> Album:
    return Album(stage)


def look(phone: Phone, id: str) -> Any:
    return phone.client.get(f"{phone.page}photographs/{id}")


def test_the_customer_sees_what_is_shown_and_its_print_is_in_the_text_that_they_accept(album: Album) -> None:
    answer = album.add(with_place(1400, 1000))
    assert answer.status_code == 201, answer.content
    album.add(jpeg(50), caption="Our own", seen_by="workshop")
    public, own = answer.json()["photographs"][0]["id"], album.quote["photographs"][1]["id"]
    assert album.captions == [(CAPTION, True), ("Our own", False)]
    phone = album.send()
    revision = Revision.objects.get(state="sent")
    (frozen,) = json.loads(revision.snapshot)["photographs"]
    picture = look(phone, public)
    assert picture.status_code == 200 and picture["Content-Type"] == "image/jpeg"
    assert picture["Content-Security-Policy"] == "default-src 'none'; sandbox"
    assert frozen["sha256"] == hashlib.sha256(picture.content).hexdigest()
    assert (frozen["line"], frozen["caption"], revision.digest) == (album.line, CAPTION, digest(revision.snapshot))
    image = Image.open(io.BytesIO(picture.content))
    assert image.size == (frozen["width"], frozen["height"]) == (571, 800) and b"Anwen" not in picture.content
    assert phone.html.count(f"photographs/{public}") == 1 and f'alt="Photograph 1: {CAPTION}"' in phone.html
    assert "Our own" not in phone.html and look(phone, own).status_code == 410
    assert f"a photograph of it: {CAPTION}" in paper_html(revision.snapshot)
    assert phone.answer().status_code == 303 and look(phone, public).status_code == 200


def test_no_other_link_opens_it_and_no_other_version(album: Album) -> None:
    public = album.add().json()["photographs"][0]["id"]
    other = Phone(album.stage.sent()["link"]["url"])
    phone = album.send()
    assert look(other, public).status_code == 410 and look(phone, public).status_code == 200
    album.quote = album.stage.client.post(f"quotes/{album.id}/revise").json()
    (copy,) = album.quote["photographs"]
    assert (copy["caption"], copy["shown"], copy["line"]) == (CAPTION, True, album.quote["extras"][0]["line"])
    assert look(phone, copy["id"]).status_code == 410
    album.send()
    assert look(phone, copy["id"]).status_code == 200 and look(phone, public).status_code == 410


def test_what_was_sent_keeps_its_photographs(album: Album) -> None:
    public = album.add().json()["photographs"][0]["id"]
    album.send()
    for answer in (
        album.patch(public, shown=False),
        album.stage.client.delete(album.path(public), seen=f'"{album.quote["version"]}"'),
        album.add(),
    ):
        assert (answer.status_code, answer.json()["type"].rpartition("/")[2]) == (409, "not-a-draft")
    album.quote = album.stage.client.post(f"quotes/{album.id}/revise").json()
    of_the_version_before = album.patch(public, shown=False)
    assert of_the_version_before.json()["type"].rpartition("/")[2] == "not-a-draft"
    assert LinePhotograph.objects.filter(shown=True).count() == 2


def test_a_copy_for_somebody_else_keeps_it_and_shows_it_to_nobody(album: Album) -> None:
    album.add()
    customer = CustomerFactory(shop=album.stage.shop)
    copy = album.stage.client.post(f"quotes/{album.id}/copy", {"customer": str(customer.pk)})
    assert copy.status_code == 201, copy.content
    assert [(row["caption"], row["shown"]) for row in copy.json()["photographs"]] == [(CAPTION, False)]


def test_it_is_changed_removed_and_undone(album: Album) -> None:
    public = album.add().json()["photographs"][0]["id"]
    assert album.quote["undo"]["words"] == f"Photograph “{CAPTION}” added"
    album.quote = album.patch(public, shown=False, caption="The old bracket").json()
    assert album.captions == [("The old bracket", False)]
    album.quote = album.stage.client.delete(album.path(public), seen=f'"{album.quote["version"]}"').json()
    assert album.captions == []
    for captions in ([("The old bracket", False)], [(CAPTION, True)], []):
        album.stage.client.post(f"quotes/{album.id}/undo", {"version": album.quote["version"]})
        album.quote = album.stage.client.get(f"quotes/{album.id}").json()
        assert album.captions == captions


def test_a_step_from_before_there_were_photographs_is_undone(album: Album) -> None:
    step = DraftStep.objects.get()
    del step.state["LinePhotograph"]
    step.save()
    answer = album.stage.client.post(f"quotes/{album.id}/undo", {"version": album.quote["version"]})
    assert answer.status_code == 200 and answer.json()["extras"] == []


@pytest.mark.parametrize("body", [b"<svg/>", jpeg() + b"<script>", jpeg()[:300]])
def test_what_is_no_photograph_is_refused_at_its_field(album: Album, body: bytes) -> None:
    answer = album.add(body)
    assert answer.status_code == 400 and [fault["pointer"] for fault in answer.json()["errors"]] == ["/file"]
    assert not LinePhotograph.objects.exists()


def test_it_has_a_caption_and_a_line_has_four(album: Album) -> None:
    assert album.add(caption=" ").status_code == 400
    assert [album.add(jpeg(10 + n)).status_code for n in range(5)] == [201] * 4 + [409]
    kit = album.quote["kits"][0]["line"]
    assert album.add(line=kit).status_code == 201 and len(album.captions) == 5


def test_the_workshop_looks_at_it_and_a_removed_line_takes_it_along(album: Album) -> None:
    public = album.add().json()["photographs"][0]["id"]
    picture = album.stage.client.get(f"{album.path(public)}/picture")
    assert picture.status_code == 200 and picture["Content-Type"] == "image/jpeg"
    preview = album.stage.client.get(f"quotes/{album.id}/as-customer").content.decode()
    assert f'src="photographs/{public}/picture"' in preview
    line = f"quotes/{album.id}/lines/{album.line}"
    assert album.stage.client.delete(line, seen=f'"{album.quote["version"]}"').status_code == 200
    assert album.captions == []
