"""(actor, id) -> quote, line or link, or 404. The only way a view gets these rows."""

import hashlib
from collections.abc import Collection
from datetime import datetime, timedelta
from typing import Any
from uuid import UUID

from django.db.models import Case, Exists, OuterRef, Q, QuerySet, Subquery, Value, When
from django.http import Http404

from quotes.models import (
    Choice,
    Decision,
    FollowUp,
    Line,
    LinePhotograph,
    Link,
    LinkOpening,
    Occurrence,
    Option,
    OutsideWork,
    Question,
    Quote,
    Release,
    Revision,
)
from quotes.models.quotes import EXPIRED
from shop.access import Actor, shop_row
from shop.compiled import compiled
from shop.errors import field_error
from shop.models import CalendarFeed, CoreReturn, Job, Outbox, Payment, Shop

FROZEN = ("snapshot", "bought", "begun")  # long, and shown by no list
ACCEPTED_FIRST = Case(When(state=Revision.State.ACCEPTED, then=Value(0)), default=Value(1))


def quote(actor: Actor, id: UUID) -> Quote:
    """The quote; 404 if it was discarded."""
    row = any_quote(actor, id)
    if row.discarded_at is not None:
        raise Http404
    return row


def any_quote(actor: Actor, id: UUID) -> Quote:
    """The quote, discarded or not."""
    row = _quote.first(actor.shop.pk, id)
    if row is None:
        raise Http404
    row.shop = actor.shop
    return row


@compiled
def _quote(shop: UUID, id: UUID) -> QuerySet[Quote]:
    return Quote.objects.filter(shop=shop, pk=id).select_related("customer", "vehicle", "job", "advisor__user")


def quotes(actor: Actor) -> Any:
    return Quote.objects.filter(shop=actor.shop)


def revisions(actor: Actor) -> Any:
    return Revision.objects.filter(shop=actor.shop)


def current(quote: Quote) -> Revision:
    """The current revision of the quote: the accepted one, else the newest, which may be a draft."""
    revision: Revision = _current(quote.shop_id, quote.pk)[0]
    revision.quote, revision.shop = quote, quote.shop
    return revision


@compiled
def _current(shop: UUID, quote: UUID) -> QuerySet[Revision]:
    rows = Revision.objects.filter(shop=shop, quote=quote).select_related("rules", "changed_by__user")
    return rows.order_by(ACCEPTED_FIRST, "-number")[:1]


def current_of(actor: Actor, id: UUID) -> Revision:
    """The current revision of a quote by its id; 404 if the quote was discarded."""
    return current(quote(actor, id))


def locked(quote: Quote) -> Quote:
    """The quote as it stands in the database, under its lock."""
    rows = Quote.objects.select_for_update(of=("self",)).select_related("customer", "vehicle", "job")
    row: Quote = rows.get(pk=quote.pk)
    row.shop = quote.shop
    return row


def live(quote: Quote) -> Revision | None:
    """The revision that the customer can accept: sent, and not answered, replaced or withdrawn."""
    return Revision.objects.filter(shop=quote.shop_id, quote=quote, state=Revision.State.SENT).first()


def acceptance(quote: Quote) -> Decision | None:
    """The acceptance of the quote; None for one that nobody has accepted."""
    rows = Decision.objects.filter(shop=quote.shop_id, quote=quote, answer=Decision.Answer.ACCEPTED)
    return rows.select_related("revision__quote", "revision__shop", "quote__customer", "quote__shop").first()


def sent_revision(quote: Quote, number: int) -> Revision | None:
    """The revision of that number, unless it is a draft."""
    rows = Revision.objects.filter(shop=quote.shop_id, quote=quote, number=number)
    return rows.exclude(state=Revision.State.DRAFT).select_related("quote", "shop").first()


def version_before(revision: Revision) -> Revision | None:
    """The version that this one followed; None for the first."""
    if revision.number == 1:
        return None
    earlier = Revision.objects.filter(shop=revision.shop_id, quote=revision.quote_id, number__lt=revision.number)
    return earlier.select_related("rules", "quote", "shop").order_by("-number").first()


