"""A caution tied to an unknown name would never be shown to a customer: the import reports the name."""

import pytest

from shop.access import Actor
from shop.imports.rules import KIND as RULES
from tests.cast import Cast
from tests.factories import KitFactory, OperationFactory
from tests.imports.test_kinds import rules

pytestmark = pytest.mark.once


def cautions(actor: Actor, *applies_to: str) -> list[tuple[str, int, dict[str, str]]]:
    rows = [["Kind", "Text", "Applies to"], *(["caution", "Have it checked.", name] for name in applies_to)]
    findings = RULES.check(actor, rules(Words=rows).plan).findings
    return [
        (finding.code, finding.row, dict(finding.facts)) for finding in findings if finding.weight == "please_check"
    ]


def test_a_caution_for_what_the_shop_does_not_have_is_named_with_what_was_meant(cast: Cast) -> None:
    actor = cast.acting("manager")
    OperationFactory(shop=actor.shop, code="GEN-08", skill="mechanical")
    KitFactory(shop=actor.shop, code="FV-BB356")
    OperationFactory(shop=cast.elsewhere, code="ELSE-1")
    assert cautions(actor, "gen-08; Mechanical", "FV-BB356", "") == []
    assert cautions(actor, "GEN-08", "FV-BB-356; GEN-08") == [
        ("applies_to_like", 3, {"what": "FV-BB-356", "meant": "FV-BB356"})
    ]
    assert cautions(actor, "ELSE-1") == [("applies_to_unknown", 2, {"what": "ELSE-1", "meant": ""})]


def test_before_there_is_labour_it_is_said_once_that_names_could_not_be_checked(cast: Cast) -> None:
    actor = cast.acting("manager")
    assert cautions(actor, "GEN-08", "FV-BB356; ELSE-1") == [("applies_to_unchecked", 0, {"n": "3"})]
    assert cautions(actor, "") == []
