"""Roles that see readiness and record arrivals; the answer holds no cost, and its query count does not grow."""

from datetime import date

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from kitting.models import PullLine
from shop.models import ClosedDay
from tests.costs import keys_of
from tests.factories import KitFactory
from tests.kitting.floor import Floor

pytestmark = pytest.mark.once


def test_it_is_nothing_to_a_stranger(floor: Floor) -> None:
    stranger = floor.cast.signed_in("stranger")
    for shop in (floor.cast.shop.slug, floor.cast.elsewhere.slug):
        stranger.shop = shop
        assert stranger.get(f"jobs/{floor.job.pk}/readiness").status_code == 404
        body = {"lines": [str(floor.ring.pk)], "day": None}
        assert stranger.post(f"pull-lists/{floor.list.pk}/due", body).status_code == 404
        assert stranger.patch(f"jobs/{floor.job.pk}", {"here_from": None}, seen='"1"').status_code == 404


@pytest.mark.parametrize(("role", "status"), [("technician", 403), ("parts", 200), ("advisor", 200), ("manager", 200)])
def test_who_says_when_things_and_vehicles_come(floor: Floor, role: str, status: int) -> None:
    assert floor.due(floor.ring, role=role, day="2026-12-04").status_code == status
    client = floor.cast.signed_in(role)
    assert client.patch(f"jobs/{floor.job.pk}", {"here_from": "2026-12-04"}, seen='"1"').status_code == status
    assert floor.readiness(role)["sentence"]


def test_no_cost_stands_in_it(floor: Floor) -> None:
    floor.count_all(ring=2)
    readiness = floor.readiness()
    assert not {key for key in keys_of(readiness) if "cost" in key or "price" in key or "margin" in key}
    assert "10.0000" not in str(readiness)  # what an offer costs


def test_it_asks_no_more_of_the_database_for_more_lines(floor: Floor) -> None:
    def query_count() -> int:
        with CaptureQueriesContext(connection) as queries:
            floor.readiness()
        return len(queries)

    ClosedDay.objects.create(shop=floor.cast.shop, date=date(2026, 12, 25))
    floor.count_all(ring=2)
    for n in range(16):
        floor.line(f"Line {n}", "FIT")
    few = query_count()
    other = KitFactory(shop=floor.cast.shop, code="QF-T")
    for n in range(140):
        floor.line(f"More {n}", "FIT", carton=f"{n % 5}")
        floor.line(f"Towing {n}", "CLOSE", kit=other.code)
    floor.count(*((line, 3) for line in PullLine.objects.filter(pull_list=floor.list, title__contains="g 1")))
    floor.count(*((line, 3) for line in PullLine.objects.filter(pull_list=floor.list, title__startswith="More 1")))
    assert floor.readiness()["lines"] == 300
    assert query_count() == few
