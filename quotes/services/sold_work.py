"""Opens the job and the pull list of an acceptance, from the frozen text alone."""

from collections.abc import Mapping, Sequence
from datetime import date, datetime
from decimal import Decimal
from typing import Any
from uuid import UUID

from kitting.calc.contents import PullNeed
from kitting.services.pull_lists import open_pull_list
from quotes.calc.plan import first_steps
from quotes.models import Line, Quote, Revision
from quotes.queries import frozen
from quotes.queries.choices import taken_lines
from quotes.queries.loading import template_sheet
from shop.access import Actor
from shop.calc.placing import free_code
from shop.calc.sheet import merged_sheet
from shop.models import Agreement, Customer, Operation, TemplateStep, Vehicle
from shop.services.jobs import SoldOperation, open_job

EXPLAINED = ("title", "rule", "steps", "result")
PROMISED_FROM = ("after", "wait_after", "no_return", "mobile_again")


def open_sold_work(
    actor: Actor,
    quote: Quote,
    revision: Revision,
    document: Mapping[str, Any],
    now: datetime,
    promise: Mapping[str, Any] | None,
    not_before: date | None,
) -> Agreement:
    """Opens job and pull list for the customer and vehicle of the frozen text, whatever a later draft says.

    The vehicle comes on the day that the customer saw, even if that day was only proposed.
    """
    bring = promise and promise["bring"]
    customers = Customer.objects.filter(shop=quote.shop).select_related("merged_into")
    quote.customer = customers.get(pk=document["customer"]["id"]).standing
    quote.vehicle = Vehicle.objects.get(shop=quote.shop, pk=document["vehicle"]["id"])
    lines = list(taken_lines(revision, frozen.selection_of(document)))
    kits = [line.kit_revision for line in lines if line.kit_revision is not None]
    sold = sold_operations(quote, [kit.labour_id for kit in kits], document, chosen_operations(lines))
    firsts = first_steps([(sold_operation.code, sold_operation.sheet["kits"]) for sold_operation in sold])
    agreement = open_job(
        actor=actor,
        customer=quote.customer,
        vehicle=quote.vehicle,
        operations=sold,
        here=revision.here,
        here_from=date.fromisoformat(bring["day"]) if bring else revision.here_from,
        promised_on=date.fromisoformat(promise["ready"]["day"]) if promise else None,
        not_before=not_before,
        now=now,
    )
    open_pull_list(
        actor=actor,
        agreement=agreement,
        kits=kits,
        needs=[*pull_needs(document, [sold_operation.code for sold_operation in sold], firsts), *loose_parts(lines)],
        vehicle_attributes=dict(document["vehicle"]["attributes"]),
        now=now,
        circuits=document.get("circuits", ()),
        firsts=[firsts.get(sold_kit["letter"], "") for sold_kit in document["shown"]["kits"]],
        supplied=supplied_kits(lines),
    )
    return agreement


def supplied_kits(lines: Sequence[Line]) -> list[bool]:
    """For each kit among the lines, whether the customer brings it."""
    return [line.supplied for line in lines if line.kit_revision_id is not None]


def loose_parts(lines: Sequence[Line]) -> list[PullNeed]:
    """Loose parts as lines of the pull list, without those that the customer brings."""
    return [
        PullNeed(
            line.part.pk,
            line.part.number,
            line.part.title,
            line.quantity,
            line.part.unit,
            detail={"item": f"extra:{line.pk}"},
        )
        for line in lines
        if line.part is not None and not line.supplied
    ]


def chosen_operations(lines: Sequence[Line]) -> dict[str, Operation]:
    """The operations of the labour lines that a person put on the quote, by code."""
    return {line.operation.code: line.operation for line in lines if line.is_chosen_labour and line.operation}