def line(revision: Revision, id: UUID | str) -> Line:
    row = Line.objects.filter(shop=revision.shop_id, revision=revision, pk=id).first()
    if row is None:
        raise Http404
    return row


def lines(revision: Revision, ids: Collection[UUID]) -> tuple[Line, ...]:
    """The lines with these ids, in one query; 404 if one of them is not of the revision."""
    rows = Line.objects.filter(shop=revision.shop_id, revision=revision).in_bulk(ids)
    if any(id not in rows for id in ids):
        raise Http404
    return tuple(rows[id] for id in ids)


def line_photograph(quote: Quote, id: UUID | str) -> LinePhotograph:
    """A photograph of a line of any version of the quote."""
    rows = LinePhotograph.objects.filter(shop=quote.shop_id, revision__quote=quote, pk=id)
    row: LinePhotograph | None = rows.select_related("line", "small").first()
    if row is None:
        raise Http404
    return row


def choice(revision: Revision, id: UUID | str) -> Choice:
    row = Choice.objects.filter(shop=revision.shop_id, revision=revision, pk=id).first()
    if row is None:
        raise Http404
    return row


def option(revision: Revision, id: UUID | str) -> Option:
    rows = Option.objects.filter(shop=revision.shop_id, revision=revision, pk=id).select_related("choice")
    row = rows.first()
    if row is None:
        raise Http404
    return row


def outside_work(revision: Revision, line: UUID | str) -> OutsideWork:
    rows = OutsideWork.objects.filter(shop=revision.shop_id, revision=revision).select_related("firm", "line")
    row = rows.filter(line_id=line).first()
    if row is None:
        raise Http404
    return row


def link(actor: Actor, quote: Quote, id: UUID | str) -> Link:
    row = shop_row(Link, actor, id)
    if row.quote_id != quote.pk:
        raise Http404
    return row


def mails(quote: Quote, kinds: Collection[str]) -> Any:
    """The e-mails about a quote, the first one first."""
    rows = Outbox.objects.filter(shop=quote.shop_id, subject_id=quote.pk, kind__in=kinds)
    return rows.select_related("author__user").order_by("asked_at", "id")


def mail(quote: Quote, kinds: Collection[str], id: UUID | str) -> Outbox:
    row: Outbox | None = mails(quote, kinds).filter(pk=id).first()
    if row is None:
        raise Http404
    return row


def payment(actor: Actor, job: Job, id: UUID | str) -> Payment:
    row: Payment | None = Payment.objects.filter(shop=actor.shop, job=job, pk=id).first()
    if row is None:
        raise Http404
    return row


def release(actor: Actor, job: Job, id: UUID | str) -> tuple[Release, int]:
    """A release of the job, and its place among them from 1."""
    rows = list(Release.objects.filter(shop=actor.shop, job=job).order_by("released_at", "id"))
    for number, row in enumerate(rows, 1):
        if str(row.pk) == str(id):
            row.job, row.shop = job, actor.shop
            return row, number
    raise Http404


def core_return(actor: Actor, job: Job, id: UUID | str) -> CoreReturn:
    row: CoreReturn | None = CoreReturn.objects.filter(shop=actor.shop, job=job, pk=id).first()
    if row is None:
        raise Http404
    return row


def agreed_contingency(job: Job, id: UUID) -> Line:
    """A line that an accepted quote of the job charges only if it happens; 404 for any other."""
    accepted = Line.objects.filter(shop=job.shop_id, certain=False, revision__state=Revision.State.ACCEPTED)
    row: Line | None = accepted.filter(revision__quote__job=job, pk=id).first()
    if row is None:
        raise Http404
    return row


def occurrence(actor: Actor, job: Job, id: UUID) -> Occurrence:
    rows = Occurrence.objects.filter(shop=actor.shop, job=job, pk=id).select_related("line")
    row: Occurrence | None = rows.first()
    if row is None:
        raise Http404
    return row


