"""The consents that an acceptance needs, and the first day of work, from the frozen rules of a quote; no database."""

from datetime import date
from typing import Any

import pytest

from quotes.calc.consents import begins_early, first_day, missing_consents

RULES: dict[str, Any] = {
    "consents": [
        {"code": "terms", "text": "I agree.", "kind": "required"},
        {"code": "early", "text": "Please begin.", "kind": "begin_within_withdrawal"},
        {"code": "photos", "text": "You may take photographs.", "kind": "optional"},
    ],
    "withdrawal": {"days": 14, "text": []},
}
DAY = date(2026, 11, 26)


@pytest.mark.parametrize(
    ("ticked", "missing"), [((), ("terms",)), (("early", "photos"), ("terms",)), (("terms",), ()), (("terms", "x"), ())]
)
def test_only_required_consents_are_missed(ticked: tuple[str, ...], missing: tuple[str, ...]) -> None:
    assert missing_consents(RULES, ticked) == missing


def test_consents_from_before_there_were_kinds_are_required() -> None:
    old = {"consents": [{"code": consent["code"], "text": consent["text"]} for consent in RULES["consents"]]}
    assert missing_consents(old, ("terms",)) == ("early", "photos")
    assert first_day(old, (), DAY) is None and not begins_early(old, ("early",))


@pytest.mark.parametrize(
    ("ticked", "day"),
    [((), date(2026, 12, 11)), (("terms", "photos"), date(2026, 12, 11)), (("terms", "early"), None)],
)
def test_work_begins_on_the_day_after_the_period(ticked: tuple[str, ...], day: date | None) -> None:
    assert first_day(RULES, ticked, DAY) == day


def test_without_a_period_work_begins_at_once() -> None:
    assert first_day({**RULES, "withdrawal": None}, (), DAY) is None
