"""A test client that validates every JSON answer of the whole suite against the committed OpenAPI document."""

import re
import uuid
from functools import cache
from typing import Any

import orjson
from django.conf import settings
from django.http import HttpResponse
from jsonschema import Draft202012Validator, FormatChecker
from rest_framework.test import APIClient

from tests.compiled import Check, Compiler, Schema

INSTANT = re.compile(rb'"(\d{4}-\d\d-\d\d[T ][^"]*(?:Z|[+-]\d\d:?\d\d))"')
RFC_3339 = re.compile(rb"[\d-]{10}T\d\d:\d\d:\d\d(\.\d+)?Z")
FORMATS: dict[str, Check] = {
    name: lambda value, spelled=re.compile(pattern): not isinstance(value, str) or bool(spelled.fullmatch(value))
    for name, pattern in {
        "date-time": RFC_3339.pattern.decode(),
        "uuid": r"[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}",
        "date": r"\d{4}-\d\d-\d\d",
        "decimal": r"-?\d+(\.\d+)?",
    }.items()
}
DOCUMENT = settings.BASE_DIR / "frontend" / "openapi.json"


class CheckedClient(APIClient):
    """`shop` puts the shop's address before a path without a leading slash; POST gets a key unless one is given."""

    def __init__(self, shop: str = "saltmarsh", **kw: Any) -> None:
        super().__init__(**kw)
        self.shop = shop

    def url(self, path: str) -> str:
        return path if path.startswith("/") else f"/api/v1/shops/{self.shop}/{path}"

    def get(self, path: str, *args: Any, **kw: Any) -> Any:
        return super().get(self.url(path), *args, **kw)

    def post(self, path: str, data: Any = None, *, key: str | None = "new", **kw: Any) -> Any:
        headers = dict(kw.pop("headers", None) or {})
        if key is not None and path != "/api/v1/session":
            headers.setdefault("Idempotency-Key", str(uuid.uuid4()) if key == "new" else key)
        kw.setdefault("format", "json")
        return super().post(self.url(path), data if data is not None else {}, headers=headers, **kw)

    def patch(self, path: str, data: Any = None, *, seen: Any = None, **kw: Any) -> Any:
        return super().patch(self.url(path), data, format="json", headers=_seen(seen), **kw)

    def put(self, path: str, data: Any = None, *, seen: Any = None, **kw: Any) -> Any:
        return super().put(self.url(path), data, format="json", headers=_seen(seen), **kw)

    def delete(self, path: str, *, seen: Any = None, **kw: Any) -> Any:
        return super().delete(self.url(path), headers=_seen(seen), **kw)

    def request(self, **kw: Any) -> Any:
        response = super().request(**kw)
        if kw["PATH_INFO"].startswith("/api/"):
            check(kw["REQUEST_METHOD"].lower(), kw["PATH_INFO"], response)
        return response


def _seen(answer: Any) -> dict[str, str]:
    """The value of If-Match from an earlier answer, or from a text."""
    if answer is None:
        return {}
    return {"If-Match": answer if isinstance(answer, str) else answer["ETag"]}


@cache
def document() -> dict[str, Any]:
    return orjson.loads(DOCUMENT.read_bytes())


@cache
def _paths() -> list[tuple[re.Pattern[str], str]]:
    return [(re.compile(re.sub(r"\{\w+\}", "[^/]+", path) + "$"), path) for path in document()["paths"]]


@cache
def _compiler() -> Compiler:
    return Compiler(document()["components"]["schemas"], FORMATS)


def validator(schema: Schema) -> Draft202012Validator:
    """The validator that reports why an answer does not match the document."""
    spelling = FormatChecker(formats=())
    for name, spelled in FORMATS.items():
        spelling.checks(name)(spelled)
    return Draft202012Validator({**schema, "components": document()["components"]}, format_checker=spelling)


@cache
def _promised(path: str, method: str, status: str, content: str) -> tuple[Schema, Check] | None:
    responses = document()["paths"][path][method]["responses"]
    answer = responses.get(status) or (responses["default"] if int(status) >= 400 else None)
    assert answer is not None, f"{method.upper()} {path} answered {status}, which the document does not name"
    if "content" not in answer:
        return None
    assert content in answer["content"], f"{method.upper()} {path} answered {content}"
    schema = answer["content"][content]["schema"]
    return schema, _compiler().check(schema)


def check(method: str, path: str, response: HttpResponse) -> None:
    """Fail the test when the answer is not what the document promises."""
    if response.status_code == 304:
        return
    content = response.get("Content-Type", "").split(";")[0]
    template = next((named for pattern, named in _paths() if pattern.match(path)), None)
    if response.status_code >= 400:
        assert content == "application/problem+json", f"{method} {path}: {response.status_code} as {content}"
    if template is None or method not in document()["paths"][template]:
        assert response.status_code in (404, 405), f"{method} {path} is not in the document"
        return
    promised = _promised(template, method, str(response.status_code), content)
    if "json" in content:
        spelled_otherwise = [text for text in INSTANT.findall(response.content) if not RFC_3339.fullmatch(text)]
        assert not spelled_otherwise, f"{method.upper()} {path}: {spelled_otherwise} for an instant"
    if promised is not None and "json" in content:
        schema, allows = promised
        answer = orjson.loads(response.content)
        if not allows(answer):
            validator(schema).validate(answer)
            raise AssertionError(
                f"{method.upper()} {path}: jsonschema allows what the compiled schema refuses: {answer}"
            )
