"""A priced quote as an answer, shared by screen, frozen text, paper and customer's page.

It holds no cost; costs have their own resource.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping
from decimal import Decimal

from msgspec import UNSET

from kitting.models.kits import NeedCharge
from quotes.answers.figures import (
    ChargeReason,
    DecideOut,
    DiscountOut,
    OverrideOut,
    QuotedExtraOut,
    QuotedFeeOut,
    QuotedKitOut,
    QuotedLabourOut,
    QuotedNeedOut,
    QuotedOperationOut,
    QuotedOutsideOut,
    QuotedPackOut,
    QuotedStageOut,
    QuotedTaxOut,
    QuoteTotalsOut,
    ShownOut,
)
from quotes.calc.forms import FrozenContent
from quotes.calc.priced import (
    PricedDiscount,
    PricedExtra,
    PricedKit,
    PricedNeed,
    PricedOperation,
    PricedQuote,
    Saving,
)
from quotes.calc.priced_labour import OWN, WORK
from quotes.calc.quote_input import FigureOverride, QuoteInput
from quotes.calc.stages import StageSum, stage_sums
from quotes.models.lines import PartCondition
from quotes.presenters.contingencies import contingency_answers
from quotes.presenters.deposit import deposit_answer
from quotes.presenters.fee_titles import fee_title, supplies_title
from quotes.presenters.outside import outside_answer
from quotes.presenters.reason_words import raised_by, worded, worded_notice
from quotes.presenters.taken_off import taken_answer, taken_sum
from quotes.queries.loading import LoadedQuote
from quotes.queries.notices import notices
from quotes.queries.pricing import Figures
from shop.answers.base import from_kept
from shop.calc.quantity import hours, money, plain, unit_money
from shop.calc.reason import Reason
from shop.presenters.vehicles import attribute_words
from shop.words import say
from shop.words.figures import figure, listed, number, tenths

FIRST_FIT = "first_fit"  # said once with the kit; how an operation is worked out has it again


def figures_answer(figures: Figures) -> ShownOut:
    """The part of a quote that depends on its choices and today's prices."""
    loaded, priced = figures.loaded, figures.priced
    e = loaded.input.exponent
    spared = {saving.line: saving for saving in figures.saved}
    overrides = loaded.input.overrides
    return ShownOut(
        kits=[_kit(kit, loaded, spared[kit.line], e) for kit in priced.kits],
        labour=QuotedLabourOut(
            hours=hours(priced.hours),
            apart_hours=hours(priced.apart_hours),
            amount=money(priced.labour_total, e),
            why=_labour_why(priced),
            stages=[_stage(stage, e) for stage in stage_sums(priced.operations, loaded.stages)],
            operations=[_operation(operation, priced, loaded.input, e) for operation in priced.operations],
        ),
        needs=[_need(need, overrides, e) for need in priced.needs],
        outside=list(_outside(loaded, priced, e)),
        extras=[_extra(extra, e) for extra in priced.extras],
        contingencies=contingency_answers(priced.contingencies, e),
        fees=[*_fees(priced, e), *_supplies(loaded, priced, e)],
        taken=taken_answer(priced.taken, e),
        discount=_discount(priced.discount, e),
        deposit=deposit_answer(loaded.input.rules.deposit, priced.deposit, e),
        totals=_totals(loaded, priced, e),
        decide=[
            DecideOut(name, list(values), say("quote.decide", attribute=attribute_words(name)))
            for name, values in loaded.decide.items()
        ],
        notices=[worded_notice(notice, e) for notice in notices(loaded, priced)],
    )


def figure_keys(priced: PricedQuote) -> set[str]:
    """The keys of the figures that a person may replace by their own."""
    kits = {f"kit:{kit.line}" for kit in priced.kits if not kit.supplied}
    keys = kits | {f"labour:{work.code}" for work in priced.operations}
    return keys | {f"need:{need.key}" for need in priced.needs} | {f"outside:{work.line}" for work in priced.outside}


