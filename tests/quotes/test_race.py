"""Three people accept, one advisor sends a new revision and another cancels the link, all at once."""

import threading
from collections import Counter
from collections.abc import Callable

import pytest
from django.db import connection
from django.utils import timezone

from quotes import access
from quotes.models import Decision, Link, Quote, Revision
from quotes.services import drafts, links, sending
from quotes.services.acceptance import Answer, Refused, accept_revision
from shop.access import Actor
from shop.models import Job
from shop.problems import Problem
from tests.cast import make_cast
from tests.quotes.stage import Stage, make_stage

ROUNDS = 6


@pytest.fixture
def stage(transactional_db: None) -> Stage:
    return make_stage(make_cast())


def together(*acts: Callable[[], object]) -> Counter[str]:
    """Run them all at once; how many ended in what."""
    found: Counter[str] = Counter()
    start = threading.Barrier(len(acts))

    def run(act: Callable[[], object]) -> None:
        start.wait()
        try:
            act()
            found[act.__name__] += 1
        except (Refused, Problem) as error:
            found[f"{act.__name__} refused: {getattr(error, 'code', getattr(error, 'slug', ''))}"] += 1
        except Exception as error:
            found[f"broken: {error!r}"] += 1
        finally:
            connection.close()

    threads = [threading.Thread(target=run, args=(act,)) for act in acts]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    return found


def test_one_yes_counts_whoever_else_is_at_work(stage: Stage) -> None:
    for _ in range(ROUNDS):
        answer = stage.sent()
        quote = Quote.objects.get(pk=answer["quote"]["id"])
        link, who = Link.objects.get(pk=answer["link"]["id"]), stage.cast.acting("advisor")
        seen = Answer(1, answer["quote"]["digest"], "Maren Oldacre", ("road",), "127.0.0.1", "test")
        drafts.revise(who=who, quote=quote)
        ready = sending.prepare(access.current(quote))

        def accept(link: Link = link, seen: Answer = seen) -> None:
            accept_revision(link=link, answer=seen, now=timezone.now())

        def replace(who: Actor = who, quote: Quote = quote, ready: sending.Prepared = ready) -> None:
            sending.send(who=who, quote=quote, seen=ready.version, recipient="x", ready=ready)

        def revoke(who: Actor = who, quote: Quote = quote, link: Link = link) -> None:
            links.revoke_link(who=who, quote=quote, link=link)

        found = together(accept, accept, accept, replace, revoke)
        assert not [each for each in found if each.startswith("broken")], found
        live = Revision.objects.filter(quote=quote, state__in=["sent", "accepted"])
        accepted = Decision.objects.filter(quote=quote, answer="accepted")
        assert live.count() == 1 and accepted.count() <= 1
        quote.refresh_from_db()
        assert bool(quote.job_id) == bool(accepted.count()) == (live.get().state == "accepted")
        if accepted.count():
            assert accepted.get().digest == live.get().digest and live.get().number == 1
    assert Job.objects.count() == Decision.objects.count()
