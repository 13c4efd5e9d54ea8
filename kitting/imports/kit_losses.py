"""Findings about what a kit's next version lacks because its file does not name it."""

from collections.abc import Iterator

from kitting.imports.kit_plan import KitPlan
from kitting.models import KitRevision, Need, ReusedPart
from shop.tables.findings import Finding, please_check


def losses(plan: KitPlan, newest: KitRevision) -> Iterator[Finding]:
    """A finding each for labour, selling price, and the items beside the kit that the file leaves out."""
    number = newest.number
    if newest.labour and not plan.labour:
        yield please_check("kit_loses_labour", plan.labour_at, what=newest.labour.code, number=number)
    if newest.price is not None and plan.price is None:
        yield please_check("kit_loses_price", plan.price_at, number=number)
    if plan.needs or plan.reused:
        return
    rows = [model.objects.filter(shop=newest.shop_id, revision=newest).count() for model in (Need, ReusedPart)]
    if any(rows):
        yield please_check("kit_loses_needs", needs=rows[0], reused=rows[1], number=number)