def kept_figures(document: FrozenContent) -> ShownOut:
    """The figures of a frozen text as shown on sending."""
    return from_kept(document["shown"], ShownOut)


def _totals(loaded: LoadedQuote, priced: PricedQuote, e: int) -> QuoteTotalsOut:
    totals = priced.totals
    titles = {rule.tax.code: rule for rule in loaded.input.rules.taxes}
    return QuoteTotalsOut(
        kits=money(_sum(kit.price for kit in priced.kits), e),
        labour=money(priced.labour_total, e),
        needs=money(_sum(need.price for need in priced.needs), e),
        outside=money(_sum(work.price for work in priced.outside), e),
        extras=money(_sum(extra.price for extra in priced.extras), e),
        fees=money(_sum(fee.price for fee in priced.fees) + totals.supplies, e),
        discount=money(-priced.discount.amount if priced.discount else Decimal(0), e),
        net=money(totals.net, e),
        taxes=[
            QuotedTaxOut(
                code=tax.code,
                title=titles[tax.code].title,
                rate=plain(titles[tax.code].tax.rate * 100),
                amount=money(tax.amount, e),
            )
            for tax in totals.taxes
        ],
        tax=money(totals.tax_total, e),
        gross=money(totals.gross, e),
        prices_include_tax=loaded.input.rules.prices_include_tax,
        taken=taken_sum(priced.taken, e),
    )


def _kit(kit: PricedKit, loaded: LoadedQuote, saving: Saving, e: int) -> QuotedKitOut:
    facts = loaded.kits[kit.line]
    chosen = next(chosen for chosen in loaded.input.kits if chosen.line == kit.line)
    factor = chosen.first_fit
    key = f"kit:{kit.line}"
    return QuotedKitOut(
        line=kit.line,
        letter=kit.letter,
        kit=str(facts.revision.kit_id),
        code=kit.code,
        title=kit.title,
        issue=facts.revision.number,
        parts=facts.parts,
        listed=facts.listed,
        cartons=facts.cartons,
        first_fit=None if factor == 1 else plain(factor),
        fitted_before=facts.fitted_before,
        returnable=chosen.returnable,
        supplied=kit.supplied,
        price=money(kit.price, e),
        why=worded(kit.reasons, e),
        alone_hours=hours(kit.alone_hours),
        saves_hours=hours(saving.hours),
        saves_amount=money(saving.amount, e),
        key=key,
        override=_override(loaded.input.overrides.get(key), money, e),
    )


def _extra(extra: PricedExtra, e: int) -> QuotedExtraOut:
    return QuotedExtraOut(
        line=extra.line,
        part=extra.part,
        title=extra.title,
        quantity=plain(extra.quantity),
        unit_price=unit_money(extra.unit_price, e),
        price=money(extra.price, e),
        tax_class=extra.tax_class,
        condition=PartCondition(extra.condition) if extra.condition else None,
        original=extra.original,
        override=OverrideOut(unit_money(extra.unit_price, e), extra.because) if extra.because else None,
        core=extra.core,
        supplied=extra.supplied,
        fitted_by=extra.fitted_by,
        returnable=extra.returnable,
    )


def _operation(operation: PricedOperation, priced: PricedQuote, quote_input: QuoteInput, e: int) -> QuotedOperationOut:
    key = f"labour:{operation.code}"
    own = operation.code.startswith(OWN)
    return QuotedOperationOut(
        key=key,
        code="" if operation.code.startswith(WORK) else operation.code.removeprefix(OWN),
        title=say("quote.own_hours", title=operation.title) if own else operation.title,
        skill=operation.skill,
        kits=list(operation.kits),
        hours=hours(operation.hours),
        rate=unit_money(operation.rate, e),
        price=money(operation.price, e),
        why=worded(
            (_titled(reason, quote_input.titles) for reason in operation.reasons if reason.code != FIRST_FIT), e
        ),
        override=_override(quote_input.overrides.get(key), lambda value, _: hours(value), e),
        corroded=next((raised_by(reason) for reason in operation.reasons if reason.code == "condition"), None),
        lines=[done.line for done in priced.labour if done.code == operation.code] or UNSET,
    )


