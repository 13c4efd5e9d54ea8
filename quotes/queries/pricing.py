"""Prices a quote. Screen, sending, margin and paper all call this module, and no other code prices."""

from collections.abc import Hashable
from dataclasses import dataclass, replace
from datetime import datetime
from decimal import Decimal
from functools import cached_property

from kitting.models import KitRevision
from quotes.calc.choices import OfferedChoice, Selection, proposed, selections, ways
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
from quotes.calc.validity import Validity, validity
from quotes.models import Revision
from quotes.queries.capacities import Litres
from quotes.queries.loading import LoadedQuote, conditions, load_quote
from quotes.queries.rows import QuoteRows, kit_rows, read_rows
from shop.calc.rules import Rules
from shop.calc.when import Attributes
from shop.models import RuleSet
from shop.queries.calendar import shop_day as shop_day


@dataclass(frozen=True, slots=True)
class Figures:
    loaded: LoadedQuote
    priced: PricedQuote
    saved: tuple[Saving, ...]


@dataclass(frozen=True, slots=True)
class Possibility:
    """The quote for one selection of its options and one combination of the open attributes.

    `unfit` are the kits that the combination rules out.
    """

    selection: Selection
    stated: Combination
    loaded: LoadedQuote
    priced: PricedQuote
    unfit: tuple[str, ...]


@dataclass(frozen=True)  # without slots, for what is worked out once
class QuoteFigures(Figures):
    """The figures of a quote's first possibility, and all possibilities (one if no attribute is open).

    The first has the options that the workshop proposes. `open` holds the deciding attributes. Above `MOST_PRICED`
    combinations, only the lowest and the highest price found are possibilities. If all selections together (`ways`)
    make more prices than that, only those of the proposed selection are.
    """

    open: dict[str, Values]
    possible: tuple[Possibility, ...]
    choices: tuple[OfferedChoice, ...]
    ways: int
    ends: tuple[Litres, ...] = ()  # of a quote without a vehicle: the smallest and largest capacities

    @cached_property
    def further(self) -> tuple[Figures, ...]:
        """The figures of every price but the first, for the frozen text and the stored margins."""
        return tuple(_whole(possibility) for possibility in self.possible[1:])

    @property
    def highest(self) -> Decimal:
        """The highest total of a proposed possibility that fits. The quote itself shows the lowest."""
        return self.dearest.priced.totals.gross

    @cached_property
    def as_proposed(self) -> tuple[Possibility, ...]:
        """The possibilities with the options that the workshop proposes: one for each answer about the vehicle."""
        return tuple(price for price in self.possible if price.selection == self.possible[0].selection)

    @cached_property
    def by_phone(self) -> tuple[tuple[Possibility, tuple[PricedQuote, ...]], ...]:
        """The possibilities that a range by phone covers, each with its prices.

        A vehicle that a kit does not fit counts only if no vehicle fits all kits. Without a vehicle the fluids are
        those of the smallest and of the largest capacities.
        """
        fitting = [possibility for possibility in self.possible if not possibility.unfit] or self.possible
        return tuple((possibility, self._at_the_ends(possibility)) for possibility in fitting)

    def _at_the_ends(self, possibility: Possibility) -> tuple[PricedQuote, ...]:
        if not self.ends:
            return (possibility.priced,)
        return tuple(price_quote(replace(possibility.loaded.input, capacities=end)) for end in self.ends)

    @property
    def dearest(self) -> Possibility:
        fitting = [possibility for possibility in self.as_proposed if not possibility.unfit] or self.as_proposed
        return max(fitting, key=lambda possibility: possibility.priced.totals.gross)

    @property
    def below_floor(self) -> bool:
        """Returns whether the margin of the quote, or of one combination that can be chosen, is below the floor."""
        return any(is_below_floor(possibility.loaded.input, possibility.priced) for possibility in self.possible)

    @property
    def validity(self) -> Validity:
        """The time for which the quote can be accepted when it is sent today."""
        return validity(self.loaded.input.rules, (possibility.priced for possibility in self.possible))

    @property
    def offered(self) -> bool:
        """Returns whether there are few enough prices for the customer to say which vehicle it is."""
        return count(self.open) <= MOST_OFFERED

    @property
    def too_many(self) -> bool:
        """Returns whether the choices make more prices than are worked out."""
        return bool(self.choices) and self.ways > MOST_PRICED


