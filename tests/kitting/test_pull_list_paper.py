"""The pull list on paper: the content of each page; one state is printed only once."""

import io
import json
import re
from datetime import UTC, datetime
from decimal import Decimal
from typing import Any

import pytest
from django.core.files.base import ContentFile
from django.core.files.storage import default_storage
from pypdf import PdfReader

from kitting.models import PullLine, PullList
from shop.documents import pdf
from tests.cast import Cast
from tests.client import CheckedClient
from tests.factories import JobOperationFactory, PartFactory, PullLineFactory, PullListFactory
from tests.kitting.stage import Phone, list_of, send

pytestmark = pytest.mark.paper

BLANK: list[str] = []
TURBO, BRAKES = "Turbocharger and charge-cooler kit", "Front big-brake kit"


@pytest.fixture
def printed(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The title of each paper that was really printed."""
    titles: list[str] = []
    render = pdf.render

    def counted(html: str, **options: Any) -> bytes:
        titles.append(options["title"])
        return render(html, **options)

    monkeypatch.setattr(pdf, "render", counted)
    return titles


class Desk:
    """A list of two kits that call their bags alike, one bag longer than a page, and something from the shelf."""

    def __init__(self, cast: Cast) -> None:
        self.cast, self.client = cast, cast.signed_in("parts")
        self.list = PullListFactory(shop=cast.shop)
        self.list.facts = self.list.facts | {"kits": {"BI-T": TURBO, "FV-B": BRAKES}}
        self.list.save()
        self.position = 0
        JobOperationFactory(
            shop=cast.shop, job=self.list.job, position=37, code="TC-05", title="Manifold", quoted_hours=Decimal(1)
        )
        self.long = [self.line(f"Long bag {n}", kit="BI-T", carton="1", bag="1-02") for n in range(70)]
        self.seal = self.line("Seal", kit="BI-T", carton="1", bag="Bag A: seals", operation="TC-05")
        self.hose = self.line("Sleeve", kit="BI-T", carton="1", quantity=Decimal("1.5"), unit="m")
        self.other = self.line("Bracket", kit="BI-T", carton="1", kind="beside")
        self.disc = self.line("Disc", kit="FV-B", carton="1", bag="1-02")
        self.oil = self.line("Engine oil, 5 L", kit="", kind="need")
        self.sensor = self.line("Charge air temperature sensor", kit="BI-T", kind="reused", operation="TC-05")

    def line(self, title: str, **fields: Any) -> PullLine:
        self.position += 1
        part = PartFactory(shop=self.cast.shop, number=f"NO-{self.position}")
        return PullLineFactory(
            shop=self.cast.shop, pull_list=self.list, position=self.position, title=title, part=part, **fields
        )

    def paper(self, **query: str) -> bytes:
        answer = self.client.get(f"pull-lists/{self.list.pk}/paper", query)
        assert answer.status_code == 200 and answer["Content-Type"] == "application/pdf", answer.content
        return bytes(answer.content)

    def blank(self) -> list[str]:
        """The pages that nobody has counted on: every desk prints the same, so they are set once."""
        if not BLANK:
            BLANK.extend(self.pages(edition="blank"))
        return BLANK

    def pages(self, **query: str) -> list[str]:
        reader = PdfReader(io.BytesIO(self.paper(**query)))
        return [" ".join(page.extract_text().split()) for page in reader.pages]


@pytest.fixture
def desk(cast: Cast) -> Desk:
    return Desk(cast)


def test_every_page_says_which_kit_carton_and_bag_its_lines_lie_in(desk: Desk) -> None:
    for pages in (desk.blank(), desk.pages(edition="counts")):
        long = [page for page in pages if "Long bag" in page]
        assert len(long) > 1, "a bag that ends on its first page proves nothing"
        for page in long:
            head = page.split("Long bag")[0]
            assert f"A. {TURBO} Carton 1, Bag 1-02" in head
            assert "Expected Counted Damaged" in head


def test_two_kits_that_call_their_bags_alike_are_told_apart_and_a_bag_is_named_once(desk: Desk) -> None:
    text = " ".join(desk.blank())
    assert re.search(rf"B\. {BRAKES} Carton 1, Bag 1-02 .* Disc", text)
    assert f"A. {TURBO} Carton 1, Bag A: seals" in text and "Bag Bag" not in text
    assert f"A. {TURBO} Loose in carton 1" in text


def test_a_line_names_the_step_as_the_screens_do_and_what_is_measured_as_the_pad_does(desk: Desk) -> None:
    text = " ".join(desk.blank())
    assert re.search(r"Seal NO-71 37 4\b", text) and "TC-05" not in text
    assert "Sleeve NO-72 1 piece of 1.5 m" in text


def test_what_comes_off_the_vehicle_has_as_wide_a_column_as_what_is_counted(desk: Desk) -> None:
    for edition in ("blank", "counts"):
        reader = PdfReader(io.BytesIO(desk.paper(edition=edition)))
        text = "\n".join(page.extract_text() for page in reader.pages)
        assert "Charge air temperature sensor" in text, "the name runs over several lines"


def test_there_is_room_for_what_a_pencil_writes_and_no_box_invites_a_wrong_tick(desk: Desk) -> None:
    from kitting.documents import pull_list as document

    pages = desk.blank()
    assert "Damaged Note OK" in pages[0] and "Good" not in pages[0]
    assert "Counted by" in pages[-1] and "Date" in pages[-1]
    assert "Bracket NO-73 in the kit, not for this vehicle" in " ".join(pages)
    html: list[str] = []
    caught = lambda text, **options: html.append(text) or b"%PDF-1.7 %%EOF"  # noqa: E731
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(document, "printed_once", caught)
        desk.paper()
    rows = html[0].split("<tr>")
    box = '<td class="tick"><span></span></td>'
    (bracket,) = [row for row in rows if "Bracket" in row]
    (seal,) = [row for row in rows if "Seal" in row]
    assert box in seal and box not in bracket


def test_the_edition_with_the_counts_says_what_differs_and_who_counted_when(desk: Desk) -> None:
    phone = Phone(desk.list)
    at = {"made_at": "2026-11-24T13:31:00Z"}
    send(
        desk.client,
        desk.list,
        phone.event(desk.seal, total=3, **at),
        phone.event(desk.disc, total=4, damaged=1, **at),
        phone.event(desk.oil, total=4, **at),
    )
    text = " ".join(desk.pages(edition="counts"))
    assert "as counted" in text and "Difference Who counted, when" in text
    assert "Seal NO-71 37 4 3 short 1 Parts, Tue 24 Nov 14:31" in text
    assert re.search(r"Disc NO-74 4 4 1 damaged 1\b.*Parts, Tue 24 Nov 14:31", text)
    assert re.search(r"Engine oil, 5 L NO-75 4 4 Parts", text)
    assert "Counted by" not in text
    reader = PdfReader(io.BytesIO(desk.paper(edition="counts")))
    attached = json.loads(reader.attachments["pull-list.json"][0])
    assert attached["counts"][str(desk.seal.pk)] == {"total": 3, "damaged": 0, "low": 3}


def test_a_clock_that_runs_ahead_never_says_that_a_count_is_still_to_come(desk: Desk) -> None:
    ahead = Phone(desk.list).event(desk.seal, total=3, made_at="2099-11-24T13:31:00Z")
    before = datetime.now(UTC)
    send(desk.client, desk.list, ahead)
    report = desk.client.get(f"pull-lists/{desk.list.pk}/report").json()
    (counter,) = next(
        difference["counted_by"] for difference in report["differences"] if difference["line"] == str(desk.seal.pk)
    )
    assert before <= datetime.fromisoformat(counter["at"]) <= datetime.now(UTC)


def test_each_state_of_the_list_is_printed_once(cast: Cast, printed: list[str]) -> None:
    client, (pull_list, (line, *_)) = cast.signed_in("parts"), list_of(cast)
    paper = lambda **query: client.get(f"pull-lists/{pull_list.pk}/paper", query).content  # noqa: E731
    blank, counts = paper(), paper(edition="counts")
    assert (paper(), paper(edition="blank"), paper(edition="counts")) == (blank, blank, counts)
    assert len(printed) == 2
    send(client, pull_list, Phone(pull_list).event(line, total=3))
    assert paper() == blank and len(printed) == 2, "a count is not on the blank one"
    newer = paper(edition="counts")
    assert newer != counts and paper(edition="counts") == newer and len(printed) == 3
    folder = f"papers/pull-lists/{pull_list.pk}/counts-en-GB"
    assert len(default_storage.listdir(folder)[1]) == 1, "the earlier state is thrown away"


def test_a_print_that_was_cut_off_is_printed_again(cast: Cast, printed: list[str]) -> None:
    client, (pull_list, _) = cast.signed_in("parts"), list_of(cast)
    paper = lambda: client.get(f"pull-lists/{pull_list.pk}/paper").content  # noqa: E731
    whole, folder = paper(), f"papers/pull-lists/{pull_list.pk}/blank-en-GB"
    (name,) = default_storage.listdir(folder)[1]
    default_storage.delete(f"{folder}/{name}")
    default_storage.save(f"{folder}/{name}", ContentFile(whole[:2000]))
    assert paper() == whole and paper() == whole and len(printed) == 2


def test_an_edition_that_there_is_not_is_refused(cast: Cast) -> None:
    pull_list, _ = list_of(cast)
    answer = cast.signed_in("parts").get(f"pull-lists/{pull_list.pk}/paper", {"edition": "ripped"})
    assert answer.status_code == 400 and answer.json()["errors"][0]["pointer"] == "/edition"


def test_a_list_opened_before_kits_were_named_shows_their_names_of_today(cast: Cast) -> None:
    from tests.factories import KitFactory

    KitFactory(shop=cast.shop, code="KIT", title=BRAKES)
    pull_list, _ = list_of(cast)
    PullList.objects.update(facts={"customer": "Anwen Holloway", "vehicle": "Tessark T35"})
    assert cast.signed_in("parts").get(f"pull-lists/{pull_list.pk}").json()["kits"] == [
        {"code": "KIT", "title": BRAKES}
    ]


def test_the_paper_is_not_shown_to_a_stranger(cast: Cast) -> None:
    pull_list, _ = list_of(cast)
    client = CheckedClient(shop=cast.elsewhere.slug)
    client.force_login(cast.stranger.user)
    assert client.get(f"pull-lists/{pull_list.pk}/paper", {"edition": "counts"}).status_code == 404
