"""Explains the hours and prices of operations, and the saving from counting shared work once."""

from collections.abc import Iterator
from decimal import Decimal

from quotes.answers.how import HowOut
from quotes.calc.labour import LabourLine
from quotes.calc.priced import PricedOperation, PricedQuote
from quotes.calc.priced_labour import OWN
from quotes.calc.quote_input import QuoteInput
from quotes.presenters.explanations.words import (
    cash,
    explained,
    hour,
    less,
    percent,
    put_in_place,
    sentences,
    step,
    unit_cash,
)
from shop.answers.explained import HowStepOut
from shop.calc.reason import Reason
from shop.words import say
from shop.words.figures import number


def operations(quote_input: QuoteInput, priced: PricedQuote) -> Iterator[HowOut]:
    for operation in priced.operations:
        key = f"labour:{operation.code}"
        yield explained(
            key,
            title_of(operation),
            sentences(*_rules(operation), "shared_price"),
            [
                *_hours(operation.line, quote_input),
                *put_in_place(quote_input.overrides.get(key), hour(operation.line.hours), hour(operation.hours)),
                *_price(operation, priced, quote_input.exponent),
            ],
            say("how.hours_price", hours=hour(operation.hours), price=cash(operation.price, quote_input.exponent)),
        )


def work(quote_input: QuoteInput, priced: PricedQuote) -> Iterator[HowOut]:
    """Every operation's hours for the technician, without prices and without the reasons of overrides."""
    for operation in priced.operations:
        key = f"labour:{operation.code}"
        own = [step("computed", hour(operation.line.hours)), step("own_hours", hour(operation.hours))]
        steps = [*_hours(operation.line, quote_input), *(own if key in quote_input.overrides else [])]
        yield explained(key, title_of(operation), sentences(*_rules(operation)), steps, hour(operation.hours))


def whole(quote_input: QuoteInput, priced: PricedQuote) -> HowOut:
    """All hours of the visit, compared with those of the kits one by one."""
    e = quote_input.exponent
    steps = [
        *(step("alone", hour(kit.alone_hours), letter=kit.letter, title=kit.title) for kit in priced.kits),
        *(step("alone_line", hour(done.alone_hours), title=done.title) for done in priced.labour),
        *_together(priced),
    ]
    steps += [
        step("skill", cash(skill.price, e), skill=skill.skill, hours=hour(skill.hours), rate=unit_cash(skill.rate, e))
        for skill in priced.skills
    ]
    result = say("how.hours_price", hours=hour(priced.hours), price=cash(priced.labour_total, e))
    by_hand = any(operation.hours != operation.line.hours for operation in priced.operations)
    codes = ("gathered", "alone", "by_hand", "skill") if by_hand else ("gathered", "alone", "skill")
    return explained("labour", say("how.title.labour"), sentences(*codes), steps, result)


def _together(priced: PricedQuote) -> Iterator[HowStepOut]:
    """Steps for the hours saved by counting once, then for a person's own hours."""
    computed = sum((operation.line.hours for operation in priced.operations), Decimal(0))
    if len(priced.kits) + len(priced.labour) > 1:
        yield step("apart", hour(priced.apart_hours))
        if priced.apart_hours > computed:
            yield step("not_counted_twice", less(hour(priced.apart_hours - computed)))
        yield step("together", hour(computed))
    if changed := priced.hours - computed:
        difference = say("how.more", figure=hour(changed)) if changed > 0 else less(hour(-changed))
        yield step("by_hand", difference)
        yield step("with_hand", hour(priced.hours))


def title_of(operation: PricedOperation) -> str:
    own = operation.code.startswith(OWN)
    return say("quote.own_hours", title=operation.title) if own else operation.title


def _rules(operation: PricedOperation) -> Iterator[str]:
    """The codes of the rules that apply to these hours, in the order in which they are applied."""
    codes = {reason.code for reason in operation.line.reasons}
    if "first_fit" in codes:
        yield "first_fit"
    if "summed" in codes:
        yield "each"
    for code in ("once", "included_in", "raised_by", "overlap", "condition"):
        if code in codes:
            yield code
    yield "tenths"


def _hours(line: LabourLine, quote_input: QuoteInput) -> Iterator[HowStepOut]:
    kits = {kit.code: kit for kit in reversed(quote_input.kits)}
    for request in line.kit_hours:
        kit = kits.get(request.kit)
        if kit is None:
            yield step("asks_line", hour(request.hours))
        elif request.first_fit == 1:
            yield step("asks", hour(request.hours), letter=kit.letter, title=kit.title)
        else:
            facts = {"letter": kit.letter, "title": kit.title, "factor": number(request.first_fit)}
            yield step("asks_first", hour(request.adjusted), hours=hour(request.hours), **facts)
    for reason in line.reasons:
        yield from _reason(reason, quote_input)
    yield step("tenths", hour(line.hours))


def _reason(reason: Reason, quote_input: QuoteInput) -> Iterator[HowStepOut]:
    facts = reason.named
    other = quote_input.titles.get(str(facts.get("operation", "")), str(facts.get("operation", "")))
    if reason.code == "once":
        yield step("longest", hour(facts["longest"]), n=facts["count"])  # type: ignore[arg-type]
    elif reason.code == "summed":
        yield step("sum", hour(facts["hours"]), n=facts["count"])  # type: ignore[arg-type]
    elif reason.code == "included_in":
        yield step("included_in", less(hour(facts["hours"])), operation=other)  # type: ignore[arg-type]
    elif reason.code == "raised_by":
        yield step("raised_by", hour(facts["hours"]), operation=other)  # type: ignore[arg-type]
    elif reason.code == "overlap":
        yield step("overlap", less(hour(facts["hours"])), operation=other)  # type: ignore[arg-type]
    elif reason.code == "condition":
        raised = percent(facts["factor"] - 1)  # type: ignore[operator, arg-type]
        yield step("condition", hour(facts["hours"]), percent=raised)  # type: ignore[arg-type]


def _price(operation: PricedOperation, priced: PricedQuote, e: int) -> Iterator[HowStepOut]:
    if not operation.hours:
        return
    skill = next(priced_skill for priced_skill in priced.skills if priced_skill.skill == operation.skill)
    facts = {"skill": skill.skill, "hours": hour(skill.hours), "rate": unit_cash(skill.rate, e)}
    yield step("skill", cash(skill.price, e), **facts)
    yield step("share", cash(operation.price, e), hours=hour(operation.hours), of=hour(skill.hours))
