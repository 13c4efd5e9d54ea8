"""Selects the notices of a priced quote that somebody can act on now."""

from collections.abc import Iterator

from quotes.calc.plan import outside_notices
from quotes.calc.priced import PricedQuote
from quotes.queries.loading import LoadedQuote
from shop.calc.reason import Reason

OF_THE_VEHICLE = ("capacity_unknown", "drained_unknown")


def notices(loaded: LoadedQuote, priced: PricedQuote) -> Iterator[Reason]:
    """The notices. Without a vehicle those about its capacities are left out: the price range mentions them."""
    chosen = loaded.input.attributes is not None
    yield from (notice for notice in priced.notices if chosen or notice.code not in OF_THE_VEHICLE)
    yield from outside_notices(loaded.input, priced, loaded.sheet)