def question(actor: Actor, quote: Quote, id: UUID | str) -> Question:
    row: Question | None = Question.objects.filter(shop=actor.shop, quote=quote, pk=id).first()
    if row is None:
        raise Http404
    return row


def questions(quote: Quote) -> list[Question]:
    """Every question about the quote, the first one first."""
    return _questions(quote.shop_id, quote.pk)


@compiled
def _questions(shop: UUID, quote: UUID) -> QuerySet[Question]:
    rows = Question.objects.filter(shop=shop, quote=quote)
    return rows.select_related("link", "replied_by__user").order_by("asked_at", "id")


def open_questions(actor: Actor) -> Any:
    """Questions without a reply, the one that waits longest first."""
    rows = Question.objects.filter(shop=actor.shop, replied_at__isnull=True)
    return rows.select_related("quote__customer").order_by("asked_at", "id")


def hash_of(token: str) -> str:
    return hashlib.sha256(token.encode()).hexdigest()


def link_by_token(id: UUID, token: str) -> Link | None:
    """The link with this secret, in any state; None for a wrong secret."""
    row = _by_token.first(hash_of(token))
    if row is None or row.pk != id:
        return None
    row.quote.shop = row.shop
    return row


@compiled
def _by_token(digest: str) -> QuerySet[Link]:
    return Link.objects.filter(token_hash=digest).select_related("quote__customer", "quote__job", "shop")


def shop_of_link(id: UUID) -> Shop | None:
    """The shop to call about a link that no longer works. The id alone gives no access."""
    row = Link.objects.filter(pk=id).select_related("shop").first()
    return row.shop if row else None


def only_shop() -> Shop | None:
    """The installation's only shop; None if there are several."""
    first = list(Shop.objects.all()[:2])
    return first[0] if len(first) == 1 else None


def newest_revisions(actor: Actor) -> Any:
    """The current revision of every quote (accepted, else newest), with the rows of a list and `at`, its answer."""
    others = Revision.objects.filter(shop=actor.shop, quote=OuterRef("quote"))
    later = Exists(others.filter(number__gt=OuterRef("number")))
    accepted = Exists(others.filter(state=Revision.State.ACCEPTED))
    return (
        revisions(actor)
        .filter(Q(state=Revision.State.ACCEPTED) | ~later & ~accepted, quote__discarded_at=None)
        .annotate(at=_answered_at(actor))
        .defer(*FROZEN)
        .select_related("shop", "quote__customer", "quote__vehicle", "quote__job")
        .prefetch_related("lines")
    )


MOST_EXAMPLES = 20


def example_quotes(actor: Actor) -> Any:
    """The quotes that may be an example in the office, the newest first. A change to a job has the rules of its job."""
    rows = newest_revisions(actor).filter(quote__additional=False, quote__number__isnull=False)
    return rows.order_by(*BY_CHANGE)[:MOST_EXAMPLES]


def changes_of(actor: Actor, job: Job) -> Any:
    """The current revision of each change to the job, the first one begun first."""
    changes = Quote.objects.filter(shop=actor.shop, job=job, additional=True)
    rows = newest_revisions(actor).filter(quote__in=changes)
    return rows.order_by("quote__created_at", "quote_id")


def _answered_at(actor: Actor) -> Subquery:
    return Subquery(Decision.objects.filter(shop=actor.shop, revision=OuterRef("pk")).values("answered_at")[:1])


SILENT = timedelta(days=3)  # after which a customer who has not answered is rung
EXPIRED_LATELY, EXPIRES_SOON = timedelta(days=7), timedelta(days=4)


