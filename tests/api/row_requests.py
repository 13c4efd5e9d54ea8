"""A request for each row of a shop that its own manager is granted."""

from kitting.queries.memories import memories
from kitting.queries.supersessions import MARKS
from tests.api.asked import Asked
from tests.api.bodies import (
    ANSWERED,
    CORE,
    COUNTED,
    KIT,
    OPERATION,
    OUTSIDE,
    PACK,
    PAID,
    SEIZED,
    SENT_OUT,
    TOLD,
    WORKED,
)
from tests.api.shop_rows import Rows
from tests.calc.test_pictures import jpeg


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
    shipment = {"text": rows.part.number, "freight": "10.00"}
    person, webhook = {"id": str(rows.member.pk)}, {"id": rows.webhook}
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
        Asked("delete", "calendar-feeds/{id}", {"id": rows.feed}),
        Asked("delete", "tokens/{id}", {"id": rows.token}),
        Asked("delete", "webhooks/{id}", webhook),
        Asked("post", "webhooks/{id}/address", webhook, {"url": "https://11.0.0.1/"}),
        Asked("put", "webhooks/{id}/state", webhook, {"on": False}),
        Asked("post", "webhooks/{id}/secret", webhook),
        Asked("post", "webhooks/{id}/trial", webhook),
        Asked("get", "webhooks/{id}/messages", webhook),
        Asked("post", "webhooks/{id}/messages/{message}/again", webhook | {"message": rows.webhook_message}),
        Asked("get", "customers/{id}", customer),
        Asked("get", "customers/{id}/merge", customer, {"other": rows.namesake}),
        Asked("post", "customers/{id}/merge", customer, {"other": rows.namesake, "version": 1, "other_version": 1}),
        Asked("patch", "customers/{id}", customer, {"name": "Somebody Else"}, 1),
        Asked("get", "vehicles/{id}", vehicle),
        Asked("get", "vehicles/{id}/owners", vehicle),
        Asked("post", "vehicles/{id}/owners", vehicle, {"customer": rows.namesake, "since": "2026-01-05"}),
        Asked("patch", "vehicles/{id}", vehicle, {"plate": "ZZ 1"}, 1),
        Asked("get", "kits/{id}", {"id": str(rows.kit.pk)}),
        Asked("get", "kits/{id}/contents", {"id": str(rows.kit.pk)}),
        Asked("get", "kits/{id}/changes", {"id": str(rows.kit.pk)}),
        Asked("get", "kits/{id}/price-range", {"id": str(rows.kit.pk)}),
        Asked("put", "kits/{id}", {"id": str(rows.kit.pk)}, KIT | {"fitted_before": 3}, 1),
        Asked("get", "kits/{id}/cost", {"id": str(rows.kit.pk)}),
        Asked("put", "kits/{id}/cost", {"id": str(rows.kit.pk)}, {"cost": "7.50"}, 1),
        Asked("patch", "kits/{id}", {"id": str(rows.kit.pk)}, {"archived": True}, 1),
        Asked("post", "kits/{id}/duplicates", {"id": str(rows.kit.pk)}, {"code": "K-2", "title": "Another"}),
        Asked("get", "kits/{id}/first-counts", {"id": str(rows.kit.pk)}),
        Asked("post", "kits/{id}/first-counts", {"id": str(rows.kit.pk)}, COUNTED),
        Asked("get", "replaced-numbers/{id}", {"id": rows.replaced}),
        Asked("delete", "replaced-numbers/{id}", {"id": rows.replaced}, None, rows.part.pk.int % MARKS),
        Asked("get", "suppliers/{id}", supplier),
        Asked("patch", "suppliers/{id}", supplier, {"contact": "Ask for Una"}, 1),
        Asked("delete", "suppliers/{id}/memories/{memory}", supplier | {"memory": memories(rows.supplier)[0].key}),
        Asked("post", "suppliers/{id}/shipments", supplier, shipment),
        Asked("post", "suppliers/{id}/shipments/reading", supplier, shipment),
        Asked("get", "consumables/{id}", consumable),
        Asked("put", "consumables/{id}", consumable, {"family": "grease"}, 1),
        Asked("get", "consumables/{id}/offers", consumable),
        Asked("post", "consumables/{id}/packs", consumable, PACK | {"number": "GR-1"}),
        Asked("put", "consumables/{id}/packs/{pack}", pack, PACK, 1),
        Asked("patch", "consumables/{id}/packs/{pack}", pack, {"archived": True}, 1),
        Asked("patch", "consumables/{id}", consumable, {"archived": True}, 1),
        Asked("get", "templates/{id}", template),
        Asked("patch", "templates/{id}", template, {"archived": True}, 1),
        Asked("post", "templates/{id}/versions", template, {"steps": [{"operation": rows.operation.code}]}),
        Asked("get", "operations/{id}", operation),
        Asked("put", "operations/{id}", operation, OPERATION, 1),
        Asked("patch", "operations/{id}", operation, {"archived": True}, 1),
        Asked("get", "rules/{id}", {"id": str(rows.rules.pk)}),
        Asked("delete", "opening-hours/{id}", {"id": rows.later_hours}),
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
        Asked(
            "get", "jobs/{id}/releases/{release}/ubl", job | {"release": rows.release}, {"supplier": rows.customer.name}
        ),
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
        Asked("get", "pull-lists/{id}/orders/file", listed),
        Asked("get", "pull-lists/{id}/paper", listed),
        Asked("get", "pull-lists/{id}/file", listed),
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
        Asked("get", "quotes/{id}/ubl", sent),
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
    requests += [("replaced-numbers", {})]
    requests += [
        ("money", {"month": "2026-01"}),
        ("owed", {}),
        ("people", {}),
        ("tokens", {}),
        ("webhooks", {}),
        ("calendar-feeds", {}),
        ("rules", {}),
        ("rules/in-force", {}),
    ]
    requests += [("opening-hours", {}), ("exchange-rates", {}), ("holidays", {}), ("start", {})]
    requests += [("lists", {"kind": kind, "format": "csv"}) for kind in ("customers", "vehicles")]
    requests += [("vehicles", {}), ("changes", {}), ("outside-work", {}), ("vehicles/vin", {"vin": rows.vehicle.vin})]
    requests += [("find", {"q": text}) for text in (rows.customer.name, rows.vehicle.vin, rows.kit.title)]
    requests += [("find", {"q": text}) for text in (rows.part.number, str(rows.job), rows.draft["number"])]
    return [Asked("get", path, {}, query) for path, query in requests]
