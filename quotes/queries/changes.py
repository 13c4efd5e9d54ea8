"""The agreements on a job: the quote that opened it and every change to it, and what of them still stands."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal
from functools import cached_property
from typing import Any
from uuid import UUID

from django.db.models import QuerySet

from quotes.calc.agreed import AgreedItem, agreed_items, with_own_work
from quotes.calc.quote_input import TakenLine
from quotes.models import Decision, Revision, TakenOff
from quotes.queries import frozen
from quotes.queries.acceptances import acceptances_of
from shop.compiled import compiled
from shop.models import Job

TakenKey = tuple[str, str]
"""The id of a revision and the key of an item in its frozen text."""


@dataclass(frozen=True)
class AgreedQuote:
    """An accepted quote of a job, with its frozen text and the way of its acceptance."""

    revision: Revision
    document: Mapping[str, Any]
    way: str
    agreed_at: datetime
    agreement: UUID | None
    not_before: date | None  # nothing of a change is ordered or begun before that day

    @cached_property
    def items(self) -> tuple[AgreedItem, ...]:
        return agreed_items(self.document)

    @property
    def gross(self) -> Decimal:
        return Decimal(self.document["shown"]["totals"]["gross"])

    @property
    def is_change(self) -> bool:
        return bool(self.revision.quote.additional)


@dataclass(frozen=True)
class AgreedJob:
    """Everything agreed on a job, in the order of the agreements; the first one opened it."""

    quotes: tuple[AgreedQuote, ...]

    @cached_property
    def gone(self) -> frozenset[TakenKey]:
        """The items that accepted changes have taken off."""
        return frozenset(
            (line["source"], line["item"])
            for agreed in self.quotes
            for line in agreed.document["shown"].get("taken", ())
        )

    @property
    def changes(self) -> tuple[AgreedQuote, ...]:
        return tuple(agreed for agreed in self.quotes if agreed.is_change)

    @property
    def kits(self) -> int:
        """The number of kits agreed, with those taken off since: each has a letter."""
        return sum(len(agreed.document["shown"]["kits"]) for agreed in self.quotes)

    @property
    def supplies(self) -> Decimal:
        """The shop supplies charged so far, which the cap of the rules limits over the whole job."""
        fees = (fee for agreed in self.quotes for fee in agreed.document["shown"]["fees"])
        return sum((Decimal(fee["price"]) for fee in fees if fee["key"] == "supplies"), Decimal(0))

    @property
    def gross(self) -> Decimal:
        """Everything agreed, with tax."""
        return sum((agreed.gross for agreed in self.quotes), Decimal(0))

    def standing(self, agreed: AgreedQuote) -> tuple[AgreedItem, ...]:
        """The items of one agreement that no change has taken off."""
        source = str(agreed.revision.pk)
        return tuple(item for item in agreed.items if (source, item.key) not in self.gone)

    def titles(self, chosen: Iterable[TakenKey]) -> list[str]:
        """The titles of the chosen items that were agreed."""
        titles = {(str(agreed.revision.pk), item.key): item.title for agreed in self.quotes for item in agreed.items}
        return [titles[key] for key in chosen if key in titles]

    def taken(self, chosen: Iterable[TakenKey]) -> tuple[TakenLine, ...]:
        """The lines of a change that takes the chosen items off, with the work and needs that go with them."""
        by_source: dict[str, list[str]] = {}
        for source, key in chosen:
            by_source.setdefault(source, []).append(key)
        return tuple(
            TakenLine(source, item.key, item.kind, item.title, item.tax_class, item.value, item.hours)
            for agreed in self.quotes
            if (source := str(agreed.revision.pk)) in by_source
            for item in _going(agreed, by_source[source], [key for of, key in self.gone if of == source])
        )


def _going(agreed: AgreedQuote, chosen: Iterable[str], gone: Iterable[str]) -> list[AgreedItem]:
    keys = set(with_own_work(agreed.items, chosen, gone))
    return [item for item in agreed.items if item.key in keys]


@compiled
def _accepted_of(shop: UUID, job: UUID) -> QuerySet[Decision]:
    rows = acceptances_of(shop, job).select_related("revision__quote", "agreement")
    return rows.order_by("agreement__number", "answered_at")


def agreed_job(job: Job | UUID, shop: Any) -> AgreedJob:
    """The items agreed on the job, in two queries."""
    decisions = _accepted_of(shop if isinstance(shop, UUID) else shop.pk, job if isinstance(job, UUID) else job.pk)
    return AgreedJob(
        tuple(
            AgreedQuote(
                decision.revision,
                frozen.read(decision.revision),
                decision.way,
                decision.answered_at,
                decision.agreement_id,
                decision.agreement and decision.agreement.not_before,
            )
            for decision in decisions
        )
    )


def outside_taken_off(job: Job) -> set[str]:
    """The keys of the outside work that accepted changes take off the job."""
    accepted = Revision.objects.filter(
        shop=job.shop_id, quote__shop=job.shop_id, quote__job=job, state=Revision.State.ACCEPTED
    )
    rows = TakenOff.objects.filter(shop=job.shop_id, revision__in=accepted, item__startswith="outside:")
    return set(rows.values_list("item", flat=True))


def chosen_off(revision: Revision) -> list[TakenKey]:
    """The items that a change takes off, as a person chose them."""
    rows = TakenOff.objects.filter(shop=revision.shop_id, revision=revision).order_by("id")
    return [(str(source), item) for source, item in rows.values_list("source_id", "item")]
