"""Selects the notices of a priced quote that somebody can act on now."""

from collections.abc import Iterator

from quotes.calc.plan import outside_notices
from quotes.calc.priced import PricedQuote
from quotes.queries.loading import LoadedQuote
from shop.calc.reason import Reason

OF_THE_VEHICLE = ("capacity_unknown", "drained_unknown")


def notices(loaded: LoadedQuote, priced: PricedQuote) -> Iterator[Reason]:
    """The notices. Without a vehicle, notices about its capacities are left out: the price range mentions them.

    A fee per litre drained says nothing of a capacity that the fluid's own notice asks for already.
    """
    chosen = loaded.input.attributes is not None
    unknown_fluids = {notice.named["of"] for notice in priced.notices if notice.code == "capacity_unknown"}
    for notice in priced.notices:
        if notice.code in OF_THE_VEHICLE and not chosen:
            continue
        if notice.code != "drained_unknown" or notice.named["of"] not in unknown_fluids:
            yield notice
    yield from outside_notices(loaded.input, priced, loaded.sheet)
