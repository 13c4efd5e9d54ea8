"""What a customer reads at the answer: each consent and what happens without it, what is recorded, and every fault."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from quotes.calc.consents import begins_early, first_day, kind_of
from quotes.figures import shop_day
from quotes.promise_words import Told, moved_later, shown_value, told_customer, words_of
from quotes.services.acceptance import Refused
from shop.calc.rules import BEGIN_EARLY, OPTIONAL, REQUIRED
from shop.dates import day_words
from shop.models import Shop
from shop.words import say

Kept = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Dates:
    """The date if work may begin at once, and the one after the withdrawal period, which begins on `first_day`."""

    early: Told = Told()
    later: Told = Told()
    first_day: date | None = None

    def of(self, early: bool) -> Told:
        return self.early if early else self.later


def dates_of(kept: Kept, shop: Shop, now: datetime) -> Dates:
    """Where no consent lets work begin early, both dates are the later one."""
    today = shop_day(shop, now)
    all_given = [each["code"] for each in kept["rules"]["consents"]]
    waits, at_best = (first_day(kept["rules"], given, today) for given in ((), all_given))
    early = told_customer(kept, shop, now, at_best)
    return Dates(early, early if waits == at_best else told_customer(kept, shop, now, waits), waits)


def form_facts(kept: Kept, dates: Dates, ticked: Collection[str], refused: Refused | None) -> dict[str, Any]:
    missing = refused.consents if refused else ()
    return {
        "consents": [_row(each, dates, ticked, missing) for each in kept["rules"]["consents"]],
        "faults": _faults(kept, refused),
        "name_missing": bool(refused and refused.name),
        "words": accept_words(kept),
        "waits": _waits(kept, dates),
        "waits_short": _waits(kept, dates, short=True),
        "ready": shown_value(dates.early.promise),
        "ready_later": shown_value(dates.later.promise),
    }


def accept_words(kept: Kept) -> list[str]:
    """What stands above the answer and is recorded with it: who may order, and what is kept, by whom, how long."""
    years, house = kept["rules"].get("retention_years"), kept["shop"]["name"]
    recorded = say("customer.recorded_years", house=house, n=years) if years else say("customer.recorded", house=house)
    return [say("customer.may_order", vehicle=kept["vehicle"]["title"]), recorded]


def moved(shown: Mapping[str, str], dates: Dates, early: bool, today: date) -> dict[str, str] | None:
    """The half day that was shown and the later one of now, whatever else was wrong with the answer."""
    before, told = shown.get("ready" if early else "ready_later", ""), dates.of(early).promise
    if not moved_later(before, told):
        return None
    after = told["ready"]["words"] if told else say("customer.promise.none_now")
    return {"before": words_of(before, today), "after": after}


def wants_early(kept: Kept, ticked: Collection[str]) -> bool:
    """Whether the answer leaves nothing to wait for."""
    return not kept["rules"].get("withdrawal") or begins_early(kept["rules"], ticked)


def _row(consent: Kept, dates: Dates, ticked: Collection[str], missing: Collection[str]) -> dict[str, Any]:
    kind = kind_of(consent)
    return {
        "code": consent["code"],
        "id": f"consent-{consent['code']}",
        "text": consent["text"],
        "word": say(f"customer.consent.{REQUIRED if kind == REQUIRED else OPTIONAL}"),
        "without": _without(consent, kind, dates),
        "ticked": consent["code"] in ticked,
        "missing": consent["code"] in missing,
    }


def _without(consent: Kept, kind: str, dates: Dates) -> str:
    """What happens without an optional consent; of the withdrawal period with its dates, which are ours to work out."""
    if kind == REQUIRED:
        return ""
    if kind == BEGIN_EARLY and dates.first_day:
        return _nothing_before(dates)
    return consent.get("without") or say("customer.consent.without")


def _nothing_before(dates: Dates) -> str:
    assert dates.first_day is not None
    day = day_words(dates.first_day)
    if dates.later.promise is None:
        return say("customer.consent.waits", day=day)
    return say("customer.consent.waits_ready", day=day, ready=dates.later.promise["ready"]["words"])


def _waits(kept: Kept, dates: Dates, short: bool = False) -> str:
    """What the date above the answer leaves out: it holds only for who lets work begin early."""
    if dates.first_day is None:
        return ""
    if any(kind_of(each) == BEGIN_EARLY for each in kept["rules"]["consents"]):
        if dates.early.promise is None:
            return ""
        unless = say("customer.consent.unless")
        return unless if short else f"{unless} {_nothing_before(dates)}"
    return say("customer.consent.after", day=day_words(dates.first_day))


def _faults(kept: Kept, refused: Refused | None) -> list[dict[str, str]]:
    """Every fault of an incomplete answer, with the field it belongs to."""
    if refused is None or refused.code != "incomplete":
        return []
    texts = {each["code"]: each["text"] for each in kept["rules"]["consents"]}
    found = [
        {"at": f"consent-{code}", "words": say("customer.error.tick", text=texts[code])} for code in refused.consents
    ]
    return [*found, *([{"at": "name", "words": say("customer.error.name")}] if refused.name else [])]
