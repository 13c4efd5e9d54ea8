"""The one box that finds everything, as each role may see it."""

import pytest

from tests.quotes.stage import Stage


def kinds(stage: Stage, role: str, typed: str) -> set[str]:
    items = stage.cast.signed_in(role).get("find", {"q": typed}).json()["items"]
    return {each["kind"] for each in items}


@pytest.mark.parametrize("role", ["technician", "parts"])
def test_who_does_not_quote_finds_no_quote_no_total_and_no_owner(stage: Stage, role: str) -> None:
    owner, vehicle = stage.customer, stage.vehicle
    quote = stage.quote().json()
    assert kinds(stage, "advisor", quote["number"]) == {"quote"}
    assert kinds(stage, "advisor", owner.name) == {"customer"}
    assert kinds(stage, role, vehicle.title) == {"vehicle"}
    for typed in (quote["number"], owner.name, owner.phone, vehicle.title, vehicle.plate, stage.turbo.title):
        found = stage.cast.signed_in(role).get("find", {"q": typed})
        assert not {"quote", "customer"} & kinds(stage, role, typed), typed
        for secret in (owner.name, owner.phone, str(owner.pk), quote["totals"]["gross"]):
            assert secret and secret.encode() not in found.content, (typed, secret)
