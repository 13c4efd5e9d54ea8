"""Explains the saving without a kit: the whole quote with the kit minus the whole quote without it."""

from collections.abc import Iterator, Mapping

from quotes.answers.how import HowOut
from quotes.calc.priced import PricedKit, PricedQuote, Saving
from quotes.calc.priced_labour import OWN
from quotes.calc.quote_input import QuoteInput
from quotes.presenters.explanations.words import cash, explained, hour, less, sentences, step
from shop.answers.explained import HowStepOut
from shop.words import say


def taken_off(quote_input: QuoteInput, priced: PricedQuote, saved: Mapping[str, Saving]) -> Iterator[HowOut]:
    e = quote_input.exponent
    for kit in priced.kits:
        saving = saved[kit.line]
        by_hand = _by_hand(kit, quote_input, priced)
        steps = [*_hours(priced, saving), *_alone(kit, saving, by_hand), *_total(priced, saving, e)]
        rule = sentences("saving", "by_hand") if by_hand else sentences("saving")
        title = say("how.title.saves", title=kit.title)
        result = say("how.hours_price", hours=hour(saving.hours), price=cash(saving.amount, e))
        yield explained(f"saves:{kit.line}", title, rule, steps, result)


def _by_hand(kit: PricedKit, quote_input: QuoteInput, priced: PricedQuote) -> bool:
    """Returns whether a person has set hours of this kit's work."""
    codes = next(
        ({operation.code for operation in chosen.operations} for chosen in quote_input.kits if chosen.line == kit.line),
        set(),
    )
    codes.add(OWN + kit.code)
    return any(operation.hours != operation.line.hours for operation in priced.operations if operation.code in codes)


def _hours(priced: PricedQuote, saving: Saving) -> Iterator[HowStepOut]:
    yield step("hours_with", hour(priced.hours))
    yield step("hours_without", less(hour(saving.left_hours)))
    yield step("hours_saved", hour(saving.hours))


def _alone(kit: PricedKit, saving: Saving, by_hand: bool) -> Iterator[HowStepOut]:
    """The step that compares the kit's own hours with the saving."""
    yield step("hours_alone", hour(kit.alone_hours))
    if kit.alone_hours > saving.hours and not by_hand:
        yield step("hours_stay", hour(kit.alone_hours - saving.hours))


def _total(priced: PricedQuote, saving: Saving, e: int) -> Iterator[HowStepOut]:
    yield step("gross_with", cash(priced.totals.gross, e))
    yield step("gross_without", less(cash(saving.left_amount, e)))
    yield step("gross_saved", cash(saving.amount, e))
