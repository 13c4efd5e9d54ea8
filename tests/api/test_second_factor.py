"""A second factor: codes of an authenticator app and recovery codes, asked for after the right password."""

import base64
from datetime import UTC, datetime, timedelta
from io import StringIO
from typing import Any

import pytest
from django.core.management import CommandError, call_command
from django.utils import timezone
from django_otp.oath import hotp

from shop.models import Authenticator, History, RecoveryCode, Shop, SignInTry
from shop.services.one_time_codes import STEP, matching_step, unsealed
from shop.services.people import set_member
from tests.api.test_members import SESSION, pointers, refused
from tests.cast import PASSWORD, Cast
from tests.client import CheckedClient

pytestmark = pytest.mark.once

FACTOR = "/api/v1/second-factor"


def code_of(user: Any, steps: int = 0) -> str:
    """The code of the person's app, so many steps from now."""
    row = Authenticator.objects.get(user=user)
    return f"{hotp(unsealed(row.sealed, row.pk), int(timezone.now().timestamp()) // STEP + steps):06d}"


def switched_on(cast: Cast, role: str = "technician") -> list[str]:
    """Switches it on; the recovery codes."""
    client, user = cast.signed_in(role), getattr(cast, role).user
    assert client.post(FACTOR, {"password": PASSWORD}).status_code == 200
    answer = client.post(f"{FACTOR}/confirmation", {"code": code_of(user, -1)})
    assert answer.status_code == 200, answer.content
    return list(answer.json()["codes"])


def sign_in(cast: Cast, role: str = "technician", password: str = PASSWORD, **body: str) -> Any:
    email = getattr(cast, role).user.email
    return CheckedClient().post(SESSION, {"email": email, "password": password} | body)


def result(answer: Any) -> Any:
    return refused(answer) if answer.status_code >= 400 else answer.status_code


def verbs(cast: Cast) -> list[str]:
    rows = History.objects.filter(subject_id=cast.technician.pk).order_by("recorded_at")
    return list(rows.values_list("verb", flat=True))


