"""The needs of a quote: pooled over the job, turned into the cheapest packs, charged once in one way."""

from collections.abc import Iterable
from dataclasses import replace
from decimal import Decimal
from fractions import Fraction

from kitting.calc.needs import CircuitAssumptions, PooledNeed, pool_needs
from kitting.calc.packs import Pack, PackChoice, choose_packs
from quotes.calc.buying import UnitPricing, price_unit
from quotes.calc.priced import PricedNeed, TakenPack
from quotes.calc.quote_input import PackOffer, QuoteInput
from shop.calc.money import rounded
from shop.calc.reason import Reason

NOTHING = Decimal(0)


def price_needs(given: QuoteInput) -> tuple[PricedNeed, ...]:
    circuits = CircuitAssumptions(given.capacities, given.rules.coolant, given.rules.bead_waste)
    return tuple(_priced(need, given) for need in pool_needs(given.needs, circuits))


def need_key(need: PooledNeed) -> str:
    return need.item if need.charge == "pack" else f"{need.item}:{need.charge}"


def _priced(need: PooledNeed, given: QuoteInput) -> PricedNeed:
    item = given.items[need.item]
    known = [(pack, _sold(pack, given)) for pack in item.packs]
    offers = {pack.part: (pack, sale) for pack, sale in known if sale is not None}
    base = PricedNeed(
        key=need_key(need),
        item=need.item,
        title=item.title,
        unit=item.unit,
        quantity=need.quantity,
        left=NOTHING,
        packs=(),
        charge=need.charge,
        kits=need.kits,
        operation=need.operation,
        price=rounded(NOTHING, given.exponent),
        cost=None,
        tax_class=item.tax_class,
        steps=need.steps,
        reasons=need.reasons,
    )
    if need.unknown:
        return _overridden(
            replace(base, reasons=(*need.reasons, Reason.of("capacity_unknown", of=need.unknown))), given
        )
    if not offers and need.quantity > 0:
        return _overridden(replace(base, reasons=(*need.reasons, Reason.of("no_pack", item=item.title))), given)
    choice = choose_packs(need.quantity, NOTHING, [_pack(*each) for each in offers.values()], given.exponent)
    return _overridden(_with_packs(base, choice, offers, given), given)


def _with_packs(
    need: PricedNeed, choice: PackChoice, offers: dict[str, tuple[PackOffer, UnitPricing]], given: QuoteInput
) -> PricedNeed:
    taken = tuple(_taken(*offers[part], count) for part, count in choice.packs)
    return replace(
        need,
        packs=taken,
        left=choice.left,
        price=_charged(need, choice, taken, given),
        cost=sum((offers[part][1].cost * count for part, count in choice.packs), NOTHING),
        reasons=(*need.reasons, *_pack_reasons(choice, taken, offers, need)),
    )


def _overridden(need: PricedNeed, given: QuoteInput) -> PricedNeed:
    override = given.overrides.get(f"need:{need.key}")
    if override is None:
        return need
    why = Reason.of("overridden", because=override.because, computed=need.price, unit="")
    return replace(need, price=rounded(override.value, given.exponent), reasons=(why, *need.reasons))


def _charged(need: PricedNeed, choice: PackChoice, taken: tuple[TakenPack, ...], given: QuoteInput) -> Decimal:
    """Whole packs; or the used part of their price; or nothing, where the shop supplies cover it."""
    if need.charge == "supplies" or not taken:
        return rounded(NOTHING, given.exponent)
    if need.charge == "pack":
        return choice.cost
    size = sum((pack.size * pack.count for pack in taken), NOTHING)
    return rounded(Fraction(choice.cost) * Fraction(need.quantity) / Fraction(size), given.exponent)


def _pack_reasons(
    choice: PackChoice, taken: tuple[TakenPack, ...], offers: dict[str, tuple[PackOffer, UnitPricing]], need: PricedNeed
) -> Iterable[Reason]:
    if not taken:
        return
    sizes = tuple(f"{pack.size.normalize():f}" for pack in taken for _ in range(pack.count))
    yield Reason.of("packs", quantity=need.quantity, unit=need.unit, sizes=sizes, left=choice.left)
    if choice.runner_up is not None and need.charge == "pack":
        other = choice.runner_up
        packs = tuple(f"{offers[part][0].size.normalize():f}" for part, count in other.packs for _ in range(count))
        yield Reason.of("runner_up", sizes=packs, more=other.cost - choice.cost)
    if need.charge != "pack":
        yield Reason.of(f"charged_{need.charge}")


def _sold(pack: PackOffer, given: QuoteInput) -> UnitPricing | None:
    return price_unit(pack.buying, given.rules, given.exponent) if pack.buying else None


def _pack(offer: PackOffer, sale: UnitPricing) -> Pack:
    return Pack(offer.part, offer.size, sale.price)


def _taken(offer: PackOffer, sale: UnitPricing, count: int) -> TakenPack:
    return TakenPack(offer.part, offer.number, offer.title, offer.size, count, sale)
