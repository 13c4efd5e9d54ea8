"""A real browser against a real server, on a database file of its own."""

import os
import shutil
from collections.abc import Iterator
from typing import Any

import pytest
from django.conf import settings
from playwright.sync_api import Browser, BrowserContext, Page, expect

os.environ.setdefault("PLAYWRIGHT_SKIP_BROWSER_DOWNLOAD", "1")
CHROMIUM = ("chromium-headless-shell", "chromium", "chromium-browser")
WAIT = 15_000  # milliseconds; a slow machine is no fault of what is tested
expect.set_options(timeout=WAIT)


def chromium_path() -> str:
    named = os.environ.get("E2E_CHROMIUM")
    path = named or next(filter(None, map(shutil.which, CHROMIUM)), None)
    if not path:
        pytest.fail("there is no chromium (apt-get install chromium-headless-shell)")
    return path


@pytest.fixture(scope="session")
def browser_type_launch_args(browser_type_launch_args: dict[str, Any]) -> dict[str, Any]:
    quiet = ["--no-sandbox", "--disable-gpu", "--disable-background-networking", "--disable-component-update"]
    return {**browser_type_launch_args, "executable_path": chromium_path(), "args": [*quiet, "--in-process-gpu"]}


@pytest.fixture(scope="session")
def browser_context_args(browser_context_args: dict[str, Any]) -> dict[str, Any]:
    return {**browser_context_args, **PHONE}


PHONE: dict[str, Any] = {
    "viewport": {"width": 390, "height": 844},
    "device_scale_factor": 2,
    "is_mobile": True,
    "has_touch": True,
    "timezone_id": "Europe/Vienna",
    "locale": "en-GB",
    "service_workers": "block",  # fetching the whole app for each new phone takes longer than most tests
}


@pytest.fixture(autouse=True)
def built() -> None:
    if not (settings.FRONT / "index.html").exists():
        pytest.fail("the front end is not built: run `make setup`")


@pytest.fixture
def page(context: BrowserContext) -> Iterator[Page]:
    """A page that fails the test when the app logs an error."""
    page = context.new_page()
    page.set_default_timeout(WAIT)
    messages: list[str] = []
    page.on("pageerror", lambda error: messages.append(str(error)))
    yield page
    assert messages == []


@pytest.fixture
def another(browser: Browser) -> Iterator[BrowserContext]:
    """Somebody else's phone: no cookie of ours."""
    context = browser.new_context(**PHONE)
    context.set_default_timeout(WAIT)
    yield context
    context.close()