class _Pricing:
    """Prices the rows of a quote for combinations of open attributes, each combination once (a cache)."""

    def __init__(self, rows: QuoteRows) -> None:
        self.rows = rows
        self.recorded: Attributes = rows.vehicle.attributes if rows.vehicle else {}
        self.proposed = proposed(rows.choices)
        self.taking: dict[Selection, QuoteRows] = {}
        self.priced: dict[tuple[Selection, Combination], Possibility] = {}

    def of(self, stated: Combination, selection: Selection | None = None) -> Possibility:
        """The possibility of a combination; without a selection that of what is proposed."""
        selection = self.proposed if selection is None else selection
        if (selection, stated) not in self.priced:
            attributes = applied(stated, self.recorded)
            if selection not in self.taking:
                self.taking[selection] = self.rows.taking(selection)
            loaded = load_quote(self.taking[selection], attributes)
            unfit = unfit_kits(loaded.input.kits, attributes)
            priced = price_quote(loaded.input)
            self.priced[selection, stated] = Possibility(selection, stated, loaded, priced, unfit)
        return self.priced[selection, stated]

    def gross(self, stated: Combination) -> Decimal:
        return self.of(stated).priced.totals.gross

    def fits(self, stated: Combination) -> bool:
        return not self.of(stated).unfit

    def outcome(self, stated: Combination, selection: Selection) -> Hashable:
        """The work, the lines and the unfit kits. Combinations with equal outcomes are one price."""
        possibility = self.of(stated, selection)
        work = tuple((operation.code, operation.hours) for operation in possibility.priced.operations)
        return work, possibility.priced.document, possibility.unfit


def figures(revision: Revision, now: datetime, other: RuleSet | None = None) -> QuoteFigures:
    """The draft's figures at today's prices and rates, by its own rules or by another set.

    The rows are read once, whatever the number of combinations of open attributes.
    """
    return figures_of(read_rows(revision, shop_day(revision.shop, now), other))


def kit_figures(revision: KitRevision, rules: Rules, now: datetime) -> QuoteFigures:
    """The figures of a quote with this kit alone and without a vehicle."""
    return figures_of(kit_rows(revision, rules, shop_day(revision.shop, now)))


def figures_of(rows: QuoteRows) -> QuoteFigures:
    """The figures of these rows. Reads nothing from the database."""
    pricing = _Pricing(rows)
    values = open_values(conditions(rows), pricing.recorded)
    prices = ways(rows.choices) * count(values)
    every = selections(rows.choices) if prices <= MOST_PRICED else (pricing.proposed,)
    if count(values) <= MOST_PRICED:
        values = deciding_values(
            values, lambda stated: tuple(pricing.outcome(stated, selection) for selection in every)
        )
        possible = tuple(
            possibility
            for selection in every
            for possibility in sorted((pricing.of(stated, selection) for stated in combinations(values)), key=_order)
        )
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
        choices=rows.choices,
        ways=prices,
        ends=rows.ends,
    )


def _whole(possibility: Possibility) -> Figures:
    """The figures of one possibility, with the saving of each kit."""
    saved = savings(possibility.loaded.input, possibility.priced)
    return Figures(possibility.loaded, possibility.priced, saved)


def _order(possibility: Possibility) -> tuple[bool, Decimal, Decimal, list[str]]:
    """The sort key within a selection: possibilities that fit first, then by price."""
    names = [value or "" for _, value in possibility.stated]
    return (bool(possibility.unfit), possibility.priced.totals.gross, possibility.priced.hours, names)
