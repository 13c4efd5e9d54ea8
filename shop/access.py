"""(actor, id) -> row or 404. The only way a view gets a row; another shop's row is 404 as well."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import Any, TypeVar
from uuid import UUID

from django.db import connection
from django.db.models import Count, OuterRef, Q, QuerySet, Subquery, Sum
from django.http import Http404
from django.shortcuts import get_object_or_404
from rest_framework.exceptions import NotAuthenticated, PermissionDenied

from shop.compiled import compiled
from shop.errors import RequestError
from shop.models import (
    ApiToken,
    CalendarFeed,
    ChangeNumber,
    Customer,
    EntryLink,
    FileRead,
    FileTask,
    History,
    Job,
    JobOperation,
    LabourTemplate,
    Member,
    Operation,
    Outbox,
    Photograph,
    Rate,
    RuleSet,
    Shop,
    User,
    Vehicle,
    Webhook,
    WebhookMessage,
)
from shop.models.entry_links import INVITATION_LASTS
from shop.rows import ShopRow

Row = TypeVar("Row", bound=ShopRow)

ADVISOR, PARTS, TECHNICIAN, MANAGER = Member.Role.values
EVERYONE = frozenset(Member.Role.values)
COUNTER = frozenset({ADVISOR, MANAGER})
FLOOR = frozenset({ADVISOR, TECHNICIAN, MANAGER})
STORES = frozenset({ADVISOR, PARTS, MANAGER})
OFFICE = frozenset({MANAGER})
# Outside a shop nobody has a role: an endpoint there is for anyone, or for anyone who is signed in.
ANYONE = frozenset({"anyone"})
SIGNED_IN = frozenset({"signed in"})

NEWEST_MESSAGES = 50
JOINS = ("added", "joined")  # the verbs by which a person becomes a member

READERS = {
    ChangeNumber.Kind.COUNTS: EVERYONE,
    ChangeNumber.Kind.DRAFTS: COUNTER,
    ChangeNumber.Kind.IMPORTS: STORES,
    ChangeNumber.Kind.JOBS: EVERYONE,
    ChangeNumber.Kind.PULL_LISTS: EVERYONE,
    ChangeNumber.Kind.QUOTES: COUNTER,
}
"""Maps each kind of change to the roles that may read it, and so are notified of it."""

CHANGE_NUMBERS = """
    SELECT member.role, shop.log_epoch, change.kind, change.number
    FROM shop_shop shop
    JOIN shop_member member ON member.shop_id = shop.id
    LEFT JOIN shop_changenumber change ON change.shop_id = shop.id
    WHERE shop.slug = %s AND member.user_id = %s AND member.active
    ORDER BY change.kind
"""


@dataclass(frozen=True, slots=True)
class Actor:
    """A member who acts in a shop; `member` is None for the customer's link and for a command."""

    shop: Shop
    member: Member | None
    channel: str = "session"

    @property
    def role(self) -> str:
        return self.member.role if self.member else ""

    @property
    def languages(self) -> tuple[str, str]:
        """The languages to answer this person in, by preference: their own, else the shop's."""
        return self.member.language if self.member else "", self.shop.language


def signed_in(user: Any) -> User:
    """The person who is signed in, or 401."""
    if not isinstance(user, User) or not user.is_active:
        raise NotAuthenticated
    return user


def actor_in_shop(user: Any, slug: str, allowed: Iterable[str], *, channel: str = "session") -> Actor:
    """The signed-in person as a member of the shop. 401 signed out, 404 not a member, 403 a role that may not."""
    signed_in(user)
    member = _membership.first(slug, user.pk)
    if member is None:
        raise Http404
    if member.needs_second_factor and user.second_factor_since is None:
        raise RequestError(403, "second-factor-missing")
    if member.role not in allowed:
        raise PermissionDenied
    return Actor(shop=member.shop, member=member, channel=channel)


def memberships(user: UUID) -> QuerySet[Member]:
    """The active memberships of a person, with their shops, by the name of the shop."""
    return Member.objects.filter(user_id=user, active=True).select_related("shop", "user").order_by("shop__name")


@compiled
def _membership(slug: str, user: UUID) -> QuerySet[Member]:
    return Member.objects.filter(shop__slug=slug, user=user, active=True).select_related("shop")


def shop_row(model: type[Row], actor: Actor, id: UUID | str, *related: str) -> Row:
    """The shop's own row, or 404."""
    rows = model._default_manager.filter(shop=actor.shop)
    row = get_object_or_404(rows.select_related(*related) if related else rows, pk=id)
    row.shop = actor.shop
    return row


def customer(actor: Actor, id: UUID | str) -> Customer:
    """The customer. The id of a record that was put together with another leads to the one that stays."""
    return shop_row(Customer, actor, id, "merged_into").standing


def customers(actor: Actor) -> Any:
    return Customer.objects.filter(shop=actor.shop, archived=False)


