"""One real row of each kind in a shop."""

import io
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

from django.test import override_settings
from django.utils import timezone

from kitting.models import Part, PullLine, PullList, Supplier
from quotes.models import Line, Link, Question, Release
from quotes.services.questions import ask
from shop.calc.keys import search_key
from shop.models import Calendar, ClosedDay, EntryLink, Job, LabourTemplate, Member, Operation, Rate, RuleSet
from shop.services.people import set_member
from shop.services.pins import set_pin
from shop.sessions import session_id
from tests.api.asked import upload
from tests.api.bodies import ANSWERED, AWAY, COOLANT, CORE, OUTSIDE, SEIZED, SENT_OUT, TAUGHT
from tests.calc.test_pictures import jpeg
from tests.cast import Cast, new_session
from tests.client import CheckedClient
from tests.factories import (
    CustomerFactory,
    JobFactory,
    JobOperationFactory,
    OperationFactory,
    PackFactory,
    PartFactory,
    PullLineFactory,
    PullListFactory,
    SupplierFactory,
    VehicleFactory,
)
from tests.quotes.phone import Phone
from tests.quotes.stage import RULES, make_stage


@dataclass
class Rows:
    """The rows of a shop: a customer with a vehicle, a kit, two quotes, a job with its pull list, and a file."""

    customer: Any
    namesake: str
    vehicle: Any
    kit: Any
    part: Part
    draft: dict[str, Any]
    draft_line: Line
    hand_written: str
    outside: str
    choice: str
    option: str
    sent: dict[str, Any]
    second: str
    link: Link
    question: Question
    job: Job
    payment: str
    core: str
    happened: dict[str, str]
    release: str
    list: PullList
    line: PullLine
    file: str
    step: str
    job_step: str
    operation: Operation
    pack: Part
    template: LabourTemplate
    supplier: Supplier
    replaced: str
    rules: RuleSet
    closed_day: str
    later_hours: str
    rate: str
    mail: str
    member: Member
    sign_in: str
    pin: str
    invitation: str
    token: str
    feed: str
    webhook: str
    webhook_message: str

    @property
    def words(self) -> list[str]:
        """Ids of the rows and names that stand in no other shop."""
        rows = (
            self.customer,
            self.vehicle,
            self.kit,
            self.part,
            self.draft_line,
            self.link,
            self.job,
            self.rules,
            self.operation,
            self.pack,
            self.template,
            self.pack.consumable,
            self.supplier,
        )
        ids = [str(row.pk) for row in (*rows, self.list, self.line)]
        ids += [
            self.mail,
            str(self.member.pk),
            self.invitation,
            self.token,
            self.feed,
            self.webhook,
            self.webhook_message,
            self.payment,
            self.release,
            self.core,
            *self.happened.values(),
        ]
        ids += [self.replaced, self.closed_day, self.later_hours, self.rate]
        names = [self.customer.name, self.customer.phone, self.vehicle.vin, self.part.number]
        return [
            *ids,
            self.draft["id"],
            self.draft["photographs"][0]["id"],
            self.sent["id"],
            self.second,
            self.hand_written,
            self.outside,
            self.choice,
            self.option,
            self.file,
            *names,
        ]


def _happened(client: CheckedClient, fields: dict[str, Any]) -> dict[str, str]:
    """The ids of a quote, its job, its contingent line, and a record that the line happened."""
    draft = _granted(client.post("quotes", fields))
    draft = _granted(client.post(f"quotes/{draft['id']}/contingencies", SEIZED))
    sent = _granted(client.post(f"quotes/{draft['id']}/send", {"version": draft["version"], "recipient": "x"}))
    assert Phone(sent["link"]["url"]).answer().status_code == 303
    job, line = client.get(f"quotes/{draft['id']}").json()["job"]["id"], draft["contingencies"][0]["line"]
    happened = _granted(client.post(f"jobs/{job}/occurrences", {"line": line}))["lines"][0]
    occurrence = happened["records"][0]["id"]
    photographs = f"jobs/{job}/occurrences/{occurrence}/photographs"
    answer = client.post(photographs, {"file": upload(jpeg())}, format="multipart")
    photograph = _granted(answer)["lines"][0]["records"][0]["photographs"][0]
    return {"quote": draft["id"], "job": job, "line": line, "occurrence": occurrence, "photograph": photograph}


