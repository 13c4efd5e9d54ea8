"""PINs: a change of person on one device by six digits, until five wrong tries."""

from typing import Any
from uuid import UUID, uuid4

import pytest
from django.conf import settings as ours
from django.contrib.auth.hashers import check_password
from django.core.management import call_command
from django.utils import timezone

from kitting.models import CountEvent
from shop.errors import RequestError
from shop.models import History, PersonSession, PhonePin
from shop.services.pins import count_pin_try, is_trivial
from tests.api.test_members import SESSION, pointers, refused
from tests.api.test_second_factor import switched_on
from tests.at_once import at_once
from tests.cast import PASSWORD, Cast
from tests.client import CheckedClient
from tests.kitting.stage import Phone as CountingPhone
from tests.kitting.stage import list_of

pytestmark = pytest.mark.once

PINS, BY_PIN = "/api/v1/pins", f"{SESSION}/pin"
PIN, OTHER = "402913", "771604"


def come_in(client: CheckedClient, pin_id: Any, pin: str = PIN, **kw: Any) -> Any:
    return client.post(BY_PIN, {"id": str(pin_id), "pin": pin}, **kw)


def set_pin(client: CheckedClient, pin: str = PIN, password: str = PASSWORD) -> Any:
    return client.post(PINS, {"password": password, "pin": pin})


class SharedPhone:
    """A phone on which two people have set a PIN, the advisor after the technician."""

    def __init__(self, cast: Cast) -> None:
        self.client = CheckedClient(shop=cast.shop.slug)
        self.technician, self.advisor = self.enrol(cast.technician, PIN), self.enrol(cast.advisor, OTHER)

    def enrol(self, member: Any, pin: str) -> UUID:
        self.by_password(member)
        answer = set_pin(self.client, pin)
        assert answer.status_code == 201, answer.content
        return UUID(answer.json()["id"])

    def by_password(self, member: Any) -> None:
        assert self.client.post(SESSION, {"email": member.user.email, "password": PASSWORD}).status_code == 200

    def person(self) -> str | None:
        user = self.client.get(SESSION).json()["user"]
        return user and user["name"]


@pytest.fixture
def phone(cast: Cast) -> SharedPhone:
    return SharedPhone(cast)


def test_people_change_by_pin_and_each_begins_a_sign_in_here_alone(cast: Cast, phone: SharedPhone) -> None:
    elsewhere = cast.signed_in("technician")
    answer = come_in(phone.client, phone.technician)
    assert answer.status_code == 200 and answer.json()["user"]["name"] == "Technician"
    assert answer.json()["pins"] == [str(phone.technician), str(phone.advisor)]
    assert come_in(phone.client, phone.advisor, OTHER).json()["user"]["name"] == "Advisor"
    assert not PersonSession.objects.filter(user=cast.technician.user).exclude(
        pk=elsewhere.cookies[ours.SESSION_COOKIE_NAME].value
    ), "whoever was here is signed out here"
    assert elsewhere.get("jobs").status_code == 200
    assert phone.client.delete(SESSION).status_code == 204 and phone.person() is None
    assert phone.client.get(SESSION).json()["pins"] == [str(phone.technician), str(phone.advisor)]
    assert come_in(phone.client, phone.advisor, PIN).status_code == 401, "each has a PIN of their own"


def test_five_wrong_tries_end_it_until_the_password(cast: Cast, phone: SharedPhone) -> None:
    client = phone.client
    answers = [come_in(client, phone.technician, "111222") for _ in range(4)]
    assert [refused(answer) for answer in answers] == ["wrong-pin"] * 4
    assert [answer.json()["detail"].split(".")[0] for answer in answers[2:]] == ["2 tries are left", "One try is left"]
    assert refused(come_in(client, phone.technician, "111222")) == "pin-used-up"
    assert refused(come_in(client, phone.technician)) == "pin-used-up", "the right one as well"
    assert come_in(client, phone.advisor, OTHER).status_code == 200, "hers is not touched"
    assert refused(come_in(client, phone.technician)) == "pin-used-up"
    SharedPhone(cast).by_password(cast.technician)
    assert refused(come_in(client, phone.technician)) == "pin-used-up", "the password of another device changes nothing"
    phone.by_password(cast.technician)
    assert client.get(PINS).json()["items"][0]["used_up"] is False
    assert come_in(client, phone.technician).status_code == 200


