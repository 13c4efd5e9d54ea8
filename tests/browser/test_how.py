"""The explanation of a figure at the counter, on a phone."""

import re
from collections.abc import Iterable, Iterator
from decimal import Decimal
from pathlib import Path
from typing import Any
from uuid import uuid4

import pytest
from playwright.sync_api import Browser, Locator, Page, expect

from shop.models import Member
from shop.services.people import open_shop, set_member
from tests.browser import acts
from tests.browser.aside import begin
from tests.browser.test_screens import ASKED, AXE, SMALL, WIDE, accept
from tests.cast import PASSWORD
from tests.client import CheckedClient
from tests.demo import DEMO, KITS, saltmarsh_files, take_in
from tests.prepared import prepared

pytestmark = pytest.mark.browser

TURBO = "Turbocharger and charge-cooler kit, Tessark T35"
BRAKES = "Front big-brake kit, 356 mm, six pistons"
TOWING = "Auxiliary transmission cooler and towing kit"


def make_shop(
    slug: str, email: str, currency: str, files: list[tuple[str, Path]], kits: Iterable[Path] = KITS.values()
) -> None:
    """A shop with these files imported, and its advisor."""
    shop, _ = open_shop(slug=slug, name="Demonstration", currency=currency, exponent=2, zone="Europe/Vienna")
    set_member(shop=shop, email=email, name="Ines Corrow", role="advisor", password=PASSWORD)
    take_in(slug, [*files, *(("kit", path) for path in kits)])


def advisor_of(slug: str) -> CheckedClient:
    client = CheckedClient(shop=slug)
    client.force_login(Member.objects.get(shop__slug=slug, role="advisor").user)
    return client


def make_saltmarsh() -> None:
    prepared(_make_saltmarsh)


def _make_saltmarsh() -> None:
    make_shop("saltmarsh", "ines@saltmarsh.example", "EUR", saltmarsh_files())


def make_copperfell(kits: Iterable[Path] = KITS.values()) -> None:
    own = DEMO / "copperfell"
    names = ("rules.xlsx", "customers.csv", "vehicles.csv", "operations.csv", "templates.csv", "consumables.csv")
    kinds = ("rules", "customers", "vehicles", "labour", "labour", "consumables")
    files = list(zip(kinds, map(own.joinpath, names), strict=True))
    make_shop("copperfell", "della@copperfell.example", "USD", files, kits)


@pytest.fixture
def saltmarsh(transactional_db: None) -> CheckedClient:
    begin(make_saltmarsh)
    return advisor_of("saltmarsh")


@pytest.fixture
def copperfell(transactional_db: None) -> CheckedClient:
    begin(make_copperfell)
    return advisor_of("copperfell")


def sell(kits: list[str]) -> str:
    """Kits of these titles for Holloway's vehicle, accepted by the customer: the pull list."""
    begin(make_saltmarsh)
    client = advisor_of("saltmarsh")
    ids = [item["id"] for item in client.get("kits").json()["items"] if item["title"] in kits]
    vehicle = client.get("customers", {"q": "holloway"}).json()["items"][0]["vehicles"][0]["id"]
    draft = client.post("quotes", {"kits": ids, "vehicle": vehicle}).json()
    body = {"version": draft["version"], "recipient": "01632 960 417"}
    accept(client.post(f"quotes/{draft['id']}/send", body).json()["link"]["url"])
    pull_list: str = client.get(f"quotes/{draft['id']}").json()["pull_list"]
    return pull_list


def sell_the_brakes() -> str:
    return sell([BRAKES])


def sell_all_three() -> str:
    return sell([TOWING, BRAKES, TURBO])


