"""Each address has its own limit, and refuses by the headers: a form is never read for a stranger."""

from dataclasses import replace

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client

from shop.api.limits import Allowance, Head, allowance, refusal
from tests.cast import Cast
from tests.client import CheckedClient

ID = "0192d1f0-0000-7000-8000-000000000000"


@pytest.mark.parametrize(
    ("method", "path", "most", "files"),
    [
        ("POST", "/api/v1/shops/x/imports", 5 * 1024 * 1024 + 64 * 1024, True),
        ("GET", "/api/v1/shops/x/imports", 1024, False),
        ("POST", "/api/v1/shops/x/customers", 256 * 1024, False),
        ("DELETE", "/api/v1/shops/x/customers", 1024, False),
        ("POST", "/api/v1/session", 4 * 1024, False),
        ("POST", f"/q/{ID}/answer", 16 * 1024, False),
        ("POST", f"/q/{ID}/", 1024, False),
        ("POST", "/sign-in", 1024, False),
        ("POST", "/nothing/here", 1024, False),
    ],
)
def test_each_address_has_its_limit(method: str, path: str, most: int, files: bool) -> None:
    assert allowance(method, path) == Allowance(most, files)


@pytest.mark.parametrize("path", ["/q/x/answer", f"/q/{ID}/answer", "/sign-in", "/api/v1/session"])
def test_a_file_is_refused_where_none_is_read(db: None, path: str) -> None:
    answer = Client().post(path, {"file": SimpleUploadedFile("a", b"a")})
    assert answer.status_code == 415


def test_a_body_past_the_limit_is_refused(cast: Cast) -> None:
    client = cast.signed_in("manager")
    answer = client.post("customers", {"name": "x" * 300_000})
    assert (answer.status_code, answer.json()["type"]) == (413, "/problems/too-large")


def test_a_form_of_very_many_parts_is_too_large(cast: Cast) -> None:
    client = cast.signed_in("manager")
    files = [SimpleUploadedFile(f"{n}.csv", b"name") for n in range(101)]
    for form in ({"kind": "customers", "file": files}, {f"field{n}": "x" for n in range(1001)}):
        answer = client.post("imports", form, format="multipart")
        assert (answer.status_code, answer.json()["type"]) == (413, "/problems/too-large")


def test_a_stranger_sends_no_file(client: CheckedClient, db: None) -> None:
    answer = client.post("imports", {"file": SimpleUploadedFile("a.csv", b"a")}, format="multipart")
    assert (answer.status_code, answer.json()["type"]) == (401, "/problems/sign-in-first")


def test_a_stranger_s_file_is_refused_by_its_headers_alone() -> None:
    head = Head("POST", "/api/v1/shops/x/imports", "multipart/form-data; boundary=x", 100, has_session=False)
    problem = refusal(head)
    assert problem is not None and problem.status == 401
    assert refusal(replace(head, has_session=True)) is None
