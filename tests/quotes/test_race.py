"""Two accept by the link, one by phone, one advisor sends a new revision and another cancels the link, all at once."""

from collections import Counter
from collections.abc import Callable

import pytest
from django.utils import timezone

from quotes import access
from quotes.calc.answer import AcceptanceError, AnswerForm
from quotes.models import Decision, Link, Quote, Revision
from quotes.queries.pricing import shop_day
from quotes.services import drafts, links, revising, sending
from quotes.services.acceptance import Spoken, accept_revision
from quotes.services.merging import merge_customers
from shop.access import Actor
from shop.errors import RequestError
from shop.models import Customer, Job, Vehicle
from shop.services.customers import add_vehicle, change_owner
from tests.at_once import at_once
from tests.cast import make_cast
from tests.factories import CustomerFactory, VehicleFactory
from tests.quotes.stage import Stage, make_stage

ROUNDS = 6


@pytest.fixture
def stage(transactional_db: None) -> Stage:
    return make_stage(make_cast())


def outcomes(*acts: Callable[[], object]) -> Counter[str]:
    """The number of acts for each outcome."""
    return Counter(_named(act.__name__, outcome) for act, outcome in zip(acts, at_once(*acts), strict=True))


def _named(name: str, outcome: object) -> str:
    if isinstance(outcome, AcceptanceError | RequestError):
        return f"{name} refused: {outcome.code}"
    return f"broken: {outcome!r}" if isinstance(outcome, Exception) else name


def one_round(stage: Stage) -> None:
    """Five act on one quote at once; one acceptance counts at most, by the link or by phone."""
    answer = stage.sent()
    quote = Quote.objects.get(pk=answer["quote"]["id"])
    link, actor = Link.objects.get(pk=answer["link"]["id"]), stage.cast.acting("advisor")
    seen = AnswerForm(1, answer["quote"]["digest"], "Maren Oldacre", ("road",), "127.0.0.1", "test")
    revising.revise(actor=actor, quote=quote)
    ready = sending.prepare(access.current(quote))

    def accept(link: Link = link, seen: AnswerForm = seen) -> None:
        accept_revision(source=link, answer=seen, now=timezone.now())

    def say_yes(actor: Actor = actor, quote: Quote = quote, seen: AnswerForm = seen) -> None:
        now = timezone.now()
        spoken = Spoken(actor, quote, Decision.Way.PHONE, "01632 960 417", now)
        accept_revision(source=spoken, answer=seen, now=now)

    def replace(actor: Actor = actor, quote: Quote = quote, ready: sending.Prepared = ready) -> None:
        sending.send(actor=actor, quote=quote, seen=ready.version, recipient="x", ready=ready)

    def revoke(actor: Actor = actor, quote: Quote = quote, link: Link = link) -> None:
        links.revoke_link(actor=actor, quote=quote, link=link)

    results = outcomes(accept, accept, say_yes, replace, revoke)
    assert not [result for result in results if result.startswith("broken")], results
    live = Revision.objects.filter(quote=quote, state__in=["sent", "accepted"])
    accepted = Decision.objects.filter(quote=quote, answer="accepted")
    assert live.count() == 1 and accepted.count() <= 1
    quote.refresh_from_db()
    assert bool(quote.job_id) == bool(accepted.count()) == (live.get().state == "accepted")
    if accepted.count():
        assert accepted.get().digest == live.get().digest and live.get().number == 1
        outcome = results["say_yes"] if accepted.get().way == Decision.Way.LINK else results["accept"]
        assert outcome == 0, results  # the second answer by another way was refused
    assert Job.objects.count() == Decision.objects.count()


def test_one_yes_counts_whoever_else_is_at_work(stage: Stage) -> None:
    for _ in range(ROUNDS):
        one_round(stage)


def test_what_begins_for_a_customer_while_two_records_are_put_together_is_of_the_one_that_stays(stage: Stage) -> None:
    actor, today = stage.cast.acting("advisor"), shop_day(stage.shop, timezone.now())
    for _ in range(ROUNDS):
        stays, goes, other = (CustomerFactory(shop=stage.shop) for _ in range(3))
        vehicle = VehicleFactory(shop=stage.shop, customer=other)
        draft = drafts.start_quote(actor=actor, kits=[], customer=other)

        def merge(stays: Customer = stays, goes: Customer = goes) -> None:
            merge_customers(actor=actor, stays=stays, goes=goes, seen=(1, 1))

        def begin(goes: Customer = goes) -> None:
            drafts.start_quote(actor=actor, kits=[], customer=goes)

        def change(draft: Revision = draft, goes: Customer = goes) -> None:
            drafts.change_draft(actor=actor, quote=draft.quote, seen=draft.version, changes={"customer": goes})

        def sell(vehicle: Vehicle = vehicle, goes: Customer = goes) -> None:
            change_owner(actor=actor, vehicle=vehicle, owner=goes, since=today, today=today)

        def add(goes: Customer = goes) -> None:
            add_vehicle(actor=actor, title="Vell 2.4 coupe", customer=goes)

        results = outcomes(merge, begin, change, sell, add)
        assert set(results) == {"merge", "begin", "change", "sell", "add"}, results
        assert not Quote.objects.filter(customer=goes).exists() and Quote.objects.filter(customer=stays).count() == 2
        assert not Vehicle.objects.filter(customer=goes).exists()
        assert Vehicle.objects.filter(customer=stays).count() == 2
