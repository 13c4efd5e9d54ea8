"""Extra work on a job for the bay, without a price; and what is left of a job that is called off."""

from collections.abc import Iterable, Iterator
from datetime import date
from decimal import Decimal
from typing import Literal

from kitting.models import PullLine
from kitting.queries.here import goods_here
from kitting.queries.readiness import counts_of, line_on_hand
from quotes.answers.job_extras import AgreedLabourOut, CallOffOut, CountedOut, ExtraWorkOut, ExtraWorkRowOut
from quotes.models import Line, Revision
from quotes.presenters.releases import outstanding_words
from quotes.queries.called_off import AgreedLabour, agreed_labour
from quotes.queries.ceilings import measured
from quotes.queries.changes import AgreedJob, chosen_off
from quotes.queries.closing import closing_of
from quotes.queries.releases import arrived_quantities, releases_of
from shop.calc.quantity import hours, money
from shop.calc.withdrawal import is_waiting
from shop.models import Job, Shop
from shop.presenters.dates import day_words, instant_words
from shop.queries.payments import received
from shop.words import say

OPEN = (Revision.State.DRAFT, Revision.State.SENT)
CHOSEN = (Line.Kind.KIT, Line.Kind.PART, Line.Kind.TEXT, Line.Kind.OUTSIDE)
Verdict = Literal["agreed", "go_ahead", "ask_first"]
WORDS: dict[Verdict, str] = {
    "agreed": "job.extra.agreed",
    "go_ahead": "job.extra.go_ahead",
    "ask_first": "job.extra.ask_first",
}


def extra_work_answer(agreed: AgreedJob, revisions: Iterable[Revision], today: date) -> ExtraWorkOut:
    """`revisions` are the current ones of the job's changes, with their lines."""
    check = measured(agreed)
    may = check is not None and check.left > 0
    return ExtraWorkOut(
        words=say("job.extra.some") if may else say("job.extra.none"),
        changes=[
            _row(revision, agreed, today)
            for revision in revisions
            if revision.state in (*OPEN, Revision.State.ACCEPTED)
        ],
    )


def _row(revision: Revision, agreed: AgreedJob, today: date) -> ExtraWorkRowOut:
    verdict = _verdict(revision, agreed)
    lines = [line for line in revision.lines.all() if line.certain]
    titles = [line.title for line in lines if line.kind in CHOSEN or line.is_chosen_labour]
    removed = [say("job.extra.removed", title=title) for title in agreed.titles(chosen_off(revision))]
    return ExtraWorkRowOut(revision.quote_id, titles + removed, verdict, _words(verdict, revision, agreed, today))


def _words(verdict: Verdict, revision: Revision, agreed: AgreedJob, today: date) -> str:
    """The verdict, and for a change that the customer may still take back the day before which nothing of it begins."""
    days = (quote.not_before for quote in agreed.quotes if quote.revision.pk == revision.pk)
    not_before = next(days, None)
    if not_before and is_waiting(not_before, today):
        return say("job.extra.waits", day=day_words(not_before))
    return say(WORDS[verdict])


def _verdict(revision: Revision, agreed: AgreedJob) -> Verdict:
    if revision.state == Revision.State.ACCEPTED:
        return "agreed"
    check = measured(agreed, revision.gross or Decimal(0))
    within = check is not None and check.status != "ask" and not chosen_off(revision)
    return "go_ahead" if within else "ask_first"


def call_off_answer(agreed: AgreedJob, job: Job, shop: Shop) -> CallOffOut:
    """The counts of the job's lists, the money received, and the outside work that still stands."""
    items = [item for quote in agreed.quotes for item in agreed.standing(quote) if item.kind == "outside"]
    paid = received(job)
    return CallOffOut(
        back=list(_counted(job, shop)),
        ordered=list(_ordered(job, shop)),
        received=money(paid, shop.exponent) if paid else None,
        outside=[item.title for item in items],
        labour=[_labour(work, shop) for work in agreed_labour(job)],
        settled=closing_of(job) is not None,
    )


def _labour(work: AgreedLabour, shop: Shop) -> AgreedLabourOut:
    return AgreedLabourOut(
        step=work.step.pk,
        title=work.title,
        agreed=hours(work.agreed),
        hours=hours(work.hours),
        amount=money(work.amount.amount, shop.exponent),
        why=_recorded(work, shop.zone),
    )


def _recorded(work: AgreedLabour, zone: str) -> list[str]:
    step, worked = work.step, work.worked
    why = []
    if step.done_at and step.done_by:
        at, name = instant_words(step.done_at, zone), step.done_by.user.name
        why.append(say("job.labour.done", at=at, name=name))
    else:
        why.append(say("job.labour.open"))
    if worked:
        at, name = instant_words(worked.recorded_at, zone), worked.recorded_by.user.name
        why.append(say("job.labour.corrected", reason=worked.reason, at=at, name=name))
    return why


def _ordered(job: Job, shop: Shop) -> Iterator[str]:
    """The lines of the releases less what has come of each number, the first release first."""
    releases = releases_of(job)
    pull_list = job.pull_lists.first() if releases else None
    arrived = arrived_quantities(releases, goods_here(shop, pull_list)) if pull_list else ()
    yield from outstanding_words("job.ordered", releases, arrived)


def _counted(job: Job, shop: Shop) -> Iterable[CountedOut]:
    for pull_list in job.pull_lists.all():
        lines = list(
            PullLine.objects.filter(shop=shop, pull_list=pull_list).exclude(kind="reused").order_by("position")
        )
        counts = counts_of(shop, pull_list, lines)
        for line in lines:
            if here := line_on_hand(line, counts):
                yield CountedOut(line.number, line.title, line.kit, str(here), line.unit)
