"""One real row of each kind in a shop, and a request for each of them that its own manager is granted."""

import io
from dataclasses import dataclass
from datetime import date
from typing import Any

from django.utils import timezone

from kitting.models import Part, PullLine, PullList, Supplier
from kitting.queries.memories import memories
from quotes.models import Line, Link, Question
from quotes.services.questions import ask
from shop.calc.keys import search_key
from shop.models import ClosedDay, EntryLink, Job, LabourTemplate, Member, Operation, RuleSet
from shop.services.people import set_member
from shop.services.pins import set_pin
from shop.sessions import session_id
from tests.api.asked import Asked, upload
from tests.calc.test_pictures import jpeg
from tests.cast import Cast, new_session
from tests.client import CheckedClient
from tests.factories import (
    CustomerFactory,
    JobFactory,
    JobOperationFactory,
    OperationFactory,
    PackFactory,
    PullLineFactory,
    PullListFactory,
    SupplierFactory,
    VehicleFactory,
)
from tests.quotes.phone import Phone
from tests.quotes.stage import RULES, make_stage

COOLANT = {
    "of": "coolant",
    "title": "Coolant concentrate, organic acid, ethylene glycol",
    "glycol": "ethylene",
    "capacity": "14.2",
    "added": "0.4",
    "target": "0.5",
    "residual": "0.42",
    "drained": "9.23",
    "drained_share": "0.65",
    "premix": "0.5",
    "order_allowance": "0.05",
    "top_up": "0.5",
}


WORKED = {"hours": "0.5", "reason": "Begun only"}
PAID = {"amount": "10.00", "received_on": "2026-01-05", "means": "cash"}
CORE = {"title": "Turbocharger", "amount": "10.00", "returned_on": "2026-01-05"}
AWAY = {"code": "outside:1", "title": "Calibration", "firm": "Lathe & Lambda", "days": 3}
SENT_OUT = {"work": "outside:1", "kind": "sent", "happened_on": "2026-11-24"}
TOLD = {"ready_on": "2026-12-14", "words": "We expect it on Monday.", "means": "phone"}
ANSWERED = {"do": "answer", "question": "sections", "text": "bag"}
OPERATION = {"title": "Measure", "skill": "mechanical", "hours": "0.4"}
TAUGHT = {"kit": {"number": "Art."}}
PACK = {"title": "A tin", "pack_size": "1"}
CANCEL = {"decision": "cancel"}
SEIZED = {"event": "A bolt is seized", "title": "Drive it out", "skill": "mechanical", "cap": 2}
OUTSIDE = {"title": "Calibration", "firm": "Lathe & Lambda", "cost": "480.00", "tax_class": "labour", "days": 3}


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
    list: PullList
    line: PullLine
    file: str
    step: str
    job_step: str
    operation: Operation
    pack: Part
    template: LabourTemplate
    supplier: Supplier
    rules: RuleSet
    closed_day: str
    mail: str
    member: Member
    sign_in: str
    pin: str
    invitation: str

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
        ids += [self.mail, str(self.member.pk), self.invitation, self.payment, self.core, *self.happened.values()]
        ids += [self.closed_day]
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
    """The ids of a quote, its job, its line that was agreed in case that it happens, and a record of that."""
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
    _granted(client.post("people/invitations", {"email": f"new-{address}", "role": "parts"}))
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
        list=pull_list,
        line=pull_line,
        file=file_answer["id"],
        step=step["steps"][0]["id"],
        job_step=str(job_step.pk),
        supplier=SupplierFactory(shop=cast.shop, name=f"Supplier of {name}", columns=TAUGHT),
        operation=OperationFactory(shop=cast.shop, code=f"op {vin}"),
        template=LabourTemplate.objects.create(shop=cast.shop, code=f"template {vin}"),
        pack=PackFactory(shop=cast.shop, consumable__shop=cast.shop, number=f"pack {vin}"),
        rules=rules,
        closed_day=str(closed_day.pk),
        mail=mail["id"],
        member=member,
        sign_in=str(session_id(new_session(member.user))),
        pin=str(set_pin(user=member.user, hashed="x", device="", agent="", now=timezone.now())[0].pk),
        invitation=str(EntryLink.objects.get(shop=cast.shop).pk),
    )


def _granted(answer: Any) -> dict[str, Any]:
    assert answer.status_code in (200, 201), answer.content
    body: dict[str, Any] = answer.json()
    return body


