"""Outside work of a draft, and what it costs: for advisor and manager alone."""

from typing import Any
from uuid import UUID

from django.utils import timezone
from rest_framework.request import Request
from rest_framework.response import Response

from quotes import access
from quotes.answers.outside import KitsOutsideOut, OutsideTermsOut
from quotes.answers.quotes import QuoteOut
from quotes.calc.plan import work_plan
from quotes.models import Revision
from quotes.presenters.outside import kits_outside_answer, terms_answer
from quotes.queries.earlier_work import earlier_work
from quotes.queries.kit_outside import outside_of_kits
from quotes.queries.pricing import figures
from quotes.serializers.outside import OutsideIn
from quotes.services import outside
from quotes.views.quotes import COUNTER, answer
from shop.api.components import list_of
from shop.api.endpoint import Endpoint
from shop.api.params import MOST_MONEY, check_price
from shop.calc.outside import PlannedOutsideWork as Planned
from shop.calc.outside import needs_itself
from shop.errors import field_error


class EarlierWork(Endpoint):
    """Work of other firms on the shop's quotes, each kind once and newest first, to be quoted again."""

    responses = {"get": list_of(OutsideTermsOut)}
    permissions = {"get": COUNTER}
    query_parameters = {"q": "words of the firm's name or of what it does; without it, the newest"}

    def get(self, request: Request, slug: str) -> Response:
        """List the outside work of earlier quotes."""
        rows = earlier_work(self.actor.shop, request.query_params.get("q", ""))
        return Response({"items": [terms_answer(row, self.actor.shop.exponent) for row in rows]})


class KitsOutside(Endpoint):
    """Work of other firms that goes with the kits of a draft and is not on it yet, to be added as it stands."""

    responses = {"get": list_of(KitsOutsideOut)}
    permissions = {"get": COUNTER}

    def get(self, request: Request, slug: str, id: UUID) -> Response:
        """List the outside work that goes with the kits of a draft."""
        revision, exponent = access.current(access.quote(self.actor, id)), self.actor.shop.exponent
        works = outside_of_kits(revision) if revision.state == Revision.State.DRAFT else ()
        return Response({"items": [kits_outside_answer(line, work, exponent) for line, work in works]})


class OutsideEndpoint(Endpoint):
    def asked(self, request: Request, quote: Any) -> dict[str, Any]:
        """The fields of the request. Refuses figures that cannot be stored and steps that the quote does not have."""
        fields, e = self.body(request), self.actor.shop.exponent
        for name in ("cost", "handling"):
            check_price(fields[name], f"/{name}", e)
        fields["per_round"] = fields["per_round"] and fields["rounds"] is not None
        times = fields["rounds"] if fields["per_round"] else 1
        if fields["cost"] * times * (1 + fields["markup"]) + fields["handling"] >= MOST_MONEY:
            raise field_error("/cost", "too_much_cost")
        self._check_steps(quote, fields)
        return fields

    def _check_steps(self, quote: Any, fields: dict[str, Any]) -> None:
        priced = figures(access.current(quote), timezone.now())
        steps = work_plan(priced.loaded.input, priced.priced, priced.loaded.sheet, None).steps
        codes = {step.code for step in steps}
        for name in ("starts_after", "needed_by"):
            if fields[name] and fields[name] not in codes:
                raise field_error(f"/{name}", "no_such_step")
        work = Planned("", "", "", None, fields["starts_after"], fields["needed_by"])
        if needs_itself(work, steps):
            raise field_error("/needed_by", "step_before")


class OutsideWorks(OutsideEndpoint):
    """Add work of another firm to the draft. A firm that the shop does not know yet is added by its name."""

    request_bodies = {"post": OutsideIn}
    responses = {"post": {201: QuoteOut}}
    permissions = {"post": COUNTER}

    def post(self, request: Request, slug: str, id: UUID) -> Response:
        """Add outside work to a draft."""
        quote = access.quote(self.actor, id)
        fields = self.asked(request, quote)
        return answer(outside.add_outside(actor=self.actor, quote=quote, firm=fields.pop("firm"), fields=fields), 201)


class OutsideOne(OutsideEndpoint):
    """Cost and place in the plan of a line of outside work; change them."""

    request_bodies = {"put": OutsideIn}
    responses = {"get": OutsideTermsOut, "put": QuoteOut}
    permissions = {"get": COUNTER, "put": COUNTER}
    versioned = frozenset({"put"})

    def get(self, request: Request, slug: str, id: UUID, line: UUID) -> Response:
        """Read the terms of outside work."""
        row = access.outside_work(access.current(access.quote(self.actor, id)), line)
        return Response(terms_answer(row, self.actor.shop.exponent))

    def put(self, request: Request, slug: str, id: UUID, line: UUID) -> Response:
        """Change the terms of outside work."""
        quote, seen = access.quote(self.actor, id), self.expected_version(request)
        row = access.outside_work(access.current(quote), line)
        fields = self.asked(request, quote)
        firm = fields.pop("firm")
        return answer(
            outside.change_outside(actor=self.actor, quote=quote, line=row.line, seen=seen, firm=firm, fields=fields)
        )