def test_the_right_pin_forgets_the_slips_before_it(phone: SharedPhone) -> None:
    for _ in range(2):
        assert [come_in(phone.client, phone.technician, "111222").status_code for _ in range(4)] == [401] * 4
        assert come_in(phone.client, phone.technician).status_code == 200


def test_it_works_on_the_device_alone_where_it_was_set(cast: Cast, phone: SharedPhone) -> None:
    cookie = phone.client.cookies[ours.DEVICE_COOKIE_NAME]
    assert (cookie["httponly"], cookie["samesite"], cookie["path"]) == (True, "Strict", "/")
    assert cookie["max-age"] == 30 * 24 * 3600
    assert cookie.value not in str(list(PhonePin.objects.values()))
    stranger = CheckedClient()
    assert refused(come_in(stranger, phone.technician)) == "pin-ended"
    other = SharedPhone(cast)
    assert refused(come_in(other.client, phone.technician)) == "pin-ended"
    assert PhonePin.objects.get(pk=phone.technician).wrong_tries == 0, "nobody elsewhere uses its tries up"
    assert come_in(other.client, other.technician).status_code == 200
    assert refused(come_in(phone.client, uuid4())) == "pin-ended"
    assert stranger.get(SESSION).json()["pins"] == []


def test_setting_it_takes_the_password_typed_and_a_sign_in_by_password(cast: Cast, phone: SharedPhone) -> None:
    client = phone.client
    assert pointers(set_pin(client, password="guess")) == ["/password"]
    assert refused(set_pin(CheckedClient())) == "sign-in-first"
    come_in(client, phone.technician)
    assert refused(set_pin(client, OTHER)) == "pin-needs-password"
    phone.by_password(cast.technician)
    assert set_pin(client, OTHER).status_code == 201
    assert refused(come_in(client, phone.technician)) == "pin-ended", "the earlier PIN of the person on this device"
    assert PhonePin.objects.filter(user=cast.technician.user).count() == 1
    verbs = History.objects.filter(subject_id=cast.technician.pk).order_by("recorded_at").values_list("verb", flat=True)
    assert list(verbs) == ["PIN set", "PIN set"]


@pytest.mark.parametrize(
    "pin", ["000000", "777777", "123456", "456789", "654321", "567890", "121212", "402402", "112211"]
)
def test_what_a_stranger_tries_first_is_refused_in_words(cast: Cast, pin: str) -> None:
    answer = set_pin(cast.signed_in("technician"), pin)
    assert pointers(answer) == ["/pin"] and "easy to guess" in answer.json()["errors"][0]["detail"]


@pytest.mark.parametrize("pin", ["40291", "4029133", "40291a", "", "４０２９１３", " 40291"])
def test_it_has_six_digits(cast: Cast, pin: str) -> None:
    assert pointers(set_pin(cast.signed_in("technician"), pin)) == ["/pin"]
    assert not PhonePin.objects.exists()


def test_only_a_slow_hash_of_it_is_kept(cast: Cast, settings: Any) -> None:
    settings.PASSWORD_HASHERS = ["django.contrib.auth.hashers.Argon2PasswordHasher"]
    cast.technician.user.set_password(PASSWORD)
    cast.technician.user.save()
    phone = CheckedClient()
    phone.post(SESSION, {"email": cast.technician.user.email, "password": PASSWORD})
    assert set_pin(phone).status_code == 201
    row = PhonePin.objects.get()
    assert row.pin_hash.startswith("argon2") and check_password(PIN, row.pin_hash) and PIN not in row.pin_hash


def test_few_pins_are_refused() -> None:
    """A refused PIN is one fewer to guess: of a million, these are 3,532."""
    assert sum(is_trivial(f"{number:06d}") for number in range(1_000_000)) == 3_532


