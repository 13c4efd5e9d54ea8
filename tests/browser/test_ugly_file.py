"""An ugly file of a supplier, from the upload to the pull list, on a phone and at a desk."""

from pathlib import Path
from typing import Any

import pytest
from django.core.management import call_command
from playwright.sync_api import Page, expect

from kitting.models import Kit, KitLine, PullList
from tests.browser import acts
from tests.browser.test_account import nothing_wrong
from tests.cast import Cast, make_cast
from tests.quotes.stage import make_stage

pytestmark = pytest.mark.browser

ROWS = [
    "Ferrous & Vane, packing list;;;;",
    "Carton;Bag;Part no.;Description;Qty",
    "1;A;FV-CAL-356L;Caliper, left;1",
    "1;;FV-CAL-356R;Caliper, right;1",
    "1;;FV-BLT-1260;Caliper bolt M12 x 60;4",
    "1;B;FV-PIN-0356;Pad retaining pin;2.5",
    "1;;FV-WSL-0011;Wear sensor lead, automatic only;2",
    ";;Total;;10.5",
    "Page 1 of 2;;;;",
    "2;;FV-DSC-356;Disc;2",
    "2;C;FV-BEL-356;Bell;2",
    "2;;FV-JUNK;Sales leaflet;1",
    "Page 2 of 2;;;;",
]


@pytest.fixture
def ugly(tmp_path: Path) -> Path:
    path = tmp_path / "ferrous_vane_FINAL2.csv"
    path.write_text("\n".join(ROWS))
    return path


@pytest.mark.parametrize("width", [390, pytest.param(1280, marks=pytest.mark.drill)])
def test_an_ugly_file_becomes_a_kit_that_is_counted(
    transactional_db: None, live_server: Any, page: Page, ugly: Path, tmp_path: Path, width: int
) -> None:
    cast = make_cast()
    page.set_viewport_size({"width": width, "height": 900})
    acts.signed_in(page, live_server.url, cast.parts.user.email, "/saltmarsh/office/file/new/kit")
    page.get_by_label("Supplier").fill("Ferrous & Vane")
    page.locator("input[type=file]").set_input_files(ugly)
    page.get_by_role("button", name="Read the file").click()
    expect(page.get_by_role("heading", name="The list as it was read")).to_be_visible()
    page.get_by_label("Kit number").fill("FV-BB356")
    page.get_by_label("Kit number").blur()
    expect(page.get_by_text("the file names none")).to_be_hidden()
    page.get_by_role("radio", name="In the one named above them").check()
    expect(page.get_by_text("We ask once")).to_be_hidden()
    row = page.get_by_role("group", name="Row 6")
    row.get_by_label("quantity").fill("2")
    row.get_by_role("button", name="Use 2").click()
    expect(page.get_by_text("corrected. The file says")).to_be_visible()
    nothing_wrong(page)
    condition = page.get_by_role("button", name="Only if transmission=automatic")
    condition.click()
    expect(condition).to_be_hidden()
    page.locator("summary").filter(has_text="Bag C").click()
    page.get_by_role("button", name="Change row 12").click()
    page.get_by_role("button", name="Leave row 12 out").click()
    page.context.set_offline(True)
    page.get_by_role("button", name="Import 7 lines").click()
    expect(page.get_by_text("No answer from the server")).to_be_visible()
    page.context.set_offline(False)
    page.get_by_role("button", name="Import 7 lines").click()
    expect(page.get_by_role("heading", name="Imported", exact=True)).to_be_visible()
    parts = KitLine.objects.filter(kind="part").order_by("position").select_related("part", "parent__parent")
    assert [(str(line.part), line.parent.label if line.parent else "") for line in parts] == [
        ("FV-CAL-356L", "A"),
        ("FV-CAL-356R", "A"),
        ("FV-BLT-1260", "A"),
        ("FV-PIN-0356", "B"),
        ("FV-WSL-0011", "B"),
        ("FV-DSC-356", "2"),
        ("FV-BEL-356", "C"),
    ]
    page.goto(f"{live_server.url}/saltmarsh/parts/list/{sold(cast, tmp_path).pk}")
    expect(page.get_by_text("0 of 7 lines counted")).to_be_visible()
    acts.count(page, "Caliper bolt M12 x 60", 4)
    expect(page.get_by_text("1 of 7 lines counted")).to_be_visible()
    expect(page.locator("li").filter(has_text="Wear sensor lead")).to_contain_text("not for this vehicle")
    nothing_wrong(page)


def sold(cast: Cast, folder: Path) -> PullList:
    """The pull list of the kit once it has a price and hours, and a customer has accepted it."""
    stage = make_stage(cast)
    (folder / "kits.csv").write_text("kit;selling price;hours\nFV-BB356;1240;5.2\n")
    call_command("import", "kits", str(folder / "kits.csv"), shop=cast.shop.slug)
    stage.accepted(Kit.objects.get(code="FV-BB356"))
    return PullList.objects.get()


ALIKE = [
    "Part no.;Description;Qty;Bag",
    "FV-CAL-356L;Caliper, left;1;A",
    "FV-BLT-1260;Caliper bolt;2.5;A",
    "FV-PIN-0356;Pad retaining pin;2.5;B",
    "FV-BEL-356;Bell;2;C",
    "FV-SEN-001;Wear sensor;3.5;C",
]


@pytest.mark.drill
@pytest.mark.parametrize("width", [390, pytest.param(1280, marks=pytest.mark.drill)])
def test_a_person_is_led_from_problem_to_problem_and_mends_equal_ones_at_once(
    transactional_db: None, live_server: Any, page: Page, tmp_path: Path, width: int
) -> None:
    cast = make_cast()
    (tmp_path / "alike.csv").write_text("\n".join(ALIKE))
    page.set_viewport_size({"width": width, "height": 900})
    acts.signed_in(page, live_server.url, cast.parts.user.email, "/saltmarsh/office/file/new/kit")
    page.locator("input[type=file]").set_input_files(tmp_path / "alike.csv")
    page.get_by_role("button", name="Read the file").click()
    bar = page.get_by_role("group", name="Next problem")
    expect(bar).to_contain_text("4 problems to fix first")
    bar.get_by_role("button").click()
    expect(page.get_by_label("Kit number")).to_be_focused()
    page.keyboard.type("FV-BB356")
    page.get_by_label("Kit number").blur()
    expect(bar).to_contain_text("3 problems to fix first")
    page.keyboard.press("F8")
    row = page.get_by_role("group", name="Row 3")
    expect(row.get_by_role("checkbox", name="Also in 1 other row with this problem")).to_be_focused()
    page.keyboard.press("F8")
    expect(page.get_by_role("group", name="Row 4").get_by_role("checkbox")).to_be_focused()
    row.get_by_role("checkbox").check()
    row.get_by_label("quantity").fill("2")
    nothing_wrong(page)
    row.get_by_role("button", name="Use 2").click()
    expect(bar).to_contain_text("1 problem to fix first")
    page.keyboard.press("F8")
    last = page.get_by_role("group", name="Row 6")
    expect(last.get_by_label("quantity")).to_be_focused()
    last.get_by_label("quantity").fill("3")
    page.keyboard.press("Enter")
    expect(bar).to_be_hidden()
    page.get_by_role("button", name="Import 5 lines").click()
    expect(page.get_by_role("heading", name="Imported", exact=True)).to_be_visible()
    assert sum(line.quantity for line in KitLine.objects.filter(kind="part")) == 1 + 2 + 2 + 2 + 3
