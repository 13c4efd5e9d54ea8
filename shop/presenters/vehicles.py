"""Vehicles and their VINs as answers."""

from shop.answers.vehicles import OwnerChangeOut, VehicleOut, VinCheckOut
from shop.calc.vin import check_vin
from shop.models import Shop, Vehicle
from shop.presenters.dates import day_words, instant_words
from shop.presenters.vin import vin_explained
from shop.queries.owners import OwnerChange
from shop.words import knows, say


def owner_change_answer(change: OwnerChange, shop: Shop) -> OwnerChangeOut:
    """`shop`: in its zone the time is told."""
    facts = {"day": day_words(change.since), "at": instant_words(change.recorded_at, shop.zone)}
    words = say("owner.recorded", by=change.by, **facts) if change.by else say("owner.recorded_here", **facts)
    return OwnerChangeOut(change.before, change.after, change.since, words)


def vehicle_answer(vehicle: Vehicle, market: str) -> VehicleOut:
    """`market`: the shop's, by which the VIN is checked."""
    return VehicleOut(
        id=vehicle.pk,
        title=vehicle.title,
        customer=vehicle.customer_id,
        customer_name=vehicle.customer.name if vehicle.customer else None,
        vin=vehicle.vin,
        vin_tail=vehicle.vin[-6:],
        plate=vehicle.plate,
        attributes=vehicle.attributes,
        capacities=vehicle.capacities,
        version=vehicle.version,
        vin_check=vin_answer(vehicle.vin, market) if vehicle.vin else None,
    )


def vin_answer(vin: str, market: str) -> VinCheckOut:
    check = check_vin(vin, market or None)
    key = "vin.suggested" if check.suggestion else f"vin.{check.status}"
    return VinCheckOut(
        status=check.status,
        suggestion=check.suggestion,
        words=say(key, suggestion=check.suggestion),
        how=vin_explained(check),
    )


def attribute_words(attribute: str) -> str:
    """'gearbox' for transmission; the identifier itself, as people read it, where there is no word of its own."""
    return say(key) if knows(key := f"attribute.{attribute}") else attribute.replace("_", " ")
