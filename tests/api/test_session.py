import pytest

from tests.cast import PASSWORD, Cast
from tests.client import CheckedClient

SESSION = "/api/v1/session"


def test_it_says_who_is_signed_in_and_where(cast: Cast, client: CheckedClient) -> None:
    nobody = {"signed_in": False, "user": None, "shops": [], "pins": [], "to_open": False, "mail_is_sent": False}
    assert client.get(SESSION).json() == nobody
    answer = client.post(SESSION, {"email": "Advisor@saltmarsh.example", "password": PASSWORD})
    assert answer.status_code == 200
    shops = client.get(SESSION).json()["shops"]
    assert [(shop["slug"], shop["role"]) for shop in shops] == [("saltmarsh", "advisor")]


def test_it_refuses_a_wrong_password_and_says_what_to_do(cast: Cast, client: CheckedClient) -> None:
    answer = client.post(SESSION, {"email": "advisor@saltmarsh.example", "password": "guess"})
    assert answer.status_code == 401
    assert answer.json()["type"] == "/problems/wrong-sign-in"


def test_nothing_about_a_person_is_kept_on_the_way(cast: Cast) -> None:
    client = cast.signed_in("advisor")
    assert client.get(SESSION)["Cache-Control"] == "no-store"
    policy = client.get("customers")["Content-Security-Policy"]
    assert "script-src 'self';" in policy and "unsafe" not in policy and "*" not in policy


def test_signing_out_ends_it(cast: Cast) -> None:
    client = cast.signed_in("advisor")
    assert client.get("customers").status_code == 200
    assert client.delete(SESSION).status_code == 204
    assert client.get("customers").status_code == 401


def test_signing_in_takes_no_session_that_was_there_before(cast: Cast, client: CheckedClient) -> None:
    client.post(SESSION, {"email": "parts@saltmarsh.example", "password": PASSWORD})
    earlier = client.cookies["sessionid"].value
    for planted in (earlier, "planted0123456789planted01234567"):
        client.cookies["sessionid"] = planted
        assert client.post(SESSION, {"email": "advisor@saltmarsh.example", "password": PASSWORD}).status_code == 200
        assert client.cookies["sessionid"].value != planted
        other = CheckedClient()
        other.cookies["sessionid"] = planted
        assert other.get(SESSION).json()["signed_in"] is False


def test_signing_in_needs_the_csrf_token(cast: Cast) -> None:
    client = CheckedClient(enforce_csrf_checks=True)
    fields = {"email": "advisor@saltmarsh.example", "password": PASSWORD}
    assert client.post(SESSION, fields).status_code == 403
    client.get(SESSION)
    token = client.cookies["csrftoken"].value
    assert client.post(SESSION, fields, headers={"X-CSRFToken": token}).status_code == 200


@pytest.mark.parametrize("body", [{}, {"email": "advisor@saltmarsh.example"}, {"email": "no", "password": "x"}])
def test_it_names_the_field(cast: Cast, client: CheckedClient, body: dict[str, str]) -> None:
    answer = client.post(SESSION, body)
    assert answer.status_code == 400
    assert {error["pointer"] for error in answer.json()["errors"]} <= {"/email", "/password"}