def to_follow_up(actor: Actor, now: datetime) -> Any:
    """Unanswered sent quotes: those without a recent call first, and among them the ones that expire soonest.

    Each was sent some days ago or expires soon. `opened_at`: when a link first showed it; `linked`: a link still works.
    """
    openings = LinkOpening.objects.filter(shop=actor.shop, revision=OuterRef("pk")).order_by("opened_at")
    links = Link.objects.filter(shop=actor.shop, quote=OuterRef("quote"), revoked_at=None, expires_at__gte=now)
    calls = FollowUp.objects.filter(shop=actor.shop, quote=OuterRef("quote"), called_at__gte=now - SILENT)
    due = Q(sent_at__lt=now - SILENT) | Q(valid_until__lt=now + EXPIRES_SOON)
    rows = newest_revisions(actor).filter(due, state=Revision.State.SENT, valid_until__gte=now - EXPIRED_LATELY)
    opened_at = Subquery(openings.values("opened_at")[:1])
    rows = rows.annotate(opened_at=opened_at, linked=Exists(links), rung=Exists(calls))
    return rows.order_by("rung", "valid_until", "id")


def newest_calls(actor: Actor, quotes: Collection[UUID]) -> dict[UUID, FollowUp]:
    """Maps each of these quotes that somebody rang about to the newest call."""
    rows = FollowUp.objects.filter(shop=actor.shop, quote__in=quotes).select_related("called_by__user", "shop")
    return {row.quote_id: row for row in rows.order_by("called_at")}


@compiled
def _newest_sent(shop: UUID, quote: UUID) -> QuerySet[Revision]:
    rows = Revision.objects.filter(shop=shop, quote=quote).exclude(state=Revision.State.DRAFT)
    return rows.order_by(ACCEPTED_FIRST, "-number")[:1]


def newest_sent(quote: Quote) -> Revision | None:
    """The accepted revision, else the newest sent one: the revision of the paper and the links."""
    revision = _newest_sent.first(quote.shop_id, quote.pk)
    if revision is not None:
        revision.quote, revision.shop = quote, quote.shop
    return revision


STATES = (*Revision.State.values, EXPIRED)
BY_CHANGE, BY_LAST_DAY = ("-changed_at", "-id"), ("-valid_until", "-id")


def in_state(rows: Any, state: str, now: datetime) -> tuple[Any, tuple[str, str]]:
    """(revisions in a state as people see it, their order). `expired` is sent and past its validity; `sent` is not.

    An index of the state has this order, so a page reads only its own rows. Sent and expired revisions are ordered by
    their last valid day, latest first: ordered by change, the few valid ones would be searched among all expired ones.
    """
    if state not in STATES:
        raise field_error("/state", "unknown_state", known=", ".join(STATES))
    if state == Revision.State.REPLACED:  # there is always a newer one, so none of these counts
        return rows.none(), BY_CHANGE
    if state == EXPIRED:
        return rows.filter(state=Revision.State.SENT, valid_until__lt=now), BY_LAST_DAY
    rows = rows.filter(state=state)
    return (rows.filter(valid_until__gte=now), BY_LAST_DAY) if state == Revision.State.SENT else (rows, BY_CHANGE)


def answered(actor: Actor, since: datetime) -> Any:
    """Revisions answered since `since`, newest first, with `at`, the instant of the answer.

    Includes quotes with a newer open draft; of an accepted quote only the accepted revision. The query starts from the
    answers since then, so it does not read every quote that was ever answered.
    """
    answers = Decision.objects.filter(shop=actor.shop, answered_at__gte=since)
    others = Revision.objects.filter(shop=actor.shop, quote=OuterRef("quote"), state=Revision.State.ACCEPTED)
    counts = Q(state=Revision.State.ACCEPTED) | Q(state=Revision.State.DECLINED) & ~Exists(others)
    rows = (
        revisions(actor)
        .filter(counts, pk__in=answers.values("revision"))
        .annotate(at=_answered_at(actor))
        .order_by("-at")
    )
    return (
        rows.defer(*FROZEN)
        .select_related("shop", "quote__customer", "quote__vehicle", "quote__job")
        .prefetch_related("lines")
    )


def calendar_feed(id: UUID, token: str) -> CalendarFeed | None:
    """The feed with this id and secret, unless it was revoked."""
    feeds = CalendarFeed.objects.select_related("shop")
    return feeds.filter(token_hash=hash_of(token), pk=id, revoked_at__isnull=True).first()