def ended_by_the_person(cast: Cast, phone: SharedPhone) -> None:
    assert cast.signed_in("technician").delete(f"{PINS}/{phone.technician}").status_code == 204


def ended_by_signing_out_everywhere(cast: Cast, phone: SharedPhone) -> None:
    assert cast.signed_in("technician").delete("/api/v1/sessions").status_code == 204


def ended_by_a_new_password(cast: Cast, phone: SharedPhone) -> None:
    body = {"current_password": PASSWORD, "new_password": "a longer kettle of bolts"}
    assert cast.signed_in("technician").put(f"{SESSION}/password", body).status_code == 204


def ended_by_a_second_factor(cast: Cast, phone: SharedPhone) -> None:
    switched_on(cast)


def ended_by_a_manager_who_signs_them_out(cast: Cast, phone: SharedPhone) -> None:
    PersonSession.objects.filter(user=cast.technician.user).delete()
    assert cast.signed_in("manager").delete(f"people/{cast.technician.pk}/sign-ins").status_code == 204
    assert History.objects.filter(subject_id=cast.technician.pk, verb="sign-ins ended").exists(), "a PIN alone counts"


def ended_by_another_role(cast: Cast, phone: SharedPhone) -> None:
    assert cast.signed_in("manager").patch(f"people/{cast.technician.pk}", {"role": "parts"}).status_code == 200


def ended_by_removal(cast: Cast, phone: SharedPhone) -> None:
    assert cast.signed_in("manager").delete(f"people/{cast.technician.pk}").status_code == 204


def ended_by_its_last_day(cast: Cast, phone: SharedPhone) -> None:
    now = timezone.now()
    PhonePin.objects.filter(pk=phone.technician).update(expires_at=now)
    assert refused(come_in(phone.client, phone.technician)) == "pin-ended"
    assert phone.client.get(SESSION).json()["pins"] == [str(phone.advisor)]
    call_command("purge")


@pytest.mark.parametrize(
    "end",
    [
        ended_by_the_person,
        ended_by_signing_out_everywhere,
        ended_by_a_new_password,
        ended_by_a_second_factor,
        ended_by_a_manager_who_signs_them_out,
        ended_by_another_role,
        ended_by_removal,
        ended_by_its_last_day,
    ],
)
def test_it_ends_with(cast: Cast, phone: SharedPhone, end: Any) -> None:
    end(cast, phone)
    assert list(PhonePin.objects.values_list("pk", flat=True)) == [phone.advisor]
    assert refused(come_in(phone.client, phone.technician)) == "pin-ended"
    assert phone.client.get(SESSION).json()["pins"] == [str(phone.advisor)], "the phone hears of it"


def test_a_person_reads_and_ends_only_their_own(cast: Cast, phone: SharedPhone) -> None:
    elsewhere = cast.signed_in("technician")
    (row,) = elsewhere.get(PINS).json()["items"]
    assert (row["id"], row["here"]) == (str(phone.technician), False)
    assert elsewhere.delete(f"{PINS}/{phone.advisor}").status_code == 404
    assert [(row["id"], row["here"]) for row in phone.client.get(PINS).json()["items"]] == [(str(phone.advisor), True)]


def test_a_manager_sees_on_which_phones_a_person_has_one_and_ends_it(cast: Cast, phone: SharedPhone) -> None:
    manager, path = cast.signed_in("manager"), f"people/{cast.technician.pk}/pins"
    (row,) = manager.get(path).json()["items"]
    assert (row["id"], row["device"], row["here"]) == (str(phone.technician), "unknown", False)
    assert manager.delete(f"{path}/{phone.advisor}").status_code == 404
    assert manager.delete(f"{path}/{row['id']}").status_code == 204
    assert manager.get(path).json()["items"] == []
    assert refused(come_in(phone.client, row["id"])) == "pin-ended"
    line = History.objects.filter(shop=cast.shop, verb="PIN ended").get()
    assert (line.author, line.subject_id) == (cast.manager, cast.technician.pk)


