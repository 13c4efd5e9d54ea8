"""The customer's link. GET changes nothing that a customer sees; it notes when a version was first opened.

The answer is a POST that names the revision and digest shown.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from uuid import UUID

from django.conf import settings
from django.http import HttpRequest, HttpResponse, HttpResponseRedirect
from django.shortcuts import render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_POST, require_safe

from quotes import access
from quotes.calc.answer import AcceptanceError, AnswerForm, place_of
from quotes.calc.difference import TOTAL, difference
from quotes.calc.forms import FrozenContent
from quotes.documents import quote_pdf
from quotes.documents.pictures import picture_response
from quotes.models import Decision, Link, Revision
from quotes.presenters.acceptance_form import accept_words, moved, wants_early
from quotes.presenters.changes import change_date_words
from quotes.presenters.choices import asked_selection, choice_words
from quotes.presenters.customer import presented
from quotes.presenters.customer_page import customer_page, dates_shown, gets_mail
from quotes.presenters.customer_photographs import PhotographRow, photograph_rows
from quotes.presenters.difference import VersionChanges, changes_since_version
from quotes.presenters.possible_prices import DifferingLine, form_names, recorded_since
from quotes.presenters.progress import ProgressRow, newest_date, progress_rows
from quotes.presenters.promise import CustomerPromise
from quotes.presenters.questions import QuestionRow, question_rows
from quotes.presenters.receipt import (
    next_step,
    receipt_headline,
    receipt_promise,
    receipt_waits,
    sent_day,
    withdraw_until,
)
from quotes.queries import frozen
from quotes.queries.account import deposit_received, owes_deposit
from quotes.queries.change_dates import change_plan
from quotes.queries.frozen import asked_places, place_with
from quotes.queries.link_life import works_at, works_until
from quotes.queries.pricing import shop_day
from quotes.queries.progress import job_progress
from quotes.queries.shown_photographs import customer_photographs, customer_picture
from quotes.services.acceptance import MOST_REASON, accept_revision, decline_revision
from quotes.services.follow_ups import note_opening
from quotes.services.questions import LONGEST, MOST_OPEN, QuestionError, ask
from shop.api.limits import accepts_form
from shop.documents.context import context
from shop.models import Shop
from shop.words import say
from shop.words.figures import figure
from shop.words.languages import speak

OPEN_JOB = timedelta(days=365)  # how long a browser keeps the way into the page of an open job
COOKIE = settings.LINK_COOKIE_NAME
ANSWERS = {"accept": accept_revision, "decline": decline_revision}
TO_CALL = ("unknown", "unfit", "contradicts", "job_ended", "taken_before")  # refusals that only the workshop can settle
UNASKED = {
    "empty": "customer.questions.empty",
    "too_long": "customer.questions.too_long",
    "too_many": "customer.questions.too_many",
    "too_fast": "customer.questions.too_fast",
}
UNASKED_STATUS = {"too_many": 429, "too_fast": 429}
STATUS = {
    "unclear": 400,
    "incomplete": 400,
    "moved": 409,
    "unknown": 400,
    "unfit": 409,
    "contradicts": 409,
    "replaced": 409,
    "answered": 409,
    "job_ended": 409,
    "taken_before": 409,
    "withdrawn": 410,
    "expired": 410,
}


@dataclass(frozen=True, slots=True)
class LinkText:
    """The facts of a link's page besides the quote; after a refused answer, the typed text and the changes.

    `changes` are those since the page that was answered, `since` those since the version before.
    """

    link: Link
    by_mail: bool
    error: str
    call: str
    typed: str
    reason: str
    changes: Sequence[DifferingLine]
    since: VersionChanges | None
    change_date: str
    moved: Mapping[str, str] | None
    decision: Decision | None
    progress: Sequence[ProgressRow]
    photographs: Sequence[PhotographRow]
    questions: Sequence[QuestionRow]
    ask_error: str
    asked: str


@dataclass(frozen=True, slots=True)
class ReceiptText:
    """The facts of the receipt besides the quote."""

    decision: Decision
    chosen: Sequence[str]
    headline: str
    link: Link
    promise: CustomerPromise | None
    next: str
    sent: str
    waits: str
    withdraw_until: str
    progress: Sequence[ProgressRow]
    photographs: Sequence[PhotographRow]
    moved_date: str
    deposit_received: bool
    questions: Sequence[QuestionRow]


def nowhere(request: HttpRequest, rest: str = "") -> HttpResponse:
    """Answers an address that no link has with the page for a link that no longer works, and does not log it."""
    return _dead(request, access.only_shop())


def enter(request: HttpRequest, id: UUID, token: str) -> HttpResponse:
    """Exchanges the secret in the address for a cookie of this link's pages, and redirects to a clean address."""
    link = _usable(access.link_by_token(id, token)) if request.method in ("GET", "HEAD") else None
    if link is None:
        return _gone(request, id)
    response = HttpResponseRedirect(reverse("quote-page", args=[id]))
    response.status_code = 303
    response.set_cookie(
        COOKIE,
        token,
        path=f"/q/{id}/",
        expires=works_until(link) or timezone.now() + OPEN_JOB,
        httponly=True,
        secure=settings.SECURE_COOKIES,
        samesite="Lax",
    )
    return _private(response)


