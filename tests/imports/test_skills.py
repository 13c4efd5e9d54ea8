"""A skill without a labour rate cannot be quoted: the imports of labour and of price rules say so."""

from datetime import date
from typing import Any

import pytest

from shop.access import Actor
from shop.imports.labour import KIND as LABOUR
from shop.imports.rules import KIND as RULES
from shop.models import RuleSet
from shop.tables.findings import MUST_FIX
from tests.cast import Cast
from tests.factories import OperationFactory
from tests.imports.files import workbook
from tests.imports.test_kinds import planned, rules
from tests.quotes.stage import RULES as HOUSE

pytestmark = pytest.mark.once

HEAD = "Code;Title;Skill;Hours\n"


def house(actor: Actor, *, number: int = 1, valid_from: date = date(2026, 1, 1), **rates: str) -> None:
    RuleSet.objects.create(shop=actor.shop, number=number, valid_from=valid_from, rules=HOUSE | {"labour_rates": rates})


def of_labour(actor: Actor, *skills: str) -> list[tuple[str, int, str, dict[str, str]]]:
    rows = "".join(f"OP-{at};Work {at};{skill};1\n" for at, skill in enumerate(skills))
    findings = LABOUR.check(actor, planned(LABOUR, HEAD + rows).plan).findings
    assert not [finding for finding in findings if finding.weight == MUST_FIX]
    return [(finding.code, finding.row, finding.field, dict(finding.facts)) for finding in findings]


def of_rules(actor: Actor, *skills: str) -> list[tuple[str, dict[str, str]]]:
    rows: list[list[Any]] = [["Skill", "Rate"], *([skill, "118.80"] for skill in skills)]
    findings = RULES.check(actor, rules(Labour_rates=rows).plan).findings
    assert not [finding for finding in findings if finding.weight == MUST_FIX]
    return [(finding.code, dict(finding.facts)) for finding in findings]


def test_a_skill_without_a_rate_is_named_once_at_its_first_cell(cast: Cast) -> None:
    actor = cast.acting("manager")
    house(actor, mechanical="118.80")
    assert of_labour(actor, "Mechanical", "Welding", "welding", "mechanicle") == [
        ("skill_without_rate", 3, "skill", {"what": "welding", "meant": ""}),
        ("skill_like", 5, "skill", {"what": "mechanicle", "meant": "mechanical"}),
    ]


def test_the_rules_in_force_count_and_those_of_this_shop_alone(cast: Cast) -> None:
    actor, elsewhere = cast.acting("manager"), Actor(shop=cast.elsewhere, member=cast.stranger)
    house(elsewhere, welding="90.00")
    assert of_labour(actor, "welding") == []  # nothing to compare with: the import of the rules will
    house(actor, mechanical="118.80")
    house(actor, number=2, valid_from=date(2999, 1, 1), welding="90.00")
    assert [finding[0] for finding in of_labour(actor, "welding")] == ["skill_without_rate"]


def test_rules_that_leave_out_a_skill_of_the_shops_operations_say_how_many(cast: Cast) -> None:
    actor = cast.acting("manager")
    for code in ("W-1", "W-2"):
        OperationFactory(shop=actor.shop, code=code, skill="welding")
    OperationFactory(shop=actor.shop, code="M-1", skill="mechanical")
    OperationFactory(shop=cast.elsewhere, code="E-1", skill="electrical")
    assert of_rules(actor, "mechanical", "welding") == []
    assert of_rules(actor, "mechanical") == [("rate_missing", {"what": "welding", "n": "2"})]


def test_a_workbook_without_rules_is_not_asked_for_rates(cast: Cast) -> None:
    actor = cast.acting("manager")
    OperationFactory(shop=actor.shop, code="W-1", skill="welding")
    calendar = [["Day", "Opens", "Closes"], ["mon", "8:00", "17:00"]]
    assert RULES.check(actor, planned(RULES, workbook({"Calendar": calendar})).plan).findings == ()