def for_each_row(rows: Rows) -> list[Asked]:
    """A sound request for every path of a shop's row: only whose row it is can make it fail."""
    customer, vehicle = {"id": str(rows.customer.pk)}, {"id": str(rows.vehicle.pk)}
    draft, sent, version = {"id": rows.draft["id"]}, {"id": rows.sent["id"]}, rows.draft["version"]
    job, listed, file = {"id": str(rows.job.pk)}, {"id": str(rows.list.pk)}, {"id": rows.file}
    line, key = draft | {"line": rows.hand_written}, draft | {"key": f"kit:{rows.draft_line.pk}"}
    picture = draft | {"photograph": rows.draft["photographs"][0]["id"]}
    away, oil = draft | {"line": rows.outside}, draft | {"item": rows.draft["needs"][0]["item"]}
    happening = {"id": rows.happened["job"]}
    operation, supplier = {"id": str(rows.operation.pk)}, {"id": str(rows.supplier.pk)}
    template = {"id": str(rows.template.pk)}
    consumable = {"id": str(rows.pack.consumable_id)}
    pack = consumable | {"pack": str(rows.pack.pk)}
    photographed = happening | {"photograph": rows.happened["photograph"]}
    job_step = job | {"step": rows.job_step}
    record = happening | {"occurrence": rows.happened["occurrence"]}
    choice, option = draft | {"choice": rows.choice}, draft | {"option": rows.option}
    link = sent | {"link": str(rows.link.pk)}
    due = {"lines": [str(rows.line.pk)], "day": "2027-01-11", "time": "10:00"}
    seen_text = {"digest": rows.sent["digest"]}
    withdrawn = {"revision": 1} | seen_text
    facts = sent | {"question": str(rows.question.pk)}
    answer = {"answer": "declined", "way": "counter", "name": "Tilda Quarrender"}
    person = {"id": str(rows.member.pk)}
    return [
        Asked("patch", "people/{id}", person, {"role": "parts"}),
        Asked("delete", "people/{id}", person),
        Asked("post", "people/{id}/password-link", person),
        Asked("delete", "people/{id}/second-factor", person),
        Asked("get", "people/{id}/pins", person),
        Asked("delete", "people/{id}/pins/{pin}", person | {"pin": rows.pin}),
        Asked("get", "people/{id}/sign-ins", person),
        Asked("delete", "people/{id}/sign-ins", person),
        Asked("delete", "people/{id}/sign-ins/{sign_in}", person | {"sign_in": rows.sign_in}),
        Asked("delete", "people/invitations/{invitation}", {"invitation": rows.invitation}),
        Asked("get", "customers/{id}", customer),
        Asked("get", "customers/{id}/merge", customer, {"other": rows.namesake}),
        Asked("post", "customers/{id}/merge", customer, {"other": rows.namesake, "version": 1, "other_version": 1}),
        Asked("patch", "customers/{id}", customer, {"name": "Somebody Else"}, 1),
        Asked("get", "vehicles/{id}", vehicle),
        Asked("get", "vehicles/{id}/owners", vehicle),
        Asked("post", "vehicles/{id}/owners", vehicle, {"customer": rows.namesake, "since": "2026-01-05"}),
        Asked("patch", "vehicles/{id}", vehicle, {"plate": "ZZ 1"}, 1),
        Asked("get", "kits/{id}", {"id": str(rows.kit.pk)}),
        Asked("get", "kits/{id}/price-range", {"id": str(rows.kit.pk)}),
        Asked("patch", "kits/{id}", {"id": str(rows.kit.pk)}, {"fitted_before": 3}),
        Asked("get", "suppliers/{id}", supplier),
        Asked("patch", "suppliers/{id}", supplier, {"contact": "Ask for Una"}, 1),
        Asked("delete", "suppliers/{id}/memories/{memory}", supplier | {"memory": memories(rows.supplier)[0].key}),
        Asked("get", "consumables/{id}", consumable),
        Asked("put", "consumables/{id}", consumable, {"family": "grease"}, 1),
        Asked("get", "consumables/{id}/offers", consumable),
        Asked("post", "consumables/{id}/packs", consumable, PACK | {"number": "GR-1"}),
        Asked("put", "consumables/{id}/packs/{pack}", pack, PACK, 1),
        Asked("patch", "consumables/{id}/packs/{pack}", pack, {"archived": True}, 1),
        Asked("patch", "consumables/{id}", consumable, {"archived": True}, 1),
        Asked("get", "templates/{id}", template),
        Asked("post", "templates/{id}/versions", template, {"steps": [{"operation": rows.operation.code}]}),
        Asked("get", "operations/{id}", operation),
        Asked("put", "operations/{id}", operation, OPERATION, 1),
        Asked("patch", "operations/{id}", operation, {"archived": True}, 1),
        Asked("get", "rules/{id}", {"id": str(rows.rules.pk)}),
        Asked("delete", "closed-days/{id}", {"id": rows.closed_day}),
        Asked("get", "imports/{id}", file),
        Asked("get", "imports/{id}/lines", file),
        Asked("get", "imports/{id}/original", file),
        Asked("post", "imports/{id}/steps", file, ANSWERED),
        Asked("delete", "imports/{id}/steps/{step}", file | {"step": rows.step}),
        Asked("post", "imports/{id}/take-in", file),
        Asked("delete", "imports/{id}", file),
        Asked("get", "jobs/{id}", job),
        Asked("patch", "jobs/{id}", job, {"here": True}, 1),
        Asked("get", "jobs/{id}/account", job),
        Asked("post", "jobs/{id}/payments", job, PAID),
        Asked("post", "jobs/{id}/payments/{payment}/reversal", job | {"payment": rows.payment}, {"reason": "Twice"}),
        Asked("get", "jobs/{id}/call-off", job),
        Asked("post", "jobs/{id}/call-off", job, {"because": "Sold the vehicle"}),
        Asked("get", "jobs/{id}/extra-work", job),
        Asked("get", "jobs/{id}/changes", job),
        Asked("post", "jobs/{id}/changes", job, {}),
        Asked("put", "quotes/{id}/taken-off", draft, {"items": []}, version),
        Asked("post", "quotes/{id}/without-asking", sent, {"revision": 1} | seen_text),
        Asked("post", "jobs/{id}/core-returns", job, CORE),
        Asked("get", "jobs/{id}/occurrences", happening),
        Asked("post", "jobs/{id}/occurrences", happening, {"line": rows.happened["line"], "count": 2}),
        Asked(
            "post",
            "jobs/{id}/occurrences/{occurrence}/reversal",
            record,
            {},
        ),
        Asked("post", "jobs/{id}/occurrences/{occurrence}/photographs", record, {"file": jpeg()}),
        Asked("get", "jobs/{id}/photographs/{photograph}", photographed),
        Asked("post", "jobs/{id}/photographs/{photograph}/shown", photographed, {"shown": True}),
        Asked("get", "jobs/{id}/releases", job),
        Asked("post", "jobs/{id}/releases", job, {}),
        Asked("get", "jobs/{id}/told-dates", job),
        Asked("post", "jobs/{id}/told-dates", job, TOLD),
        Asked("post", "jobs/{id}/core-returns/{core}/reversal", job | {"core": rows.core}, {"reason": "Twice"}),
        Asked("post", "jobs/{id}/closing-account", job, {"due": "0.00"}),
        Asked("get", "jobs/{id}/closing-account/paper", job),
        Asked("get", "jobs/{id}/circuits", job),
        Asked("get", "jobs/{id}/outside", job),
        Asked("post", "jobs/{id}/outside", job, SENT_OUT),
        Asked("get", "jobs/{id}/readiness", job),
        Asked("post", "jobs/{id}/in-bay", job, {"day": "2026-11-24"}),
        Asked("post", "jobs/{id}/in-bay/undo", job, {"because": "Wrong job"}),
        Asked("post", "jobs/{id}/steps/{step}/done", job_step, {}),
        Asked("post", "jobs/{id}/steps/{step}/hours", job_step, WORKED),
        Asked("post", "jobs/{id}/steps/{step}/done/undo", job_step, {}),
        Asked("post", "jobs/{id}/hand-over", job, {"day": "2026-11-24"}),
        Asked("post", "jobs/{id}/hand-over/undo", job, {"because": "Wrong job"}),
        Asked("get", "pull-lists/{id}", listed),
        Asked("post", "pull-lists/{id}/close", listed, {"seq": 0}),
        Asked("post", "pull-lists/{id}/due", listed, due),
        Asked("get", "pull-lists/{id}/events", listed),
        Asked("post", "pull-lists/{id}/events", listed, {"events": []}),
        Asked("get", "pull-lists/{id}/orders", listed),
        Asked("get", "pull-lists/{id}/paper", listed),
        Asked("post", "pull-lists/{id}/reopen", listed),
        Asked("get", "pull-lists/{id}/report", listed),
        Asked("get", "quotes/{id}", draft),
        Asked("patch", "quotes/{id}", draft, {"here": True}, version),
        Asked("delete", "quotes/{id}", draft, None, version),
        Asked("post", "quotes/{id}/restore", draft),
        Asked("put", "quotes/{id}/discount", draft, {"percent": "5", "because": "A friend"}, version),
        Asked("delete", "quotes/{id}/discount", draft, None, version),
        Asked("get", "quotes/{id}/how", draft, {"key": "total"}),
        Asked("post", "quotes/{id}/lines", draft, {"kind": "kit", "kit": str(rows.kit.pk)}),
        Asked("patch", "quotes/{id}/lines/{line}", line, {"title": "Wax"}, version),
        Asked("delete", "quotes/{id}/lines/{line}", line, None, version),
        Asked("post", "quotes/{id}/lines/{line}/photographs", line, {"file": jpeg(), "caption": "A bracket"}),
        Asked("patch", "quotes/{id}/photographs/{photograph}", picture, {"shown": True}, version),
        Asked("delete", "quotes/{id}/photographs/{photograph}", picture, None, version),
        Asked("get", "quotes/{id}/photographs/{photograph}/picture", picture),
        Asked("post", "quotes/{id}/links", sent, {"recipient": "another"}),
        Asked("delete", "quotes/{id}/links/{link}", link),
        Asked("get", "quotes/{id}/mails", sent),
        Asked("post", "quotes/{id}/mails", sent, {"to": "x@mail.example", "recipient": "another"} | seen_text),
        Asked("post", "quotes/{id}/mails/{mail}/decision", sent | {"mail": rows.mail}, {"decision": "cancel"}),
        Asked("get", "quotes/{id}/margin", draft),
        Asked("post", "quotes/{id}/choices", draft, {"title": "Extras", "take": "any"}),
        Asked("patch", "quotes/{id}/choices/{choice}", choice, {"title": "Brakes"}, version),
        Asked("delete", "quotes/{id}/choices/{choice}", choice, None, version),
        Asked("post", "quotes/{id}/choices/{choice}/options", choice, {"title": "Track pads"}),
        Asked("patch", "quotes/{id}/options/{option}", option, {"title": "Track pads"}, version),
        Asked("delete", "quotes/{id}/options/{option}", option, None, version),
        Asked("post", "quotes/{id}/contingencies", draft, SEIZED),
        Asked("patch", "quotes/{id}/contingencies/{line}", line, {"event": "It rains", "cap": 2}, version),
        Asked("delete", "quotes/{id}/contingencies/{line}", line, None, version),
        Asked("get", "quotes/{id}/kits-outside", draft),
        Asked("post", "quotes/{id}/outside", draft, OUTSIDE),
        Asked("get", "quotes/{id}/outside/{line}", away),
        Asked("put", "quotes/{id}/outside/{line}", away, OUTSIDE, version),
        Asked("put", "quotes/{id}/charges/{item}", oil, {"charge": "used"}, version),
        Asked("put", "quotes/{id}/overrides/{key}", key, {"value": "900.00", "because": "A friend"}, version),
        Asked("delete", "quotes/{id}/overrides/{key}", key, None, version),
        Asked("get", "quotes/{id}/paper", sent),
        Asked("get", "quotes/{id}/receipt", {"id": rows.happened["quote"]}),
        Asked("get", "quotes/{id}/newer-rules", draft),
        Asked("get", "quotes/{id}/as-customer", sent),
        Asked("get", "quotes/{id}/difference", {"id": rows.second}),
        Asked("post", "quotes/{id}/part-list", draft, {"text": rows.part.number}),
        Asked("post", "quotes/{id}/part-list/reading", draft, {"text": rows.part.number}),
        Asked("post", "quotes/{id}/follow-ups", sent, {"outcome": "thinking"}),
        Asked("post", "quotes/{id}/copy", sent, {}),
        Asked("post", "quotes/{id}/undo", draft, {"version": version}),
        Asked("post", "quotes/{id}/redo", draft, {"version": version}),
        Asked("post", "quotes/{id}/revise", sent),
        Asked("post", "quotes/{id}/send", draft, {"version": version, "recipient": "another"}),
        Asked("post", "quotes/{id}/questions/{question}/reply", facts, {"reply": "Yes."}),
        Asked("get", "quotes/{id}/spoken-answer", sent),
        Asked("post", "quotes/{id}/spoken-answer", sent, withdrawn | answer),
        Asked("post", "quotes/{id}/withdraw", sent, withdrawn),
    ]


def for_each_list(rows: Rows) -> list[Asked]:
    """A request for every path that answers with many rows, as narrow as the row allows."""
    requests = [(path, {}) for path in ("counter", "customers", "imports", "jobs", "kits", "pull-lists", "quotes")]
    requests += [("consumables", {}), ("operations", {}), ("templates", {}), ("suppliers", {})]
    requests += [("money", {"month": "2026-01"}), ("owed", {}), ("people", {}), ("rules", {}), ("rules/in-force", {})]
    requests += [("opening-hours", {}), ("holidays", {}), ("start", {})]
    requests += [("lists", {"kind": kind, "format": "csv"}) for kind in ("customers", "vehicles")]
    requests += [("vehicles", {}), ("changes", {}), ("outside-work", {}), ("vehicles/vin", {"vin": rows.vehicle.vin})]
    requests += [("find", {"q": text}) for text in (rows.customer.name, rows.vehicle.vin, rows.kit.title)]
    requests += [("find", {"q": text}) for text in (rows.part.number, str(rows.job), rows.draft["number"])]
    return [Asked("get", path, {}, query) for path, query in requests]
