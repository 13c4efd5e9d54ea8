"""Every screen in both papers, on a phone and on a desk: nothing for axe to find, nothing too small for a thumb."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any
from urllib.parse import urlencode

import pytest
from django.conf import settings
from django.test import Client
from playwright.sync_api import Browser, BrowserType, Page, Request, expect

from shop.models import Member
from shop.services.people import open_shop, set_member
from tests.browser import acts
from tests.browser.aside import begin
from tests.browser.conftest import PHONE
from tests.browser.pads import OVER
from tests.cast import PASSWORD
from tests.client import CheckedClient
from tests.demo import KITS, saltmarsh_files, take_in
from tests.examples import LONG
from tests.words.pseudo import BEGINS, WORD, not_in_the_catalogue, speak_in_the_browser, speak_on_the_server

pytestmark = pytest.mark.browser

AXE = settings.BASE_DIR / "frontend" / "node_modules" / "axe-core" / "axe.min.js"
RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
ASKED = {"runOnly": RULES, "resultTypes": ["violations"]}  # to list what passes takes axe twice as long
# Dark paper changes colours alone: where the same page was asked of all rules in light, these are what is left to ask.
OF_COLOUR = ["color-contrast", "link-in-text-block"]
COLOURS = {**ASKED, "runOnly": {"type": "rule", "values": OF_COLOUR}}
SHAPES = {**ASKED, "rules": {name: {"enabled": False} for name in OF_COLOUR}}  # another width changes no colour
SMALL = """[...document.querySelectorAll('button, input, select, textarea, summary, a')].filter(e => {
  const own = e.matches('button') ? e : (e.querySelector('span') ?? e)
  const r = (e.closest('label, .tap, .bag, .carton') ?? own).getBoundingClientRect()
  return !e.closest('.skip, .sr') && !e.classList.contains('skip') && r.width && (r.width < 43.5 || r.height < 43.5)
}).map(e => e.outerHTML.slice(0, 120))"""
UNSTICK = """document.querySelectorAll('body *').forEach(e => {
  if (['fixed', 'sticky'].includes(getComputedStyle(e).position)) e.style.position = 'static'
})"""
# As a link of the app goes there: the app itself is loaded once. No two screens in a row share a heading.
GO = """path => {
  document.querySelectorAll('main h1').forEach(e => e.setAttribute('data-before', ''))
  history.pushState(null, '', path)
  dispatchEvent(new PopStateEvent('popstate'))
  scrollTo(0, 0)
}"""
A_QUARTER_SECOND = "() => new Promise(done => setTimeout(done, 250))"
# What a person sees or hears: the texts, and the attributes that are read aloud or shown.
TEXTS = """[...document.querySelectorAll('body *')].flatMap(e => e.closest('script, style, noscript, [hidden]') ? [] : [
  ...[...e.childNodes].filter(n => n.nodeType === 3).map(n => n.data),
  ...['aria-label', 'placeholder', 'title', 'alt'].map(name => e.getAttribute(name)).filter(Boolean),
])"""
WIDE = "document.documentElement.scrollWidth - document.documentElement.clientWidth"


@dataclass
class Workshop:
    """Addresses of one thing of each kind."""

    draft: str
    sent: str
    link: str
    accepted_link: str
    accepted: str
    pull_list: str
    job: str
    file: str
    kit: str

    def screens(self) -> Iterator[tuple[str, str]]:
        """(name, address, a text that shows it is drawn)"""
        yield from {
            "counter": "/saltmarsh/counter",
            "new quote": "/saltmarsh/counter/quote/new",
            "quotes": "/saltmarsh/counter/quotes",
            "owed": "/saltmarsh/counter/owed",
            "draft": f"/saltmarsh/counter/quote/{self.draft}",
            "parts": "/saltmarsh/parts",
            "sent": f"/saltmarsh/counter/quote/{self.sent}",
            "pull list": f"/saltmarsh/parts/list/{self.pull_list}",
            "accepted": f"/saltmarsh/counter/quote/{self.accepted}",
            "report": f"/saltmarsh/parts/list/{self.pull_list}/report",
            "orders": f"/saltmarsh/parts/list/{self.pull_list}/orders",
            "readiness": f"/saltmarsh/parts/job/{self.job}",
            "this phone": "/saltmarsh/parts/phone",
            "bay": "/saltmarsh/bay",
            "job": f"/saltmarsh/bay/job/{self.job}",
            "coolant": f"/saltmarsh/bay/job/{self.job}/coolant",
            "office": "/saltmarsh/office",
            "new file": "/saltmarsh/office/file/new/kit",
            "file": f"/saltmarsh/office/file/{self.file}",
            "kit": f"/saltmarsh/office/kit/{self.kit}",
        }.items()


def make_workshop() -> Workshop:
    shop, _ = open_shop(
        slug="saltmarsh", name="Saltmarsh Lane Motor Works", currency="EUR", exponent=2, zone="Europe/Vienna"
    )
    set_member(shop=shop, email="ines@saltmarsh.example", name="Ines Corrow", role="advisor", password=PASSWORD)
    kit_files = KITS.values() if LONG else [KITS["brakes"]]
    take_in("saltmarsh", [*saltmarsh_files(), *(("kit", path) for path in kit_files)])
    client = CheckedClient()
    client.force_login(Member.objects.get().user)
    kits = [item["id"] for item in client.get("kits").json()["items"]]
    vehicle = client.get("customers", {"q": "holloway"}).json()["items"][0]["vehicles"][0]["id"]

    def quote(*codes: str) -> dict[str, Any]:
        return client.post("quotes", {"kits": list(codes), "vehicle": vehicle}).json()

    def send(quote: dict[str, Any]) -> dict[str, Any]:
        body = {"version": quote["version"], "recipient": "01632 960 417"}
        return client.post(f"quotes/{quote['id']}/send", body).json()

    accepted, sent = send(quote(*kits)), send(quote(kits[0]))
    accept(accepted["link"]["url"])
    done = client.get(f"quotes/{accepted['quote']['id']}").json()
    file = client.get("imports").json()["items"][0]["id"]
    return Workshop(
        draft=quote(*kits)["id"],
        sent=sent["quote"]["id"],
        link=sent["link"]["url"].removeprefix("http://testserver"),
        accepted_link=accepted["link"]["url"].removeprefix("http://testserver"),
        accepted=done["id"],
        pull_list=done["pull_list"],
        job=done["job"]["id"],
        file=file,
        kit=kits[0],
    )


@pytest.fixture
def workshop(transactional_db: None) -> Workshop:
    """Sells one kit, or all three at length: more lines take more time and look the same."""
    return begin(make_workshop)


def accept(url: str) -> None:
    phone = Client()
    page = phone.get(url)["Location"]
    html = phone.get(page).content.decode()
    field = {name: html.split(f'name="{name}" value="')[1].split('"')[0] for name in ("revision", "digest")}
    consents = [piece.split('"')[0] for piece in html.split('name="consent" value="')[1:]]
    form = urlencode({**field, "name": "Anwen Holloway", "consent": consents, "answer": "accept"}, doseq=True)
    answer = phone.post(f"{page}answer", form, content_type="application/x-www-form-urlencoded")
    assert answer.status_code == 303


@pytest.mark.parametrize(
    ("width", "paper"),
    [
        (390, "light"),
        pytest.param(1280, "dark", marks=pytest.mark.drill),  # each takes a minute; the long form has all four
        pytest.param(390, "dark", marks=pytest.mark.drill),
        pytest.param(1280, "light", marks=pytest.mark.drill),
    ],
)
def test_every_screen_can_be_used_by_everybody(
    workshop: Workshop, live_server: Any, browser: Browser, width: int, paper: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The desk speaks the pseudo language: there no text of a screen is plain, unless it is in the rows."""
    context = browser.new_context(
        viewport={"width": width, "height": 844},
        color_scheme=paper,
        has_touch=width < 500,
        is_mobile=width < 500,
        service_workers="block",
    )
    if width > 500:
        speak_on_the_server(monkeypatch)
        speak_in_the_browser(context)
    texts: list[str] = []
    page = context.new_page()
    page.set_default_timeout(15_000)
    faults: list[str] = []
    page.on("pageerror", lambda error: faults.append(f"{page.url}: {error}"))
    page.goto(live_server.url)
    expect(page.get_by_label("E-mail")).to_be_visible()
    faults += look(page, "sign in")
    traffic = Traffic(page)
    acts.signed_in(page, live_server.url, "ines@saltmarsh.example", "/saltmarsh/parts/phone")
    expect(page.locator("main h1").first).to_be_visible()
    for name, path in workshop.screens():
        page.evaluate(GO, path)
        expect(page.locator("main h1:not([data-before])").first).to_be_visible()
        expect(page.locator("main .opening, main progress:not([value])")).to_have_count(0)
        traffic.wait_until_quiet()
        faults += look(page, name)
        texts += page.evaluate(TEXTS)
        if width > 500 and name in OVER:
            opened = [page.evaluate(TEXTS) for _ in OVER[name](page)]
            assert all(set(more) - set(texts) for more in opened), f"nothing opened on {name}"
            texts += sum(opened, [])
    page.goto(live_server.url + workshop.link)
    faults += look(page, "customer")
    texts += page.evaluate(TEXTS)
    page.goto(live_server.url + workshop.accepted_link)
    page.goto(f"{page.url}receipt")
    expect(page.locator("#s-deposit")).to_be_visible()
    faults += look(page, "receipt")
    texts += page.evaluate(TEXTS)
    context.close()
    assert faults == []
    if width > 500:
        assert sum(BEGINS in text for text in texts) > 1000
        assert not_in_the_catalogue(texts, WORD) == set()


