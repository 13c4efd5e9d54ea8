from decimal import Decimal
from typing import Any
from uuid import UUID

from django.http import Http404
from django.utils import timezone
from rest_framework.request import Request
from rest_framework.response import Response

import kitting.access
import shop.access
from quotes import access
from quotes.answers.how import HowOut
from quotes.answers.margin import MarginOut
from quotes.answers.newer_rules import RulesComparedOut
from quotes.answers.quotes import QuoteOut
from quotes.answers.rows import QuoteRowOut
from quotes.models import Revision
from quotes.presenters.explanations import explanations, kept_explanations, one_of
from quotes.presenters.figures import figure_keys
from quotes.presenters.margin import draft_margin, sent_margin
from quotes.presenters.newer_rules import rules_compared
from quotes.presenters.quote import quote_answer, quote_row
from quotes.queries import frozen
from quotes.queries.pricing import figures
from quotes.queries.quote_filters import of_quotes, with_kit, with_part, with_words
from quotes.serializers import requests
from quotes.services import discarding, drafts, labour_lines, own_figures, revising
from shop.api import query_parameters
from shop.api.components import list_of
from shop.api.endpoint import Endpoint, versioned
from shop.api.params import check_hours, check_line_amount, check_price, parse_uuid
from shop.calc.money import rounded
from shop.errors import FieldError, RequestError, field_error
from shop.serializers.nothing import Nothing

COUNTER = shop.access.COUNTER


def answer(revision: Revision, status: int = 200) -> Response:
    """The whole recomputed quote with its new ETag."""
    fresh = access.current(revision.quote)
    worked_out = revision.worked_out if revision.pk == fresh.pk else None
    return versioned(quote_answer(fresh, timezone.now(), worked_out), fresh.version, status)


class Quotes(Endpoint):
    """Quotes, newest first; a new one from kits, with or without customer and vehicle."""

    request_bodies = {"post": requests.QuoteIn}
    responses = {"get": list_of(QuoteRowOut), "post": {201: QuoteOut}}
    permissions = {"get": COUNTER, "post": COUNTER}
    query_parameters = {
        "state": query_parameters.one_of("only quotes whose newest version is in this state", access.STATES),
        "q": "a number, or words of the customer, the vehicle and the kits, all of which a quote has to have",
        "customer": query_parameters.an_id("only this customer's"),
        "vehicle": query_parameters.an_id("only this vehicle's"),
        "kit": query_parameters.an_id("only those that quote this kit, in any version"),
        "part": query_parameters.an_id("only those that quote this part, loose or in a kit"),
    }
    paginated = True

    def get(self, request: Request, slug: str) -> Response:
        """List the quotes, newest first."""
        rows, order = access.newest_revisions(self.actor), access.BY_CHANGE
        now = timezone.now()
        if (state := request.query_params.get("state")) is not None:
            rows, order = access.in_state(rows, state, now)
        return self.page(request, self._narrowed(request, rows), order, lambda row: quote_row(row, now))

    def _narrowed(self, request: Request, rows: Any) -> Any:
        """The rows with the customer, vehicle, kit, part and words that the request names."""
        actor, parameters = self.actor, request.query_params
        for name, find in (("customer", shop.access.customer), ("vehicle", shop.access.vehicle)):
            if name in parameters:
                rows = of_quotes(rows, actor.shop, **{name: find(actor, parse_uuid(parameters[name], f"/{name}"))})
        if "kit" in parameters:
            rows = with_kit(rows, actor.shop, kitting.access.kit(actor, parse_uuid(parameters["kit"], "/kit")))
        if "part" in parameters:
            rows = with_part(rows, actor.shop, kitting.access.part(actor, parse_uuid(parameters["part"], "/part")))
        return with_words(rows, actor.shop, parameters.get("q", ""))

    def post(self, request: Request, slug: str) -> Response:
        """Begin a quote."""
        body = self.body(request)
        revision = drafts.start_quote(
            actor=self.actor,
            kits=[kitting.access.kit(self.actor, id) for id in body["kits"]],
            parts=[kitting.access.part(self.actor, id) for id in body["parts"]],
            customer=shop.access.customer(self.actor, body["customer"]) if body["customer"] else None,
            vehicle=shop.access.vehicle(self.actor, body["vehicle"]) if body["vehicle"] else None,
        )
        return answer(revision, 201)


class Quote(Endpoint):
    """One quote: the draft at today's prices, or the sent version as it was frozen."""

    request_bodies = {"patch": requests.QuoteChange}
    responses = {"get": QuoteOut, "patch": QuoteOut, "delete": {204: None}}
    permissions = {"get": COUNTER, "patch": COUNTER, "delete": COUNTER}
    versioned = frozenset({"patch", "delete"})

    def get(self, request: Request, slug: str, id: UUID) -> Response:
        """Read one quote."""
        revision = access.current_of(self.actor, id)
        return versioned(quote_answer(revision, timezone.now()), revision.version)

    def patch(self, request: Request, slug: str, id: UUID) -> Response:
        """Change a draft."""
        quote = access.quote(self.actor, id)
        seen, body = self.expected_version(request), self.body(request)
        for field, find in (("customer", shop.access.customer), ("vehicle", shop.access.vehicle)):
            if body.get(field):
                body[field] = find(self.actor, body[field])
        return answer(drafts.change_draft(actor=self.actor, quote=quote, seen=seen, changes=body))

    def delete(self, request: Request, slug: str, id: UUID) -> Response:
        """Discard a draft."""
        seen = self.expected_version(request)
        discarding.discard_quote(actor=self.actor, quote=access.quote(self.actor, id), seen=seen)
        return Response(status=204)