def make_rows(cast: Cast, client: CheckedClient, name: str, vin: str) -> Rows:
    """Makes the rows of the shop of `cast`, whose `client` is allowed everything."""
    stage = make_stage(cast)
    customer, vehicle = stage.customer, stage.vehicle
    customer.name, customer.name_key, customer.phone = name, search_key(name), f"01632 {vin[-6:]}"
    customer.save()
    vehicle.vin, vehicle.vin_tail = vin, vin[-8:]
    vehicle.save()
    fields = {"kits": [str(stage.turbo.pk)], "customer": str(customer.pk), "vehicle": str(vehicle.pk)}
    out = _granted(client.post("quotes", fields))
    sent = _granted(client.post(f"quotes/{out['id']}/send", {"version": out["version"], "recipient": "x"}))
    to = {"to": f"{vin.lower()}@mail.example", "recipient": name, "digest": sent["quote"]["digest"]}
    mail = _granted(client.post(f"quotes/{out['id']}/mails", to))
    link = Link.objects.filter(quote=out["id"]).earliest("made_at")
    question = ask(link=link, text=f"When is it ready for {name}?", site="", now=timezone.now())
    draft = _granted(client.post("quotes", fields))
    line = {"kind": "text", "title": f"Polish for {name}", "unit_price": "40.00", "tax_class": "part"}
    draft = _granted(client.post(f"quotes/{draft['id']}/lines", line))
    draft = _granted(client.post(f"quotes/{draft['id']}/outside", OUTSIDE | {"firm": f"Firm of {name}"}))
    pads = {"title": f"Pads for {name}", "take": "any", "options": [{"title": "Road pads"}]}
    draft = _granted(client.post(f"quotes/{draft['id']}/choices", pads))
    pictures = f"quotes/{draft['id']}/lines/{draft['extras'][0]['line']}/photographs"
    draft = _granted(client.post(pictures, {"file": upload(jpeg()), "caption": f"For {name}"}, format="multipart"))
    lines = Line.objects.filter(revision__quote=draft["id"])
    first = _granted(client.post("quotes", fields))
    _granted(client.post(f"quotes/{first['id']}/send", {"version": first["version"], "recipient": "x"}))
    second = _granted(client.post(f"quotes/{first['id']}/revise"))
    words = {**RULES["words"], "standing": [f"Terms of {name}"]}
    rules = RuleSet.objects.create(
        shop=cast.shop, number=2, valid_from=date(2026, 2, 1), rules={**RULES, "words": words}
    )
    rate = Rate.objects.create(shop=cast.shop, currency="NOK", valid_from=date(2026, 11, 2), rate="0.0861")
    hours = Calendar.objects.create(shop=cast.shop, valid_from=date(2099, 1, 1), week={"mon": [["08:00", "12:00"]]})
    closed_day = ClosedDay.objects.create(shop=cast.shop, date=date(2099, 1, 1), reason=f"Feast of {name}")
    car = VehicleFactory(shop=cast.shop, customer=customer)
    job = JobFactory(shop=cast.shop, number=900_001, customer=customer, vehicle=car)
    away = AWAY | {"starts_after": "", "needed_by": ""}
    job_step = JobOperationFactory(shop=cast.shop, job=job, sheet={"outside": [away]})
    _granted(client.post(f"jobs/{job.pk}/outside", SENT_OUT))
    facts = {"customer": name, "vehicle": "Tessark T35 estate", "kits": {"KIT": "Kit"}, "circuits": [COOLANT]}
    pull_list = PullListFactory(shop=cast.shop, job=job, facts=facts)
    pull_line = PullLineFactory(shop=cast.shop, pull_list=pull_list)
    paid = {"amount": "417.00", "received_on": "2026-01-05", "means": "card", "reference": f"Slip of {name}"}
    payment = _granted(client.post(f"jobs/{job.pk}/payments", paid))["payments"][0]["id"]
    core = _granted(client.post(f"jobs/{job.pk}/core-returns", CORE | {"title": f"Core of {name}"}))["cores"][0]["id"]
    happened = _happened(client, fields)
    file = io.BytesIO(f"Name;Phone\n{name} Again;01632 960 402\n".encode())
    file.name = "list.csv"
    file_answer = _granted(client.post("imports", {"kind": "customers", "file": file}, format="multipart"))
    step = _granted(client.post(f"imports/{file_answer['id']}/steps", ANSWERED))
    address = f"{vin.lower()}@people.example"
    member, _ = set_member(shop=cast.shop, email=address, name=f"Member {vin}", role="technician", password=None)
    ordered = {"supplier": name, "lines": [{"number": vin, "title": name, "quantity": "1", "unit": "pc", "for": ""}]}
    content = {"suppliers": [ordered], "outside": [], "text": name}
    release = Release.objects.create(
        shop=cast.shop, job=job, released_at=timezone.now(), released_by=member, content=content
    )
    _granted(client.post("people/invitations", {"email": f"new-{address}", "role": "parts"}))
    day = str(timezone.now().date() + timedelta(days=9))
    program = {"title": f"Program {vin}", "member": str(member.pk), "areas": ["quotes"], "expires_on": day}
    token = _granted(client.post("tokens", program))["token"]["id"]
    with override_settings(WEBHOOK_PRIVATE_TARGETS=True):  # so that no name server is asked
        hook = {"title": f"Webhook {vin}", "url": f"https://127.0.0.1/{vin}", "events": ["quote.declined"]}
        webhook = _granted(client.post("webhooks", hook))["webhook"]["id"]
    message = _granted(client.post(f"webhooks/{webhook}/trial"))["id"]
    return Rows(
        customer=customer,
        namesake=str(CustomerFactory(shop=cast.shop, name=f"{name} Junior").pk),
        vehicle=vehicle,
        kit=stage.turbo,
        part=pull_line.part,
        draft=draft,
        draft_line=lines.get(kind="kit"),
        hand_written=str(lines.get(kind="text").pk),
        outside=draft["outside"][0]["line"],
        choice=draft["choices"][0]["id"],
        option=draft["choices"][0]["options"][0]["id"],
        sent=sent["quote"],
        second=second["id"],
        link=link,
        question=question,
        job=job,
        payment=payment,
        core=core,
        happened=happened,
        release=str(release.pk),
        list=pull_list,
        line=pull_line,
        file=file_answer["id"],
        step=step["steps"][0]["id"],
        job_step=str(job_step.pk),
        replaced=str(PartFactory(shop=cast.shop, number=f"old {vin}", superseded_by=pull_line.part).pk),
        supplier=SupplierFactory(shop=cast.shop, name=f"Supplier of {name}", columns=TAUGHT),
        operation=OperationFactory(shop=cast.shop, code=f"op {vin}"),
        template=LabourTemplate.objects.create(shop=cast.shop, code=f"template {vin}"),
        pack=PackFactory(shop=cast.shop, consumable__shop=cast.shop, number=f"pack {vin}"),
        rules=rules,
        closed_day=str(closed_day.pk),
        later_hours=str(hours.pk),
        rate=str(rate.pk),
        mail=mail["id"],
        member=member,
        sign_in=str(session_id(new_session(member.user))),
        pin=str(set_pin(user=member.user, hashed="x", device="", agent="", now=timezone.now())[0].pk),
        token=token,
        feed=_granted(client.post("calendar-feeds", {"title": f"Calendar {vin}"}))["feed"]["id"],
        webhook=webhook,
        webhook_message=message,
        invitation=str(EntryLink.objects.get(shop=cast.shop).pk),
    )


def _granted(answer: Any) -> dict[str, Any]:
    assert answer.status_code in (200, 201), answer.content
    body: dict[str, Any] = answer.json()
    return body
