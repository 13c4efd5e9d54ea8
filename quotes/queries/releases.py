"""Reads for a release: the accepted quote of a job, its pull list, and earlier releases."""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from kitting.models import PullList
from kitting.queries.here import Here, goods_here
from quotes.calc.forms import FrozenContent
from quotes.calc.still_to_release import NumberedQuantity
from quotes.models import Decision, Release, Revision
from quotes.queries import frozen
from quotes.queries.acceptances import acceptances_of
from quotes.queries.account import deposit_of
from shop.calc.rules import Rules
from shop.calc.withdrawal import is_waiting
from shop.models import Job, Shop
from shop.queries.payments import received


@dataclass(frozen=True, slots=True)
class ReleaseFacts:
    """The facts of a release, with all accepted texts and those of which something may be ordered already.

    `deposit_awaited`: a deposit was asked for and has not come, `deposit_begun`: part of it has.
    """

    pull_list: PullList | None
    documents: tuple[FrozenContent, ...]
    orderable: tuple[FrozenContent, ...]
    releases: tuple[Release, ...]
    deposit_awaited: bool
    deposit_begun: bool
    by_deposit: bool

    @property
    def taken_off(self) -> frozenset[str]:
        """The keys of the items that the job's changes take off."""
        return frozenset(line["item"] for text in self.documents for line in text["shown"].get("taken", ()))


def release_facts(job: Job, today: date) -> ReleaseFacts:
    """The facts as they stand; `documents` are the accepted texts of the job, the first one first."""
    decisions = _in_order(acceptances_of(job.shop_id, job.pk))
    revisions = [decision.revision for decision in decisions]
    documents = tuple(frozen.read(revision) for revision in revisions)
    waiting = [decision.agreement and is_waiting(decision.agreement.not_before, today) for decision in decisions]
    deposit = deposit_of(documents[0]) if documents else None
    paid = received(job) if deposit is not None else Decimal(0)
    return ReleaseFacts(
        pull_list=PullList.objects.filter(shop=job.shop_id, job=job).select_related("job").first(),
        documents=documents,
        orderable=tuple(text for text, waits in zip(documents, waiting, strict=True) if not waits),
        releases=tuple(releases_of(job)),
        deposit_awaited=deposit is not None and paid < deposit,
        deposit_begun=paid > 0,
        by_deposit=deposit is not None and _releases(revisions),
    )


def releases_of(job: Job) -> Sequence[Release]:
    """The releases of a job, the last one first."""
    rows = Release.objects.filter(shop=job.shop_id, job=job).select_related("released_by__user")
    return list(rows.order_by("-released_at", "-id"))


def released_quantities(releases: Iterable[Release]) -> list[NumberedQuantity]:
    """The parts in these releases, by order number, with their quantities."""
    return [
        (line["number"], Decimal(line["quantity"]))
        for release in releases
        for order in release.content["suppliers"]
        for line in order["lines"]
    ]


def goods_of(shop: Shop, facts: ReleaseFacts) -> Here:
    """The goods of the job that are here; none without a pull list."""
    return goods_here(shop, facts.pull_list) if facts.pull_list else {}


def arrived_quantities(releases: Sequence[Release], here: Here) -> list[NumberedQuantity]:
    """The pieces of each number that have come since its first release; none for a release that did not keep it yet."""
    first: dict[str, Mapping[str, str]] = {}
    for release in releases:  # the last one first
        first |= release.content.get("here", {})
    return [(number, _more(before, here.get(number, {}))) for number, before in first.items()]


def _more(before: Mapping[str, str], after: Mapping[str, Decimal]) -> Decimal:
    grown = (after.get(key, Decimal(0)) - Decimal(quantity) for key, quantity in before.items())
    return sum((more for more in grown if more > 0), Decimal(0))


def released_outside(releases: Iterable[Release]) -> Counter[tuple[str, str]]:
    """The number of times that these releases hold outside work of a title and a firm."""
    return Counter((work["title"], work["firm"]) for release in releases for work in release.content["outside"])


def too_early(job: Job, today: date) -> bool:
    """Whether the customer may still withdraw, so that nothing is ordered yet."""
    return is_waiting(job.not_before, today)


def _in_order(decisions: object) -> list[Decision]:
    rows = decisions.select_related("revision__rules", "agreement")  # type: ignore[attr-defined]
    return list(rows.order_by("agreement__number"))


def _releases(revisions: Sequence[Revision]) -> bool:
    """Whether the rules of the first acceptance let the orders go with the deposit."""
    terms = Rules.from_json(revisions[0].rules.rules).deposit
    return terms is not None and terms.releases