@pytest.mark.parametrize(
    ("second", "code"),
    [
        (59, "287082"),
        (1111111109, "081804"),
        (1111111111, "050471"),
        (1234567890, "005924"),
        (2000000000, "279037"),
        (20000000000, "353130"),
    ],
)
def test_the_codes_are_those_of_rfc_6238(second: int, code: str) -> None:
    """Appendix B, SHA-1: the last six of its eight digits."""
    secret, moment = b"12345678901234567890", datetime.fromtimestamp(second, UTC)
    assert matching_step(secret, code, moment) == second // STEP
    assert matching_step(secret, code, moment + timedelta(seconds=STEP)) == second // STEP, "a slow phone"
    assert matching_step(secret, code, moment - timedelta(seconds=STEP)) == second // STEP, "a fast one"
    assert matching_step(secret, code, moment + timedelta(seconds=2 * STEP)) is None
    assert matching_step(secret, code, moment, after=second // STEP) is None


def test_the_right_password_then_asks_for_a_code_that_works_once(cast: Cast) -> None:
    assert result(sign_in(cast)) == 200
    switched_on(cast)
    user = cast.technician.user
    assert result(sign_in(cast)) == "second-factor-needed"
    assert result(sign_in(cast, password="guess")) == "wrong-sign-in"
    assert result(sign_in(cast, password="guess", code=code_of(user))) == "wrong-sign-in"
    assert result(sign_in(cast, code=code_of(user, -1))) == "wrong-code", "it switched the factor on: it is used"
    code = code_of(user)
    assert result(sign_in(cast, code=f"{code[:3]} {code[3:]}")) == 200
    assert result(sign_in(cast, code=code)) == "wrong-code"
    assert verbs(cast) == ["second factor on"]


def test_recovery_codes_work_once_each_and_only_their_hash_is_kept(cast: Cast) -> None:
    codes = switched_on(cast)
    assert len(set(codes)) == 10
    assert not any(code.replace("-", "") in str(list(RecoveryCode.objects.values())) for code in codes)
    assert result(sign_in(cast, code=codes[3].lower().replace("-", " "))) == 200
    assert result(sign_in(cast, code=codes[3])) == "wrong-code"
    assert result(sign_in(cast, code=codes[4])) == 200
    assert cast.signed_in("technician").get(FACTOR).json()["recovery_codes"] == 8
    assert verbs(cast) == ["second factor on", "recovery code used", "recovery code used"]


def test_wrong_codes_run_out_from_wherever_they_come(cast: Cast, settings: Any) -> None:
    settings.SIGN_IN_TRIES = 2
    codes = switched_on(cast)
    body = {"email": cast.technician.user.email, "password": PASSWORD}
    answers = [
        CheckedClient().post(SESSION, body | {"code": "000000"}, REMOTE_ADDR=f"203.0.113.{n}").status_code
        for n in range(3)
    ]
    assert answers == [401, 401, 429]
    assert CheckedClient().post(SESSION, body | {"code": codes[0]}, REMOTE_ADDR="198.51.100.1").status_code == 429
    SignInTry.objects.update(tried_at=timezone.now() - timedelta(minutes=15))
    assert CheckedClient().post(SESSION, body | {"code": codes[0]}, REMOTE_ADDR="198.51.100.1").status_code == 200


def test_it_is_on_only_once_a_code_of_the_app_was_typed(cast: Cast) -> None:
    client, user = cast.signed_in("technician"), cast.technician.user
    assert pointers(client.post(FACTOR, {"password": "guess"})) == ["/password"]
    answer = client.post(FACTOR, {"password": PASSWORD})
    secret = answer.json()["secret"]
    assert answer["Cache-Control"] == "no-store" and f"secret={secret}" in answer.json()["url"]
    assert base64.b32decode(secret).hex() != Authenticator.objects.get().sealed, "it is sealed"
    assert pointers(client.post(f"{FACTOR}/confirmation", {"code": "000000"})) == ["/code"]
    assert client.get(FACTOR).json()["since"] is None and result(sign_in(cast)) == 200
    assert client.post(f"{FACTOR}/confirmation", {"code": code_of(user)}).status_code == 200
    assert client.get(FACTOR).json()["since"] and result(sign_in(cast)) == "second-factor-needed"
    assert refused(client.post(FACTOR, {"password": PASSWORD})) == "second-factor-on"
    assert refused(client.post(f"{FACTOR}/confirmation", {"code": code_of(user, 1)})) == "second-factor-on"


def test_a_person_switches_it_off_by_the_password(cast: Cast) -> None:
    codes, client = switched_on(cast), cast.signed_in("technician")
    assert pointers(client.post(f"{FACTOR}/off", {"password": "guess"})) == ["/password"]
    assert client.post(f"{FACTOR}/off", {"password": PASSWORD}).status_code == 204
    assert result(sign_in(cast)) == 200
    assert not RecoveryCode.objects.exists() and not Authenticator.objects.exists() and codes
    assert verbs(cast) == ["second factor on", "second factor off"]


def test_a_manager_switches_it_off_for_a_person_of_this_shop_alone(cast: Cast) -> None:
    switched_on(cast)
    manager = cast.signed_in("manager")
    on = {row["name"]: row["second_factor"] for row in manager.get("people").json()["members"]}
    assert on == {"Advisor": False, "Manager": False, "Parts": False, "Technician": True}
    assert manager.delete(f"people/{cast.technician.pk}/second-factor").status_code == 204
    assert result(sign_in(cast)) == 200
    entry = History.objects.get(subject_id=cast.technician.pk, verb="second factor off")
    assert entry.author == cast.manager
    switched_on(cast)
    set_member(shop=cast.elsewhere, email=cast.technician.user.email, name="T", role="parts", password=None)
    assert refused(manager.delete(f"people/{cast.technician.pk}/second-factor")) == "second-factor-of-several"
    assert result(sign_in(cast)) == "second-factor-needed"


def test_whoever_runs_the_server_switches_it_off(cast: Cast) -> None:
    switched_on(cast, "manager")
    email = cast.manager.user.email
    call_command("member", email, shop=cast.shop.slug, second_factor_off=True, stdout=StringIO())
    assert result(sign_in(cast, "manager")) == 200
    with pytest.raises(CommandError):
        call_command("member", email, shop=cast.shop.slug, second_factor_off=True)


def test_a_shop_asks_for_it_and_says_so(cast: Cast) -> None:
    manager, phone = cast.signed_in("manager"), cast.signed_in("technician")
    assert refused(manager.put("people/second-factor", {"second_factor": "all"})) == "second-factor-first-own"
    switched_on(cast, "manager")
    assert manager.put("people/second-factor", {"second_factor": "managers"}).status_code == 200
    assert phone.get("jobs").status_code == 200
    assert manager.put("people/second-factor", {"second_factor": "all"}).json() == {"second_factor": "all"}
    assert manager.get("people").json()["second_factor"] == "all"
    refusal = phone.get("jobs")
    assert (refusal.status_code, refused(refusal)) == (403, "second-factor-missing")
    assert [shop["second_factor_missing"] for shop in phone.get(SESSION).json()["shops"]] == [True]
    assert phone.get(FACTOR).json()["asked_by"] == [cast.shop.name]
    switched_on(cast)
    assert phone.get("jobs").status_code == 200
    assert refused(phone.post(f"{FACTOR}/off", {"password": PASSWORD})) == "second-factor-asked"
    assert manager.put("people/second-factor", {"second_factor": "nobody"}).status_code == 200
    assert phone.post(f"{FACTOR}/off", {"password": PASSWORD}).status_code == 204
    changes = History.objects.filter(subject="shop", author=cast.manager).order_by("recorded_at")
    settings = [entry.changes["second_factor"] for entry in changes]
    assert settings == [["nobody", "managers"], ["managers", "all"], ["all", "nobody"]]
    assert Shop.objects.get(pk=cast.elsewhere.pk).second_factor == "nobody"
