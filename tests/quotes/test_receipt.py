"""The receipt of an acceptance: the timeline as the customer saw it, and the next step as of today."""

import re
from datetime import date
from typing import Any

import pytest

from shop.models import Customer, Job
from shop.outbox import worker
from tests.quotes import dated as day
from tests.quotes.dated import change, local, send
from tests.quotes.phone import Phone
from tests.quotes.stage import RULES, Stage

pytestmark = pytest.mark.once

clock, stage = day.clock, day.stage  # the workshop of the promise dates: Tue 1 Dec 2026


def said_yes(stage: Stage, **options: Any) -> Phone:
    draft = stage.quote().json()
    phone = Phone(send(stage, change(stage, draft, **options) if options else draft)["link"]["url"])
    assert phone.answer(ready=phone.field("ready")).status_code == 303
    return phone


def receipt(phone: Phone) -> str:
    return phone.client.get(f"{phone.page}receipt").content.decode()


def test_the_way_is_the_chain_of_the_page_with_the_yes_behind_it(stage: Stage, clock: day.Clock) -> None:
    phone = said_yes(stage)
    page = phone.html.split('<ol class="chain"')[1].split("</ol>")[0]
    clock(local(20))
    section = receipt(phone).split('<ol class="chain"')[1].split("</ol>")[0]
    assert section == page.replace("You accept<", "You accepted<") != page
    assert section.endswith("<b>Ready for you</b></div></li>\n")


def test_who_brings_the_vehicle_later_is_told_the_day(stage: Stage, clock: day.Clock) -> None:
    phone = said_yes(stage, here_from="2026-12-15")
    assert "Please bring the vehicle on Tue 15 Dec by 08:00, when we open. Until then there is nothing" in receipt(
        phone
    )
    clock(local(15, 20))
    assert "Please bring the vehicle on Tue 15 Dec" in receipt(phone)
    clock(local(16))
    assert "Please bring" not in receipt(phone) and "We have your answer. If you have not heard" in receipt(phone)


def test_where_nobody_named_a_day_the_vehicle_comes_on_the_one_that_costs_no_half_day(stage: Stage) -> None:
    """Accepted on 1 Dec for a kit that comes in the evening of the 10th: nobody is asked to bring the vehicle today."""
    page = receipt(said_yes(stage))
    brings = page.split("You bring the vehicle by 08:00")[0].rsplit('datetime="', 1)[1][:10]
    assert brings == "2026-12-10"
    assert "Please bring the vehicle on Thu 10 Dec by 08:00, when we open." in page


def test_a_vehicle_that_is_here_need_not_be_brought(stage: Stage) -> None:
    page = receipt(said_yes(stage, here=True))
    assert "We have your vehicle. There is nothing to do." in page and "bring the vehicle" not in page


def test_it_says_what_to_bring_until_the_vehicle_is_in_the_bay(stage: Stage, mailoutbox: list[Any]) -> None:
    """The page and the e-mail first list the parts that the customer supplies, then the workshop's own sentences."""
    stage.enact(RULES | {"words": RULES["words"] | {"bring": ["Both keys.", "An <b>empty</b> boot."]}})
    Customer.objects.update(email="maren@mail.example")
    path = f"quotes/{stage.quote(stage.towing).json()['id']}"
    springs = {"kind": "text", "title": "Coil springs", "tax_class": "part", "supplied": True}
    phone = Phone(send(stage, stage.client.post(f"{path}/lines", springs).json())["link"]["url"])
    assert "Both keys." not in phone.html  # before the answer nobody is to bring anything
    phone.answer(ready=phone.field("ready"))
    section = receipt(phone).split('id="s-bring"')[1].split("</section>")[0]
    assert re.findall(r'<p class="in">(.*?)</p>', section) == [
        "Coil springs, which you supply.",
        "Both keys.",
        "An &lt;b&gt;empty&lt;/b&gt; boot.",
    ]
    worker.send_next()
    (message,) = mailoutbox
    assert "Please bring:\n\n– Coil springs, which you supply.\n\n– Both keys." in message.body
    Job.objects.update(state="in_bay", in_bay_on=date(2026, 12, 10))
    assert "Both keys." not in receipt(phone)


def test_a_yes_without_a_day_asks_for_a_call(stage: Stage) -> None:
    from shop.models import Calendar

    Calendar.objects.all().delete()
    phone = Phone(send(stage, stage.quote().json())["link"]["url"])
    assert phone.answer().status_code == 303
    assert "If we do not have the vehicle yet, please call us to agree a day." in receipt(phone)


def test_a_no_is_asked_for_nothing(stage: Stage) -> None:
    phone = Phone(send(stage, stage.quote().json())["link"]["url"])
    phone.answer("decline")
    assert "Please bring" not in receipt(phone) and "Thank you for letting us know." in receipt(phone)


def test_the_paper_is_the_one_of_the_day_it_was_sent(stage: Stage, clock: day.Clock) -> None:
    sent = send(stage, stage.quote().json())
    clock(local(3))
    phone = Phone(sent["link"]["url"])
    phone.answer(ready=phone.field("ready"))
    assert "the version sent on Tue 1 Dec 2026; its dates were worked out that day" in receipt(phone)


def test_it_lists_the_kits_with_their_numbers_and_the_tax_with_its_rate(stage: Stage) -> None:
    phone = said_yes(stage)
    table = receipt(phone).split("<table>")[1].split("</table>")[0]
    for kit in (stage.turbo, stage.towing):
        assert f'{kit.title}<span class="reason">number {kit.code}</span>' in table
    assert "Value added tax, 20 % inside: 534.56." in phone.html
    assert '<td>Value added tax, 20 % inside</td><td class="money">534.56</td>' in table


def test_it_heads_the_day_on_which_the_vehicle_was_handed_over(stage: Stage) -> None:
    """Nobody reads "Expected ready", or that we have a vehicle that stands in front of the house again."""
    phone = said_yes(stage, here=True)
    Job.objects.update(state="in_bay", in_bay_on=date(2026, 12, 10))
    assert "We have your vehicle." in receipt(phone) and "Expected ready" in receipt(phone)
    Job.objects.update(state="handed_over", handed_over_on=date(2026, 12, 18))
    page = receipt(phone)
    assert '<h2 class="sec" id="s-ready"><span>Handed over on Fri 18 Dec 2026</span></h2>' in page
    assert "You have your vehicle back. If anything is not as it should be, call us." in page
    assert "Expected ready" not in page and "We have your vehicle." not in page
    assert "The dates on the day you accepted" in page and "This was the date" not in page


def test_a_vehicle_in_the_bay_need_not_be_brought_whatever_day_was_named(stage: Stage) -> None:
    phone = said_yes(stage, here_from="2026-12-15")
    Job.objects.update(state="in_bay", in_bay_on=date(2026, 12, 2))
    assert "We have your vehicle. There is nothing to do." in receipt(phone)
    assert "Please bring the vehicle" not in receipt(phone)


def test_a_job_that_was_called_off_has_no_date_and_asks_for_no_deposit(stage: Stage) -> None:
    stage.enact(RULES | {"deposit_share": "0.5", "words": RULES["words"] | {"payment": ["Pay by card."]}})
    phone = said_yes(stage)
    assert "Pay by card." in receipt(phone)
    Job.objects.update(state="called_off", called_off_on=date(2026, 12, 3), called_off_reason="Sold")
    page = receipt(phone)
    assert "<span>Called off on Thu 3 Dec 2026</span>" in page and "This job was called off. If you have" in page
    assert "Expected ready" not in page and "Pay by card." not in page and "Please bring" not in page
