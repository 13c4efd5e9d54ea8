"""A number typed by hand and a kit's file that would close a circle of replaced numbers together, at one instant."""

from typing import Any

import pytest
from django.db import transaction

from kitting.calc.supersessions import leads_to
from kitting.imports.kit import KIND as KIT
from kitting.models import Part
from kitting.queries.supersessions import newer_keys
from kitting.services.supersessions import replace_number
from shop.errors import RequestError
from tests.at_once import at_once
from tests.cast import Cast, make_cast
from tests.factories import PartFactory
from tests.imports.test_kinds import planned
from tests.imports.test_kit_outside import KIT_DAY

ROUNDS = 12


def plan_of(cast: Cast, kit: str, older: str, newer: str) -> Any:
    """The plan of a file that says which number replaces which, checked before anybody typed anything."""
    lines = f"{newer};Bolt;4;{older}\n" + "".join(f"X-{n};Nut;1;\n" for n in range(20))
    plan = planned(KIT, f"Kit;{kit}\n\nPart no;Description;Qty;Replaces\n{lines}").plan
    preview = KIT.check(cast.acting("manager"), plan)
    assert not [finding for finding in preview.findings if finding.weight == "must_fix"]
    return plan


def write(cast: Cast, plan: Any) -> None:
    with transaction.atomic():
        KIT.write(cast.acting("manager"), plan, KIT_DAY)


def circles(cast: Cast) -> list[str]:
    newer = newer_keys(cast.shop)
    return [key for key in newer if leads_to(newer[key], key, newer)]


@pytest.mark.both
def test_a_circle_that_was_closed_since_the_check_is_not_imported(cast: Cast) -> None:
    for number in ("76-10", "77-10"):
        PartFactory(shop=cast.shop, number=number)
    plan = plan_of(cast, "K-1", "76-10", "77-10")
    replace_number(actor=cast.acting("manager"), number="77-10", newer="76-10")
    with pytest.raises(RequestError) as refused:
        write(cast, plan)
    assert (refused.value.status, circles(cast)) == (409, [])
    assert not Part.objects.filter(shop=cast.shop, number="X-1").exists()


def test_a_file_and_a_typed_number_close_no_circle_at_once(transactional_db: None) -> None:
    cast = make_cast()
    for n in range(ROUNDS):
        older, newer = (PartFactory(shop=cast.shop, number=f"{number}-{n}").number for number in ("76", "77"))
        plan = plan_of(cast, f"K-{n}", older, newer)

        def import_it(plan: Any = plan) -> None:
            write(cast, plan)

        def type_it(older: str = older, newer: str = newer) -> None:
            replace_number(actor=cast.acting("manager"), number=newer, newer=older)

        outcomes = at_once(import_it, type_it)
        refused = [outcome for outcome in outcomes if outcome is not None]
        assert len(refused) == 1 and isinstance(refused[0], RequestError), outcomes
        assert circles(cast) == []