def sold_operations(
    quote: Quote, templates: list[Any], document: Mapping[str, Any], chosen: Mapping[str, Operation]
) -> list[SoldOperation]:
    """The sold operations in order, each with the facts of its template and its operation.

    `chosen` are those that a person put on the quote, by code.

    The facts that the date depends on come from the frozen plan; for a text without a plan, from the templates.
    """
    rows = TemplateStep.objects.filter(shop=quote.shop, template__in=[t for t in templates if t])
    steps: dict[Any, list[TemplateStep]] = {template: [] for template in templates}
    for step in rows.select_related("operation").order_by("template", "position"):
        steps[step.template_id].append(step)
    attributes = dict(document["vehicle"]["attributes"])
    sheet = merged_sheet([template_sheet(template_steps, attributes) for template_steps in steps.values()])
    after = {step.code: list(step.after) for step in sheet}
    by_code = {step.operation.code: step for group in reversed(list(steps.values())) for step in group}
    planned = {step["code"]: step for step in document["plan"]["steps"]} if "plan" in document else {}
    worked, wheels = frozen.kept_hours(document), document["rules"].get("wheel_check") or {}
    titles = {kit["letter"]: kit["title"] for kit in document["shown"]["kits"]}
    sold: list[SoldOperation] = []
    codes: dict[str, str] = {}
    for operation in document["shown"]["labour"]["operations"]:
        code = operation["key"].removeprefix("labour:")
        planned_step = by_code.get(code)
        done = planned_step.operation if planned_step else chosen.get(code)
        job_sheet = _sheet(operation, done, planned_step.stage if planned_step else "", after.get(code, []))
        job_sheet["kit_titles"] = [titles[letter] for letter in operation["kits"] if letter in titles]
        job_sheet |= {name: planned[code][name] for name in PROMISED_FROM if code in planned}
        if code in wheels.get("operations", ()):
            job_sheet["wheel_check"] = wheels["after"]
        job_sheet["item"] = operation["key"]  # by which a change can take it off
        if operation["key"] in worked:
            job_sheet["how"] = {name: worked[operation["key"]][name] for name in EXPLAINED}
        short = free_code(code, {other.code for other in sold})
        codes[code] = short
        sold.append(
            SoldOperation(
                short, operation["title"][:200], Decimal(operation["hours"]), job_sheet, done.pk if done else None
            )
        )
    _send_out(sold, document, codes)
    return sold


def _send_out(work: Sequence[SoldOperation], document: Mapping[str, Any], codes: Mapping[str, str]) -> None:
    """Adds outside work to the step that needs it, else to the one it starts after, else to the first."""
    at = {operation.code: operation for operation in work}
    needs = {work["key"]: work["they_need"] for work in document["shown"].get("outside", ())}
    for away in document.get("plan", {}).get("outside", ()):
        starts, needed = (codes.get(away[name], away[name]) for name in ("starts_after", "needed_by"))
        step = at.get(needed) or at.get(starts) or next(iter(work), None)
        if step is not None:
            outside = {**away, "starts_after": starts, "needed_by": needed}
            outside["they_need"] = needs.get(away["code"], "")
            step.sheet.setdefault("outside", []).append(outside)


def _sheet(sold: Mapping[str, Any], operation: Operation | None, stage: str, after: list[str]) -> dict[str, Any]:
    why = [] if sold["override"] else sold["why"]  # the reason for a person's own figure stays at the counter
    sheet: dict[str, Any] = {"skill": sold["skill"], "kits": sold["kits"], "why": why, "after": after}
    if operation is not None:
        sheet |= {
            "stage": stage,
            "wait_after": operation.wait_after,
            "no_return": operation.no_return,
            "mobile_again": operation.mobile_again,
            "hold_point": operation.hold_point,
        }
    return sheet


def _needed_for(
    need: Mapping[str, Any], document: Mapping[str, Any], work: Sequence[str], firsts: Mapping[str, str]
) -> str:
    """The code of the step that needs it first, as in the frozen plan: its own, else the first of its kits."""
    awaited = document.get("plan", {}).get("coming", ())
    waiting = {coming["operation"] for coming in awaited if coming["title"] == need["title"]} & set(work)
    candidates = waiting or ({need["operation"]} & set(work)) or {firsts[kit] for kit in need["kits"] if kit in firsts}
    return min(candidates, key=work.index, default="")


def pull_needs(document: Mapping[str, Any], work: Sequence[str], firsts: Mapping[str, str]) -> list[PullNeed]:
    """Every need as whole packs or pieces from the shelf, including those that shop supplies cover."""
    return [
        PullNeed(
            part_id=UUID(pack["part"]),
            number=pack["number"],
            title=pack["title"],
            quantity=Decimal(pack["count"]),
            unit="pc",
            operation=_needed_for(need, document, work, firsts),
            detail={
                "item": need["key"],
                "need": need["title"],
                "quantity": need["quantity"],
                "unit": need["unit"],
                "size": pack["size"],
                "charge": need["charge"],
            },
        )
        for need in document["shown"]["needs"]
        for pack in need["packs"]
    ]
