"""The texts of the acceptance form: consents with the effect of leaving them out, the record, and faults."""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from quotes.calc.answer import AcceptanceError, half_day_value, moved_later
from quotes.calc.consents import begins_early, kind_of
from quotes.calc.forms import FrozenContent
from quotes.presenters.possible_prices import form_names
from quotes.presenters.promise import Dates, waits_words, words_of
from quotes.presenters.retention import kept_months, kept_years
from shop.calc.rules import BEGIN_EARLY, OPTIONAL, REQUIRED
from shop.presenters.dates import day_words
from shop.words import say


@dataclass(frozen=True, slots=True)
class ConsentRow:
    """A consent to tick. `without` is the effect of leaving it out; a `further` one decides nothing and is folded."""

    code: str
    id: str
    text: str
    word: str
    without: str
    ticked: bool
    missing: bool
    further: bool


@dataclass(frozen=True, slots=True)
class FaultRow:
    """A fault of an incomplete answer, and the id of the field it belongs to."""

    at: str
    words: str


@dataclass(frozen=True, slots=True)
class FormText:
    """The sentences of the page's form: consents, faults, what is recorded, and what the date waits for."""

    consents: Sequence[ConsentRow]
    further: Sequence[ConsentRow]
    further_open: bool
    faults: Sequence[FaultRow]
    name_missing: bool
    price_missing: bool
    recorded: Sequence[str]
    waits: str
    waits_short: str


def form_text(
    document: FrozenContent, dates: Dates, later: str, ticked: Collection[str], refused: AcceptanceError | None
) -> FormText:
    """The words of the form, after a refused answer with its faults. `later` is as for `consent_rows`."""
    rows = consent_rows(document, dates, later, ticked, refused.consents if refused else ())
    further = [row for row in rows if row.further]
    return FormText(
        consents=[row for row in rows if not row.further],
        further=further,
        further_open=any(row.ticked for row in further),
        faults=_faults(document, refused),
        name_missing=bool(refused and refused.name),
        price_missing=bool(refused and refused.price),
        recorded=accept_words(document)[1:],
        waits=waits_words(dates),
        waits_short=_waits_short(dates),
    )


def consent_rows(
    document: FrozenContent,
    dates: Dates,
    later: str = "",
    ticked: Collection[str] = (),
    missing: Collection[str] = (),
) -> list[ConsentRow]:
    """Every consent of the rules, with what happens without it.

    `later` are the half days without the consent to begin early, in words; empty where they are not told.
    """
    return [_row(consent, dates, later, ticked, missing) for consent in document["rules"]["consents"]]


def form_values(every: Mapping[int, Dates]) -> list[dict[str, str]]:
    """The half days that the page shows as hidden fields of its form, two for each price."""
    values = []
    for place, dates in every.items():
        names = form_names(place)
        for name, promised in ((names["ready"], dates.early), (names["ready_later"], dates.later)):
            if value := half_day_value(promised.promise):
                values.append({"name": name, "value": value})
    return values


def accept_words(document: FrozenContent) -> list[str]:
    """The sentences above the answer, which are recorded with it: who may order, and what is stored for how long."""
    house, years, months = document["shop"]["name"], kept_years(document), kept_months(document)
    recorded = say("customer.recorded_years", house=house, n=years) if years else say("customer.recorded", house=house)
    if months:
        recorded = say("customer.recorded_months", house=house, n=months)
    return [say("customer.may_order", vehicle=document["vehicle"]["title"]), recorded]


def moved(form: Mapping[str, str], dates: Dates, early: bool, today: date, place: int = 0) -> dict[str, str] | None:
    """The half day that the page showed and the present one, if that is later; None otherwise."""
    name = form_names(place)["ready" if early else "ready_later"]
    before, promised = form.get(name, ""), dates.of(early).promise
    if not moved_later(before, promised):
        return None
    after = promised["ready"]["words"] if promised else say("customer.promise.none_now")
    return {"before": words_of(before, today), "after": after}


def wants_early(document: FrozenContent, ticked: Collection[str]) -> bool:
    """Returns whether work may begin at once: no withdrawal period, or the consent to begin within it."""
    return not document["rules"].get("withdrawal") or begins_early(document["rules"], ticked)


def _row(
    consent: FrozenContent, dates: Dates, later: str, ticked: Collection[str], missing: Collection[str]
) -> ConsentRow:
    kind = kind_of(consent)
    return ConsentRow(
        code=consent["code"],
        id=f"consent-{consent['code']}",
        text=consent["text"],
        word=say(f"customer.consent.{REQUIRED if kind == REQUIRED else OPTIONAL}"),
        without=_without(consent, kind, dates, later),
        ticked=consent["code"] in ticked,
        missing=consent["code"] in missing,
        further=kind not in (REQUIRED, BEGIN_EARLY),
    )


def _without(consent: FrozenContent, kind: str, dates: Dates, later: str) -> str:
    """The sentence on the effect of leaving out an optional consent; for the withdrawal period with our dates."""
    if kind == REQUIRED:
        return ""
    if kind == BEGIN_EARLY and dates.first_day:
        return _nothing_before(dates.first_day, later)
    return consent.get("without") or say("customer.consent.without")


def _nothing_before(first_day: date, later: str) -> str:
    day = day_words(first_day)
    if not later:
        return say("customer.consent.waits", day=day)
    return say("customer.consent.waits_ready", day=day, ready=later)


def _waits_short(dates: Dates) -> str:
    """The short sentence next to the button; the whole sentence stands with the date above."""
    if dates.open and dates.early.promise is not None:
        return say("customer.consent.unless")
    return waits_words(dates)


def _faults(document: FrozenContent, refused: AcceptanceError | None) -> list[FaultRow]:
    """Every fault of an incomplete answer, with the field it belongs to."""
    if refused is None or refused.code != "incomplete":
        return []
    texts = {consent["code"]: consent["text"] for consent in document["rules"]["consents"]}
    price = [FaultRow("price-0", say("customer.error.price"))] if refused.price else []
    name = [FaultRow("name", say("customer.error.name"))] if refused.name else []
    ticks = (FaultRow(f"consent-{code}", say("customer.error.tick", text=texts[code])) for code in refused.consents)
    return [*price, *ticks, *name]
