"""The dates of a receipt: the timeline as of the answer, and the customer's next step."""

from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

from quotes.calc.forms import FrozenContent
from quotes.models import Decision
from quotes.presenters.promise import CustomerPromise, PromiseDay, PromiseLine, with_headline
from shop.models import Job
from shop.models.jobs import JobState
from shop.presenters.dates import day_words, instant_words
from shop.words import say

HEADLINES = {
    ("link", "accepted"): "customer.receipt_accepted",
    ("link", "declined"): "customer.receipt_declined",
    ("phone", "accepted"): "customer.spoken.accepted_phone",
    ("phone", "declined"): "customer.spoken.declined_phone",
    ("counter", "accepted"): "customer.spoken.accepted_counter",
    ("counter", "declined"): "customer.spoken.declined_counter",
    ("ceiling", "accepted"): "customer.change.unasked",
}

BEFORE_THE_BAY = (JobState.ACCEPTED, JobState.WAITING, JobState.READY)


def receipt_promise(record: FrozenContent) -> CustomerPromise | None:
    """The promise in the record of an acceptance, in the words of a receipt; None without a date."""
    promise = record.get("promise")
    if not promise:
        return None
    customer_promise = promise["told"]
    return {**with_headline(customer_promise), "lines": [_afterwards(line) for line in customer_promise["lines"]]}


def _afterwards(line: PromiseLine) -> PromiseLine:
    return {**line, "words": say("customer.promise.said_yes")} if line["kind"] == "yes" else line


def receipt_waits(record: FrozenContent) -> str:
    """The sentence on the day work begins, for an acceptance that kept the withdrawal period."""
    day = record.get("not_before")
    return say("customer.not_before", day=day_words(date.fromisoformat(day))) if day else ""


def withdraw_until(document: FrozenContent, decision: Decision) -> str:
    """The sentence on the last day of an acceptance's withdrawal period; empty without a period."""
    terms = document["rules"].get("withdrawal")
    if not terms or decision.answer != Decision.Answer.ACCEPTED:
        return ""
    last = decision.answered_at.astimezone(ZoneInfo(document["shop"]["zone"])).date() + timedelta(days=terms["days"])
    return say("customer.withdrawal_until", day=day_words(last))


def ended_words(job: Job | None) -> str:
    """The head of a job that has ended: handed over or called off, on its day; empty before."""
    if job is None:
        return ""
    days = {"customer.ended.called_off": job.called_off_on, "customer.ended.handed_over": job.handed_over_on}
    return next((say(key, day=day_words(day)) for key, day in days.items() if day), "")


def next_now(
    document: FrozenContent, promise: CustomerPromise | None, job: Job | None, today: date, *, owes_deposit: bool
) -> str:
    """The sentence on the customer's next steps as the job stands today."""
    if job is not None and (job.called_off_on or job.handed_over_on):
        return say("customer.receipt_next.called_off" if job.called_off_on else "customer.receipt_next.handed_over")
    if "change" in document:
        return say("customer.change.next")
    if job is not None and job.state not in BEFORE_THE_BAY:
        return say("customer.receipt_next.here", deposit="awaited" if owes_deposit else "none")
    return next_step(promise, today, owes_deposit=owes_deposit)


def next_step(promise: CustomerPromise | None, today: date, *, owes_deposit: bool) -> str:
    """The sentence on the customer's next steps: to pay a deposit, to bring the vehicle on the day in the record.

    A record from before 26 Nov 2026 names no hour: the day is that of its line, or that on which work begins.
    """
    deposit = "awaited" if owes_deposit else "none"
    if promise and "bring" in promise:
        return _bring(promise["bring"], today, deposit)
    for kind, key in (("bring", "bring"), ("work", "by")):
        day = next((date.fromisoformat(line["day"]) for line in _lines(promise) if line["kind"] == kind), None)
        if day is not None:
            words = say(f"customer.receipt_next.{key}", day=day_words(day), deposit=deposit)
            return words if day >= today else _nothing()
    return say("customer.receipt_next.no_day", deposit=deposit)


def _bring(bring: PromiseDay | None, today: date, deposit: str) -> str:
    if bring is None:
        return say("customer.receipt_next.here", deposit=deposit)
    if date.fromisoformat(bring["day"]) < today:
        return _nothing()
    return say("customer.receipt_next.told", bring=bring["words"], deposit=deposit)


def to_bring(document: FrozenContent, job: Job | None) -> list[str]:
    """The sentences on what the customer brings with the vehicle; empty once the vehicle is in the bay."""
    return bring_words(document) if job is not None and job.state in BEFORE_THE_BAY else []


def bring_words(document: FrozenContent) -> list[str]:
    """Parts and kits that the customer supplies, then the workshop's own sentences; none for a change to a job.

    A text from before there were such sentences has none.
    """
    if "change" in document:
        return []
    content = document["shown"]
    supplied = [line["title"] for line in (*content["kits"], *content["extras"]) if line.get("supplied")]
    words = [say("customer.receipt_bring.supplied", title=title) for title in supplied]
    return [*words, *document["rules"].get("bring", ())]


def receipt_headline(decision: Decision, gross: str, currency: str, zone: str) -> str:
    """The person, time and way of the answer."""
    facts = {"name": decision.record["name"], "when": instant_words(decision.answered_at, zone)}
    if decision.answer == Decision.Answer.ACCEPTED:
        facts |= {"amount": gross, "currency": currency}
    return say(HEADLINES[decision.way, decision.answer], **facts)


def _nothing() -> str:
    return say("customer.receipt_next.past")


def _lines(promise: CustomerPromise | None) -> list[PromiseLine]:
    return list(promise["lines"]) if promise else []


def sent_day(document: FrozenContent) -> str:
    """The day on which the revision was sent, in the shop's zone."""
    sent_at = datetime.fromisoformat(document["quote"]["sent_at"])
    return day_words(sent_at.astimezone(ZoneInfo(document["shop"]["zone"])).date())
