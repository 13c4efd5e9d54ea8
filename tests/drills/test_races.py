"""Acts that race for one row, on whichever database the tests run: what must hold whoever is first.

The acts of a race begin at the same instant, each on a thread and a connection of its own, through the service or
over HTTP. No test looks at who won or how long it took. The short form runs each race once, the long form many times.
"""

import uuid
from collections import Counter
from collections.abc import Callable
from datetime import timedelta
from decimal import Decimal
from typing import Any

import pytest
from django.utils import timezone

from kitting.calc.counting import fold
from kitting.models import CountEvent, PullLine, PullList
from kitting.services.counting import store_batch
from kitting.services.pull_lists import close_pull_list, reopen_pull_list
from quotes import access, papers
from quotes.models import Decision, Line, Link, Quote, Revision
from quotes.services import drafts, links, sending
from quotes.services.acceptance import Answer, Refused, accept_revision, decline_revision
from shop.models import Command, Customer, FileRead, History, Job, Shop, SignInTry
from shop.problems import Problem
from shop.services import customers, imports
from tests.api.test_throttle import guess
from tests.at_once import at_once
from tests.cast import make_cast
from tests.client import CheckedClient
from tests.drills.test_backup import counted, folded
from tests.factories import JobFactory, PullLineFactory, PullListFactory
from tests.imports.test_api import give
from tests.kitting.stage import Phone, pull
from tests.quotes.stage import Stage, make_stage

MANY, ROUNDS = 6, 40
SIGN_IN_TRIES = 3
OF_NO_QUOTE = 900_000  # and above: numbers of jobs that a race opens by itself


@pytest.fixture
def stage(transactional_db: None, monkeypatch: pytest.MonkeyPatch, settings: Any) -> Stage:
    settings.SIGN_IN_TRIES = SIGN_IN_TRIES
    monkeypatch.setattr(papers, "quote_paper", lambda text: b"%PDF of " + text[:40].encode())  # printing never races
    return make_stage(make_cast())


def race(*acts: Callable[[], Any]) -> list[Any]:
    """What each act returned, or the code of its refusal; any other exception is raised."""
    return [_told(outcome) for outcome in at_once(*acts)]


def _told(outcome: Any) -> Any:
    if isinstance(outcome, Refused):
        return outcome.code
    if isinstance(outcome, Problem):
        return outcome.slug
    if isinstance(outcome, Exception):
        raise outcome
    return outcome


class Sent:
    """A quote that is out, and what people may do to it at the same moment."""

    def __init__(self, stage: Stage) -> None:
        answer = stage.sent(stage.turbo)
        self.who = stage.cast.acting("advisor")
        self.id, self.link, self.digest = answer["quote"]["id"], answer["link"]["id"], answer["quote"]["digest"]

    @property
    def quote(self) -> Quote:
        return Quote.objects.get(pk=self.id)

    def _answered(self, decide: Callable[..., Decision]) -> Any:
        seen = Answer(1, self.digest, "Maren Oldacre", ("road",), "127.0.0.1", "test")
        return decide(link=Link.objects.get(pk=self.link), answer=seen, now=timezone.now()).pk

    def accept(self) -> Any:
        return self._answered(accept_revision)

    def decline(self) -> Any:
        return self._answered(decline_revision)

    def withdraw(self) -> str:
        sending.withdraw(who=self.who, quote=self.quote, issue=1, digest=self.digest)
        return "done"

    def revoke(self) -> str:
        links.revoke_link(who=self.who, quote=self.quote, link=Link.objects.get(pk=self.link))
        return "done"

    def revise(self) -> str:
        drafts.revise(who=self.who, quote=self.quote)
        return "done"

    def check(self) -> tuple[str, list[Any]]:
        """The state and the decisions of the version that was sent, once they are seen to agree with job and list."""
        state = str(Revision.objects.get(quote=self.id, number=1).state)
        decisions = list(Decision.objects.filter(quote=self.id))
        job = self.quote.job
        assert bool(job) == (state == "accepted") == ([each.answer for each in decisions] == ["accepted"])
        assert (state == "declined") == ([each.answer for each in decisions] == ["declined"])
        assert all(each.digest == self.digest for each in decisions)
        lists = PullList.objects.filter(job=job) if job else PullList.objects.none()
        assert lists.count() == (1 if job else 0)
        opened = Job.objects.filter(number__lt=OF_NO_QUOTE)
        assert opened.count() == Decision.objects.filter(answer="accepted").count()
        assert PullList.objects.filter(job__in=opened).count() == opened.count()
        return state, [each.pk for each in decisions]


def acceptances_of_one_quote(stage: Stage) -> None:
    sent = Sent(stage)
    receipts = race(*[sent.accept] * MANY)
    assert sent.check() == ("accepted", [receipts[0]]) and receipts == receipts[:1] * MANY


