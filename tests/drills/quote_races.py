"""Races for a quote, its versions, its links and its number."""

import uuid
from collections import Counter
from collections.abc import Callable
from decimal import Decimal
from typing import Any

from django.utils import timezone

from kitting.models import PullList
from quotes import access
from quotes.calc.answer import AnswerForm
from quotes.models import ClosingAccount, Decision, Line, Link, Quote, Revision
from quotes.queries.account import job_account
from quotes.queries.closing import open_changes
from quotes.services import drafts, links, revising, sending
from quotes.services.acceptance import accept_revision, decline_revision
from quotes.services.calling_off import call_off
from quotes.services.changes import start_change
from quotes.services.closing import close_job, prepare_closing
from shop.calc.quantity import money
from shop.models import Command, Customer, History, Job, Shop
from shop.services import customers
from tests.drills.racing import MANY, OF_NO_QUOTE, race
from tests.quotes.stage import Stage


class Sent:
    """A quote that is out, and what people may do to it at the same moment."""

    def __init__(self, stage: Stage) -> None:
        answer = stage.sent(stage.turbo)
        self.actor = stage.cast.acting("advisor")
        self.id, self.link, self.digest = answer["quote"]["id"], answer["link"]["id"], answer["quote"]["digest"]

    @property
    def quote(self) -> Quote:
        return Quote.objects.get(pk=self.id)

    def _answered(self, decide: Callable[..., Decision]) -> Any:
        seen = AnswerForm(1, self.digest, "Maren Oldacre", ("road",), "127.0.0.1", "test")
        return decide(source=Link.objects.get(pk=self.link), answer=seen, now=timezone.now()).pk

    def accept(self) -> Any:
        return self._answered(accept_revision)

    def decline(self) -> Any:
        return self._answered(decline_revision)

    def withdraw(self) -> str:
        sending.withdraw(actor=self.actor, quote=self.quote, revision_number=1, digest=self.digest)
        return "done"

    def revoke(self) -> str:
        links.revoke_link(actor=self.actor, quote=self.quote, link=Link.objects.get(pk=self.link))
        return "done"

    def revise(self) -> str:
        revising.revise(actor=self.actor, quote=self.quote)
        return "done"

    def check(self) -> tuple[str, list[Any]]:
        """The state and the decisions of the version that was sent, once they are seen to agree with job and list."""
        state = str(Revision.objects.get(quote=self.id, number=1).state)
        decisions = list(Decision.objects.filter(quote=self.id))
        job = self.quote.job
        assert bool(job) == (state == "accepted") == ([decision.answer for decision in decisions] == ["accepted"])
        assert (state == "declined") == ([decision.answer for decision in decisions] == ["declined"])
        assert all(decision.digest == self.digest for decision in decisions)
        lists = PullList.objects.filter(job=job) if job else PullList.objects.none()
        assert lists.count() == (1 if job else 0)
        opened = Job.objects.filter(number__lt=OF_NO_QUOTE)
        assert opened.count() == Decision.objects.filter(answer="accepted").count()
        assert PullList.objects.filter(job__in=opened).count() == opened.count()
        return state, [decision.pk for decision in decisions]


def acceptances_of_one_quote(stage: Stage) -> None:
    sent = Sent(stage)
    receipts = race(*[sent.accept] * MANY)
    assert sent.check() == ("accepted", [receipts[0]]) and receipts == receipts[:1] * MANY


def changes_begun_at_once(stage: Stage) -> None:
    """Each change has its own quote and draft."""
    job, actor = _job_of(stage), stage.cast.acting("advisor")
    drafts_begun = race(*[lambda: start_change(actor=actor, job=job).pk] * MANY)
    assert len(set(drafts_begun)) == MANY == Quote.objects.filter(job=job, additional=True).count()


def closing_and_change(stage: Stage) -> None:
    """A closed job has no open change: the second of the two is refused."""
    job, actor = _job_of(stage), stage.cast.acting("advisor")
    due = money(job_account(job).sums.due, job.shop.exponent)
    prepared = prepare_closing(actor=actor, job=job, due=due, now=timezone.now())

    def close() -> str:
        close_job(actor=actor, job=job, prepared=prepared, due=due)
        return "closed"

    def change() -> str:
        start_change(actor=actor, job=job)
        return "begun"

    closed, *begun = race(close, change, change)
    assert (closed, set(begun)) in (("closed", {"job-closed"}), ("changes-open", {"begun"}))
    assert ClosingAccount.objects.filter(job=job).exists() == (closed == "closed")
    assert bool(open_changes(job)) == (closed == "changes-open")


