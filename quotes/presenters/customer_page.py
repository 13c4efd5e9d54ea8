"""The facts of the customer's page, for the customer and for the advisor who looks at it before or after sending."""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import NamedTuple

from django.conf import settings

from quotes.calc.answer import UNKNOWN, AcceptanceError
from quotes.calc.forms import FrozenContent
from quotes.models import Quote, Revision
from quotes.presenters.acceptance_form import FormText, form_text, form_values
from quotes.presenters.changes import change_now_words
from quotes.presenters.choices import ChoiceRow, as_sent, choice_rows, choice_words, places_of
from quotes.presenters.customer import CustomerText, presented
from quotes.presenters.difference import VersionChanges, changes_since_version
from quotes.presenters.possible_prices import (
    DatesOfPrices,
    PriceRow,
    common_date,
    dates_at,
    later_day,
    later_ready,
    rows_of,
)
from quotes.presenters.price_grid import PriceGrid, grid_of
from quotes.presenters.promise import CustomerPromise, Dates
from quotes.queries.account import deposit_received
from quotes.queries.frozen import asked_places
from shop.models import Shop
from shop.words import say


def dates_shown(document: FrozenContent, shop: Shop, state: str, now: datetime) -> DatesOfPrices:
    """The dates of each price on the page as of `now`; without words once the quote can no longer be accepted.

    These are the prices with the options that are shown, and those after one change of them.
    """
    places = {*asked_places(document), *places_of(document)}
    if state == Revision.State.SENT:
        return dates_at(document, places, shop, now)
    return dict.fromkeys(places, Dates())


def gets_mail(quote: Quote) -> bool:
    """Returns whether the receipt of an acceptance and the replies to questions go out by e-mail."""
    return bool(settings.MAIL_IS_SENT and quote.customer and quote.customer.email)


@dataclass(frozen=True, slots=True)
class OfferText:
    """The offer on the page: the prices that can be accepted, the half days that it shows, and its state."""

    state: str
    open: bool
    digest: str
    possible: Sequence[PriceRow]
    grid: PriceGrid | None
    each_date: str
    several_differ: int
    unknown_chosen: bool
    shown_half_days: Sequence[Mapping[str, str]]
    choices: Sequence[ChoiceRow]
    chosen: Sequence[str]
    shown_place: int
    as_sent: str
    promise: CustomerPromise | None
    no_date: str | None


class CustomerPage(NamedTuple):
    """The page of a quote. Of a name in two parts the later one counts."""

    text: CustomerText
    offer: OfferText
    form: FormText


@dataclass(frozen=True, slots=True)
class PreviewText:
    """The facts that only the workshop's view of the page has."""

    preview: str
    by_mail: bool
    since: VersionChanges | None
    change_now: str
    deposit_received: bool


def customer_page(
    document: FrozenContent,
    digest: str,
    state: str,
    every: DatesOfPrices,
    *,
    price: str = "",
    ticked: Collection[str] = (),
    refused: AcceptanceError | None = None,
) -> CustomerPage:
    """The page's words, without those of a link."""
    places = asked_places(document)
    first, possible = every[places[0]], rows_of(document, every, price)
    differing = sum(bool(row.differs) for row in possible)
    offer = OfferText(
        state=state,
        open=state == Revision.State.SENT,
        digest=digest,
        possible=possible,
        grid=grid_of(document, possible),
        each_date=common_date(possible),
        several_differ=differing if differing > 1 else 0,
        unknown_chosen=price == UNKNOWN,
        shown_half_days=form_values({place: every[place] for place in places}),
        choices=choice_rows(document, every) if state == Revision.State.SENT else [],
        chosen=choice_words(document),
        shown_place=places[0],
        as_sent=as_sent(document),
        promise=first.early.promise,
        no_date=None if "change" in document else first.early.no_date,  # a change has the date of its job
    )
    later = later_ready(possible, every) if possible else later_day(first)
    return CustomerPage(presented(document, digest), offer, form_text(document, first, later, ticked, refused))


def preview_page(document: FrozenContent, revision: Revision, now: datetime) -> tuple[CustomerPage, PreviewText]:
    """The page for the workshop: it cannot be answered, and says that only the workshop sees it.

    `document` is the frozen text, of a draft the one that sending it now would freeze.
    """
    draft = revision.state == Revision.State.DRAFT
    state = Revision.State.SENT if draft else revision.state_at(now)
    page = customer_page(document, revision.digest, state, dates_shown(document, revision.shop, state, now))
    by_mail, paid = gets_mail(revision.quote), deposit_received(document, revision.quote)
    since = changes_since_version(revision, document, now) if state == Revision.State.SENT else None
    job = revision.quote.job if state == Revision.State.SENT else None
    change_now = change_now_words(job, document, now) if job is not None else ""
    if not draft:
        return page, PreviewText(say("customer.preview.sent"), by_mail, since, change_now, paid)
    unmarked = replace(page.text, mark=say("customer.preview.mark"))
    return page._replace(text=unmarked), PreviewText(say("customer.preview.draft"), by_mail, since, change_now, paid)