def acceptances_of_two_quotes(stage: Stage) -> None:
    one, other = Sent(stage), Sent(stage)
    first = Shop.objects.get(pk=stage.cast.shop.pk).next_job
    race(one.accept, other.accept)
    assert one.check()[0] == other.check()[0] == "accepted"
    assert sorted([one.quote.job.number, other.quote.job.number]) == [first, first + 1]


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
        sending.send(who=sent.who, quote=sent.quote, seen=ready.version, recipient="x", ready=ready)
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
    """What is sent is what was prepared: with the line in it, or the draft moved and nothing is sent."""
    draft = stage.quote(stage.turbo).json()
    who, ready = stage.cast.acting("advisor"), sending.prepare(access.current(Quote.objects.get(pk=draft["id"])))

    def send() -> str:
        quote = Quote.objects.get(pk=draft["id"])
        sending.send(who=who, quote=quote, seen=ready.version, recipient="x", ready=ready)
        return "done"

    def add() -> str:
        quote, one = Quote.objects.get(pk=draft["id"]), Decimal(1)
        drafts.add_text(who=who, quote=quote, title="Wax", quantity=one, unit_price=one, tax_class="part")
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
    """Of several who change what they saw at one version, one is heard and the others have to look again."""
    draft, who = stage.quote(stage.turbo).json(), stage.cast.acting("advisor")
    customer = Customer.objects.get(pk=stage.customer.pk)
    before = History.objects.count()

    def condition(name: str) -> Callable[[], str]:
        def act() -> str:
            quote, changes = Quote.objects.get(pk=draft["id"]), {"condition": name}
            drafts.change_draft(who=who, quote=quote, seen=draft["version"], changes=changes)
            return "done"

        return act

    def phone(number: str) -> Callable[[], str]:
        def act() -> str:
            changes = {"phone": number}
            customers.change_customer(who=who, customer=customer, seen=customer.version, changes=changes)
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
    assert [each.status_code for each in answers] == [201] * MANY
    assert [each.json() for each in answers] == [answers[0].json()] * MANY
    assert Quote.objects.count() == before + 1 and Command.objects.filter(pk=key).count() == 1
    assert Shop.objects.get(pk=stage.cast.shop.pk).next_quote == first + 1


def one_key_for_two_requests(stage: Stage) -> None:
    """Under one key two different requests: one is done, and who sent the other is told that the key was used."""
    clients, key = [stage.client for _ in range(4)], str(uuid.uuid4())
    names, before = ["Ferran Holds", "Oda Brack"] * 2, Customer.objects.count()
    acts = [
        lambda client=client, name=name: client.post("customers", {"name": name}, key=key)
        for client, name in zip(clients, names, strict=True)
    ]
    answers = race(*acts)
    assert sorted(each.status_code for each in answers) == [201, 201, 422, 422]
    added = {each.json()["name"] for each in answers if each.status_code == 201}
    assert len(added) == 1 and Customer.objects.count() == before + 1


def numbers_of_quotes(stage: Stage) -> None:
    """Every new quote has the next number: none twice, none left out."""
    who, first = stage.cast.acting("advisor"), Shop.objects.get(pk=stage.cast.shop.pk).next_quote
    made = race(*[lambda: drafts.start_quote(who=who, kits=[stage.turbo]).quote.number] * MANY)
    assert sorted(made) == list(range(first, first + MANY))


def counts_of_one_line(stage: Stage) -> None:
    """Different totals for one line, none aware of another: all are kept, and somebody has to count again."""
    pull_list, line = _list(stage)
    who, phones = stage.cast.acting("parts"), [Phone(pull_list) for _ in range(MANY)]
    events = [phone.event(line, total=total) for total, phone in enumerate(phones)]
    acts = [_stored(who, pull_list, [event]) for event in events]
    assert Counter(race(*acts, *acts)) == {("stored",): MANY, ("duplicate",): MANY}
    log = _whole_log(stage, pull_list)
    assert {event["id"] for event in log["events"]} == {event["id"] for event in events}
    assert fold(counted(log["events"]))[str(line.pk)].confirm


def counts_and_closing(stage: Stage) -> None:
    """A count is in the list that was closed, or it is late; closing and opening never lose one."""
    pull_list, line = _list(stage)
    who, phones = stage.cast.acting("parts"), [Phone(pull_list) for _ in range(3)]

    def close() -> str:
        seq = PullList.objects.get(pk=pull_list.pk).last_seq
        close_pull_list(who=who, pull_list=pull_list, seq=seq, now=timezone.now())
        return "done"

    acts = [_stored(who, pull_list, [phone.event(line, total=4), phone.event(line, total=3)]) for phone in phones]
    *stored, closed, again = race(*acts, close, close)
    assert {closed, again} <= {"done", "more-has-come", "list-is-closed"} and [closed, again].count("done") <= 1
    assert set(stored) <= {("stored",) * 2, ("late",) * 2}
    log, row = _whole_log(stage, pull_list), PullList.objects.get(pk=pull_list.pk)
    late = [event["late"] for event in log["events"]]
    assert late == sorted(late) and late.count(True) == 2 * stored.count(("late",) * 2)
    assert (row.state == "closed") == ("done" in (closed, again)) and (row.state == "closed" or True not in late)
    race(*[lambda: reopen_pull_list(who=who, pull_list=pull_list)] * 2)
    turns = History.objects.filter(subject_id=pull_list.pk, verb="open").count()
    assert turns == (1 if row.state == "closed" else 0)