def call_off_and_change(stage: Stage) -> None:
    """A job that was called off gets no change."""
    job, actor = _job_of(stage), stage.cast.acting("advisor")

    def end() -> str:
        call_off(actor=actor, job=job, because="Sold the vehicle", now=timezone.now())
        return "ended"

    def change() -> str:
        start_change(actor=actor, job=job)
        return "begun"

    ended, began = race(end, change)
    assert ended == "ended" and began in ("begun", "job-has-ended")
    assert Quote.objects.filter(job=job, additional=True).count() == (began == "begun")


def _job_of(stage: Stage) -> Job:
    sent = Sent(stage)
    sent.accept()
    job: Job = sent.quote.job
    return job


def acceptances_of_two_quotes(stage: Stage) -> None:
    first_sent, other = Sent(stage), Sent(stage)
    first = Shop.objects.get(pk=stage.cast.shop.pk).next_job
    race(first_sent.accept, other.accept)
    assert first_sent.check()[0] == other.check()[0] == "accepted"
    assert sorted([first_sent.quote.job.number, other.quote.job.number]) == [first, first + 1]


def acceptance_and_refusal(stage: Stage) -> None:
    sent = Sent(stage)
    outcomes = race(sent.accept, sent.decline, sent.accept, sent.decline)
    state, decisions = sent.check()
    assert state in ("accepted", "declined")
    assert Counter(outcomes) == Counter({decisions[0]: 2, "answered": 2})


def acceptance_and_withdrawal(stage: Stage) -> None:
    sent = Sent(stage)
    withdrawn, *receipts = race(sent.withdraw, sent.accept, sent.accept)
    state, decisions = sent.check()
    if state == "accepted":
        assert withdrawn == "not-sent" and receipts == decisions * 2
    else:
        assert (state, withdrawn, receipts, decisions) == ("withdrawn", "done", ["withdrawn"] * 2, [])


def acceptance_and_revoked_link(stage: Stage) -> None:
    sent = Sent(stage)
    revoked, *receipts = race(sent.revoke, sent.accept, sent.accept)
    state, decisions = sent.check()
    assert revoked == "done" and Link.objects.get(pk=sent.link).revoked_at is not None
    assert set(receipts) <= {*decisions, "link"}, "a receipt that is not the decision's"
    assert (state == "accepted") == bool(decisions) and bool(decisions) == (receipts != ["link"] * 2)


def acceptance_and_next_version(stage: Stage) -> None:
    """Sending the next version replaces the one before, unless the customer accepted that first."""
    sent = Sent(stage)
    sent.revise()
    ready = sending.prepare(access.current(sent.quote))

    def replace() -> str:
        sending.send(actor=sent.actor, quote=sent.quote, seen=ready.version, recipient="x", ready=ready)
        return "done"

    replaced, receipt = race(replace, sent.accept)
    state, decisions = sent.check()
    if state == "accepted":
        assert (replaced, receipt) == ("not-a-draft", decisions[0])
    else:
        assert (state, replaced, receipt, decisions) == ("replaced", "done", "replaced", [])
    assert Revision.objects.filter(quote=sent.id, state__in=["sent", "accepted"]).count() == 1


def revisions_of_one_quote(stage: Stage) -> None:
    sent = Sent(stage)
    assert Counter(race(*[sent.revise] * 3)) == {"done": 1, "cannot-revise": 2}
    assert sorted(Revision.objects.filter(quote=sent.id).values_list("number", flat=True)) == [1, 2]


def sending_and_changing_one_draft(stage: Stage) -> None:
    """The quote is sent as it was prepared, with the line in it; or the draft moved and nothing is sent."""
    draft = stage.quote(stage.turbo).json()
    actor, ready = stage.cast.acting("advisor"), sending.prepare(access.current(Quote.objects.get(pk=draft["id"])))

    def send() -> str:
        quote = Quote.objects.get(pk=draft["id"])
        sending.send(actor=actor, quote=quote, seen=ready.version, recipient="x", ready=ready)
        return "done"

    def add() -> str:
        quote, amount = Quote.objects.get(pk=draft["id"]), Decimal(1)
        drafts.add_text(actor=actor, quote=quote, title="Wax", quantity=amount, unit_price=amount, tax_class="part")
        return "done"

    outcomes = race(send, add, send)
    revision = Revision.objects.get(quote=draft["id"])
    wax = Line.objects.filter(revision=revision, title="Wax").exists()
    if revision.state == "sent":
        assert sorted(outcomes) == ["done", "not-a-draft", "not-a-draft"] and not wax
    else:
        assert outcomes == ["draft-moved", "done", "draft-moved"] and wax
    assert Link.objects.filter(quote=draft["id"]).count() == (revision.state == "sent")