def _stage(stage: StageSum, e: int) -> QuotedStageOut:
    return QuotedStageOut(
        title=stage.name or say("quote.no_stage"),
        hours=hours(stage.hours),
        price=money(stage.price, e),
        keys=[f"labour:{code}" for code in stage.codes],
    )


def _outside(loaded: LoadedQuote, priced: PricedQuote, e: int) -> Iterator[QuotedOutsideOut]:
    titles = {operation.code: operation.title for operation in priced.operations}
    for chosen, work in zip(loaded.input.outside, priced.outside, strict=True):
        own = _override(loaded.input.overrides.get(f"outside:{work.line}"), money, e)
        yield outside_answer(chosen, work, titles, worded(work.reasons, e), own, e)


def _titled(reason: Reason, titles: Mapping[str, str]) -> Reason:
    """The reason with operations named by title: no screen shows their codes."""
    facts = reason.named
    if "operation" not in facts:
        return reason
    code = str(facts["operation"])
    return Reason.of(reason.code, **{**facts, "operation": titles.get(code, code)})


def _need(need: PricedNeed, overrides: Mapping[str, FigureOverride], e: int) -> QuotedNeedOut:
    key = f"need:{need.key}"
    return QuotedNeedOut(
        key=key,
        title=need.title,
        quantity=plain(need.quantity),
        unit=need.unit,
        packs=[QuotedPackOut(pack.part, pack.number, pack.title, plain(pack.size), pack.count) for pack in need.packs],
        kits=list(need.kits),
        operation=need.operation,
        charge=NeedCharge(need.charge),
        price=money(need.price, e),
        why=worded(need.reasons, e),
        override=_override(overrides.get(key), money, e),
        item=need.item,
        charged_because=ChargeReason(need.charged_because),
    )


def _fees(priced: PricedQuote, e: int) -> Iterator[QuotedFeeOut]:
    for fee in priced.fees:
        yield QuotedFeeOut(fee.key, fee_title(fee), money(fee.price, e), worded(fee.reasons, e))


def _supplies(loaded: LoadedQuote, priced: PricedQuote, e: int) -> Iterator[QuotedFeeOut]:
    rules, rule = loaded.input.rules, loaded.input.rules.supplies
    if rule is None or not priced.totals.supplies:
        return
    percent = number(rule.rate * 100)
    basis = listed(rule.basis)
    why = say("quote.supplies", percent=percent, basis=basis)
    if rule.cap is not None:
        why = say("quote.supplies_cap", percent=percent, basis=basis, cap=figure(money(rule.cap, e)))
    amount = money(priced.totals.supplies, e)
    yield QuotedFeeOut("supplies", supplies_title(), amount, [why, *rules.supplies_words], rules.supplies_stated)


def _discount(discount: PricedDiscount | None, e: int) -> DiscountOut | None:
    if discount is None:
        return None
    agreed = discount.agreed
    share = "" if agreed.percent is None else number(agreed.percent)
    of = figure(money(discount.base, e))
    return DiscountOut(
        key="discount",
        title=say("quote.discount_percent", percent=share) if share else say("quote.discount"),
        because=agreed.because,
        percent=None if agreed.percent is None else plain(agreed.percent),
        amount=None if agreed.amount is None else money(agreed.amount, e),
        why=[say("quote.discount_of", percent=share, of=of)] if share else [],
        price=money(-discount.amount, e),
    )


def _labour_why(priced: PricedQuote) -> list[str]:
    if len(priced.kits) + len(priced.labour) < 2 or priced.apart_hours <= priced.hours:
        return []
    return [say("quote.apart", apart=tenths(priced.apart_hours), hours=tenths(priced.hours))]


def _override(override: FigureOverride | None, form: Callable[[Decimal, int], str], e: int) -> OverrideOut | None:
    return None if override is None else OverrideOut(form(override.value, e), override.because)


def _sum(amounts: Iterable[Decimal]) -> Decimal:
    return sum(amounts, Decimal(0))