@require_safe
def quote_page(request: HttpRequest, id: UUID) -> HttpResponse:
    link = _from_cookie(request, id)
    if link is None:
        return _gone(request, id)
    newest = access.newest_sent(link.quote)
    if newest is not None and request.method == "GET":
        note_opening(link=link, revision=newest, now=timezone.now())
    return _page(request, link)


@accepts_form
@require_POST
def answer(request: HttpRequest, id: UUID) -> HttpResponse:
    link = _from_cookie(request, id)
    if link is None:
        return _gone(request, id)
    decide = ANSWERS.get(request.POST.get("answer", ""))
    if decide is None:
        return _page(request, link, AcceptanceError("unclear"))
    try:
        decide(source=link, answer=_answer(request, link), now=timezone.now())
    except AcceptanceError as refused:
        return _gone(request, id) if refused.code == "link" else _page(request, link, refused)
    response = HttpResponseRedirect(reverse("quote-receipt", args=[id]))
    response.status_code = 303
    return _private(response)


@accepts_form
@require_POST
def question(request: HttpRequest, id: UUID) -> HttpResponse:
    """Records a question of the customer; the page then shows it, or says why it was not recorded."""
    link = _from_cookie(request, id)
    if link is None:
        return _gone(request, id)
    try:
        ask(link=link, text=request.POST.get("question", ""), now=timezone.now())
    except QuestionError as refused:
        return _gone(request, id) if refused.code == "link" else _page(request, link, unasked=refused)
    response = HttpResponseRedirect(reverse("quote-page", args=[id]) + "#asked")
    response.status_code = 303
    return _private(response)


@require_safe
def receipt(request: HttpRequest, id: UUID) -> HttpResponse:
    link = _from_cookie(request, id)
    if link is None:
        return _gone(request, id)
    decision = _decision(link)
    if decision is None:
        return _private(HttpResponseRedirect(reverse("quote-page", args=[id])))
    document, promise = _read(link, decision.revision), receipt_promise(decision.record)
    text, events = presented(document, decision.revision.digest), job_progress(link.quote)
    today, owes = shop_day(link.shop, timezone.now()), owes_deposit(document, link.quote)
    facts = ReceiptText(
        decision=decision,
        chosen=choice_words(document),
        headline=receipt_headline(decision, text.gross, text.currency, link.shop.zone),
        link=link,
        promise=promise,
        next=say("customer.change.next") if text.change else next_step(promise, today, owes_deposit=owes),
        sent=sent_day(document),
        waits=receipt_waits(decision.record),
        withdraw_until=withdraw_until(document, decision),
        progress=progress_rows(events),
        photographs=photograph_rows(customer_photographs(link.quote), link.shop.zone),
        moved_date=newest_date(events),
        deposit_received=deposit_received(document, link.quote),
        questions=question_rows(access.questions(link.quote), link.shop.zone),
    )
    return _private(render(request, "quotes/receipt.html", context(text, facts)), referrer="same-origin")


@require_safe
def paper(request: HttpRequest, id: UUID) -> HttpResponse:
    link = _from_cookie(request, id)
    newest = access.newest_sent(link.quote) if link else None
    return _gone(request, id) if newest is None else _private(quote_pdf.response(newest))


@require_safe
def photograph(request: HttpRequest, id: UUID, photograph: UUID) -> HttpResponse:
    """The small copy of a photograph that is shown to the customer of this link, and of no other one."""
    link = _from_cookie(request, id)
    file = customer_picture(link.quote, access.newest_sent(link.quote), photograph) if link else None
    return _private(picture_response(file)) if file else _gone(request, id)


def _answer(request: HttpRequest, link: Link) -> AnswerForm:
    revision = request.POST.get("revision", "")
    newest = access.newest_sent(link.quote)
    price = request.POST.get("price", "")
    names = form_names(int(price) if price.isdecimal() and len(price) < 3 else 0)
    return AnswerForm(
        revision=int(revision) if revision.isdecimal() and len(revision) < 7 else 0,
        digest=request.POST.get("digest", ""),
        name=request.POST.get("name", "")[:120],
        consents=tuple(request.POST.getlist("consent")),
        address=request.META.get("REMOTE_ADDR", ""),
        agent=request.headers.get("User-Agent", ""),
        ready=request.POST.get(names["ready"], ""),
        ready_later=request.POST.get(names["ready_later"], ""),
        price=price,
        words=tuple(accept_words(_read(link, newest))) if newest else (),
        reason=request.POST.get("reason", ""),
    )