def changes_of_one_version(stage: Stage) -> None:
    """Of several people who change the draft as of one version, one succeeds and the others have to read it again."""
    draft, actor = stage.quote(stage.turbo).json(), stage.cast.acting("advisor")
    customer = Customer.objects.get(pk=stage.customer.pk)
    before = History.objects.count()

    def condition(name: str) -> Callable[[], str]:
        def act() -> str:
            quote, changes = Quote.objects.get(pk=draft["id"]), {"condition": name}
            drafts.change_draft(actor=actor, quote=quote, seen=draft["version"], changes=changes)
            return "done"

        return act

    def phone(number: str) -> Callable[[], str]:
        def act() -> str:
            changes = {"phone": number}
            customers.change_customer(actor=actor, customer=customer, seen=customer.version, changes=changes)
            return "done"

        return act

    outcomes = race(condition("light"), condition("heavy"), phone("01632 960 401"), phone("01632 960 402"))
    assert sorted(outcomes[:2]) == sorted(outcomes[2:]) == ["changed-meanwhile", "done"]
    assert Revision.objects.get(quote=draft["id"]).version == draft["version"] + 1
    assert Customer.objects.get(pk=customer.pk).version == customer.version + 1
    assert History.objects.count() == before + 2


def one_key_sent_repeatedly(stage: Stage) -> None:
    """The same request under one key: one quote, and everybody reads the same answer."""
    clients, key = [stage.client for _ in range(MANY)], str(uuid.uuid4())
    before, first = Quote.objects.count(), Shop.objects.get(pk=stage.cast.shop.pk).next_quote
    body = {"kits": [str(stage.turbo.pk)], "customer": str(stage.customer.pk), "vehicle": str(stage.vehicle.pk)}
    answers = race(*(lambda client=client: client.post("quotes", body, key=key) for client in clients))
    assert [answer.status_code for answer in answers] == [201] * MANY
    assert [answer.json() for answer in answers] == [answers[0].json()] * MANY
    assert Quote.objects.count() == before + 1 and Command.objects.filter(pk=key).count() == 1
    assert Shop.objects.get(pk=stage.cast.shop.pk).next_quote == first + 1


def one_key_for_two_requests(stage: Stage) -> None:
    """Under one key two different requests: one is done, and the other is refused because the key was used."""
    clients, key = [stage.client for _ in range(4)], str(uuid.uuid4())
    names, before = ["Ferran Holds", "Oda Brack"] * 2, Customer.objects.count()
    acts = [
        lambda client=client, name=name: client.post("customers", {"name": name}, key=key)
        for client, name in zip(clients, names, strict=True)
    ]
    answers = race(*acts)
    assert sorted(answer.status_code for answer in answers) == [201, 201, 422, 422]
    added = {answer.json()["name"] for answer in answers if answer.status_code == 201}
    assert len(added) == 1 and Customer.objects.count() == before + 1


def numbers_of_quotes(stage: Stage) -> None:
    """Every new quote has the next number: none twice, none left out."""
    actor, first = stage.cast.acting("advisor"), Shop.objects.get(pk=stage.cast.shop.pk).next_quote
    numbers = race(*[lambda: drafts.start_quote(actor=actor, kits=[stage.turbo]).quote.number] * MANY)
    assert sorted(numbers) == list(range(first, first + MANY))


RACES = [
    acceptances_of_one_quote,
    acceptances_of_two_quotes,
    changes_begun_at_once,
    closing_and_change,
    call_off_and_change,
    acceptance_and_refusal,
    acceptance_and_withdrawal,
    acceptance_and_revoked_link,
    acceptance_and_next_version,
    revisions_of_one_quote,
    sending_and_changing_one_draft,
    changes_of_one_version,
    one_key_sent_repeatedly,
    one_key_for_two_requests,
    numbers_of_quotes,
]
