"""Headers of an answer tell browsers and proxies: keep nothing of the API, this host over HTTPS only, no guessing."""

import gzip
import runpy
from email.message import Message
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

import pytest
from django.conf import LazySettings, settings
from django.test import Client

from tests.cast import PASSWORD, Cast
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


@pytest.mark.parametrize("secure", [True, False])
def test_no_script_and_no_other_site_has_the_cookies_that_let_somebody_in(
    stage: Stage, settings: LazySettings, secure: bool
) -> None:
    settings.SECURE_COOKIES = settings.SESSION_COOKIE_SECURE = settings.CSRF_COOKIE_SECURE = secure
    client = Client()
    body = {"email": "advisor@saltmarsh.example", "password": PASSWORD}
    client.post("/api/v1/session", body, content_type="application/json")
    client.get(stage.sent()["link"]["url"])
    cookies = {name: client.cookies[name] for name in ("sessionid", "csrftoken", "quote")}
    assert {name: cookie["samesite"] for name, cookie in cookies.items()} == dict.fromkeys(cookies, "Lax")
    assert {name: bool(cookie["secure"]) for name, cookie in cookies.items()} == dict.fromkeys(cookies, secure)
    assert [name for name, cookie in cookies.items() if cookie["httponly"]] == ["sessionid", "quote"]


@pytest.fixture
def static_file(db: None, settings: LazySettings, tmp_path: Path) -> str:
    name = "app/assets/main-0a1b2c3.js"
    (tmp_path / name).parent.mkdir(parents=True)
    (tmp_path / name).write_text("1")
    settings.STATIC_ROOT = tmp_path
    return f"/static/{name}"


def test_a_static_file_is_kept_for_good_if_its_name_is_of_its_content(static_file: str) -> None:
    answer = Client().get(static_file)
    assert answer.status_code == 200 and "immutable" in answer["Cache-Control"]
    answer.close()


@pytest.mark.paper
def test_every_kind_of_answer_has_the_headers(stage: Stage, static_file: str) -> None:
    sent, shop = stage.sent(), "/api/v1/shops/saltmarsh"
    link = urlsplit(sent["link"]["url"]).path
    answers = {
        **dict.fromkeys(("/", "/sw.js", "/app.webmanifest", "/api/v1/session", link), 200),
        **dict.fromkeys((f"{shop}/customers", f"{shop}/quotes/{sent['quote']['id']}/paper"), 200),
        **{f"{shop}/lists?kind=customers&format={ending}": 200 for ending in ("csv", "xlsx")},
        **dict.fromkeys(("/nothing/at/all/here", f"{shop}/nothing", f"{shop}/customers/x", "/static/none.js"), 404),
        **{"/q/x": 410, f"{shop}/customers?limit=x": 400, static_file: 200},
    }
    client = signed_in(stage.cast)
    for where, status in answers.items():
        answer = client.get(where, follow=where == link, headers={"Origin": "https://elsewhere.example"})
        assert answer.status_code == status, where
        assert answer["X-Content-Type-Options"] == "nosniff", where
        policy = answer["Content-Security-Policy"].split("; ")
        assert {"default-src 'none'", "base-uri 'none'", "frame-ancestors 'none'"} < {*policy}, where
        assert answer["Referrer-Policy"] in ("same-origin", "no-referrer"), where
        assert not [name for name in answer.headers if name.lower().startswith("access-control")], where
    answer.close()  # the last is a file


def test_a_download_is_named_by_no_more_than_its_name(cast: Cast) -> None:
    client, code = cast.signed_in("advisor"), 'A"; filename="x.exe'
    kit = client.post("kits", {"code": code, "title": "Kit", "price": "1", "hours": "1"}).json()
    message = Message()
    message["Content-Disposition"] = client.get(f"kits/{kit['id']}/contents?format=csv")["Content-Disposition"]
    assert (message.get_content_disposition(), message.get_filename()) == ("attachment", f"{code}-1.csv")


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
