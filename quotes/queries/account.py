"""The rows of a job's account, from its accepted quotes and its payments."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal

from quotes.calc.account import AccountAmount, AccountSums, not_carried_out, sum_account
from quotes.calc.forms import FrozenContent
from quotes.calc.frozen import total_alone
from quotes.models import ClosingAccount, Decision, Quote, Release
from quotes.queries import frozen
from quotes.queries.called_off import OwedWork, owed_work
from quotes.queries.closing import closing_of, open_changes
from quotes.queries.late_cores import late_cores, standing_cores
from quotes.queries.occurrences import AgreedContingency, accepted_decisions, agreed_contingencies
from shop.models import CoreReturn, Job, Payment
from shop.queries.payments import received

NOTHING = Decimal(0)
PART = "part"  # the tax class of a core


@dataclass(frozen=True, slots=True)
class GivenConsent:
    """The customer's acceptance: who gave it, when and how, and who recorded a spoken one."""

    name: str
    given_at: datetime
    way: str
    recorded_by: str


@dataclass(frozen=True, slots=True)
class AccountRow:
    """A row of the account. `title` is what a person wrote; empty for a quote, which its number names."""

    amount: AccountAmount
    consent: GivenConsent | None
    title: str = ""
    quote: str = ""
    revision: int = 0
    day: date | None = None
    happened: AgreedContingency | None = None
    owed: tuple[OwedWork, ...] = ()
    late: bool = False  # a core that came back after the job was closed


@dataclass(frozen=True, slots=True)
class JobAccount:
    """The account of a job. `deposit` is None where the accepted quote asks for none."""

    job: Job
    quote: Quote | None  # that opened the job
    rows: tuple[AccountRow, ...]  # of a closed job only what came after its account
    payments: tuple[Payment, ...]
    releases: tuple[Release, ...]  # those with a payment
    cores: tuple[CoreReturn, ...]
    closing: ClosingAccount | None
    open_changes: tuple[Quote, ...]
    deposit: Decimal | None
    sums: AccountSums

    @property
    def deposit_received(self) -> bool:
        """Whether as much as the deposit has been received."""
        return self.deposit is not None and self.sums.received >= self.deposit


def job_account(job: Job) -> JobAccount:
    """The account as it stands now."""
    accepted = accepted_decisions(job)
    first = accepted[0] if accepted else None
    document = frozen.read(first.revision) if first else {}
    payments, cores, closing = tuple(payments_of(job)), tuple(cores_of(job)), closing_of(job)
    agreed = [_agreed(decision, change=decision is not first) for decision in accepted]
    rows = (
        *agreed,
        *_called_off(job, [row.amount for row in agreed]),
        *_happened(agreed_contingencies(job, accepted)),
        *_returned(standing_cores(cores), document),
    )
    late = tuple(_returned(late_cores(closing, cores), document, late=True))
    rows = late if closing else rows
    closed = [AccountAmount("agreed", closing.total, closing.tax)] if closing else []
    amounts = [*closed, *(row.amount for row in rows)]
    return JobAccount(
        job=job,
        quote=first.quote if first else None,
        rows=rows,
        payments=payments,
        releases=tuple(Release.objects.filter(shop=job.shop_id, job=job, payment__isnull=False)),
        cores=cores,
        closing=closing,
        open_changes=tuple(open_changes(job)) if closing is None else (),
        deposit=deposit_of(document) if first else None,
        sums=sum_account(amounts, [payment.amount for payment in payments], job.shop.exponent),
    )


def payments_of(job: Job) -> Sequence[Payment]:
    """The job's payments in the order in which they were recorded."""
    rows = Payment.objects.filter(shop=job.shop_id, job=job).select_related("recorded_by__user")
    return list(rows.order_by("recorded_at", "id"))


def cores_of(job: Job) -> Sequence[CoreReturn]:
    """The cores returned for the job, in the order in which they were recorded."""
    rows = CoreReturn.objects.filter(shop=job.shop_id, job=job).select_related("recorded_by__user")
    return list(rows.order_by("recorded_at", "id"))


def _returned(cores: Sequence[CoreReturn], document: FrozenContent, *, late: bool = False) -> Iterator[AccountRow]:
    """A row for each core that came back, with the tax of parts inside it."""
    for core in cores:
        tax = _tax_inside(core.amount, document)
        yield AccountRow(AccountAmount("core", -core.amount, -tax), None, core.title, day=core.returned_on, late=late)


def _happened(agreed: Sequence[AgreedContingency]) -> Iterator[AccountRow]:
    """A row for each line that happened, charged up to its cap, with the acceptance that agreed to it."""
    for contingency in agreed:
        if contingency.happened:
            charge = contingency.charge
            amount = AccountAmount("happened", charge.amount, charge.tax)
            yield AccountRow(amount, consent_of(contingency.decision), happened=contingency)


def _called_off(job: Job, agreed: Sequence[AccountAmount]) -> Iterator[AccountRow]:
    """The negative row for what a called-off job does not owe."""
    if job.state == Job.State.CALLED_OFF and agreed:
        owed = owed_work(job)
        amount = not_carried_out(agreed, [work.amount for work in owed])
        yield AccountRow(amount, None, day=job.called_off_on, owed=owed)


def _tax_inside(amount: Decimal, document: FrozenContent) -> Decimal:
    """The tax of parts inside an amount, by the taxes of the accepted text."""
    if not document:
        return NOTHING
    return total_alone(document["inputs"], PART, amount, tax_inside=True).tax_total


def _agreed(decision: Decision, *, change: bool) -> AccountRow:
    """The row of an accepted quote: the total and the tax of the price that was accepted."""
    totals = frozen.read(decision.revision)["shown"]["totals"]
    return AccountRow(
        amount=AccountAmount("change" if change else "agreed", Decimal(totals["gross"]), Decimal(totals["tax"])),
        consent=consent_of(decision),
        quote=str(decision.quote),
        revision=decision.revision.number,
    )


def consent_of(decision: Decision) -> GivenConsent:
    recorder = decision.recorded_by
    return GivenConsent(
        name=decision.record["name"],
        given_at=decision.answered_at,
        way=decision.way,
        recorded_by=recorder.user.name if recorder else "",
    )


def deposit_received(document: FrozenContent, quote: Quote) -> bool:
    """Whether as much as the deposit of the accepted text has been received."""
    deposit = deposit_of(document)
    return deposit is not None and quote.job is not None and received(quote.job) >= deposit


def owes_deposit(document: FrozenContent, quote: Quote) -> bool:
    """Whether the accepted text asks for a deposit and less than that has been received."""
    return deposit_of(document) is not None and not deposit_received(document, quote)


def deposit_of(document: FrozenContent) -> Decimal | None:
    """The deposit of an accepted text; None where it asks for none."""
    deposit = document["shown"].get("deposit")
    amount = Decimal(deposit["amount"]) if deposit else NOTHING
    return amount or None
