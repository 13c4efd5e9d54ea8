"""Headers of an answer tell browsers and proxies: keep nothing of the API, this host over HTTPS only, no guessing."""

import gzip
import runpy
from pathlib import Path
from typing import Any

import pytest
from django.conf import LazySettings, settings
from django.test import Client

from tests.cast import Cast
from tests.quotes.stage import Stage


def signed_in(cast: Cast, role: str = "advisor") -> Client:
    client = Client(headers={"Accept-Encoding": "gzip"})
    client.force_login(getattr(cast, role).user)
    return client


@pytest.mark.parametrize("path", ["customers", "jobs", "kits", "pull-lists", "imports", "quotes", "nothing"])
def test_nobody_keeps_an_answer_of_the_api(cast: Cast, path: str) -> None:
    assert cast.signed_in("manager").get(path)["Cache-Control"] == "no-store"


def test_https_is_kept_for_a_year(db: None) -> None:
    assert Client().get("/api/v1/session", secure=True)["Strict-Transport-Security"] == "max-age=31536000"
    assert "Strict-Transport-Security" not in Client().get("/api/v1/session")


@pytest.mark.parametrize(
    ("secure", "names"),
    [
        ("true", ["__Host-sessionid", "__Host-csrftoken", "__Secure-quote"]),
        ("false", ["sessionid", "csrftoken", "quote"]),
    ],
)
def test_cookies_are_bound_to_the_host_over_https(monkeypatch: pytest.MonkeyPatch, secure: str, names: list) -> None:
    monkeypatch.setenv("SECURE_COOKIES", secure)
    read = runpy.run_path(str(settings.BASE_DIR / "shop" / "settings.py"))
    assert [read[f"{kind}_COOKIE_NAME"] for kind in ("SESSION", "CSRF", "LINK")] == names
    assert {read[f"{kind}_COOKIE_SECURE"] for kind in ("SESSION", "CSRF")} == {secure == "true"}


@pytest.fixture
def static_file(db: None, settings: LazySettings, tmp_path: Path) -> str:
    name = "app/assets/main-0a1b2c3.js"
    (tmp_path / name).parent.mkdir(parents=True)
    (tmp_path / name).write_text("1")
    settings.STATIC_ROOT = tmp_path
    return f"/static/{name}"


def test_a_static_file_has_the_headers_of_every_answer(static_file: str) -> None:
    answer = Client().get(static_file)
    assert answer.status_code == 200
    assert answer["X-Content-Type-Options"] == "nosniff"
    assert "frame-ancestors 'none'" in answer["Content-Security-Policy"]
    assert "immutable" in answer["Cache-Control"]
    answer.close()


def test_a_long_answer_is_compressed(cast: Cast) -> None:
    client = signed_in(cast)
    for number in range(20):
        cast.signed_in("advisor").post("customers", {"name": f"Customer {number}"})
    answer = client.get("/api/v1/shops/saltmarsh/customers")
    assert answer["Content-Encoding"] == "gzip" and b"Customer 7" in gzip.decompress(answer.content)


def test_a_version_that_was_compressed_is_still_the_version(cast: Cast) -> None:
    customer = cast.signed_in("advisor").post("customers", {"name": "Ada " * 25, "phone": "0" * 40}).json()
    client, where = signed_in(cast), f"/api/v1/shops/saltmarsh/customers/{customer['id']}"
    answer = client.get(where)
    assert answer["Content-Encoding"] == "gzip"
    assert client.get(where, headers={"If-None-Match": answer["ETag"]}).status_code == 304
    fields: dict[str, Any] = {"data": {"name": "Bea"}, "content_type": "application/json"}
    assert client.patch(where, headers={"If-Match": answer["ETag"]}, **fields).status_code == 200


def test_the_answer_that_holds_a_links_secret_is_not_compressed(stage: Stage) -> None:
    draft = stage.quote().json()
    client, where = signed_in(stage.cast), f"/api/v1/shops/saltmarsh/quotes/{draft['id']}/send"
    fields = {"version": draft["version"], "recipient": "01632 960 417"}
    headers = {"Idempotency-Key": "0192d1f0-0000-4000-8000-000000000001"}
    answer = client.post(where, fields, content_type="application/json", headers=headers)
    assert (answer.status_code, len(answer.content) > 1000) == (201, True)
    assert "Content-Encoding" not in answer and "/q/" in answer.json()["link"]["url"]