def quoted(client: CheckedClient, condition: str = "none") -> dict[str, Any]:
    """A draft with all three kits for a vehicle whose capacities are known, the same in every run."""
    kits = [item["id"] for item in client.get("kits").json()["items"]]
    vehicles = client.get("vehicles").json()["items"]
    usable = [vehicle for vehicle in vehicles if vehicle["customer"] and vehicle["capacities"]]
    vehicle = min(usable, key=lambda car: (car["title"], car["attributes"].get("transmission", ""), car["plate"]))
    first = client.post("quotes", {"kits": kits, "vehicle": vehicle["id"]})
    quote: dict[str, Any] = first.json()
    if condition != "none":
        quote = client.patch(f"quotes/{quote['id']}", {"condition": condition}, seen=first).json()
    return quote


def show(page: Page, live_server: Any, slug: str, email: str, quote: dict[str, Any]) -> None:
    acts.signed_in(page, live_server.url, email, f"/{slug}/counter/quote/{quote['id']}")
    name = f"Quote {quote['number']}" if quote["number"] else "New quote"
    expect(page.get_by_role("heading", name=name)).to_be_visible()
    acts.unfold(page)


def how(page: Page, title: str, figure: str) -> Locator:
    """Press the figure, then "How this was worked out" in the line that opens."""
    page.get_by_role("button", name=re.compile(f"{figure} of {re.escape(title)}: ")).first.click()
    page.get_by_role("button", name=f"How this was worked out: {title}").click()
    return opened(page, title)


def opened(page: Page, title: str) -> Locator:
    sheet = page.get_by_role("dialog", name=f"How this was worked out {title}")
    expect(sheet).to_be_visible()
    return sheet


def put_away(page: Page) -> None:
    page.get_by_role("dialog").get_by_role("button", name="Close").click()
    expect(page.get_by_role("dialog")).to_be_hidden()


def expect_step(sheet: Locator, words: str, figure: str) -> None:
    row = sheet.get_by_role("row").filter(has=sheet.page.get_by_role("cell", name=words, exact=True))
    expect(row).to_contain_text(figure)


@pytest.mark.drill
def test_shared_work_and_corrosion_show_their_numbers(page: Page, live_server: Any, saltmarsh: CheckedClient) -> None:
    quote = quoted(saltmarsh, "light")
    show(page, live_server, "saltmarsh", "ines@saltmarsh.example", quote)
    hours_shared_by_several_kits_are_worked_once(page, quote)
    corrosion_and_shared_work_show_their_numbers(page, quote)


@pytest.mark.drill
def test_kits_needs_and_the_margin_show_their_numbers(page: Page, live_server: Any, saltmarsh: CheckedClient) -> None:
    quote = quoted(saltmarsh)
    show(page, live_server, "saltmarsh", "ines@saltmarsh.example", quote)
    taking_a_kit_off_is_worked_beside_the_kit_alone(page, quote, saltmarsh)
    a_need_shows_its_packs_what_is_left_and_the_next_best(page, quote)
    the_margin_is_pressed_and_worked_from_the_total_before_tax(page, quote, saltmarsh)


def hours_shared_by_several_kits_are_worked_once(page: Page, quote: dict[str, Any]) -> None:
    operations = quote["labour"]["operations"]
    shared = next(
        operation
        for operation in operations
        if operation["why"] and operation["why"][0].startswith("once for three kits")
    )
    line = page.get_by_role("row").filter(has_text=shared["title"])
    expect(line).to_contain_text(f"once for three kits: longest is {shared['hours']} h")
    sheet = how(page, shared["title"], "Hours")
    expect(sheet).to_contain_text("it is done once: the longest of their hours counts")
    for letter, title in (("A", TOWING), ("B", BRAKES), ("C", TURBO)):
        expect(sheet.get_by_role("cell", name=f"{letter}, {title}, needs")).to_be_visible()
    expect_step(sheet, "Done once: the longest of 3", f"{shared['hours']} h")
    put_away(page)