def vehicle(actor: Actor, id: UUID | str) -> Vehicle:
    return shop_row(Vehicle, actor, id, "customer")


def vehicles(actor: Actor) -> Any:
    return Vehicle.objects.filter(shop=actor.shop)


def operation(actor: Actor, id: UUID | str) -> Operation:
    return shop_row(Operation, actor, id)


def template(actor: Actor, id: UUID | str) -> LabourTemplate:
    return shop_row(LabourTemplate, actor, id)


def operations(actor: Actor) -> Any:
    return Operation.objects.filter(shop=actor.shop)


def rates(actor: Actor) -> Any:
    """The exchange rates, with `added_at` and `author_name`."""
    written = History.objects.filter(shop=OuterRef("shop"), subject="rate", subject_id=OuterRef("pk"))
    return Rate.objects.filter(shop=actor.shop).annotate(
        added_at=Subquery(written.order_by("recorded_at").values("recorded_at")[:1]),
        author_name=Subquery(written.order_by("recorded_at").values("author__user__name")[:1]),
    )


def job(actor: Actor, id: UUID) -> Any:
    row = _job.first(actor.shop.pk, id)
    if row is None:
        raise Http404
    row.shop = actor.shop
    return row


@compiled
def _job(shop: UUID, id: UUID) -> QuerySet[Job, Any]:
    rows: QuerySet[Job, Any] = _jobs(shop)
    return rows.filter(pk=id)


def step(actor: Actor, job: Job, id: UUID) -> JobOperation:
    row: JobOperation | None = JobOperation.objects.filter(shop=actor.shop, job=job, pk=id).first()
    if row is None:
        raise Http404
    return row


def photograph(actor: Actor, job: Job, id: UUID) -> Photograph:
    row: Photograph | None = Photograph.objects.filter(shop=actor.shop, job=job, pk=id).select_related("file").first()
    if row is None:
        raise Http404
    return row


def jobs(actor: Actor) -> Any:
    """Jobs with `quoted`, the sum of their quoted hours: a subquery, so that only the jobs of a page are summed."""
    return _jobs(actor.shop.pk)


def _jobs(shop: UUID) -> Any:
    rows = Job.objects.filter(shop=shop).select_related("customer", "vehicle")
    steps = JobOperation.objects.filter(shop=OuterRef("shop"), job=OuterRef("pk"), cancellation__isnull=True).order_by()
    return rows.annotate(quoted=Subquery(steps.values("job").annotate(hours=Sum("quoted_hours")).values("hours")))


def open_jobs(actor: Actor) -> Any:
    """Jobs that are neither handed over nor called off."""
    return jobs(actor).exclude(state__in=[Job.State.HANDED_OVER, Job.State.CALLED_OFF])


def change_numbers(user: Any, slug: str) -> tuple[int, dict[str, int]]:
    """(the shop's epoch, {kind: number}) for the kinds that the role may read; a kind that never changed is left out.

    401 signed out, 404 not a member. Every open screen asks every two seconds: one query instead of two saves a third
    of the whole answer's time.
    """
    signed_in(user)
    with connection.cursor() as cursor:
        cursor.execute(CHANGE_NUMBERS, [slug, User._meta.pk.get_db_prep_value(user.pk, connection)])
        rows = cursor.fetchall()
    if not rows:
        raise Http404
    numbers = {kind: number for role, _, kind, number in rows if kind is not None and role in READERS[kind]}
    return rows[0][1], numbers


def file_read(actor: Actor, id: UUID | str) -> FileRead:
    return shop_row(FileRead, actor, id, "author", "author__user")


def file_tasks(actor: Actor, id: UUID) -> list[FileTask]:
    """The file's tasks. Read before the file: a task ends with the change to its file, and an answer without a task
    has to show the file as the task left it.
    """
    return list(FileTask.objects.filter(shop=actor.shop, file=id))


def files_read(actor: Actor) -> Any:
    return FileRead.objects.filter(shop=actor.shop)


def rules_on(shop: Shop, day: date) -> RuleSet | None:
    """The price rules of a day: the newest that are in force."""
    return _rules_on.first(shop.pk, day)


@compiled
def _rules_on(shop: UUID, day: date) -> QuerySet[RuleSet]:
    return RuleSet.objects.filter(shop=shop, valid_from__lte=day).order_by("-valid_from", "-number")[:1]


def rule_sets(actor: Actor) -> Any:
    """All sets, with `added_at`, `author_name`, and `before_rules` and `before_id` of the set whose place it takes."""
    written = History.objects.filter(shop=OuterRef("shop"), subject="ruleset", subject_id=OuterRef("pk"))
    earlier = {"number__lt": OuterRef("number"), "valid_from__lte": OuterRef("valid_from")}
    before = RuleSet.objects.filter(shop=OuterRef("shop"), **earlier).order_by("-valid_from", "-number")
    return RuleSet.objects.filter(shop=actor.shop).annotate(
        added_at=Subquery(written.order_by("recorded_at").values("recorded_at")[:1]),
        author_name=Subquery(written.order_by("recorded_at").values("author__user__name")[:1]),
        before_rules=Subquery(before.values("rules")[:1]),
        before_id=Subquery(before.values("pk")[:1]),
    )


