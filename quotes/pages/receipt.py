"""The receipt of an answer, on the customer's link."""

from collections.abc import Sequence
from dataclasses import dataclass
from uuid import UUID

from django.http import HttpRequest, HttpResponse, HttpResponseRedirect
from django.shortcuts import render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_safe

from quotes import access
from quotes.models import Decision, Link
from quotes.pages.entrance import from_cookie, gone, private, read
from quotes.presenters.choices import choice_words
from quotes.presenters.customer import presented
from quotes.presenters.customer_page import gets_mail
from quotes.presenters.customer_photographs import PhotographRow, photograph_rows
from quotes.presenters.deposit import received_words
from quotes.presenters.progress import ProgressRow, newest_date, progress_rows
from quotes.presenters.promise import CustomerPromise
from quotes.presenters.questions import QuestionRow, question_rows
from quotes.presenters.receipt import (
    ended_words,
    next_now,
    receipt_headline,
    receipt_promise,
    receipt_waits,
    sent_day,
    to_bring,
    withdraw_until,
)
from quotes.queries.acceptances import decision_of
from quotes.queries.account import deposit_received, owes_deposit
from quotes.queries.pricing import shop_day
from quotes.queries.progress import job_progress
from quotes.queries.shown_photographs import customer_photographs
from shop.documents.context import context


@dataclass(frozen=True, slots=True)
class ReceiptText:
    """The facts of the receipt besides the quote."""

    decision: Decision
    chosen: Sequence[str]
    headline: str
    link: Link
    promise: CustomerPromise | None
    next: str
    ended: str
    bring: Sequence[str]
    sent: str
    waits: str
    withdraw_until: str
    progress: Sequence[ProgressRow]
    photographs: Sequence[PhotographRow]
    moved_date: str
    deposit_received: bool
    deposit_words: str
    questions: Sequence[QuestionRow]
    by_mail: bool


@require_safe
def receipt(request: HttpRequest, id: UUID) -> HttpResponse:
    link = from_cookie(request, id)
    if link is None:
        return gone(request, id)
    decision = decision_of(link)
    if decision is None:
        return private(HttpResponseRedirect(reverse("quote-page", args=[id])))
    document, promise = read(link, decision.revision), receipt_promise(decision.record)
    text, events = presented(document, decision.revision.digest), job_progress(link.quote)
    today, owes = shop_day(link.shop, timezone.now()), owes_deposit(document, link.quote)
    facts = ReceiptText(
        decision=decision,
        chosen=choice_words(document),
        headline=receipt_headline(decision, text.gross, text.currency, link.shop.zone),
        link=link,
        promise=promise,
        next=next_now(document, promise, link.quote.job, today, owes_deposit=owes),
        ended=ended_words(link.quote.job),
        bring=to_bring(document, link.quote.job) if decision.answer == Decision.Answer.ACCEPTED else [],
        sent=sent_day(document),
        waits=receipt_waits(decision.record),
        withdraw_until=withdraw_until(document, decision),
        progress=progress_rows(events),
        photographs=photograph_rows(customer_photographs(link.quote), link.shop.zone),
        moved_date=newest_date(events),
        deposit_received=deposit_received(document, link.quote),
        deposit_words=received_words(document, link.quote),
        questions=question_rows(access.questions(link.quote), link.shop.zone),
        by_mail=gets_mail(link.quote),
    )
    return private(render(request, "quotes/receipt.html", context(text, facts)), referrer="same-origin")
