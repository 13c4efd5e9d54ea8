"""Consents that an acceptance needs and the first day of work after it, from the frozen rules of a quote."""

from collections.abc import Collection, Mapping
from datetime import date, timedelta
from typing import Any

from shop.calc.rules import BEGIN_EARLY, REQUIRED, Rules

FrozenRules = Mapping[str, Any]


def terms_of(rules: Rules, *, begins: bool = True) -> dict[str, Any]:
    """The consents and the right of withdrawal as a frozen text stores them.

    A change that only removes work begins nothing (`begins`): no withdrawal period holds it back.
    """
    withdrawal = rules.withdrawal if begins else None
    return {
        "consents": [
            {"code": consent.code, "text": consent.text, "kind": consent.kind, "without": consent.without}
            for consent in rules.consents
            if begins or consent.kind != BEGIN_EARLY
        ],
        "withdrawal": withdrawal and {"days": withdrawal.days, "text": list(withdrawal.text)},
    }


def kind_of(consent: FrozenRules) -> str:
    """The consent's kind. Consents frozen before kinds existed were all required."""
    return str(consent.get("kind", REQUIRED))


def missing_consents(rules: FrozenRules, ticked: Collection[str]) -> tuple[str, ...]:
    """Codes of the required consents that are not ticked, in the order shown."""
    return tuple(
        consent["code"]
        for consent in rules["consents"]
        if kind_of(consent) == REQUIRED and consent["code"] not in ticked
    )


def begins_early(rules: FrozenRules, ticked: Collection[str]) -> bool:
    """True if the customer consents to work within the withdrawal period."""
    return any(kind_of(consent) == BEGIN_EARLY and consent["code"] in ticked for consent in rules["consents"])


def first_day(rules: FrozenRules, ticked: Collection[str], accepted_on: date) -> date | None:
    """The first day on which anything may be ordered or begun; None: at once.

    The withdrawal period starts on the day after acceptance and includes its last day.
    """
    withdrawal = rules.get("withdrawal")
    if not withdrawal or begins_early(rules, ticked):
        return None
    return accepted_on + timedelta(days=withdrawal["days"] + 1)


def first_days(rules: FrozenRules, accepted_on: date) -> tuple[date | None, date | None]:
    """The first days of work with all consents, and with no optional consent."""
    every = [consent["code"] for consent in rules["consents"]]
    return first_day(rules, every, accepted_on), first_day(rules, (), accepted_on)