def test_a_second_factor_is_proved_when_it_is_set(cast: Cast) -> None:
    codes, client = switched_on(cast), CheckedClient()
    body = {"email": cast.technician.user.email, "password": PASSWORD}
    assert refused(client.post(SESSION, body)) == "second-factor-needed"
    assert refused(set_pin(client)) == "sign-in-first"
    assert client.post(SESSION, body | {"code": codes[0]}).status_code == 200
    assert come_in(client, set_pin(client).json()["id"]).status_code == 200


def test_tries_of_one_address_on_many_phones_run_out(cast: Cast, settings: Any) -> None:
    phone, settings.SIGN_IN_TRIES_OF_AN_ADDRESS = SharedPhone(cast), 3
    answers = [come_in(phone.client, uuid4(), REMOTE_ADDR="203.0.113.7").status_code for _ in range(4)]
    assert answers == [401, 401, 401, 429]
    assert come_in(phone.client, phone.technician, REMOTE_ADDR="203.0.113.8").status_code == 200


def test_it_needs_the_csrf_token(phone: SharedPhone) -> None:
    client = CheckedClient(enforce_csrf_checks=True)
    client.cookies = phone.client.cookies
    assert come_in(client, phone.technician).status_code == 403


def test_a_request_made_for_the_person_of_before_is_refused(cast: Cast, phone: SharedPhone) -> None:
    come_in(phone.client, phone.technician)
    assert phone.client.get("jobs", headers={"X-Member": str(cast.technician.pk)}).status_code == 200
    for member in (cast.advisor.pk, "nonsense"):
        answer = phone.client.get("jobs", headers={"X-Member": str(member)})
        assert (answer.status_code, refused(answer)) == (401, "another-person")


def test_a_phone_delivers_what_others_with_a_pin_on_it_have_counted(cast: Cast, phone: SharedPhone) -> None:
    pull_list, lines = list_of(cast)
    counted, path = CountingPhone(pull_list), f"pull-lists/{pull_list.pk}/events"
    his = {"X-Member": str(cast.technician.pk)}

    def deliver(client: CheckedClient, headers: dict[str, str]) -> Any:
        return client.post(path, {"events": [counted.event(lines[0])]}, key=None, headers=headers)

    assert deliver(phone.client, his).status_code == 200
    assert CountEvent.objects.get().author == cast.technician, "though the advisor is signed in"
    assert phone.client.get(path, headers=his).status_code == 401, "nothing else is done in his name"
    assert phone.client.post("customers", {"name": "X"}, headers=his).status_code == 401
    for member in (cast.parts.pk, cast.stranger.pk):
        assert deliver(phone.client, {"X-Member": str(member)}).status_code == 401, "no PIN on this phone"
    assert deliver(cast.signed_in("advisor"), his).status_code == 401, "another phone"
    phone.client.delete(SESSION)
    assert deliver(phone.client, his).status_code == 401, "nobody is signed in"
    phone.by_password(cast.advisor)
    PhonePin.objects.filter(pk=phone.technician).update(wrong_tries=5)
    assert deliver(phone.client, his).status_code == 200, "what was counted is not lost with the PIN's tries"
    PhonePin.objects.filter(pk=phone.technician).delete()
    assert refused(deliver(phone.client, his)) == "another-person"
    assert CountEvent.objects.count() == 2


@pytest.mark.both
@pytest.mark.django_db(transaction=True)
def test_tries_at_once_do_not_exceed_the_five(cast: Cast) -> None:
    phone = SharedPhone(cast)
    device = phone.client.cookies[ours.DEVICE_COOKIE_NAME].value

    def attempt() -> PhonePin:
        return count_pin_try(id=phone.technician, device=device, now=timezone.now())

    outcomes = at_once(*[attempt] * 8)
    assert sum(isinstance(outcome, PhonePin) for outcome in outcomes) == 5
    assert {outcome.code for outcome in outcomes if isinstance(outcome, RequestError)} == {"pin-used-up"}
