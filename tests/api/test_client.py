"""The Python client that is generated from the OpenAPI document reads quotes with a token, typed."""

import importlib
import subprocess
import sys
from collections.abc import Iterator
from datetime import timedelta
from pathlib import Path
from types import ModuleType
from typing import Any

import httpx
import pytest
from django.conf import settings
from django.utils import timezone

from shop.queries.calendar import shop_day
from shop.services.api_tokens import make_token
from tests.cast import Cast
from tests.client import CheckedClient
from tests.quotes.stage import make_stage

pytestmark = pytest.mark.once

PACKAGE = "kitwright_client"


@pytest.fixture(scope="module")
def package(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    folder = tmp_path_factory.mktemp("client") / "client"
    command = [str(settings.BASE_DIR / ".make" / "client.sh"), str(folder)]
    run = subprocess.run(command, capture_output=True, text=True, timeout=300)
    assert run.returncode == 0, run.stdout + run.stderr
    sys.path.insert(0, str(folder))
    yield folder
    sys.path.remove(str(folder))
    for name in [name for name in sys.modules if name.split(".")[0] == PACKAGE]:
        del sys.modules[name]


def part(name: str) -> ModuleType:
    return importlib.import_module(f"{PACKAGE}.{name}")


class InThisProcess(httpx.BaseTransport):
    """Asks the application without a server, so that it sees the rows of the test."""

    def handle_request(self, request: httpx.Request) -> httpx.Response:
        path, headers = request.url.raw_path.decode(), dict(request.headers)
        del headers["accept-encoding"]  # the check of each answer reads it as it is
        answer = CheckedClient().generic(request.method, path, request.content, headers=headers)
        return httpx.Response(answer.status_code, headers=dict(answer.headers), content=answer.content)


def client_of(secret: str) -> Any:
    connect = {"transport": InThisProcess()}
    return part("client").AuthenticatedClient(base_url="http://testserver", token=secret, httpx_args=connect)


def test_a_program_lists_quotes_and_reads_one_and_can_read_files(cast: Cast, package: Path) -> None:
    stage = make_stage(cast)
    draft = stage.quote().json()
    now = timezone.now()
    _, secret = make_token(
        actor=cast.acting("manager"),
        member=cast.advisor,
        title="Report",
        areas=["quotes"],
        may_write=False,
        expires_on=shop_day(cast.shop, now) + timedelta(days=1),
        now=now,
    )
    client = client_of(secret)
    listed = part("api.quotes.get_quotes").sync(cast.shop.slug, client=client)
    assert isinstance(listed, part("models").QuoteRowListOut)
    assert [row.number for row in listed.items] == [draft["number"]]
    quote = part("api.quotes.get_quote").sync(cast.shop.slug, listed.items[0].id, client=client)
    assert isinstance(quote, part("models").QuoteOut)
    assert (str(quote.id), quote.number, quote.version) == (draft["id"], draft["number"], draft["version"])
    refused = part("api.shop.get_people").sync(cast.shop.slug, client=client)
    assert isinstance(refused, part("models").Problem) and refused.status == 403
    assert "File(" in (package / PACKAGE / "api" / "quotes" / "get_paper.py").read_text("utf-8")
