"""A mail scanner or a preview that opens a link, and every address on its pages, changes nothing."""

import re
from collections.abc import Iterator
from typing import Any

import pytest
from django.apps import apps

from quotes.models import LinkOpening
from shop.rows import ShopRow
from tests.client import CheckedClient
from tests.forms import FormClient
from tests.quotes.phone import Phone
from tests.quotes.stage import Stage

pytestmark = pytest.mark.once

ADDRESS = re.compile(r'(?:href|src|action|formaction)="(/[^"#]*)')


def rows() -> dict[str, list[Any]]:
    """Every row of a shop, by table, but for the note that a version was first opened."""
    models = [model for model in apps.get_models() if issubclass(model, ShopRow) and model is not LinkOpening]
    return {model.__name__: list(model._default_manager.order_by("pk").values()) for model in models}


def crawl(client: FormClient | CheckedClient, url: str) -> Iterator[tuple[str, int]]:
    """(address, status) of the link and of everything that its pages lead to, by GET and by HEAD."""
    addresses, visited = [url.replace("http://testserver", "")], set()
    while addresses:
        address = addresses.pop().replace("&amp;", "&")
        if address in visited:
            continue
        visited.add(address)
        for answer in (client.head(address), client.get(address)):
            yield address, answer.status_code
        if answer.status_code in (301, 302, 303):
            addresses.append(answer["Location"].replace("http://testserver", ""))
        elif "html" in answer["Content-Type"]:
            addresses.extend(ADDRESS.findall(answer.content.decode()))


@pytest.mark.parametrize("state", ["sent", "accepted", "withdrawn"])
def test_a_scanner_that_follows_every_address_changes_nothing(stage: Stage, state: str) -> None:
    sent = stage.sent()
    link, quote = sent["link"]["url"], sent["quote"]
    if state == "accepted":
        assert Phone(link).answer().status_code == 303
    elif state == "withdrawn":
        body = {"revision": quote["revision"], "digest": quote["digest"]}
        assert stage.client.post(f"quotes/{quote['id']}/withdraw", body).status_code == 200
    before = rows()
    reached = dict(crawl(FormClient(), link))
    assert rows() == before
    assert max(reached.values()) < 500
    assert any(address.endswith("/paper") for address in reached)


@pytest.mark.parametrize("method", ["get", "head", "put", "patch", "delete", "options"])
@pytest.mark.parametrize("address", ["answer", "question"])
def test_only_a_form_that_is_sent_answers_or_asks(stage: Stage, method: str, address: str) -> None:
    phone = Phone(stage.sent()["link"]["url"])
    before = rows()
    answer = getattr(phone.client, method)(f"{phone.page}{address}?answer=accept&name=Maren&consent=road")
    assert answer.status_code in (303, 403, 405) and rows() == before


def test_ids_of_links_one_by_one_lead_nowhere(stage: Stage) -> None:
    """An id is written with its time: a neighbour's can be guessed, its secret cannot."""
    pages = [Phone(stage.sent()["link"]["url"]).page for _ in range(2)]
    stranger = FormClient()
    answers = [stranger.get(page + rest) for page in pages for rest in ("", "receipt", "paper", "x" * 43)]
    assert {answer.status_code for answer in answers} == {410}
    assert len({answer.content for answer in answers}) == 1
