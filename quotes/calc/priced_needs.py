"""The needs of a quote: pooled over the job, met by the cheapest packs, and charged once."""

from collections.abc import Iterable
from dataclasses import replace
from decimal import Decimal

from kitting.calc.needs import CircuitAssumptions, PooledNeed, pool_needs
from kitting.calc.packs import Pack, PackChoice, choose_packs
from quotes.calc.buying import UnitPricing, price_unit
from quotes.calc.charge import BY_KIT, ChargedNeed, ChargeWay, OpenedPacks, charge_need, choose_way
from quotes.calc.priced import PricedNeed, TakenPack
from quotes.calc.quote_input import PackOffer, QuoteInput
from shop.calc.money import rounded
from shop.calc.reason import Reason

NOTHING = Decimal(0)


def price_needs(quote: QuoteInput) -> tuple[PricedNeed, ...]:
    """All needs of the quote, priced."""
    circuits = CircuitAssumptions(quote.capacities, quote.rules.coolant, quote.rules.bead_waste)
    ways = charge_ways(quote)
    rows = [replace(row, charge=ways[row.item].way) for row in quote.needs]
    return tuple(_priced(need, ways[need.item], quote) for need in pool_needs(rows, circuits))


def charge_ways(quote: QuoteInput) -> dict[str, ChargeWay]:
    """Maps the item of each need to its one way of charging, however many kits need it."""
    stated: dict[str, list[str]] = {}
    for row in quote.needs:
        stated.setdefault(row.item, []).append(row.charge)
    return {
        item: choose_way(ways, quote.rules.charges.get(quote.items[item].family.casefold()), quote.charges.get(item))
        for item, ways in stated.items()
    }


def _priced(need: PooledNeed, way: ChargeWay, quote: QuoteInput) -> PricedNeed:
    item = quote.items[need.item]
    sales = [(pack, _sold(pack, quote)) for pack in item.packs]
    offers = {pack.part: (pack, sale) for pack, sale in sales if sale is not None}
    base = PricedNeed(
        key=need.item,
        item=need.item,
        title=item.title,
        unit=item.unit,
        quantity=need.quantity,
        left=NOTHING,
        packs=(),
        charge=way.way,
        charged_because=way.because,
        kits=need.kits,
        operation=need.operation,
        price=rounded(NOTHING, quote.exponent),
        cost=None,
        tax_class=item.tax_class,
        steps=need.steps,
        reasons=need.reasons,
    )
    if need.unknown:
        return _overridden(
            replace(base, reasons=(*need.reasons, Reason.of("capacity_unknown", of=need.unknown))), quote
        )
    if not offers and need.quantity > 0:
        return _overridden(replace(base, reasons=(*need.reasons, Reason.of("no_pack", item=item.title))), quote)
    choice = choose_packs(need.quantity, NOTHING, [_pack(*pair) for pair in offers.values()], quote.exponent)
    return _overridden(_with_packs(base, choice, offers, quote), quote)


def _with_packs(
    need: PricedNeed, choice: PackChoice, offers: dict[str, tuple[PackOffer, UnitPricing]], quote: QuoteInput
) -> PricedNeed:
    chosen = tuple(_taken(*offers[part], count) for part, count in choice.packs)
    charged = _charged(need, choice, chosen, quote)
    return replace(
        need,
        packs=chosen,
        left=choice.left,
        price=charged.price,
        cost=charged.cost,
        reasons=(*need.reasons, *_pack_reasons(choice, chosen, offers, need)),
    )


def _overridden(need: PricedNeed, quote: QuoteInput) -> PricedNeed:
    override = quote.overrides.get(f"need:{need.key}")
    if override is None:
        return need
    why = Reason.of("overridden", because=override.because, computed=need.price, unit="")
    return replace(need, price=rounded(override.value, quote.exponent), reasons=(why, *need.reasons))


def _charged(need: PricedNeed, choice: PackChoice, chosen: tuple[TakenPack, ...], quote: QuoteInput) -> ChargedNeed:
    packs = OpenedPacks(
        price=choice.cost,
        cost=sum((pack.sold.cost * pack.count for pack in chosen), NOTHING),
        size=sum((pack.size * pack.count for pack in chosen), NOTHING),
        quantity=need.quantity,
    )
    return charge_need(need.charge, packs, quote.exponent)


def _pack_reasons(
    choice: PackChoice,
    chosen: tuple[TakenPack, ...],
    offers: dict[str, tuple[PackOffer, UnitPricing]],
    need: PricedNeed,
) -> Iterable[Reason]:
    if not chosen:
        return
    sizes = tuple(f"{pack.size.normalize():f}" for pack in chosen for _ in range(pack.count))
    yield Reason.of("packs", quantity=need.quantity, unit=need.unit, sizes=sizes, left=choice.left)
    if choice.runner_up is not None and need.charge == "pack":
        runner_up = choice.runner_up
        packs = tuple(f"{offers[part][0].size.normalize():f}" for part, count in runner_up.packs for _ in range(count))
        yield Reason.of("runner_up", sizes=packs, more=runner_up.cost - choice.cost)
    if need.charge != "pack":
        yield Reason.of(f"charged_{need.charge}")
    if need.charged_because != BY_KIT:
        yield Reason.of(f"charge_{need.charged_because}")


def _sold(pack: PackOffer, quote: QuoteInput) -> UnitPricing | None:
    return price_unit(pack.buying, quote.rules, quote.exponent) if pack.buying else None


def _pack(offer: PackOffer, sale: UnitPricing) -> Pack:
    return Pack(offer.part, offer.size, sale.price)


def _taken(offer: PackOffer, sale: UnitPricing, count: int) -> TakenPack:
    return TakenPack(offer.part, offer.number, offer.title, offer.size, count, sale)