def rule_set(actor: Actor, id: UUID) -> Any:
    """One of `rule_sets`, or 404."""
    return get_object_or_404(rule_sets(actor), pk=id)


def members(actor: Actor) -> Any:
    """The active members by name, with `since`, the time of joining, and `managers`, the number of active managers."""
    joined = History.objects.filter(shop=OuterRef("shop"), subject="member", subject_id=OuterRef("pk"))
    managers = Member.objects.filter(shop=OuterRef("shop"), role=MANAGER, active=True).order_by().values("shop")
    rows = Member.objects.filter(shop=actor.shop, active=True).select_related("user").order_by("user__name", "pk")
    return rows.annotate(
        since=Subquery(joined.filter(verb__in=JOINS).order_by("recorded_at").values("recorded_at")[:1]),
        managers=Subquery(managers.annotate(managers=Count("pk")).values("managers")),
    )


def member(actor: Actor, id: UUID) -> Any:
    """One of `members`, or 404."""
    return get_object_or_404(members(actor), pk=id)


def invitations(actor: Actor, now: datetime) -> Any:
    """The open invitations, newest first."""
    links = EntryLink.objects.filter(shop=actor.shop, kind=EntryLink.Kind.INVITATION, expires_at__gt=now)
    rows = links.filter(used_at__isnull=True, withdrawn_at__isnull=True).select_related("author__user")
    return rows.order_by("-made_at", "pk")


def entry_mails(actor: Actor, now: datetime) -> dict[UUID, Outbox]:
    """The newest e-mail with an entry link for each open invitation, and of the last day for each member, by its id."""
    kinds = (EntryLink.Kind.INVITATION, EntryLink.Kind.PASSWORD)
    rows = Outbox.objects.filter(shop=actor.shop, kind__in=kinds, asked_at__gt=now - INVITATION_LASTS)
    old = Q(kind=EntryLink.Kind.PASSWORD, asked_at__lte=now - timedelta(days=1))
    return {row.subject_id: row for row in rows.exclude(old).order_by("asked_at", "pk")}


def invitation(actor: Actor, id: UUID) -> Any:
    """An invitation, open or not, or 404."""
    links = EntryLink.objects.filter(shop=actor.shop, kind=EntryLink.Kind.INVITATION)
    return get_object_or_404(links, pk=id)


def tokens(actor: Actor) -> Any:
    """The API tokens that have not been revoked, newest first."""
    rows = ApiToken.objects.filter(shop=actor.shop, revoked_at__isnull=True)
    return rows.select_related("member__user", "author__user").order_by("-made_at", "pk")


def token(actor: Actor, id: UUID) -> ApiToken:
    """An API token, revoked or not, or 404."""
    return shop_row(ApiToken, actor, id)


def calendar_feeds(actor: Actor) -> Any:
    """The addresses for calendars that have not been revoked, newest first."""
    rows = CalendarFeed.objects.filter(shop=actor.shop, revoked_at__isnull=True)
    return rows.select_related("author__user").order_by("-made_at", "pk")


def calendar_feed(actor: Actor, id: UUID) -> CalendarFeed:
    """An address for a calendar, revoked or not, or 404."""
    return shop_row(CalendarFeed, actor, id)


def webhooks(actor: Actor) -> Any:
    """The webhooks that have not been ended, newest first."""
    rows = Webhook.objects.filter(shop=actor.shop, ended_at__isnull=True)
    return rows.select_related("author__user").order_by("-made_at", "pk")


def webhook(actor: Actor, id: UUID) -> Webhook:
    """A webhook, ended or not, or 404."""
    return shop_row(Webhook, actor, id)


def webhook_counts(actor: Actor) -> dict[tuple[Any, str], int]:
    """{(webhook, state): the number of its messages} of those that wait or have failed."""
    states = (WebhookMessage.State.WAITING, WebhookMessage.State.BEGUN, WebhookMessage.State.FAILED)
    rows = WebhookMessage.objects.filter(shop=actor.shop, webhook__in=webhooks(actor).values("pk"), state__in=states)
    return {(id, state): n for id, state, n in rows.values_list("webhook", "state").annotate(Count("pk")).order_by()}


def webhook_messages(webhook: Webhook) -> Any:
    """The newest messages of a webhook, the newest first."""
    rows = WebhookMessage.objects.filter(shop=webhook.shop_id, webhook=webhook)
    return rows.order_by("-happened_at", "-pk")[:NEWEST_MESSAGES]


def webhook_message(webhook: Webhook, id: UUID) -> Any:
    """A message of the webhook, or 404."""
    return get_object_or_404(WebhookMessage, shop=webhook.shop_id, webhook=webhook, pk=id)
