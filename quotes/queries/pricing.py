"""The one place that prices a quote: screen, sending, margin and paper all come through here."""

from collections.abc import Hashable
from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal
from functools import cached_property
from zoneinfo import ZoneInfo

from kitting.models import KitRevision
from quotes.calc.combinations import (
    MOST_OFFERED,
    MOST_PRICED,
    Combination,
    Values,
    applied,
    combinations,
    count,
    deciding_values,
    extremes,
    open_values,
)
from quotes.calc.fitting import unfit_kits
from quotes.calc.margin import is_below_floor
from quotes.calc.priced import PricedQuote, Saving
from quotes.calc.pricing import price_quote, savings
from quotes.models import Revision
from quotes.queries.loading import LoadedQuote, conditions, load_quote
from quotes.queries.rows import QuoteRows, kit_rows, read_rows
from shop.calc.rules import Rules
from shop.calc.when import Attributes
from shop.models import RuleSet, Shop


@dataclass(frozen=True, slots=True)
class Figures:
    loaded: LoadedQuote
    priced: PricedQuote
    saved: tuple[Saving, ...]


@dataclass(frozen=True, slots=True)
class Possibility:
    """The quote for one combination of what is not recorded of the vehicle; `unfit` are the kits it rules out."""

    stated: Combination
    loaded: LoadedQuote
    priced: PricedQuote
    unfit: tuple[str, ...]


@dataclass(frozen=True)  # without slots, for what is worked out once
class QuoteFigures(Figures):
    """The figures of a quote: those of its first possibility, and all possibilities (one where nothing is open).

    `open`: what decides between them. Above `MOST_PRICED` combinations they are the lowest and the highest found.
    """

    open: dict[str, Values]
    possible: tuple[Possibility, ...]

    @cached_property
    def further(self) -> tuple[Figures, ...]:
        """Every price but the first: the frozen text and the margins that are kept both need them."""
        return tuple(_whole(possibility) for possibility in self.possible[1:])

    @property
    def highest(self) -> Decimal:
        """The highest total of a possibility that fits; that of the quote as it is shown is the lowest."""
        return self.dearest.priced.totals.gross

    @property
    def dearest(self) -> Possibility:
        fitting = [possibility for possibility in self.possible if not possibility.unfit] or self.possible
        return max(fitting, key=lambda possibility: possibility.priced.totals.gross)

    @property
    def below_floor(self) -> bool:
        """Whether the margin of the quote, or of one combination that the customer may choose, is below the floor."""
        return any(is_below_floor(possibility.loaded.input, possibility.priced) for possibility in self.possible)

    @property
    def offered(self) -> bool:
        """Whether a customer can be asked to choose."""
        return count(self.open) <= MOST_OFFERED


class _Pricing:
    """Prices the rows of a quote for one combination after the other, each once."""

    def __init__(self, rows: QuoteRows) -> None:
        self.rows = rows
        self.recorded: Attributes = rows.vehicle.attributes if rows.vehicle else {}
        self.priced: dict[Combination, Possibility] = {}

    def of(self, stated: Combination) -> Possibility:
        if stated not in self.priced:
            attributes = applied(stated, self.recorded)
            loaded = load_quote(self.rows, attributes)
            unfit = unfit_kits(loaded.input.kits, attributes)
            self.priced[stated] = Possibility(stated, loaded, price_quote(loaded.input), unfit)
        return self.priced[stated]

    def gross(self, stated: Combination) -> Decimal:
        return self.of(stated).priced.totals.gross

    def fits(self, stated: Combination) -> bool:
        return not self.of(stated).unfit

    def outcome(self, stated: Combination) -> Hashable:
        """Two combinations with one outcome are one offer: its work, its lines, and whether the kits fit."""
        possibility = self.of(stated)
        work = tuple((operation.code, operation.hours) for operation in possibility.priced.operations)
        return work, possibility.priced.document, possibility.unfit


def figures(revision: Revision, now: datetime, other: RuleSet | None = None) -> QuoteFigures:
    """The draft's figures at the prices and rates of today in the shop's zone, by its rules or by another set.

    The rows are read once, however many combinations of what is not recorded there are.
    """
    return _figures(read_rows(revision, shop_day(revision.shop, now), other))


def kit_figures(revision: KitRevision, rules: Rules, now: datetime) -> QuoteFigures:
    """The figures of a quote of this kit alone, for no vehicle."""
    return _figures(kit_rows(revision, rules, shop_day(revision.shop, now)))


def _figures(rows: QuoteRows) -> QuoteFigures:
    pricing = _Pricing(rows)
    values = open_values(conditions(rows), pricing.recorded)
    if count(values) <= MOST_PRICED:
        values = deciding_values(values, pricing.outcome)
        possible = tuple(sorted((pricing.of(combination) for combination in combinations(values)), key=_order))
    else:
        outermost = extremes(values, pricing.gross, pricing.fits)
        possible = tuple(sorted((pricing.of(combination) for combination in outermost), key=_order))
    first = _whole(possible[0])
    return QuoteFigures(
        loaded=first.loaded,
        priced=first.priced,
        saved=first.saved,
        open=values,
        possible=possible,
    )


def _whole(possibility: Possibility) -> Figures:
    """One possibility with what each kit saves."""
    saved = savings(possibility.loaded.input, possibility.priced)
    return Figures(possibility.loaded, possibility.priced, saved)


def _order(possibility: Possibility) -> tuple[bool, Decimal, Decimal, list[str]]:
    """The sort key: combinations that fit come first, then the lowest price."""
    names = [value or "" for _, value in possibility.stated]
    return (bool(possibility.unfit), possibility.priced.totals.gross, possibility.priced.hours, names)


def shop_day(shop: Shop, now: datetime) -> date:
    return now.astimezone(ZoneInfo(shop.zone)).date()