def corrosion_and_shared_work_show_their_numbers(page: Page, quote: dict[str, Any]) -> None:
    wheels = next(
        operation
        for operation in quote["labour"]["operations"]
        if operation["title"] == "Front wheels and arch liners off"
    )
    sheet = how(page, wheels["title"], "Hours")
    expect_step(sheet, f"B, {BRAKES}, needs", "0.3 h")
    expect_step(sheet, "Shared with Front calipers and discs off", "− 0.2 h")
    expect_step(sheet, "+8 % for corroded fasteners", "0.108 h")
    expect_step(sheet, "Rounded to 0.1 h", "0.1 h")
    expect(sheet.get_by_role("row").last).to_contain_text(f"0.1 h, {wheels['price']}")
    put_away(page)


def taking_a_kit_off_is_worked_beside_the_kit_alone(
    page: Page, quote: dict[str, Any], saltmarsh: CheckedClient
) -> None:
    brakes = next(kit for kit in quote["kits"] if kit["title"] == BRAKES)
    others = [kit["kit"] for kit in quote["kits"] if kit["title"] != BRAKES]
    without = saltmarsh.post("quotes", {"kits": others, "vehicle": quote["vehicle"]["id"]}).json()
    page.get_by_role("button", name=re.compile(f"^How this was worked out: .*: without {BRAKES}$")).click()
    sheet = opened(page, f"Without {BRAKES}")
    expect_step(sheet, "Hours of the whole quote with it", f"{quote['labour']['hours']} h")
    expect_step(sheet, "Less the hours of the whole quote without it", f"− {without['labour']['hours']} h")
    expect_step(sheet, "Saved without it, in hours", f"{brakes['saves_hours']} h")
    expect_step(sheet, "Charged for it alone", f"{brakes['alone_hours']} h")
    expect_step(sheet, "Less the whole quote without it, tax included", f"− {Decimal(without['totals']['gross']):,}")
    expect_step(sheet, "Saved without it, tax included", f"{Decimal(brakes['saves_amount']):,}")
    put_away(page)


def a_need_shows_its_packs_what_is_left_and_the_next_best(page: Page, quote: dict[str, Any]) -> None:
    oil = next(need for need in quote["needs"] if need["title"].startswith("Engine oil"))
    sheet = how(page, oil["title"], "Price")
    expect(sheet).to_contain_text("added up for the whole job before packs are chosen")
    expect_step(sheet, "100 % of engine oil, 8.3 L", "8.3 L")
    row = sheet.get_by_role("row").filter(has_text="Kit C needs")
    expect(row).to_contain_text("0.3 L")
    expect_step(sheet, "Needed over the job", "8.6 L")
    for pack in oil["packs"]:
        expect(sheet.get_by_role("cell", name=f"{pack['count']} × {pack['title']}", exact=True)).to_be_visible()
    expect_step(sheet, "These packs together", oil["price"])
    expect_step(sheet, "Left over", "0.4 L")
    expect_step(sheet, "Next best: 5 + 5 L", "+ 11.73")
    put_away(page)


def the_margin_is_pressed_and_worked_from_the_total_before_tax(
    page: Page, quote: dict[str, Any], saltmarsh: CheckedClient
) -> None:
    margin = saltmarsh.get(f"quotes/{quote['id']}/margin").json()
    figure = page.get_by_role("button", name=re.compile(r"^[\d.]+ %.*How this was worked out$"))
    figure.click()
    sheet = opened(page, "Margin")
    expect_step(sheet, "Total before tax", f"{Decimal(margin['revenue']):,}")
    expect_step(sheet, "Profit before tax", f"{Decimal(margin['profit']):,}")
    expect(sheet.get_by_role("row").last).to_contain_text(margin["how"]["result"])
    put_away(page)
    expect(figure).to_be_focused()

    page.get_by_role("button", name="Landed cost").click()
    costs = page.get_by_role("dialog", name="Landed cost")
    last = costs.get_by_role("listitem").filter(has_text="Together")
    expect(last).to_contain_text(f"profit {Decimal(margin['bought_sum']['profit']):,} before tax")
    put_away(page)