class Restore(Endpoint):
    """Bring back a draft that was discarded."""

    request_bodies = {"post": Nothing}
    responses = {"post": QuoteOut}
    permissions = {"post": COUNTER}

    def post(self, request: Request, slug: str, id: UUID) -> Response:
        """Bring back a discarded draft."""
        quote = access.any_quote(self.actor, id)
        discarding.restore_quote(actor=self.actor, quote=quote)
        return answer(access.current(quote))


class Margin(Endpoint):
    """The margin of the quote before tax. The one resource of a quote that shows costs."""

    responses = {"get": MarginOut}
    permissions = {"get": COUNTER}

    def get(self, request: Request, slug: str, id: UUID) -> Response:
        """Read the margin."""
        revision = access.current(access.quote(self.actor, id))
        if revision.state != Revision.State.DRAFT:
            return Response(sent_margin(revision))
        return Response(draft_margin(figures(revision, timezone.now()), revision.shop))


class NewerRules(Endpoint):
    """Compares a draft's price rules with the newer ones in force; 404 where it has the newest."""

    responses = {"get": RulesComparedOut}
    permissions = {"get": COUNTER}

    def get(self, request: Request, slug: str, id: UUID) -> Response:
        """Compare a draft with newer price rules."""
        compared = rules_compared(access.current(access.quote(self.actor, id)), timezone.now())
        if compared is None:
            raise Http404
        return Response(compared)


KEYS = (
    "labour:CODE, kit:LINE, need:KEY, outside:LINE, extra:LINE, fee:CODE, tax:CODE, minimum, "
    "supplied:SKILL, supplies, discount, total"
)


class How(Endpoint):
    """Explains one figure of the quote: the rule in plain words and the numbers of that line."""

    responses = {"get": HowOut}
    permissions = {"get": COUNTER}
    query_parameters = {"key": query_parameters.required(f"which figure: {KEYS}")}

    def get(self, request: Request, slug: str, id: UUID) -> Response:
        """Explain one figure."""
        revision = access.current(access.quote(self.actor, id))
        if revision.state == Revision.State.DRAFT:
            explained = explanations(figures(revision, timezone.now()))
        else:
            explained = kept_explanations(frozen.read(revision))
        return Response(one_of(explained, request.query_params.get("key", "")))


class Lines(Endpoint):
    """Add a kit, a loose part, labour or a hand-written line to the draft."""

    request_bodies = {"post": requests.LineIn}
    responses = {"post": {201: QuoteOut}}
    permissions = {"post": COUNTER}

    def post(self, request: Request, slug: str, id: UUID) -> Response:
        """Add a line to a draft."""
        quote, body = access.quote(self.actor, id), self.body(request)
        if body.get("supplied"):
            body.setdefault("unit_price", Decimal(0))
        labour = ("operation",) if "operation" in body else ("title", "skill", "hours")
        texts = ("title", "unit_price", "tax_class")
        needed = {"kit": ("kit",), "part": ("part",), "labour": labour, "text": texts}[body["kind"]]
        missing = tuple(FieldError(f"/{name}", "missing") for name in needed if name not in body)
        if missing:
            raise RequestError(400, "invalid", missing)
        return answer(self._add(quote, body), 201)

    def _add(self, quote: Any, body: dict[str, Any]) -> Revision:
        if body["kind"] == "kit":
            return drafts.add_kit(actor=self.actor, quote=quote, kit=kitting.access.kit(self.actor, body["kit"]))
        if body["kind"] == "labour":
            return self._add_labour(quote, body)
        if body["quantity"] <= 0:
            raise field_error("/quantity", "above_zero")
        if body["kind"] == "part":
            part = kitting.access.part(self.actor, body["part"])
            return drafts.add_part(actor=self.actor, quote=quote, part=part, quantity=body["quantity"])
        check_price(body["unit_price"], "/unit_price", self.actor.shop.exponent)
        check_line_amount(body["quantity"], body["unit_price"], "/unit_price")
        fields = {name: body[name] for name in ("title", "quantity", "unit_price", "tax_class")}
        own = {name: body[name] for name in ("core", "supplied", "fitted_by") if name in body}
        return drafts.add_text(actor=self.actor, quote=quote, **fields, **own)

    def _add_labour(self, quote: Any, body: dict[str, Any]) -> Revision:
        if (hours := body.get("hours")) is not None and check_hours(hours, "/hours") <= 0:
            raise field_error("/hours", "above_zero")
        if "operation" in body:
            operation = shop.access.operation(self.actor, body["operation"])
            return labour_lines.add_operation(actor=self.actor, quote=quote, operation=operation, hours=hours)
        title, skill = body["title"], body["skill"]
        return labour_lines.add_hours(actor=self.actor, quote=quote, title=title, skill=skill, hours=body["hours"])


