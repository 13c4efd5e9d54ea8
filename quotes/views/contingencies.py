"""Lines of a draft that are charged only if something happens."""

from decimal import Decimal
from typing import Any
from uuid import UUID

from rest_framework.request import Request
from rest_framework.response import Response

import kitting.access
from quotes import access
from quotes.answers.quotes import QuoteOut
from quotes.models import Line
from quotes.serializers.contingencies import ContingencyChange, ContingencyIn
from quotes.services import contingencies
from quotes.views.quotes import COUNTER, answer
from shop.api.endpoint import Endpoint
from shop.api.params import check_hours, check_line_amount, check_price
from shop.calc.money import rounded
from shop.errors import FieldError, RequestError, field_error


class Contingencies(Endpoint):
    """Add work, a part or a hand-written line to the draft that is charged only if something happens."""

    request_bodies = {"post": ContingencyIn}
    responses = {"post": {201: QuoteOut}}
    permissions = {"post": COUNTER}

    def post(self, request: Request, slug: str, id: UUID) -> Response:
        """Add a line that is charged only if it happens."""
        quote, body = access.quote(self.actor, id), self.body(request)
        check_quantity(body["quantity"], labour="skill" in body)
        if "part" in body:
            body["part"] = kitting.access.part(self.actor, body["part"])
            body.setdefault("title", body["part"].title)
        needed = ("title",) if {"part", "skill"} & set(body) else ("title", "unit_price", "tax_class")
        if missing := tuple(FieldError(f"/{name}", "missing") for name in needed if name not in body):
            raise RequestError(400, "invalid", missing)
        if "skill" in body and (extra := next((n for n in ("part", "unit_price", "tax_class") if n in body), None)):
            raise field_error(f"/{extra}", "labour_by_skill")
        check_amount(body["quantity"], body.get("unit_price"), body["cap"], self.actor.shop.exponent)
        return answer(contingencies.add_contingency(actor=self.actor, quote=quote, **body), 201)


class Contingency(Endpoint):
    """Change a line of the draft that is charged only if it happens, or charge it in any case."""

    request_bodies = {"patch": ContingencyChange}
    responses = {"patch": QuoteOut, "delete": QuoteOut}
    permissions = {"patch": COUNTER, "delete": COUNTER}
    versioned = frozenset({"patch", "delete"})

    def patch(self, request: Request, slug: str, id: UUID, line: UUID) -> Response:
        """Charge a line only if it happens, or change when, how often and for how much."""
        quote, seen, body = access.quote(self.actor, id), self.expected_version(request), self.body(request)
        row = access.line(access.current(quote), line)
        if "quantity" in body:
            check_quantity(body["quantity"], labour=row.kind == Line.Kind.LABOUR)
        quantity, price = body.get("quantity", row.quantity), body.get("unit_price", row.unit_price)
        check_amount(quantity, price, body.get("cap") or int(row.cap or 1), self.actor.shop.exponent)
        changed = contingencies.change_contingency(actor=self.actor, quote=quote, line=row, seen=seen, changes=body)
        return answer(changed)

    def delete(self, request: Request, slug: str, id: UUID, line: UUID) -> Response:
        """Charge a part or a hand-written line in any case."""
        quote, seen = access.quote(self.actor, id), self.expected_version(request)
        row = access.line(access.current(quote), line)
        return answer(contingencies.charge_in_any_case(actor=self.actor, quote=quote, line=row, seen=seen))


def check_quantity(quantity: Any, *, labour: bool) -> None:
    """Refuses a quantity of nothing, and hours of work that are not in tenths."""
    if quantity <= 0:
        raise field_error("/quantity", "above_zero")
    if labour and rounded(quantity, 1) != quantity:
        raise field_error("/quantity", "tenths")
    if labour:
        check_hours(quantity, "/quantity")


def check_amount(quantity: Decimal, unit_price: Decimal | None, cap: int, exponent: int) -> None:
    if unit_price is not None:
        check_price(unit_price, "/unit_price", exponent)
        check_line_amount(quantity * cap, unit_price, "/unit_price")
