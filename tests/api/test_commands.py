"""Keys of repeated requests: one key is for one address, and its answer is kept for a while."""

import uuid
from datetime import timedelta
from typing import Any

import pytest
from django.core.management import call_command
from django.db import IntegrityError, transaction
from django.utils import timezone

from shop.api.constraint_names import refusal
from shop.models import Command, Customer, PersonSession, Shop
from shop.services.commands import LONGEST, command_name
from tests.cast import Cast
from tests.factories import PullListFactory
from tests.kitting.stage import list_of


def test_a_key_is_for_one_address_however_long_the_addresses_are(cast: Cast) -> None:
    Shop.objects.filter(pk=cast.shop.pk).update(slug="a-workshop-with-a-name-of-forty-letters1")
    cast.shop.refresh_from_db()
    for member in (cast.parts, cast.manager):
        member.refresh_from_db()
    (pull_list, _), other = list_of(cast), PullListFactory(shop=cast.shop)
    client, key = cast.signed_in("manager"), str(uuid.uuid4())
    first = client.post(f"pull-lists/{pull_list.pk}/close", {"seq": 0}, key=key)
    assert first.status_code == 200
    again = client.post(f"pull-lists/{other.pk}/close", {"seq": 0}, key=key)
    assert (again.status_code, again.json()["type"]) == (422, "/problems/key-reused")
    other.refresh_from_db()
    assert other.state == "open"


def test_a_long_name_is_cut_to_a_digest_of_all_of_it() -> None:
    short, long = "/api/v1/shops/s/quotes", "/api/v1/shops/" + "s" * 90
    assert command_name("Quotes", short) == f"Quotes {short}"
    assert len(command_name("Quotes", long)) == LONGEST
    assert command_name("Quotes", long + "1") != command_name("Quotes", long + "2")


def test_an_answer_is_kept_for_thirty_days_and_a_later_repeat_is_not_done_again(cast: Cast, later: Any) -> None:
    client, key = cast.signed_in("advisor"), str(uuid.uuid4())
    client.post("customers", {"name": "Ferran Holds"}, key=key)
    later(days=30)
    call_command("purge", verbosity=0)
    client = cast.signed_in("advisor")
    assert client.post("customers", {"name": "Ferran Holds"}, key=key).status_code == 201
    later(days=31)
    call_command("purge", verbosity=0)
    client = cast.signed_in("advisor")
    repeat = client.post("customers", {"name": "Ferran Holds"}, key=key)
    assert (repeat.status_code, repeat.json()["type"]) == (410, "/problems/answer-not-kept")
    other = client.post("customers", {"name": "Somebody else"}, key=key)
    assert (other.status_code, other.json()["type"]) == (422, "/problems/key-reused")
    assert Customer.objects.count() == 1
    assert Command.objects.get().result is None and len(Command.objects.get().body_digest) == 64


def test_purging_removes_expired_sessions_only(cast: Cast, later: Any) -> None:
    cast.signed_in("advisor")
    later(hours=11)
    cast.signed_in("parts")
    assert PersonSession.objects.count() == 2
    later(hours=13)
    call_command("purge", verbosity=0)
    assert PersonSession.objects.get().user == cast.parts.user


def test_dropping_the_answer_is_the_only_change_to_a_command(cast: Cast) -> None:
    cast.signed_in("advisor").post("customers", {"name": "Ferran Holds"})
    commands, now = Command.objects.all(), timezone.now()

    def refused(**changes: Any) -> str:
        with pytest.raises(IntegrityError) as error, transaction.atomic():
            commands.update(**changes)
        return refusal(error.value)

    assert refused(result={"id": "another"}) == "command_answer_is_only_dropped"
    assert refused(result=None) == "command_answer_is_only_dropped"
    assert refused(dropped_at=now) == "command_answer_is_only_dropped"
    assert refused(result=None, dropped_at=now, body_digest="0" * 64) == "command_never_changes"
    assert commands.update(result=None, dropped_at=now) == 1
    assert refused(dropped_at=now + timedelta(1)) == "command_answer_is_only_dropped"
    assert refused(result={"id": "another"}, dropped_at=None) == "command_answer_is_only_dropped"
