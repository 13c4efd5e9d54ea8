"""Requests whose body, query or last part of the path names a row."""

from shop.models import RuleSet
from tests.api.asked import Asked
from tests.api.bodies import CANCEL, OUTSIDE, WORKED
from tests.api.shop_rows import Rows
from tests.calc.test_pictures import jpeg

MERGED = {"version": 1, "other_version": 1}


def naming_a_row(rows: Rows, own: Rows) -> list[Asked]:
    """Requests of the shop that has `mine`, whose body, query or last part of the path names one of `rows`."""
    customer, vehicle, kit = str(rows.customer.pk), str(rows.vehicle.pk), str(rows.kit.pk)
    draft, version = {"id": own.draft["id"]}, own.draft["version"]
    own_vehicle, foreign_line = {"id": str(own.vehicle.pk)}, draft | {"line": rows.hand_written}
    foreign_picture = draft | {"photograph": rows.draft["photographs"][0]["id"]}
    own_line, own_choice = draft | {"line": own.hand_written}, draft | {"choice": own.choice}
    theirs_taken = {"title": "x", "lines": [rows.hand_written]}
    own_customer = {"id": str(own.customer.pk)}
    rules = RuleSet.objects.filter(shop=own.vehicle.shop).latest("number")
    example = {"base": str(rules.pk), "valid_from": "2099-01-01", "quote": rows.draft["id"]}
    hours_example = {"week": [{"day": "mon", "spans": [{"opens": "8", "closes": "12"}]}], "quote": rows.draft["id"]}
    rate_example = {"currency": "NOK", "rate": "0.09", "quote": rows.draft["id"]}
    part = {"kind": "part", "part": str(rows.part.pk), "quantity": "1"}
    program = {"title": "x", "member": str(rows.member.pk), "areas": ["quotes"], "expires_on": "2027-01-05"}
    return [
        Asked("post", "tokens", {}, program),
        Asked("get", "kits", {}, {"vehicle": vehicle}),
        Asked("get", "pull-lists", {}, {"job": str(rows.job.pk)}),
        Asked("get", "vehicles", {}, {"customer": customer}),
        Asked("post", "quotes", {}, {"kits": [kit]}),
        Asked("post", "quotes", {}, {"parts": [part["part"]]}),
        Asked("post", "quotes", {}, {"customer": customer}),
        Asked("post", "quotes", {}, {"vehicle": vehicle}),
        Asked("patch", "quotes/{id}", draft, {"customer": customer}, version),
        Asked("patch", "quotes/{id}", draft, {"vehicle": vehicle}, version),
        Asked("post", "quotes/{id}/lines", draft, {"kind": "kit", "kit": kit}),
        Asked("post", "quotes/{id}/lines", draft, part),
        Asked("patch", "quotes/{id}/lines/{line}", foreign_line, {"title": "Wax"}, version),
        Asked("delete", "quotes/{id}/lines/{line}", foreign_line, None, version),
        Asked("post", "quotes/{id}/lines/{line}/photographs", foreign_line, {"file": jpeg(), "caption": "A bracket"}),
        Asked("get", "quotes/{id}/photographs/{photograph}/picture", foreign_picture),
        Asked("patch", "quotes/{id}/photographs/{photograph}", foreign_picture, {"shown": True}, version),
        Asked("delete", "quotes/{id}/photographs/{photograph}", foreign_picture, None, version),
        Asked("patch", "quotes/{id}/contingencies/{line}", foreign_line, {"event": "It rains", "cap": 2}, version),
        Asked("delete", "quotes/{id}/contingencies/{line}", foreign_line, None, version),
        Asked("post", "quotes/{id}/contingencies", draft, {"event": "It rains", "cap": 1, "part": part["part"]}),
        Asked("put", "quotes/{id}/outside/{line}", draft | {"line": rows.outside}, OUTSIDE, version),
        Asked("patch", "quotes/{id}/lines/{line}", own_line, {"option": rows.option}, version),
        Asked("post", "quotes/{id}/choices", draft, {"title": "x", "take": "any", "options": [theirs_taken]}),
        Asked("post", "quotes/{id}/choices/{choice}/options", own_choice, theirs_taken),
        Asked("post", "quotes/{id}/choices/{choice}/options", draft | {"choice": rows.choice}, {"title": "x"}),
        Asked("patch", "quotes/{id}/choices/{choice}", draft | {"choice": rows.choice}, {"title": "x"}, version),
        Asked("delete", "quotes/{id}/choices/{choice}", draft | {"choice": rows.choice}, None, version),
        Asked("patch", "quotes/{id}/options/{option}", draft | {"option": rows.option}, {"title": "x"}, version),
        Asked("delete", "quotes/{id}/options/{option}", draft | {"option": rows.option}, None, version),
        Asked("delete", "quotes/{id}/links/{link}", {"id": own.sent["id"], "link": str(rows.link.pk)}),
        Asked("post", "quotes/{id}/mails/{mail}/decision", {"id": own.sent["id"], "mail": rows.mail}, CANCEL),
        Asked(
            "post",
            "quotes/{id}/questions/{question}/reply",
            {"id": own.sent["id"], "question": str(rows.question.pk)},
            {"reply": "Yes."},
        ),
        Asked("post", "jobs/{id}/steps/{step}/hours", {"id": str(own.job.pk), "step": rows.job_step}, WORKED),
        Asked("post", "jobs/{id}/steps/{step}/done", {"id": str(own.job.pk), "step": rows.job_step}, {}),
        Asked("post", "jobs/{id}/steps/{step}/done/undo", {"id": str(own.job.pk), "step": rows.job_step}, {}),
        Asked(
            "post",
            "jobs/{id}/payments/{payment}/reversal",
            {"id": str(own.job.pk), "payment": rows.payment},
            {"reason": "Twice"},
        ),
        Asked(
            "post",
            "jobs/{id}/core-returns/{core}/reversal",
            {"id": str(own.job.pk), "core": rows.core},
            {"reason": "Twice"},
        ),
        Asked("post", "jobs/{id}/occurrences", {"id": own.happened["job"]}, {"line": rows.happened["line"]}),
        Asked(
            "post",
            "jobs/{id}/occurrences/{occurrence}/reversal",
            {"id": own.happened["job"], "occurrence": rows.happened["occurrence"]},
            {},
        ),
        Asked(
            "post",
            "jobs/{id}/occurrences/{occurrence}/photographs",
            {"id": own.happened["job"], "occurrence": rows.happened["occurrence"]},
            {"file": jpeg()},
        ),
        Asked(
            "get",
            "jobs/{id}/photographs/{photograph}",
            {"id": own.happened["job"], "photograph": rows.happened["photograph"]},
        ),
        Asked("get", "customers/{id}/merge", own_customer, {"other": rows.namesake}),
        Asked("post", "customers/{id}/merge", own_customer, {"other": rows.namesake} | MERGED),
        Asked("post", "vehicles/{id}/owners", own_vehicle, {"customer": rows.namesake, "since": "2026-01-05"}),
        Asked("post", "exchange-rates/example", {}, rate_example),
        Asked("post", "rules/example", {}, example),
        Asked("post", "opening-hours/example", {}, hours_example),
        Asked("post", "holidays/example", {}, {"days": [{"date": "2099-01-01"}], "quote": rows.draft["id"]}),
        Asked("post", "closed-days/example", {}, {"first": "2099-01-01", "quote": rows.draft["id"]}),
        Asked("post", "vehicles", {}, {"title": "Tessark T35 estate", "customer": customer}),
        Asked("patch", "vehicles/{id}", own_vehicle, {"customer": customer}, 1),
    ]
