"""Log lines say when, who, from where and what; they hold no secret and no e-mail."""

import logging
import re

import pytest

from shop.logs import Lines, print_of
from tests.cast import Cast
from tests.client import CheckedClient
from tests.forms import FormClient
from tests.quotes.stage import Stage

FORMAT = "%(asctime)s %(levelname)s %(name)s %(message)s"


def lines(caplog: pytest.LogCaptureFixture) -> list[str]:
    return [Lines(FORMAT).format(record) for record in caplog.records]


def test_a_refusal_says_when_who_from_where_and_what(cast: Cast, caplog: pytest.LogCaptureFixture) -> None:
    client = cast.signed_in("technician")
    assert client.get("customers?q=Ada", REMOTE_ADDR="203.0.113.7").status_code == 403
    (line,) = (line for line in lines(caplog) if "kitwright.requests" in line)
    person = cast.technician.user.pk
    words = f"WARNING kitwright.requests 403 GET /api/v1/shops/saltmarsh/customers person={person} address=203.0.113.7 "
    assert re.fullmatch(rf"[0-9]{{4}}-[0-9]{{2}}-[0-9]{{2}} [0-9:]{{8}}\.[0-9]{{3}}Z {re.escape(words)}[0-9]+ ms", line)
    assert "Ada" not in caplog.text


def test_a_refused_form_has_a_line(db: None, caplog: pytest.LogCaptureFixture) -> None:
    FormClient(enforce_csrf_checks=True).post("/sign-in", {"a": "b"})
    assert any("kitwright.requests 403 POST /sign-in person=- address=127.0.0.1" in line for line in lines(caplog))


def test_a_request_to_another_hosts_name_is_one_line(db: None, caplog: pytest.LogCaptureFixture) -> None:
    assert FormClient().get("/", HTTP_HOST="evil.example").status_code == 400
    (line,) = (line for line in lines(caplog) if "evil.example" in line)
    assert "ALLOWED_HOSTS" in line and "\n" not in line


def test_a_wrong_sign_in_is_logged_without_the_e_mail(
    cast: Cast, client: CheckedClient, caplog: pytest.LogCaptureFixture
) -> None:
    for email in ("Manager@saltmarsh.example", "manager@saltmarsh.example", "nobody@saltmarsh.example"):
        client.post("/api/v1/session", {"email": email, "password": "guess"}, REMOTE_ADDR="203.0.113.7")
    failed = [line for line in lines(caplog) if "sign-in failed" in line]
    whom = [print_of(f"{name}@saltmarsh.example") for name in ("manager", "manager", "nobody")]
    assert [line.partition("sign-in failed ")[2] for line in failed] == [f"whom={w} address=203.0.113.7" for w in whom]
    assert whom[0] != whom[2] and "@" not in caplog.text and "guess" not in caplog.text


def test_the_links_secret_is_in_no_line(stage: Stage, caplog: pytest.LogCaptureFixture) -> None:
    caplog.set_level(logging.INFO)
    url = stage.sent()["link"]["url"]
    token = url.rsplit("/", 1)[1]
    client = FormClient(enforce_csrf_checks=True)
    assert client.post(url).status_code == 403
    client.get(url)
    client.post(f"{url}/answer")
    client.post(url, "x" * 5000)
    logging.getLogger("waitress").error("Exception while serving %s", url)
    assert token not in "".join(lines(caplog))
    assert token not in "".join(r.getMessage() for r in caplog.records if r.name != "waitress")
    assert [line for line in lines(caplog) if "(secret)" in line]


def test_a_line_stays_one_line(db: None, caplog: pytest.LogCaptureFixture) -> None:
    caplog.set_level(logging.INFO)
    FormClient(enforce_csrf_checks=True).post("/sign-in%0aWARNING%20forged%1b[2J")
    (line,) = (line for line in lines(caplog) if "kitwright.requests" in line)
    assert "\n" not in line and "\x1b" not in line