class Line(Endpoint):
    """Change or remove one line of the draft."""

    request_bodies = {"patch": requests.LineChange}
    responses = {"patch": QuoteOut, "delete": QuoteOut}
    permissions = {"patch": COUNTER, "delete": COUNTER}
    versioned = frozenset({"patch", "delete"})

    def patch(self, request: Request, slug: str, id: UUID, line: UUID) -> Response:
        """Change a line of a draft."""
        quote, seen, body = access.quote(self.actor, id), self.expected_version(request), self.body(request)
        if body.get("quantity") == 0:
            raise field_error("/quantity", "above_zero")
        if body.get("unit_price") is not None:
            check_price(body["unit_price"], "/unit_price", self.actor.shop.exponent)
        revision = access.current(quote)
        row = access.line(revision, line)
        if body.get("option"):
            body["option"] = access.option(revision, body["option"])
        pointer = "/unit_price" if "unit_price" in body else "/quantity"
        check_line_amount(body.get("quantity", row.quantity), body.get("unit_price", row.unit_price), pointer)
        return answer(drafts.change_line(actor=self.actor, quote=quote, line=row, seen=seen, changes=body))

    def delete(self, request: Request, slug: str, id: UUID, line: UUID) -> Response:
        """Remove a line from a draft."""
        quote, seen = access.quote(self.actor, id), self.expected_version(request)
        row = access.line(access.current(quote), line)
        return answer(drafts.remove_line(actor=self.actor, quote=quote, line=row, seen=seen))


class Override(Endpoint):
    """Replace a figure that was worked out by one's own, with the reason; or go back to the one worked out."""

    request_bodies = {"put": requests.OverrideIn}
    responses = {"put": QuoteOut, "delete": QuoteOut}
    permissions = {"put": COUNTER, "delete": COUNTER}
    versioned = frozenset({"put", "delete"})

    def put(self, request: Request, slug: str, id: UUID, key: str) -> Response:
        """Replace a figure by a person's own."""
        quote, seen, body = access.quote(self.actor, id), self.expected_version(request), self.body(request)
        self._known(quote, key)
        if not key.startswith("labour:"):
            check_price(body["value"], "/value", self.actor.shop.exponent)
        elif rounded(body["value"], 1) != body["value"]:
            raise field_error("/value", "tenths")
        else:
            check_hours(body["value"], "/value")
        changed = own_figures.set_override(
            actor=self.actor, quote=quote, key=key, value=body["value"], because=body["because"], seen=seen
        )
        return answer(changed)

    def delete(self, request: Request, slug: str, id: UUID, key: str) -> Response:
        """Go back to the figure that was worked out."""
        quote, seen = access.quote(self.actor, id), self.expected_version(request)
        return answer(own_figures.drop_override(actor=self.actor, quote=quote, key=key, seen=seen))

    def _known(self, quote: Any, key: str) -> None:
        priced = figures(access.current(quote), timezone.now())
        if not any(key in figure_keys(possibility.priced) for possibility in priced.possible):
            raise field_error("/key", "no_such_figure", key=key)


class Discount(Endpoint):
    """Give one discount on the draft, as a percentage or an amount, with the reason that the customer reads."""

    request_bodies = {"put": requests.DiscountIn}
    responses = {"put": QuoteOut, "delete": QuoteOut}
    permissions = {"put": COUNTER, "delete": COUNTER}
    versioned = frozenset({"put", "delete"})

    def put(self, request: Request, slug: str, id: UUID) -> Response:
        """Give a discount."""
        quote, seen, body = access.quote(self.actor, id), self.expected_version(request), self.body(request)
        percent, amount = body["percent"], body["amount"]
        if (percent is None) == (amount is None):
            raise field_error("/amount", "discount_one")
        if percent is not None and not 0 < percent <= 100:
            raise field_error("/percent", "discount_percent")
        if amount is not None and check_price(amount, "/amount", self.actor.shop.exponent) == 0:
            raise field_error("/amount", "discount_amount")
        return answer(own_figures.give_discount(actor=self.actor, quote=quote, seen=seen, **body))

    def delete(self, request: Request, slug: str, id: UUID) -> Response:
        """Remove the discount."""
        quote, seen = access.quote(self.actor, id), self.expected_version(request)
        return answer(own_figures.remove_discount(actor=self.actor, quote=quote, seen=seen))


class Revise(Endpoint):
    """The next version as a draft with the same choices; the sent one stays valid until the new one is sent."""

    request_bodies = {"post": Nothing}
    responses = {"post": {201: QuoteOut}}
    permissions = {"post": COUNTER}

    def post(self, request: Request, slug: str, id: UUID) -> Response:
        """Begin the next version."""
        return answer(revising.revise(actor=self.actor, quote=access.quote(self.actor, id)), 201)
