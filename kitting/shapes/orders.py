"""What would have to be bought for a list, by supplier: proposed, never stored, and without any cost."""

from collections import defaultdict
from collections.abc import Iterable
from decimal import Decimal
from typing import Any
from uuid import UUID

from kitting.models import Kit, Offer, Part, PullLine, PullList
from shop.access import Actor
from shop.calc.quantity import plain
from shop.words import say


def orders_shape(who: Actor, pull_list: PullList) -> dict[str, Any]:
    """Kits as the number they are bought under, needs as packs and parts; suppliers by name, unknown ones last."""
    wanted = [*_kits(who, pull_list), *_needs(who, pull_list)]
    suppliers = _suppliers(who, [part for part, _, _ in wanted])
    by_supplier: dict[str | None, list[dict[str, str]]] = defaultdict(list)
    for part, quantity, purpose in wanted:
        by_supplier[suppliers.get(part.pk)].append(_line(part, quantity, purpose))
    names = sorted(by_supplier, key=lambda name: (name is None, name or ""))
    return {"suppliers": [{"supplier": name, "lines": by_supplier[name]} for name in names]}


def _kits(who: Actor, pull_list: PullList) -> list[tuple[Part, Decimal, str]]:
    """A kit as often as the list has copies of it."""
    lines = PullLine.objects.filter(shop=who.shop, list=pull_list, kind__in=("box", "beside")).order_by("position")
    copies: dict[str, set[Any]] = {}
    for code, detail in lines.values_list("kit", "detail"):
        copies.setdefault(code, set()).add(detail.get("copy"))
    rows = Kit.objects.filter(shop=who.shop, code__in=copies).select_related("part")
    parts = {row.code: row.part for row in rows}
    return [(parts[code], Decimal(len(found)), say("orders.kit", kit=code)) for code, found in copies.items()]


def _needs(who: Actor, pull_list: PullList) -> list[tuple[Part, Decimal, str]]:
    lines = PullLine.objects.filter(shop=who.shop, list=pull_list, kind="need", retired_at__isnull=True)
    return [
        (line.part, line.quantity, say("orders.operation", operation=line.operation) if line.operation else "")
        for line in lines.select_related("part").order_by("position")
        if line.part
    ]


def _suppliers(who: Actor, parts: Iterable[Part]) -> dict[UUID, str]:
    """{part: the preferred supplier, or whoever made the newest offer}"""
    asked = {part.pk: part.preferred_id for part in parts}
    offers = Offer.objects.filter(shop=who.shop, part__in=asked).order_by("valid_from", "id")
    found = dict(offers.values_list("part", "supplier__name"))
    preferred = Part.objects.filter(shop=who.shop, pk__in=asked, preferred__isnull=False)
    return {**found, **dict(preferred.values_list("pk", "preferred__name"))}


def _line(part: Part, quantity: Decimal, purpose: str) -> dict[str, str]:
    return {
        "number": part.number,
        "title": part.title,
        "quantity": plain(quantity),
        "unit": part.unit,
        "for": purpose,
    }
