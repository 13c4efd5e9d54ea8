"""The receipt of a yes: the way there as it was told, and a next step that is true."""

from typing import Any

from tests.quotes import dated as day
from tests.quotes.dated import change, local, send
from tests.quotes.stage import Stage
from tests.quotes.test_customer_page import Phone

clock, stage = day.clock, day.stage  # the workshop of the promise dates: Tue 1 Dec 2026


def said_yes(stage: Stage, **wanted: Any) -> Phone:
    draft = stage.quote().json()
    phone = Phone(send(stage, change(stage, draft, **wanted) if wanted else draft)["link"]["url"])
    assert phone.answer(ready=phone.field("ready")).status_code == 303
    return phone


def receipt(phone: Phone) -> str:
    return phone.client.get(f"{phone.page}receipt").content.decode()


def test_the_way_is_the_chain_of_the_page_with_the_yes_behind_it(stage: Stage, clock: day.Clock) -> None:
    phone = said_yes(stage)
    page = phone.html.split('<ol class="chain"')[1].split("</ol>")[0]
    clock(local(20))
    shown = receipt(phone).split('<ol class="chain"')[1].split("</ol>")[0]
    assert shown == page.replace("You say yes", "You said yes") != page
    assert shown.endswith("<b>Ready for you</b></div></li>\n")


def test_who_brings_the_vehicle_later_is_told_the_day(stage: Stage, clock: day.Clock) -> None:
    phone = said_yes(stage, here_from="2026-12-15")
    assert "Bring the vehicle on Tue 15 Dec 2026. Until then you need not do anything." in receipt(phone)
    clock(local(15, 20))
    assert "Bring the vehicle on Tue 15 Dec 2026." in receipt(phone)
    clock(local(16))
    assert "Bring the vehicle on" not in receipt(phone) and "We have it. If you have not heard" in receipt(phone)


def test_where_nobody_named_a_day_the_vehicle_comes_when_work_begins(stage: Stage) -> None:
    shown = receipt(said_yes(stage))
    begins = shown.split("We begin; the vehicle has to be with us")[0].rsplit('datetime="', 1)[1][:10]
    assert begins == "2026-12-10"
    assert "The vehicle has to be with us on Thu 10 Dec 2026: we begin then. If it is with us already, you" in shown


def test_a_yes_without_a_day_asks_for_a_call(stage: Stage) -> None:
    from shop.models import Calendar

    Calendar.objects.all().delete()
    phone = Phone(send(stage, stage.quote().json())["link"]["url"])
    assert phone.answer().status_code == 303
    assert "If the vehicle is not with us yet, call us about the day to bring it." in receipt(phone)


def test_a_no_is_asked_for_nothing(stage: Stage) -> None:
    phone = Phone(send(stage, stage.quote().json())["link"]["url"])
    phone.answer("decline")
    assert "vehicle has to be with us" not in receipt(phone) and "Thank you for letting us know." in receipt(phone)


def test_the_paper_is_the_one_of_the_day_it_was_sent(stage: Stage, clock: day.Clock) -> None:
    sent = send(stage, stage.quote().json())
    clock(local(3))
    phone = Phone(sent["link"]["url"])
    phone.answer(ready=phone.field("ready"))
    assert "the version sent on Tue 1 Dec 2026; its dates were worked out that day" in receipt(phone)
