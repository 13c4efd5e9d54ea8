"""The text around the answer: each consent with what happens without it, what is recorded, and every fault."""

from collections.abc import Collection, Mapping, Sequence
from datetime import date
from typing import Any

from quotes.calc.answer import AcceptanceError, half_day_value, moved_later
from quotes.calc.consents import begins_early, kind_of
from quotes.presenters.possible_prices import form_names
from quotes.presenters.promise import Dates, waits_words, words_of
from shop.calc.rules import BEGIN_EARLY, OPTIONAL, REQUIRED
from shop.presenters.dates import day_words
from shop.words import say

Kept = Mapping[str, Any]


def form_facts(kept: Kept, dates: Dates, ticked: Collection[str], refused: AcceptanceError | None) -> dict[str, Any]:
    missing = refused.consents if refused else ()
    rows = [_row(each, dates, ticked, missing) for each in kept["rules"]["consents"]]
    further = [each for each in rows if each["further"]]
    return {
        "consents": [each for each in rows if not each["further"]],
        "further": further,
        "further_open": any(each["ticked"] for each in further),
        "faults": _faults(kept, refused),
        "name_missing": bool(refused and refused.name),
        "price_missing": bool(refused and refused.price),
        "recorded": accept_words(kept)[1:],
        "waits": waits_words(dates),
        "waits_short": _waits_short(dates),
    }


def form_values(every: Sequence[Dates]) -> list[dict[str, str]]:
    """The half days that the page shows, as its form carries them: two of each price."""
    found = []
    for place, dates in enumerate(every):
        names = form_names(place)
        for name, told in ((names["ready"], dates.early), (names["ready_later"], dates.later)):
            if value := half_day_value(told.promise):
                found.append({"name": name, "value": value})
    return found


def accept_words(kept: Kept) -> list[str]:
    """The sentences above the answer, recorded with it: who may order, and what is kept, by whom and for how long."""
    years, house = kept["rules"].get("retention_years"), kept["shop"]["name"]
    recorded = say("customer.recorded_years", house=house, n=years) if years else say("customer.recorded", house=house)
    return [say("customer.may_order", vehicle=kept["vehicle"]["title"]), recorded]


def moved(shown: Mapping[str, str], dates: Dates, early: bool, today: date, place: int = 0) -> dict[str, str] | None:
    """The half day that was shown of a price and the later one of now, whatever else was wrong with the answer."""
    name = form_names(place)["ready" if early else "ready_later"]
    before, told = shown.get(name, ""), dates.of(early).promise
    if not moved_later(before, told):
        return None
    after = told["ready"]["words"] if told else say("customer.promise.none_now")
    return {"before": words_of(before, today), "after": after}


def wants_early(kept: Kept, ticked: Collection[str]) -> bool:
    """Whether work may begin at once: no withdrawal period, or the consent to begin within it."""
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
        "further": kind not in (REQUIRED, BEGIN_EARLY),
    }


def _without(consent: Kept, kind: str, dates: Dates) -> str:
    """The sentence on what happens without an optional consent; for the withdrawal period it has our dates."""
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
    return say("customer.consent.waits_ready", day=day, ready=dates.later.promise["ready_brief"])


def _waits_short(dates: Dates) -> str:
    """Beside the button, where the whole sentence stands with the date above."""
    if dates.open and dates.early.promise is not None:
        return say("customer.consent.unless")
    return waits_words(dates)


def _faults(kept: Kept, refused: AcceptanceError | None) -> list[dict[str, str]]:
    """Every fault of an incomplete answer, with the field it belongs to."""
    if refused is None or refused.code != "incomplete":
        return []
    texts = {each["code"]: each["text"] for each in kept["rules"]["consents"]}
    found = [
        {"at": f"consent-{code}", "words": say("customer.error.tick", text=texts[code])} for code in refused.consents
    ]
    if refused.price:
        found.insert(0, {"at": "price-0", "words": say("customer.error.price")})
    return [*found, *([{"at": "name", "words": say("customer.error.name")}] if refused.name else [])]