class Traffic:
    """The requests of a page: the browser says by itself that the network is idle only once a document."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.begun = 0
        self.under_way: set[Request] = set()
        page.on("request", self.begin)
        page.on("requestfinished", self.end)
        page.on("requestfailed", self.end)

    def begin(self, request: Request) -> None:
        self.begun += 1
        self.under_way.add(request)

    def end(self, request: Request) -> None:
        self.under_way.discard(request)

    def wait_until_quiet(self) -> None:
        """A quarter of a second in which none begins and at whose end none is under way."""
        begun = -1
        while self.under_way or self.begun != begun:
            begun = self.begun
            self.page.evaluate(A_QUARTER_SECOND)


def look(page: Page, name: str) -> list[str]:
    """The findings of axe, targets under 44 px, and elements that run over the side."""
    page.evaluate(UNSTICK)  # what lies under a bar at this moment can be scrolled to: no fault of its size
    if not page.evaluate("'axe' in window"):
        page.evaluate(AXE.read_text("utf-8"))
    violations = page.evaluate("options => axe.run(document, options)", ASKED)["violations"]
    faults = [
        f"{name}: {violation['id']} {violation['nodes'][0]['html'][:160]} {violation['nodes'][0]['failureSummary']}"
        for violation in violations
    ]
    faults += [f"{name}: small {element}" for element in page.evaluate(SMALL)]
    if page.evaluate(WIDE) > 0:
        faults.append(f"{name}: runs over the side")
    return faults


@pytest.mark.drill
def test_letters_twice_as_large_fit_a_phone(
    workshop: Workshop, live_server: Any, browser_type: BrowserType, browser_type_launch_args: dict[str, Any]
) -> None:
    """Large letters of the phone's settings leave nothing over the side, no name one letter a line."""
    larger = [*browser_type_launch_args["args"], "--blink-settings=defaultFontSize=32"]
    browser = browser_type.launch(**{**browser_type_launch_args, "args": larger})
    page = browser.new_context(**PHONE).new_page()
    acts.signed_in(page, live_server.url, "ines@saltmarsh.example")
    screens = {
        name: path for name, path in workshop.screens() if name in ("counter", "draft", "parts", "bay", "office")
    }
    for name, path in screens.items():
        page.goto(live_server.url + path)
        expect(page.locator("main h1").first).to_be_visible()
        expect(page.locator("main .opening, main progress:not([value])")).to_have_count(0)
        assert (name, page.evaluate(WIDE)) == (name, 0)
        assert page.locator(".mast").evaluate("e => e.clientHeight") < 250
    browser.close()
