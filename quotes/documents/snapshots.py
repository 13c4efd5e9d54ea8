"""Writes the frozen text of a sent revision: everything shown, and the inputs of its totals.

Form 1 is one document. Form 2 holds the document of the first price, and under `combinations` those of the further
prices, for attributes that are not recorded and choices of the customer, with what they have in common written once.
Form 3 says in which language its words are.
"""

from datetime import datetime
from zoneinfo import ZoneInfo

from msgspec import to_builtins

from kitting.calc.circuits import circuit_json, sold_circuits
from kitting.calc.needs import CircuitAssumptions
from quotes.calc.choices import OfferedChoice
from quotes.calc.consents import terms_of
from quotes.calc.forms import FORM, FrozenContent
from quotes.calc.frozen import document_json
from quotes.calc.frozen_parts import FrozenCustomer, FrozenHouse, FrozenQuote, FrozenVehicle
from quotes.calc.kept_explanations import pack_explanations
from quotes.calc.packing import packed, without_common
from quotes.calc.plan import plan_json
from quotes.calc.quote_input import QuoteInput
from quotes.models import Revision
from quotes.presenters.explanations import explanations, hours_explained
from quotes.presenters.figures import figures_answer
from quotes.presenters.promise import dates_from, waits_words
from quotes.presenters.undecided import attributes_of, stated_words, title_of, unfit_words
from quotes.queries.ceilings import change_facts
from quotes.queries.line_photographs import line_photographs
from quotes.queries.pricing import Figures, QuoteFigures
from quotes.queries.promise import Opening, both_promises, draft_plan, hours_on
from shop.calc.quantity import money, plain
from shop.calc.rules import Rules
from shop.calc.snapshot import canonical
from shop.models import Customer, Shop, Vehicle
from shop.words.languages import language

CEILING_AMOUNTS = ("amount", "floor", "cap", "maximum")


def snapshot_text(revision: Revision, figures: QuoteFigures, *, sent_at: datetime, valid_until: datetime) -> str:
    """The canonical text. The customer's acceptance names its SHA-256."""
    opening = hours_on(revision.shop, sent_at)
    base = _document(revision, figures, sent_at, opening)
    return canonical(
        {
            "form": FORM,
            "language": language(),
            "shop": frozen_house(revision.shop),
            "quote": _quote(revision, sent_at, valid_until),
            **change_facts(revision),
            "customer": _customer(revision.quote.customer),
            "vehicle": _vehicle(revision.quote.vehicle),
            "condition": revision.condition,
            **({"note": revision.customer_note} if revision.customer_note else {}),
            **frozen_photographs(revision),
            **base,
            "combinations": _combinations(revision, figures, base, sent_at, opening),
        }
    )


def _document(
    revision: Revision,
    figures: Figures,
    sent_at: datetime,
    opening: Opening,
    base: FrozenContent | None = None,
) -> FrozenContent:
    """The part of the text that depends on the vehicle's attributes. Its sentences are numbered after the base's."""
    first = base or {"how": {"sentences": []}, "hours": {"sentences": []}}
    content = to_builtins(figures_answer(figures))
    return {
        "rules": _rules(revision, figures, sold_names(content)),
        "shown": content,
        "how": pack_explanations(to_builtins(explanations(figures)), first["how"]["sentences"]),
        "hours": pack_explanations(to_builtins(hours_explained(figures)), first["hours"]["sentences"]),
        "plan": _plan(revision, figures, sent_at, opening),
        "inputs": document_json(figures.priced.document),
        "circuits": _circuits(figures.loaded.input),
    }


def _combinations(
    revision: Revision, figures: QuoteFigures, base: FrozenContent, sent_at: datetime, opening: Opening
) -> FrozenContent | None:
    """The open attributes, the choices and every price; None if there is one price."""
    if len(figures.possible) == 1:
        return None
    titles = {kit.line: kit.title for kit in figures.loaded.input.kits}
    documents = [_document(revision, further, sent_at, opening, base) for further in figures.further]
    pieces, changes = packed(base, [without_common(base, document) for document in documents])
    return {
        "title": title_of(figures.open) if figures.open else "",
        "names": [attribute.title for attribute in attributes_of(figures.open)],
        **({"choices": [_choice(choice) for choice in figures.choices]} if figures.choices else {}),
        "pieces": pieces,
        "of": [
            {
                "stated": [[name, value] for name, value in possibility.stated],
                **({"selection": list(possibility.selection)} if figures.choices else {}),
                "words": stated_words(possibility.stated, figures.open),
                "unfit": unfit_words(titles[line] for line in possibility.unfit),
                "document": document,
            }
            for possibility, document in zip(figures.possible, (None, *changes), strict=True)
        ],
    }


def _choice(choice: OfferedChoice) -> FrozenContent:
    options = [{"id": option.id, "title": option.title} for option in choice.options]
    return {"id": choice.id, "title": choice.title, "take": choice.take, "options": options}