def _page(
    request: HttpRequest, link: Link, refused: AcceptanceError | None = None, unasked: QuestionError | None = None
) -> HttpResponse:
    """The page of the quote; after a refused answer with its faults, and with the changes since it was shown.

    `unasked`: why a question was not recorded.
    """
    newest = access.newest_sent(link.quote)
    if newest is None:
        return _gone(request, link.pk)
    now, error = timezone.now(), refused.code if refused else ""
    state, ticked = newest.state_at(now), request.POST.getlist("consent")
    as_frozen = _read(link, newest)
    document = _opened(request, as_frozen, state)
    price = request.POST.get("price", "") or recorded_since(document, link.shop)
    every = dates_shown(document, link.shop, state, now)
    named, first = place_of(document, price), asked_places(document)[0]
    place = named if named is not None and named in every else first
    dates, early = every[place], wants_early(document, ticked)
    sent = state == Revision.State.SENT
    text = customer_page(document, newest.digest, state, every, price=price, ticked=ticked, refused=refused)
    facts = LinkText(
        link=link,
        by_mail=gets_mail(link.quote),
        error=say(f"customer.error.{error}") if error else "",
        call=link.shop.phone if error in TO_CALL else "",
        typed=request.POST.get("name", "")[:120],
        reason=request.POST.get("reason", "")[:MOST_REASON],
        changes=_changes(link, request, newest) if error == "replaced" else [],
        since=changes_since_version(newest, as_frozen, now) if sent and error != "replaced" else None,
        change_date=_change_date(link, as_frozen, now) if sent else "",
        moved=moved(request.POST, dates, early, shop_day(link.shop, now), place) if sent else None,
        decision=_decision(link),
        progress=progress_rows(job_progress(link.quote)),
        photographs=photograph_rows(customer_photographs(link.quote), link.shop.zone),
        questions=question_rows(access.questions(link.quote), link.shop.zone),
        ask_error=say(UNASKED[unasked.code], n=MOST_OPEN) if unasked else "",
        asked=request.POST.get("question", "")[: 2 * LONGEST] if unasked else "",
    )
    status = UNASKED_STATUS.get(unasked.code, 400) if unasked else STATUS.get(error, 200)
    page = render(request, "quotes/page.html", context(*text, facts), status=status)
    # With no-referrer a browser sends its form with `Origin: null`, which cannot be told from a foreign one. The
    # address of this page holds no secret any more.
    return _private(page, referrer="same-origin")


def _change_date(link: Link, document: FrozenContent, now: datetime) -> str:
    job = link.quote.job
    return change_date_words(job, change_plan(document), now) if job is not None else ""


def _opened(request: HttpRequest, document: FrozenContent, state: str) -> FrozenContent:
    """The document with the options that were accepted or chosen: in the address, or shown with a refused answer."""
    if state != Revision.State.SENT:
        return document
    seen = place_of(document, request.POST.get("price", ""))
    if seen is None:
        seen = place_of(document, request.POST.get("shown", ""))
    if seen is None and document["choices"]:
        seen = place_with(document, asked_selection(document, request.GET))
    if not seen:
        return document
    return frozen.reopened(document, asked_places(frozen.reopened(document, seen))[0])


def _changes(link: Link, request: HttpRequest, newest: Revision) -> list[DifferingLine]:
    digest = request.POST.get("digest", "")
    seen = Revision.objects.filter(shop=link.shop_id, quote=link.quote_id, digest=digest).first()
    if seen is None or not digest:
        return []
    differences = difference(frozen.read(seen)["shown"], frozen.read(newest)["shown"])
    return [
        DifferingLine(
            title=change.title or say("customer.total"),
            before=figure(change.before) if change.before else say("customer.not_there"),
            after=figure(change.after) if change.after else say("customer.not_there"),
        )
        for change in sorted(differences, key=lambda change: change.title != TOTAL)
    ]


def _read(link: Link, revision: Revision) -> FrozenContent:
    """The frozen text; from here on the page speaks its language, also where the customer's has changed since."""
    document = frozen.read(revision)
    speak(document["language"], *link.quote.languages)
    return document


def _decision(link: Link) -> Decision | None:
    rows = Decision.objects.filter(shop=link.shop_id, quote=link.quote_id).select_related("revision")
    return rows.order_by("-answered_at").first()


def _from_cookie(request: HttpRequest, id: UUID) -> Link | None:
    return _usable(access.link_by_token(id, request.COOKIES.get(COOKIE, "")))


def _usable(link: Link | None) -> Link | None:
    """The link, if it still works. Sets the current language to the customer's."""
    if link is None or not works_at(link, timezone.now()):
        return None
    speak(*link.quote.languages)
    return link


def _gone(request: HttpRequest, id: UUID) -> HttpResponse:
    """The page for every link of a shop that does not work, whether the secret is right or wrong.

    For an unknown id the shop is named only if it is the installation's only one.
    """
    return _dead(request, access.shop_of_link(id) or access.only_shop())


def _dead(request: HttpRequest, house: Shop | None) -> HttpResponse:
    """Answers in the shop's language: whose link it was is nobody's business."""
    speak(house.language if house else "")
    return _private(render(request, "quotes/gone.html", {"house": house}, status=410))


def _private(response: HttpResponse, referrer: str = "no-referrer") -> HttpResponse:
    """Adds headers against storing, indexing and passing on. The request is not logged: it may hold the secret."""
    response["Cache-Control"] = "no-store"
    response["Referrer-Policy"] = referrer
    response["X-Robots-Tag"] = "noindex"
    response._has_been_logged = True  # type: ignore[attr-defined]
    return response
