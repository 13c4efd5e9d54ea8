"""Bodies, cursors and cookies that no client of ours sends: refused by their place, and never with a 500."""

import json
import uuid
from base64 import b64encode
from typing import Any
from urllib.parse import urlsplit

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile

from kitting.models import CountEvent
from quotes.models import Decision
from shop.models import Customer, LabourTemplate
from tests.api.endpoints import VIEWS, endpoints
from tests.api.test_nonsense import send
from tests.api.test_permissions import address
from tests.cast import PASSWORD, Cast
from tests.client import CheckedClient
from tests.factories import (
    ConsumableFactory,
    CustomerFactory,
    KitFactory,
    OperationFactory,
    PartFactory,
    PullLineFactory,
    SupplierFactory,
    VehicleFactory,
)
from tests.forms import FormClient
from tests.kitting.stage import Phone
from tests.quotes.stage import Stage

WRITES = [(path, method) for path, method in endpoints() if method in ("post", "put", "patch")]
SEARCHES = sorted(path for path, view in VIEWS.items() if "q" in view.query_parameters)
LONG_SEARCHES = {
    "words": "+".join(f"ab{n}" for n in range(1500)),
    "signs": "_" * 30_000,  # each is written with an escape in a pattern
    "ligatures": "%EF%B7%BA" * 3500,  # one sign of three bytes, whose key has eighteen letters
}
SEARCHED = (CustomerFactory, VehicleFactory, KitFactory, SupplierFactory, OperationFactory, ConsumableFactory)
DEEP = b"[" * 2000
DEEP_AND_WHOLE = b"[" * 200 + b"]" * 200


def pointers(answer: Any) -> list[str]:
    return [error["pointer"] for error in answer.json()["errors"]]


@pytest.mark.once
@pytest.mark.parametrize(("path", "method"), WRITES)
def test_deep_json_is_refused_everywhere(cast: Cast, path: str, method: str) -> None:
    client, where = cast.signed_in("manager"), address(path, cast.shop.slug)
    for body in (DEEP, DEEP_AND_WHOLE):
        assert 400 <= send(client, method, where, body).status_code < 500


def test_deep_json_is_refused_signed_out(client: CheckedClient, db: None) -> None:
    assert client.generic("POST", "/api/v1/session", DEEP, content_type="application/json").status_code == 400


@pytest.mark.parametrize(
    ("body", "pointer"),
    [
        (rb'{"title": "\ud800"}', "/title"),
        (rb'{"title": "x", "attributes": {"a": "\u0000"}}', "/attributes/a"),
        (rb'{"title": "x", "attributes": {"\udfff": "a"}}', "/attributes"),
        (rb'{"title": "x", "attributes": {"a/b": "\ud800"}}', "/attributes/a~1b"),
        (b'{"title": 123456789012345678901234567890}', "/title"),
        (b'{"title": ' + DEEP_AND_WHOLE + b"}", "/title" + "/0" * 31),
    ],
)
def test_what_cannot_be_kept_is_refused_at_its_place(cast: Cast, body: bytes, pointer: str) -> None:
    answer = send(cast.signed_in("advisor"), "post", "vehicles", body)
    assert (answer.status_code, pointers(answer)) == (400, [pointer])


@pytest.mark.parametrize("body", [{"name": 7}, {"name": "x", "phone": 0}, {"name": "x", "phone": True}])
def test_a_number_is_no_text(cast: Cast, body: dict[str, Any]) -> None:
    answer = cast.signed_in("advisor").post("customers", body)
    assert (answer.status_code, pointers(answer)) == (400, [f"/{list(body)[-1]}"])
    assert not Customer.objects.exists()


def test_a_number_beyond_all_bounds_is_no_text(cast: Cast) -> None:
    assert send(cast.signed_in("advisor"), "post", "customers", b'{"name": 1e400}').status_code == 400


def cursor(position: str) -> str:
    return b64encode(f"p={position}".encode()).decode()


