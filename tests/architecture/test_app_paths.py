"""The addresses that the app draws itself stand in two places: Django's router and the service worker."""

import re

import pytest
from django.conf import settings

from shop.views.app import OURS

WORKER = settings.BASE_DIR / "frontend" / "src" / "worker" / "sw.ts"
PATHS = [
    "/",
    "/sign-in",
    "/sign-in/x",
    "/saltmarsh/counter",
    "/saltmarsh/counter/quote/7",
    "/saltmarsh/parts/list/7/report",
    "/saltmarsh/bay",
    "/saltmarsh/office/",
    "/saltmarsh",
    "/saltmarsh/countertop",
    "/saltmarsh/elsewhere",
    "/Saltmarsh/counter",
    "/q/7/token",
    "/q/parts/x",
    "/api/v1/session",
    "/static/app/x.js",
    "/sw.js",
]


def in_the_worker() -> re.Pattern[str]:
    match = re.search(r"const OURS\s*=\s*/(.+)/\s*(?://.*)?$", WORKER.read_text("utf-8"), re.MULTILINE)
    assert match
    return re.compile(match[1].replace(r"\/", "/"))


@pytest.mark.parametrize("path", PATHS)
def test_router_and_worker_agree(path: str) -> None:
    assert bool(re.match(OURS, path[1:])) == bool(in_the_worker().match(path))
