"""Any nonsense in a request is answered with a problem that says what to do; nothing crashes, and nothing is saved."""

import re
import uuid
from collections.abc import Iterator
from typing import Any

import pytest

from shop.models import Command, Customer, History
from tests.api.endpoints import VIEWS, endpoints
from tests.api.test_permissions import address
from tests.cast import Cast
from tests.client import CheckedClient, document
from tests.factories import SupplierFactory

WRITES = [(path, method) for path, method in endpoints() if method in ("post", "put", "patch")]
BODIES: list[Any] = [
    [],
    ["x"],
    "x",
    7,
    None,
    {"": ""},
    {"kits": "x"},
    {"events": {}},
    {"name": {"a": []}},
    {"kind": []},
]


def send(client: CheckedClient, method: str, where: str, body: bytes, content: str = "application/json") -> Any:
    headers = {"If-Match": '"1"', "Idempotency-Key": str(uuid.uuid4())}
    return client.generic(method.upper(), client.url(where), body, content_type=content, headers=headers)


@pytest.mark.once
@pytest.mark.parametrize(("path", "method"), WRITES)
def test_a_body_of_another_shape_is_refused(cast: Cast, path: str, method: str) -> None:
    import orjson

    client, where = cast.signed_in("manager"), address(path, cast.shop.slug)
    for body in BODIES:
        answer = send(client, method, where, orjson.dumps(body))
        assert 400 <= answer.status_code < 500, f"{body!r}: {answer.status_code}"
        assert answer.json()["detail"]
    assert not Command.objects.exists() and not History.objects.exists()


@pytest.mark.once
@pytest.mark.parametrize(("path", "method"), WRITES)
def test_what_is_no_json_is_refused(cast: Cast, path: str, method: str) -> None:
    client, where = cast.signed_in("manager"), address(path, cast.shop.slug)
    assert send(client, method, where, b"{").status_code in (400, 404, 415)
    assert send(client, method, where, b"\xff\xfe", "application/json").status_code in (400, 404, 415)
    assert send(client, method, where, b"x", "text/plain").status_code in (404, 415)


def test_what_json_can_say_but_we_cannot_keep_is_refused(cast: Cast) -> None:
    client = cast.signed_in("manager")
    for body in (b'{"name": "\\ud800"}', b'{"name": 123456789012345678901234567890}'):
        assert send(client, "post", "customers", body).status_code == 400
    assert send(client, "post", "customers", b'{"name": "' + b"x" * 7_000_000 + b'"}').status_code == 413


@pytest.mark.once
@pytest.mark.parametrize("path", sorted(VIEWS))
def test_a_method_it_does_not_know_is_a_problem(cast: Cast, path: str) -> None:
    client, where = cast.signed_in("manager"), address(path, cast.shop.slug)
    methods = {method for other, method in endpoints() if other == path}
    missing = next(method for method in ("delete", "put", "patch", "post") if method not in methods)
    answer = send(client, missing, where, b"{}")
    assert answer.status_code in (403, 405) and answer.json()["type"] == "/problems/method-not-allowed"


def test_an_address_that_is_not_there_is_a_problem(cast: Cast) -> None:
    answer = cast.signed_in("manager").get("/api/v1/shops/saltmarsh/nothing")
    assert (answer.status_code, answer["Content-Type"]) == (404, "application/problem+json")
    assert cast.signed_in("manager").get("/api/v1/shops/nowhere/customers").status_code == 404


@pytest.mark.parametrize("query", ["q=%00", "q=" + "a" * 3000])
def test_an_odd_search_finds_nothing(cast: Cast, query: str) -> None:
    assert cast.signed_in("manager").get(f"customers?{query}").json() == {"items": []}


@pytest.mark.parametrize(
    ("typed", "names"),
    [
        ("%", ["100% Vane"]),
        ("_", ["Ferrous_Vane"]),
        ("'", ["Oda's Supply"]),
        ("' OR '1'='1", []),
        ("x%' OR 1=1 --", []),
        ("\\", []),
    ],
)
def test_what_is_searched_for_is_text_and_never_sql(cast: Cast, typed: str, names: list[str]) -> None:
    for name in ("100% Vane", "Ferrous_Vane", "Oda's Supply"):
        SupplierFactory(shop=cast.shop, name=name)
    answer = cast.signed_in("manager").get("suppliers", {"q": typed})
    assert [row["name"] for row in answer.json()["items"]] == names


@pytest.mark.parametrize("query", ["cursor=zzz", "limit=x", "limit=-1", "limit=0"])
def test_a_page_that_cannot_be_is_a_question_badly_put(cast: Cast, query: str) -> None:
    answer = cast.signed_in("manager").get(f"customers?{query}")
    assert answer.status_code == 400
    assert [error["pointer"] for error in answer.json()["errors"]] == [f"/{query.split('=')[0]}"]


def test_an_empty_value_is_no_id_no_state_and_no_number(cast: Cast) -> None:
    client = cast.signed_in("manager")
    names = ["vehicles?customer", "kits?vehicle", "pull-lists?job", "pull-lists?state", "quotes?state", "jobs?state"]
    names += ["quotes?customer", "quotes?vehicle", "quotes?kit", "quotes?part"]
    for query in (*names, "imports?kind", "customers?limit"):
        answer = client.get(f"{query}=")
        assert answer.status_code == 400, query
        assert [error["pointer"] for error in answer.json()["errors"]] == [f"/{query.split('?')[1]}"]


def test_the_document_says_which_parameters_a_request_needs() -> None:
    parameters = document()["paths"]["/api/v1/shops/{slug}/quotes/{id}/how"]["get"]["parameters"]
    assert {
        parameter["name"] for parameter in parameters if parameter["in"] == "query" and parameter.get("required")
    } == {"key"}


def test_the_document_asks_a_figure_for_a_digit_and_no_sign() -> None:
    texts = [schema for schema in _schemas(document()) if schema.get("format") == "decimal" and "pattern" in schema]
    assert len(texts) >= 9
    for text in texts:
        fits = [
            example for example in ("", ".", "-1", "0", "12.5", ".5", "3.", "1x") if re.search(text["pattern"], example)
        ]
        assert fits == ["0", "12.5", ".5", "3."]


def test_the_document_asks_for_the_time_of_a_day_as_it_is_read() -> None:
    schema = document()["components"]["schemas"]["DueInRequest"]["properties"]["time"]
    fits = [example for example in ("10:30", "9:05", "24:00", "10:30:00Z", "") if re.search(schema["pattern"], example)]
    assert fits == ["10:30", "9:05"] and "format" not in schema and "null" in schema["type"]


def _schemas(value: Any) -> Iterator[dict[str, Any]]:
    if isinstance(value, dict):
        yield value
    for part in value.values() if isinstance(value, dict) else value if isinstance(value, list) else ():
        yield from _schemas(part)


@pytest.mark.parametrize("field", ["shop", "id", "version", "archived"])
def test_a_field_that_nobody_may_set_is_refused(cast: Cast, field: str) -> None:
    body = {"name": "Rowan Ashdell", field: "1"}
    answer = cast.signed_in("advisor").post("customers", body)
    assert answer.status_code == 400
    assert [error["pointer"] for error in answer.json()["errors"]] == [f"/{field}"]
    assert not Customer.objects.exists()
