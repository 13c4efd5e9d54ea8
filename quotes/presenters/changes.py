"""Changes to an open job as answers."""

from collections.abc import Sequence
from datetime import datetime
from decimal import Decimal
from zoneinfo import ZoneInfo

from quotes.answers.changes import AgreedItemOut, CeilingOut, JobChangeOut, JobChangesOut, QuoteChangeOut
from quotes.answers.rows import QuoteState
from quotes.calc.ceiling import CeilingCheck
from quotes.calc.forms import FrozenContent
from quotes.models import Decision, Line, Revision
from quotes.models.answers import AnswerWay
from quotes.queries.ceilings import measured
from quotes.queries.change_dates import ChangePlan, change_dates, change_plan
from quotes.queries.changes import AgreedJob, TakenKey, agreed_job, chosen_off
from quotes.queries.closing import open_changes
from shop.answers.base import utc
from shop.calc.quantity import hours, money
from shop.models import Job, Shop
from shop.models.jobs import ENDED
from shop.presenters.dates import half_day_brief
from shop.words import say
from shop.words.figures import figure

PICKED = ("kit", "extra", "outside", "labour")
WORDS = {"within": "quote.ceiling.within", "near": "quote.ceiling.near", "ask": "quote.ceiling.ask"}
Drafted = Revision.State.DRAFT


def change_answer(revision: Revision, gross: Decimal, plan: ChangePlan | None, now: datetime) -> QuoteChangeOut | None:
    """The change that the quote is, with its total `gross`; None for a quote that opens a job.

    `plan`: the work of a change that can still be agreed to.
    """
    quote, e = revision.quote, revision.shop.exponent
    if not quote.additional or quote.job is None or quote.job_id is None:
        return None
    agreed = agreed_job(quote.job_id, revision.shop_id)
    own = [change for change in agreed.changes if change.revision.quote_id == quote.pk]
    before = _before(agreed, own[0].revision) if own else agreed
    check = measured(before, gross)
    taken = set(chosen_off(revision))
    earlier = [] if own else [change for change in open_changes(quote.job) if change.created_at < quote.created_at]
    return QuoteChangeOut(
        number=len(before.changes) + len(earlier) + 1,
        opener=agreed.quotes[0].revision.quote_id if agreed.quotes else None,
        before=money(before.gross, e),
        after=money(before.gross + gross, e),
        items=_items(agreed, taken, e) if revision.state == Drafted else [],
        ceiling=ceiling_answer(check, quote.job, takes=bool(taken) and not own),
        date=change_date_words(quote.job, None if taken else plan, now),
        unasked=check is not None and check.status != "ask" and not taken and not own,
    )


def change_now_words(job: Job, document: FrozenContent, now: datetime) -> str:
    """The facts of a change that is still open: what was agreed on its job since it was sent, and its date."""
    return " ".join(filter(None, [_agreed_since(job, document), change_date_words(job, change_plan(document), now)]))


def _agreed_since(job: Job, document: FrozenContent) -> str:
    """The sums of the job as they are now; empty where those of the text still hold."""
    change, shop = document.get("change"), job.shop
    if change is None or Decimal(change["agreed"]) == (before := agreed_job(job, shop).gross):
        return ""
    after = before + Decimal(document["shown"]["totals"]["gross"])
    sums = {name: figure(money(gross, shop.exponent)) for name, gross in (("before", before), ("after", after))}
    return say("change.agreed_since", **sums, currency=shop.currency)


def change_date_words(job: Job, plan: ChangePlan | None, now: datetime) -> str:
    """'This adds 1 day: ready Fri 11 Dec, afternoon instead of Thu 10 Dec, afternoon'; empty without both dates.

    With the date for a customer who does not consent to begin within the withdrawal period, if that is another.
    """
    dates = change_dates(job, plan, now)
    if dates is None:
        return ""
    today = now.astimezone(ZoneInfo(job.shop.zone)).date()
    ready, before = (half_day_brief(half_day, today) for half_day in (dates.after, dates.before))
    key = "same" if dates.after.order == dates.before.order else "later" if dates.days > 0 else "moved"
    words = say(f"change.date.{key}", n=dates.days, ready=ready, before=before)
    if dates.later is None or dates.later.order == dates.after.order:
        return words
    return say("change.date.unless", words=words, ready=half_day_brief(dates.later, today))


def _before(agreed: AgreedJob, revision: Revision) -> AgreedJob:
    """The agreements before this one."""
    ids = [quote.revision.pk for quote in agreed.quotes]
    return AgreedJob(agreed.quotes[: ids.index(revision.pk)])


def _items(agreed: AgreedJob, taken: set[TakenKey], e: int) -> list[AgreedItemOut]:
    return [
        AgreedItemOut(
            source=source,
            item=item.key,
            kind=item.kind,
            title=item.title,
            hours=hours(item.hours),
            value=money(item.value, e),
            taken=(source, item.key) in taken,
        )
        for quote in agreed.quotes
        for item in agreed.standing(quote)
        if item.kind in PICKED and item.value and (source := str(quote.revision.pk))
    ]


def ceiling_answer(check: CeilingCheck | None, job: Job, *, takes: bool = False) -> CeilingOut | None:
    """The ceiling and its rest, until the job has ended.

    `takes`: an open change takes something off, for which the customer is asked.
    """
    if check is None or job.state in ENDED:
        return None
    left, ceiling = money(check.left, job.shop.exponent), money(check.ceiling, job.shop.exponent)
    words = say(_ceiling_key(check, takes=takes), left=figure(left), ceiling=figure(ceiling))
    return CeilingOut(ceiling=ceiling, left=left, status=check.status, words=words)


def _ceiling_key(check: CeilingCheck, *, takes: bool) -> str:
    if not check.ceiling:
        return "quote.ceiling.none"
    return "quote.ceiling.takes" if takes and check.status != "ask" else WORDS[check.status]


def job_changes_answer(job: Job, agreed: AgreedJob, revisions: Sequence[Revision], now: datetime) -> JobChangesOut:
    """`revisions` are the current ones of the job's changes, with their lines."""
    shop = job.shop
    decisions = {change.revision.quote_id: change for change in agreed.changes}
    names = {
        decision.quote_id: decision
        for decision in Decision.objects.filter(
            shop=shop, quote__in=list(decisions), answer=Decision.Answer.ACCEPTED
        ).select_related("recorded_by__user")
    }
    return JobChangesOut(
        agreed=money(agreed.gross, shop.exponent) if agreed.quotes else None,
        ceiling=ceiling_answer(measured(agreed), job),
        changes=[_change(revision, names.get(revision.quote_id), shop, now) for revision in revisions],
    )


def _change(revision: Revision, decision: Decision | None, shop: Shop, now: datetime) -> JobChangeOut:
    total = revision.gross if revision.agreed is None else revision.agreed
    chosen = (Line.Kind.KIT, Line.Kind.PART, Line.Kind.TEXT, Line.Kind.OUTSIDE)
    return JobChangeOut(
        quote=revision.quote_id,
        number=str(revision.quote) or None,
        state=QuoteState(revision.state_at(now)),
        gross=None if total is None else money(total, shop.exponent),
        titles=[
            line.title
            for line in revision.lines.all()
            if line.is_chosen_labour or (line.certain and line.kind in chosen)
        ],
        way=AnswerWay(decision.way) if decision else None,
        by=decision.record["name"] if decision else "",
        at=utc(decision.answered_at) if decision else None,
    )
