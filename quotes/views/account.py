from uuid import UUID

from django.utils import timezone
from rest_framework.request import Request
from rest_framework.response import Response

from quotes import access
from quotes.answers.account import AccountOut
from quotes.presenters.account import account_answer
from quotes.queries.account import job_account
from quotes.serializers import account as requests
from shop.access import COUNTER
from shop.api.endpoint import Endpoint
from shop.services import payments
from shop.services.payments import PaymentFacts


class JobAccount(Endpoint):
    """The account of a job. It is no tax invoice."""

    responses = {"get": AccountOut}
    permissions = {"get": COUNTER}

    def get(self, request: Request, slug: str, id: UUID) -> Response:
        """Read the account of a job."""
        return Response(account_answer(job_account(access.job_with_account(self.actor, id))))


class JobPayments(Endpoint):
    """Payments received for a job."""

    request_bodies = {"post": requests.PaymentIn}
    responses = {"post": {201: AccountOut}}
    permissions = {"post": COUNTER}

    def post(self, request: Request, slug: str, id: UUID) -> Response:
        """Record a payment, or money paid back."""
        job, facts = access.job_with_account(self.actor, id), PaymentFacts(**self.body(request))
        payments.record_payment(actor=self.actor, job=job, facts=facts, now=timezone.now())
        return Response(account_answer(job_account(job)), status=201)


class PaymentReversal(Endpoint):
    """The opposite row of a payment that was recorded by mistake."""

    request_bodies = {"post": requests.ReversalIn}
    responses = {"post": {201: AccountOut}}
    permissions = {"post": COUNTER}

    def post(self, request: Request, slug: str, id: UUID, payment: UUID) -> Response:
        """Reverse a payment that was recorded by mistake."""
        job, reason = access.job_with_account(self.actor, id), self.body(request)["reason"]
        row = access.payment(self.actor, job, payment)
        payments.reverse_payment(actor=self.actor, payment=row, reason=reason, now=timezone.now())
        return Response(account_answer(job_account(job)), status=201)
