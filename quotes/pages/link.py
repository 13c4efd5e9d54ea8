"""The customer's link. GET changes nothing that a customer sees; it notes when a version was first opened.

The answer is a POST that names the revision and digest shown.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from uuid import UUID

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
from quotes.models.quotes import EXPIRED
from quotes.pages.entrance import from_cookie, gone, private, read
from quotes.presenters.acceptance_form import accept_words, moved, wants_early
from quotes.presenters.changes import change_now_words
from quotes.presenters.choices import asked_selection
from quotes.presenters.customer_page import customer_page, dates_shown, gets_mail
from quotes.presenters.customer_photographs import PhotographRow, photograph_rows
from quotes.presenters.difference import VersionChanges, changes_since_version
from quotes.presenters.possible_prices import DifferingLine, form_names, recorded_since
from quotes.presenters.progress import ProgressRow, progress_rows
from quotes.presenters.questions import QuestionRow, question_rows
from quotes.queries import frozen
from quotes.queries.acceptances import decision_of, revision_seen
from quotes.queries.account import deposit_received
from quotes.queries.frozen import asked_places, place_with
from quotes.queries.pricing import shop_day
from quotes.queries.progress import job_progress
from quotes.queries.shown_photographs import customer_photographs, customer_picture
from quotes.services.acceptance import MOST_REASON, accept_revision, decline_revision
from quotes.services.follow_ups import note_opening
from quotes.services.questions import LONGEST, MOST_OPEN, QuestionError, ask
from shop.api.limits import accepts_form
from shop.api.public_address import address
from shop.documents.context import context
from shop.words import say
from shop.words.figures import figure

ANSWERS = {"accept": accept_revision, "decline": decline_revision}
TO_CALL = ("unknown", "unfit", "contradicts", "job_ended", "taken_before")  # only the workshop can settle these
UNASKED = {
    "empty": "customer.questions.empty",
    "too_long": "customer.questions.too_long",
    "too_many": "customer.questions.too_many",
    "too_fast": "customer.questions.too_fast",
}
UNASKED_STATUS = {"too_many": 429, "too_fast": 429}
ENDED = {
    Revision.State.ACCEPTED: "answered",
    Revision.State.DECLINED: "answered",
    Revision.State.WITHDRAWN: "withdrawn",
    EXPIRED: "expired",
}
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
    change_now: str
    moved: Mapping[str, str] | None
    decision: Decision | None
    deposit_received: bool
    progress: Sequence[ProgressRow]
    photographs: Sequence[PhotographRow]
    questions: Sequence[QuestionRow]
    ask_error: str
    asked: str


@require_safe
def quote_page(request: HttpRequest, id: UUID) -> HttpResponse:
    link = from_cookie(request, id)
    if link is None:
        return gone(request, id)
    newest = access.newest_sent(link.quote)
    if newest is not None and request.method == "GET":
        note_opening(link=link, revision=newest, now=timezone.now())
    return _page(request, link, newest)


@accepts_form
@require_POST
def answer(request: HttpRequest, id: UUID) -> HttpResponse:
    link = from_cookie(request, id)
    if link is None:
        return gone(request, id)
    decide = ANSWERS.get(request.POST.get("answer", ""))
    if decide is None:
        return _page(request, link, access.newest_sent(link.quote), AcceptanceError("unclear"))
    try:
        decide(source=link, answer=_answer(request, link), now=timezone.now())
    except AcceptanceError as refused:
        newest = access.newest_sent(link.quote)
        return gone(request, id) if refused.code == "link" else _page(request, link, newest, refused)
    response = HttpResponseRedirect(reverse("quote-receipt", args=[id]))
    response.status_code = 303
    return private(response)


@accepts_form
@require_POST
def question(request: HttpRequest, id: UUID) -> HttpResponse:
    """Records a question of the customer; the page then shows it, or says why it was not recorded."""
    link = from_cookie(request, id)
    if link is None:
        return gone(request, id)
    try:
        site = address(request, "/").rstrip("/")
        ask(link=link, text=request.POST.get("question", ""), site=site, now=timezone.now())
    except QuestionError as refused:
        newest = access.newest_sent(link.quote)
        return gone(request, id) if refused.code == "link" else _page(request, link, newest, unasked=refused)
    response = HttpResponseRedirect(reverse("quote-page", args=[id]) + "#asked")
    response.status_code = 303
    return private(response)


@require_safe
def paper(request: HttpRequest, id: UUID) -> HttpResponse:
    link = from_cookie(request, id)
    newest = access.newest_sent(link.quote) if link else None
    return gone(request, id) if newest is None else private(quote_pdf.response(newest))


@require_safe
def photograph(request: HttpRequest, id: UUID, photograph: UUID) -> HttpResponse:
    """The small copy of a photograph that is shown to the customer of this link, and of no other one."""
    link = from_cookie(request, id)
    file = customer_picture(link.quote, access.newest_sent(link.quote), photograph) if link else None
    return private(picture_response(file)) if file else gone(request, id)


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
        words=tuple(accept_words(read(link, newest))) if newest else (),
        reason=request.POST.get("reason", ""),
    )


def _page(
    request: HttpRequest,
    link: Link,
    newest: Revision | None,
    refused: AcceptanceError | None = None,
    unasked: QuestionError | None = None,
) -> HttpResponse:
    """The page of the quote; after a refused answer with its faults, and with the changes since it was shown.

    `unasked` is the reason for which a question was not recorded.
    """
    if newest is None:
        return gone(request, link.pk)
    now, ticked = timezone.now(), request.POST.getlist("consent")
    state = newest.state_at(now)
    error = _error(refused, state)
    as_frozen = read(link, newest)
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
        change_now=_change_now(link, as_frozen, now) if sent else "",
        moved=moved(request.POST, dates, early, shop_day(link.shop, now), place) if sent else None,
        decision=decision_of(link),
        deposit_received=deposit_received(as_frozen, link.quote),
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
    return private(page, referrer="same-origin")


def _error(refused: AcceptanceError | None, state: str) -> str:
    """The code of the refusal. A replaced version leaves nothing to decide where the newest one has ended too."""
    code = refused.code if refused else ""
    return ENDED.get(state, code) if code == "replaced" else code


def _change_now(link: Link, document: FrozenContent, now: datetime) -> str:
    job = link.quote.job
    return change_now_words(job, document, now) if job is not None else ""


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
    seen = revision_seen(link, request.POST.get("digest", ""))
    if seen is None:
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