@pytest.mark.drill
def test_a_first_fit_and_an_import_show_factor_cost_and_the_age_of_the_rate(
    page: Page, live_server: Any, copperfell: CheckedClient
) -> None:
    quote = quoted(copperfell)
    kit = next(kit for kit in quote["kits"] if kit["title"] == TOWING)
    first = next(operation for operation in quote["labour"]["operations"] if operation["kits"] == [kit["letter"]])
    margin = copperfell.get(f"quotes/{quote['id']}/margin").json()
    bought = next(purchase for purchase in margin["bought"] if purchase["title"] == TOWING)
    show(page, live_server, "copperfell", "della@copperfell.example", quote)

    sheet = how(page, first["title"], "Hours")
    expect(sheet).to_contain_text("fitted here for the first time takes longer")
    expect(sheet.get_by_role("cell", name=re.compile(r"first fit here: [\d.]+ h × 1\.3$"))).to_be_visible()
    put_away(page)

    age = f"{bought['rate_age_days']} days old"
    expect(page.get_by_role("listitem").filter(has_text=TOWING).first).to_contain_text(f"bought in EUR, {age_of(kit)}")
    page.get_by_role("button", name="Landed cost").click()
    costs = page.get_by_role("dialog", name="Landed cost")
    item = costs.get_by_role("listitem").filter(has_text=TOWING).first
    expect(item).to_contain_text(f"EUR at {bought['rate']}, rate of ")
    expect(item).to_contain_text(age)
    costs.locator("summary").first.click()
    steps = costs.get_by_role("table").first
    for words, figure in ((explanation["words"], explanation["figure"]) for explanation in bought["how"]):
        expect_step(steps, words, figure)
    expect_step(steps, "Landed cost", f"{Decimal(bought['landed']):,}")
    put_away(page)


def age_of(kit: dict[str, Any]) -> str:
    """ "rate of 16 Nov, 9 days old" of the kit's short reason."""
    return next(reason for reason in kit["why"] if reason.startswith("bought in")).partition(", ")[2]


@pytest.fixture
def narrow(browser: Browser) -> Iterator[Page]:
    context = browser.new_context(viewport={"width": 320, "height": 640}, color_scheme="dark", locale="en-GB")
    context.set_default_timeout(15_000)
    yield context.new_page()
    context.close()


def test_every_figure_of_a_sent_version_opens_by_keyboard_and_gives_the_focus_back(
    narrow: Page, live_server: Any, saltmarsh: CheckedClient
) -> None:
    draft = quoted(saltmarsh)
    body = {"version": draft["version"], "recipient": "01632 960 417"}
    sent = saltmarsh.post(f"quotes/{draft['id']}/send", body).json()
    accept(sent["link"]["url"])
    quote = saltmarsh.get(f"quotes/{draft['id']}").json()
    assert quote["state"] == "accepted"
    page = narrow
    show(page, live_server, "saltmarsh", "ines@saltmarsh.example", quote)
    figures = page.get_by_role("button", name=re.compile("^How this was worked out: "))
    lines = (*quote["kits"], *quote["labour"]["operations"], *quote["needs"], *quote["fees"], *quote["totals"]["taxes"])
    folded = [line for line in lines if line.get("price") == "0.00"]  # in one line that opens
    assert len(folded) < len(lines) // 5 and figures.count() >= len(lines) - len(folded) + 2  # labour and total
    titles = (quote["kits"][0]["title"], priced(quote["needs"])["title"], quote["fees"][0]["title"], "Value added tax")
    for title in (*titles, "Total with tax"):
        figure = page.get_by_role("button", name=re.compile(f"^How this was worked out: {re.escape(title)}: ")).first
        figure.focus()
        page.keyboard.press("Enter")
        sheet = page.get_by_role("dialog", name=re.compile(f"^How this was worked out {re.escape(title)}"))
        expect(sheet.get_by_role("row").last).to_be_visible()
        expect(sheet.get_by_role("heading")).to_be_focused()
        assert page.evaluate(WIDE) == 0 and page.evaluate(SMALL) == []
        page.keyboard.press("Escape")
        expect(sheet).to_be_hidden()
        expect(figure).to_be_focused()


