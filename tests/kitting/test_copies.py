"""Copies of kits: one for each kit that was sold with a job, and those that came without a job."""

from kitting.models import KitCopy, PullLine
from tests.cast import Cast
from tests.factories import KitCopyFactory, KitFactory, PullLineFactory, PullListFactory
from tests.kitting.stage import Bench, Phone, send


def test_each_kit_of_a_list_is_a_copy_of_its_own(cast: Cast) -> None:
    bench = Bench(cast)
    kit = bench.turbo_kit()
    first, second = bench.opened(kit, kit), bench.opened(kit)
    copies = KitCopy.objects.order_by("number")
    assert [(copy.number, copy.job, copy.revision, copy.purpose) for copy in copies] == [
        (1, first.job, kit, "job"),
        (2, first.job, kit, "job"),
        (3, second.job, kit, "job"),
    ]
    for pull_list, numbers in ((first, {1, 2}), (second, {3})):
        lines = PullLine.objects.filter(pull_list=pull_list).select_related("copy")
        assert {line.copy_number for line in lines} == numbers
        assert all(line.kit == kit.kit.code and line.copy for line in lines)


def test_a_copy_that_came_for_no_job_is_counted(cast: Cast) -> None:
    copy = KitCopyFactory(shop=cast.shop, kit=KitFactory(shop=cast.shop), job=None, purpose="shelf")
    pull_list = PullListFactory(shop=cast.shop, job=None, copy=copy, facts={})
    line = PullLineFactory(shop=cast.shop, pull_list=pull_list, copy=copy)
    client, phone = cast.signed_in("parts"), Phone(line.pull_list)
    assert [result["status"] for result in send(client, line.pull_list, phone.event(line))] == ["stored"]
    assert client.get("pull-lists").json()["items"] == []
    for path in ("", "/report", "/orders", "/paper"):
        assert client.get(f"pull-lists/{line.pull_list.pk}{path}").status_code == 404