def frozen_house(shop: Shop) -> FrozenHouse:
    return {
        "name": shop.name,
        "phone": shop.phone,
        "currency": shop.currency,
        "exponent": shop.exponent,
        "zone": shop.zone,
        "address": shop.address,
        "email": shop.email,
        "registration": shop.registration,
        "tax_number": shop.tax_number,
    }


def _quote(revision: Revision, sent_at: datetime, valid_until: datetime) -> FrozenQuote:
    return {
        "number": str(revision.quote),
        "issue": revision.number,
        "sent_at": stamp(sent_at),
        "valid_until": stamp(valid_until),
        "valid_day": valid_until.astimezone(ZoneInfo(revision.shop.zone)).date().isoformat(),
    }


def _customer(customer: Customer | None) -> FrozenCustomer:
    assert customer is not None, "what is sent has a customer"
    return {"id": str(customer.pk), "name": customer.name, "address": customer.address, "phone": customer.phone}


def frozen_photographs(revision: Revision) -> FrozenContent:
    """The photographs that the customer sees, each with the SHA-256 of its small copy; empty without any."""
    photographs = [
        {
            "id": str(row.pk),
            "line": str(row.line_id),
            "caption": row.caption,
            "sha256": row.small.sha256,
            "width": row.width,
            "height": row.height,
        }
        for row in line_photographs(revision)
        if row.shown
    ]
    return {"photographs": photographs} if photographs else {}


def _vehicle(vehicle: Vehicle | None) -> FrozenVehicle:
    assert vehicle is not None, "what is sent has a vehicle"
    return {
        "id": str(vehicle.pk),
        "title": vehicle.title,
        "vin_tail": vehicle.vin[-6:],
        "plate": vehicle.plate,
        "attributes": [[name, value] for name, value in sorted(vehicle.attributes.items())],
    }


def _rules(revision: Revision, figures: Figures, sold: set[str]) -> FrozenContent:
    """The terms of the rule set, with the cautions that concern what is sold."""
    rules = figures.loaded.input.rules
    return {
        "number": revision.rules.number,
        "valid_from": revision.rules.valid_from.isoformat(),
        "prices_include_tax": rules.prices_include_tax,
        "standing": list(rules.standing_words),
        "offer": rules.offer,
        "cautions": [caution.text for caution in rules.cautions if caution.concerns(sold)],
        **terms_of(rules, begins=not revision.quote.additional or revision.lines.exists()),
        "not_included": list(rules.not_included),
        "bring": list(rules.bring_words),
        "ceiling": {
            "kind": rules.ceiling.kind,
            "share": plain(rules.ceiling.share * 100),
            **{name: money(getattr(rules.ceiling, name), revision.shop.exponent) for name in CEILING_AMOUNTS},
        },
        "payment": list(rules.deposit.how_to_pay) if rules.deposit else [],
        "wheel_check": _wheel_check(rules, figures),
        "retention_years": rules.retention_months // 12,
        "retention_months": rules.retention_months,
    }


def _wheel_check(rules: Rules, figures: Figures) -> FrozenContent | None:
    """The distance after which wheel fasteners are checked again, and the operations that remove wheels."""
    sold = [
        operation.code for operation in figures.priced.operations if operation.code in figures.loaded.sheet.wheels_off
    ]
    return {"after": rules.wheel_check, "operations": sold} if rules.wheel_check and sold else None


def sold_names(content: FrozenContent) -> set[str]:
    """The codes of a quote's kits and operations, and the skills of its work."""
    operations = content["labour"]["operations"]
    codes = {operation["key"].removeprefix("labour:") for operation in operations}
    return codes | {operation["skill"] for operation in operations} | {kit["code"] for kit in content["kits"]}


def _plan(revision: Revision, figures: Figures, sent_at: datetime, opening: Opening) -> FrozenContent:
    """The plan, which is the input of the promise date, and the promise as of sending."""
    plan = draft_plan(revision, figures)
    if revision.quote.additional:  # the date is that of the job, with all its work
        return plan_json(plan) | {"promised": None, "no_date": None, "waits": ""}
    choice = both_promises(plan, terms_of(figures.loaded.input.rules), revision.shop, sent_at, opening)
    dates = dates_from(choice, sent_at)
    promise = {"promised": dates.early.promise, "no_date": dates.early.no_date, "waits": waits_words(dates)}
    return plan_json(plan) | promise


def _circuits(quote_input: QuoteInput) -> list[dict[str, str | None]]:
    """The coolant circuits, with the facts from which the bay mixes."""
    titles = {item.id: item.title for item in quote_input.items.values()}
    supposed = CircuitAssumptions(quote_input.capacities, quote_input.rules.coolant, quote_input.rules.bead_waste)
    return [circuit_json(circuit) for circuit in sold_circuits(quote_input.needs, supposed, titles)]


def stamp(instant: datetime) -> str:
    """RFC 3339 in UTC, whole seconds."""
    return instant.astimezone(ZoneInfo("UTC")).strftime("%Y-%m-%dT%H:%M:%SZ")