@pytest.mark.drill
def test_the_open_sheet_has_nothing_for_axe_to_find(narrow: Page, live_server: Any, saltmarsh: CheckedClient) -> None:
    quote = quoted(saltmarsh, "light")
    page = narrow
    show(page, live_server, "saltmarsh", "ines@saltmarsh.example", quote)
    sheet = how(page, priced(quote["needs"])["title"], "Price")
    expect(sheet.get_by_role("row").last).to_be_visible()
    page.evaluate(AXE.read_text("utf-8"))
    assert axe_finds(page) == []
    page.keyboard.press("Escape")
    expect(sheet).to_be_hidden()
    page.get_by_role("button", name="Landed cost").click()
    costs = page.get_by_role("dialog", name="Landed cost")
    costs.locator("summary").first.click()
    assert axe_finds(page) == [] and page.evaluate(WIDE) == 0 and page.evaluate(SMALL) == []


def priced(lines: list[dict[str, Any]]) -> dict[str, Any]:
    """The first that costs something: what is covered by the shop supplies is folded."""
    return next(line for line in lines if line["price"] != "0.00")


def axe_finds(page: Page, within: str = "dialog[open]", options: dict[str, Any] = ASKED) -> list[Any]:
    script = """([within, options]) => axe.run(document.querySelector(within), options)
        .then(found => found.violations.map(each => [each.id, each.nodes.map(node => node.html.slice(0, 200))]))"""
    return page.evaluate(script, [within, options])


@pytest.mark.drill
def test_counts_that_knew_nothing_of_each_other_are_told_on_the_pad(
    page: Page, live_server: Any, transactional_db: None
) -> None:
    list_id, saltmarsh = begin(sell_the_brakes), advisor_of("saltmarsh")
    line = next(line for line in saltmarsh.get(f"pull-lists/{list_id}").json()["lines"] if line["kind"] == "box")
    oda = counter("oda@saltmarsh.example", "Oda Pellam")

    acts.signed_in(page, live_server.url, "ines@saltmarsh.example", f"/saltmarsh/parts/list/{list_id}")
    expect(page.locator(f"[id='{line['id']}']")).to_be_visible()
    page.wait_for_load_state("networkidle")
    page.context.set_offline(True)
    acts.count(page, line["title"], 4)
    assert oda.post(f"pull-lists/{list_id}/events", {"events": [counted(line["id"], list_id, 3)]}).status_code == 200
    page.context.set_offline(False)

    row = page.locator(f"[id='{line['id']}']")
    expect(row).to_contain_text("neither saw the other’s count. Count again.")
    row.get_by_role("button").first.click()
    page.get_by_role("button", name=f"How this was worked out: {line['title']}").click()
    sheet = opened(page, line["title"])
    expect_step(sheet, "Oda Pellam counted", "3")
    expect_step(sheet, "You counted", "4")
    expect(sheet.get_by_role("cell", name=re.compile("^Neither .* nor .* had the other’s count"))).to_be_visible()
    page.keyboard.press("7")
    page.keyboard.press("Escape")
    expect(sheet).to_be_hidden()
    expect(page.locator(".pad output")).to_have_text("–")  # keys pressed on the sheet are none of the pad's


def counter(email: str, name: str) -> CheckedClient:
    shop = Member.objects.get().shop
    set_member(shop=shop, email=email, name=name, role="parts", password=PASSWORD)
    client = CheckedClient(shop=shop.slug)
    client.force_login(Member.objects.get(user__email=email).user)
    return client


def counted(line: str, list_id: str, total: int) -> dict[str, Any]:
    """A count of a phone that had pulled nothing."""
    return {
        "v": 1,
        "id": str(uuid4()),
        "list": list_id,
        "line": line,
        "kind": "set",
        "total": total,
        "damaged": 0,
        "target": None,
        "device": str(uuid4()),
        "n": 1,
        "epoch": 1,
        "seen": 0,
        "made_at": "2026-11-24T10:15:00Z",
        "how": "counted",
        "note": None,
    }