def _list(stage: Stage) -> tuple[PullList, PullLine]:
    shop = stage.cast.shop
    job = JobFactory(shop=shop, number=OF_NO_QUOTE + Job.objects.filter(number__gte=OF_NO_QUOTE).count())
    line = PullLineFactory(shop=shop, list=PullListFactory(shop=shop, job=job))
    return line.list, line


def _stored(who: Any, pull_list: PullList, events: list[Any]) -> Callable[[], tuple[str, ...]]:
    def act() -> tuple[str, ...]:
        results = store_batch(who=who, pull_list=pull_list, events=events, now=timezone.now())
        return tuple(each.status for each in results)

    return act


def _whole_log(stage: Stage, pull_list: PullList) -> dict[str, Any]:
    """The list's log without a gap, whose digest is that of its own events."""
    log = pull(stage.cast.signed_in("parts"), pull_list, limit=500)
    assert [event["seq"] for event in log["events"]] == list(range(1, log["seq"] + 1))
    assert log["digest"] == folded(log["events"]) and not log["more"]
    assert CountEvent.objects.filter(list=pull_list).count() == log["seq"]
    return log


def imports_of_one_file(stage: Stage) -> None:
    who, name = stage.cast.acting("advisor"), f"Ada Quill {uuid.uuid4().hex[:8]}"
    file = _file(stage, name)
    outcomes = race(*[_taken(who, file)] * 3)
    assert Counter(outcomes) == {"done": 1, "refused": 2}
    assert Customer.objects.filter(name=name).count() == 1
    assert FileRead.objects.get(pk=file.pk).state == "taken"


def import_and_removal_of_one_file(stage: Stage) -> None:
    """Imported and still in the list, or removed and never imported."""
    who, name = stage.cast.acting("advisor"), f"Bo Tarn {uuid.uuid4().hex[:8]}"
    file = _file(stage, name)

    def remove() -> str:
        imports.remove(who=who, file=FileRead.objects.get(pk=file.pk))
        return "done"

    taken, removed = race(_taken(who, file), remove)
    left = FileRead.objects.filter(pk=file.pk).first()
    assert (taken, removed) in {("done", "refused"), ("not-found", "done")}
    assert (taken == "done") == bool(left) == (Customer.objects.filter(name=name).count() == 1)
    assert (removed == "done") == (left is None) and (left is None or left.state == "taken")


def _file(stage: Stage, name: str) -> FileRead:
    answer = give(stage.client, "customers", f"Name;Phone\n{name};01632 960 401\n")
    return FileRead.objects.get(pk=answer.json()["id"])


def _taken(who: Any, file: FileRead) -> Callable[[], str]:
    reading = imports.read_again(who=who, file=file)

    def act() -> str:
        imports.take_in(who=who, file=FileRead(pk=file.pk), reading=reading)
        return "done"

    return act


def tries_to_sign_in(stage: Stage) -> None:
    """However many guess at once from one address, no more passwords are looked at than the limit."""
    SignInTry.objects.update(at=timezone.now() - timedelta(hours=1))
    acts = [lambda: guess(CheckedClient(), "manager", "203.0.113.9")] * (2 * SIGN_IN_TRIES)
    statuses = Counter(race(*acts))
    assert set(statuses) <= {401, 429} and statuses[401] <= SIGN_IN_TRIES
    recent = SignInTry.objects.filter(at__gt=timezone.now() - timedelta(minutes=15))
    assert recent.count() == statuses[401], "a refused try was counted"


RACES = [
    acceptances_of_one_quote,
    acceptances_of_two_quotes,
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
    counts_of_one_line,
    counts_and_closing,
    imports_of_one_file,
    import_and_removal_of_one_file,
    tries_to_sign_in,
]


def test_each_race_has_one_outcome(stage: Stage) -> None:
    for run in RACES:
        run(stage)


@pytest.mark.drill
@pytest.mark.parametrize("run", RACES, ids=lambda run: run.__name__)
def test_a_race_has_one_outcome_however_often(stage: Stage, run: Callable[[Stage], None]) -> None:
    for _ in range(ROUNDS):
        run(stage)
