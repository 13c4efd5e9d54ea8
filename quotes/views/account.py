from uuid import UUID

from django.utils import timezone
from rest_framework.request import Request
from rest_framework.response import Response

import shop.access
from quotes import access
from quotes.answers.account import AccountOut
from quotes.presenters.account import account_answer
from quotes.queries.account import cores_of, job_account
from quotes.queries.closing import closing_of
from quotes.queries.late_cores import late_cores
from quotes.serializers import account as requests
from quotes.services.releasing import release_by_deposit
from shop.api.endpoint import Endpoint
from shop.errors import RequestError
from shop.services import cores, payments
from shop.services.cores import CoreFacts
from shop.services.payments import PaymentFacts


class JobAccount(Endpoint):
    """The account of a job. It is no tax invoice."""

    responses = {"get": AccountOut}
    permissions = {"get": shop.access.COUNTER}

    def get(self, request: Request, slug: str, id: UUID) -> Response:
        """Read the account of a job."""
        return Response(account_answer(job_account(shop.access.job(self.actor, id))))


class JobPayments(Endpoint):
    """Payments received for a job."""

    request_bodies = {"post": requests.PaymentIn}
    responses = {"post": {201: AccountOut}}
    permissions = {"post": shop.access.COUNTER}

    def post(self, request: Request, slug: str, id: UUID) -> Response:
        """Record a payment, or money paid back."""
        job, facts = shop.access.job(self.actor, id), PaymentFacts(**self.body(request))
        now = timezone.now()
        payment = payments.record_payment(actor=self.actor, job=job, facts=facts, now=now)
        release_by_deposit(actor=self.actor, job=job, payment=payment, now=now)
        return Response(account_answer(job_account(job)), status=201)


class PaymentReversal(Endpoint):
    """The opposite row of a payment that was recorded by mistake."""

    request_bodies = {"post": requests.ReversalIn}
    responses = {"post": {201: AccountOut}}
    permissions = {"post": shop.access.COUNTER}

    def post(self, request: Request, slug: str, id: UUID, payment: UUID) -> Response:
        """Reverse a payment that was recorded by mistake."""
        job, reason = shop.access.job(self.actor, id), self.body(request)["reason"]
        row = access.payment(self.actor, job, payment)
        payments.reverse_payment(actor=self.actor, payment=row, reason=reason, now=timezone.now())
        return Response(account_answer(job_account(job)), status=201)


class CoreReturns(Endpoint):
    """Core deposits that the customer of a job gets back."""

    request_bodies = {"post": requests.CoreIn}
    responses = {"post": {201: AccountOut}}
    permissions = {"post": shop.access.COUNTER}

    def post(self, request: Request, slug: str, id: UUID) -> Response:
        """Record a returned core."""
        job, facts = shop.access.job(self.actor, id), CoreFacts(**self.body(request))
        cores.record_core(actor=self.actor, job=job, facts=facts, now=timezone.now())
        return Response(account_answer(job_account(job)), status=201)


class CoreReversal(Endpoint):
    """The opposite row of a returned core that was recorded by mistake."""

    request_bodies = {"post": requests.ReversalIn}
    responses = {"post": {201: AccountOut}}
    permissions = {"post": shop.access.COUNTER}

    def post(self, request: Request, slug: str, id: UUID, core: UUID) -> Response:
        """Reverse a returned core that was recorded by mistake."""
        job, reason = shop.access.job(self.actor, id), self.body(request)["reason"]
        row = access.core_return(self.actor, job, core)
        if (closing := closing_of(job)) and row not in late_cores(closing, cores_of(job)):
            raise RequestError(409, "job-closed")
        cores.reverse_core(actor=self.actor, core=row, reason=reason, now=timezone.now())
        return Response(account_answer(job_account(job)), status=201)
