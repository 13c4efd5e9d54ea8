"""The litres of the vehicles that a quote's kits fit, for a quote without a vehicle."""

from collections.abc import Collection, Iterable, Mapping
from decimal import Decimal

from kitting.models import Kit
from shop.calc.when import fit
from shop.models import Shop, Vehicle

LOOKED_AT = 2000  # vehicles of the shop, by name: the order of an index that begins with the shop

Litres = Mapping[str, Decimal]
"""{circuit: litres}"""


def capacity_ends(shop: Shop, kits: Iterable[Kit], circuits: Collection[str]) -> tuple[Litres, ...]:
    """(the smallest, the largest litres of these circuits) of the vehicles that all the kits fit; one query.

    A circuit that no such vehicle records is left out; empty if no vehicle records any.
    """
    if not circuits:
        return ()
    models = [tuple(kit.fits) for kit in kits]
    rows = Vehicle.objects.filter(shop=shop).order_by("title_key").values_list("attributes", "capacities")
    litres: dict[str, list[Decimal]] = {}
    for attributes, capacities in rows[:LOOKED_AT]:
        if all(fit(fits, attributes) == "yes" for fits in models):
            for circuit in circuits & capacities.keys():
                litres.setdefault(circuit, []).append(Decimal(capacities[circuit]))
    if not litres:
        return ()
    return tuple({circuit: end(amounts) for circuit, amounts in litres.items()} for end in (min, max))