@pytest.mark.parametrize("path", ["customers", "vehicles", "kits", "jobs", "quotes", "pull-lists", "imports"])
def test_a_bad_cursor_is_a_question_badly_put(cast: Cast, path: str) -> None:
    client = cast.signed_in("manager")
    positions = ["", "x", "%00", "a%00b", "9" * 30, "2026-01-01", "-1e9", "%ED%A0%80"]
    for cursor_text in [*map(cursor, positions), "cD0=", "%00", "====", "bz05OTk5OTk5OTk="]:
        answer = client.get(f"{path}?cursor={cursor_text}")
        assert answer.status_code == 400 and pointers(answer) == ["/cursor"] or answer.status_code == 200, cursor_text
    for number in ("9" * 5000, "x", "0", "²"):
        assert client.get(f"{path}?limit={number}").status_code == 400


@pytest.mark.parametrize("path", SEARCHES)
@pytest.mark.parametrize("text", LONG_SEARCHES.values(), ids=LONG_SEARCHES)
def test_a_long_search_is_a_search(cast: Cast, path: str, text: str) -> None:
    for factory in SEARCHED:
        factory(shop=cast.shop)
    LabourTemplate.objects.create(shop=cast.shop, code="T-1", number=1)
    PartFactory(shop=cast.shop, superseded_by=PartFactory(shop=cast.shop))
    assert cast.signed_in("manager").get(f"{address(path, cast.shop.slug)}?q={text}").status_code == 200


def test_a_long_version_is_another_version(cast: Cast) -> None:
    client = cast.signed_in("advisor")
    customer = client.post("customers", {"name": "Ada"}).json()
    assert client.patch(f"customers/{customer['id']}", {"name": "Bea"}, seen='"' + "9" * 5000 + '"').status_code == 412


def test_an_unknown_kind_of_file_is_refused(cast: Cast) -> None:
    for kind in ("%00", "nonsense"):
        answer = cast.signed_in("manager").get(f"imports?kind={kind}")
        assert (answer.status_code, pointers(answer)) == (400, ["/kind"])


@pytest.mark.parametrize("mapping", ["[" * 2000, '{"number": "\\ud800"}', '{"\\u0000": "a"}', '{"number": [[]]}'])
def test_an_odd_mapping_is_refused(cast: Cast, mapping: str) -> None:
    fields = {"kind": "customers", "mapping": mapping, "file": SimpleUploadedFile("a.csv", b"name\nAda\n")}
    answer = cast.signed_in("manager").post("imports", fields, format="multipart")
    assert (answer.status_code, pointers(answer)[0][:8]) == (400, "/mapping")


@pytest.mark.parametrize("bad", ["\\ud83d", "\\u0000"])
def test_good_counts_are_kept_beside_one_that_cannot_be(cast: Cast, bad: str) -> None:
    line = PullLineFactory(shop=cast.shop)
    phone, client = Phone(line.pull_list), cast.signed_in("technician")
    good, broken, other = (phone.event(line, total=n) for n in (1, 2, 3))
    middle = json.dumps(broken | {"id": "ID"}).replace("ID", bad)
    body = f'{{"events": [{json.dumps(good)}, {middle}, {json.dumps(other)}]}}'
    where = client.url(f"pull-lists/{line.pull_list.pk}/events")
    answer = client.generic("POST", where, body.encode(), content_type="application/json")
    assert [result["status"] for result in answer.json()["results"]] == ["stored", "rejected", "stored"]
    assert [result["id"] for result in answer.json()["results"]] == [good["id"], None, other["id"]]
    assert CountEvent.objects.count() == 2


@pytest.mark.parametrize("field", ["name", "digest", "ready", "consent", "other"])
def test_nul_in_the_customers_form_is_refused(stage: Stage, field: str) -> None:
    client, url = FormClient(), stage.sent()["link"]["url"]
    page = client.get(urlsplit(url).path)["Location"]
    assert client.post(f"{page}answer", {"answer": "accept", "revision": "1", field: "a\0b"}).status_code == 400
    assert not Decision.objects.exists()


@pytest.mark.parametrize("name", ["sessionid", "csrftoken", "quote"])
def test_a_cookie_with_nul_in_it_is_none(cast: Cast, client: CheckedClient, name: str) -> None:
    client.defaults["HTTP_COOKIE"] = rf'{name}="a\000b{"c" * 40}"'  # as a browser may send it; newer Pythons make none
    assert client.get("/api/v1/session").json()["signed_in"] is False
    fields = {"email": "advisor@saltmarsh.example", "password": PASSWORD}
    assert client.post("/api/v1/session", fields).status_code == 200
    assert client.get(f"/q/{uuid.uuid4()}/").status_code == 410
