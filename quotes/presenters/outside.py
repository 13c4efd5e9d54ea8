"""Outside work of a quote as answers. Only `terms_answer` shows its cost."""

from collections.abc import Mapping

from kitting.models import KitOutside
from quotes.answers.figures import OverrideOut, QuotedOutsideOut
from quotes.answers.outside import KitsOutsideOut, OutsideTermsOut
from quotes.calc.priced import PricedOutside
from quotes.calc.quote_input import ChosenOutside
from quotes.models import Line, OutsideWork
from shop.calc.money import rounded
from shop.calc.quantity import money, plain
from shop.words import say


def terms_answer(work: OutsideWork, exponent: int) -> OutsideTermsOut:
    """The firm's terms and the workshop's markup, for advisor and manager."""
    return OutsideTermsOut(
        title=work.line.title,
        firm=work.firm.name,
        cost=f"{rounded(work.cost, exponent):f}",
        markup=plain(work.markup),
        handling=f"{rounded(work.handling, exponent):f}",
        tax_class=work.line.tax_class,
        days=work.days,
        starts_after=work.starts_after,
        needed_by=work.needed_by,
        they_do=work.they_do,
        they_need=work.they_need,
        reference=work.reference,
        warranty=work.warranty,
        we_warrant=work.we_warrant,
        rounds=work.rounds,
        per_round=work.per_round,
    )


def kits_outside_answer(line: Line, work: KitOutside, exponent: int) -> KitsOutsideOut:
    """The terms of outside work that goes with the kit of `line`."""
    return KitsOutsideOut(
        line=line.pk,
        kit=line.title,
        title=work.title,
        firm=work.firm.name,
        cost=f"{rounded(work.cost, exponent):f}",
        markup=plain(work.markup),
        handling=f"{rounded(work.handling, exponent):f}",
        tax_class=work.tax_class,
        days=work.days,
        starts_after=work.starts_after.code if work.starts_after else "",
        needed_by=work.needed_by.code if work.needed_by else "",
        they_do=work.they_do,
        they_need=work.they_need,
        reference="",
        warranty=work.warranty,
        we_warrant=work.we_warrant,
        rounds=work.rounds,
        per_round=work.per_round,
    )


def outside_answer(
    chosen: ChosenOutside,
    priced: PricedOutside,
    titles: Mapping[str, str],
    why: list[str],
    override: OverrideOut | None,
    exponent: int,
) -> QuotedOutsideOut:
    """A line of outside work. `titles` are the titles of the steps by code."""
    work = chosen.work
    return QuotedOutsideOut(
        line=chosen.line,
        key=f"outside:{chosen.line}",
        title=chosen.title,
        firm=work.firm,
        name=work.title,
        price=money(priced.price, exponent),
        tax_class=priced.tax_class,
        days=work.days,
        starts_after=work.starts_after,
        needed_by=work.needed_by,
        turnaround=turnaround_words(chosen, titles),
        they_do=chosen.details.they_do,
        they_need=chosen.they_need,
        reference=chosen.details.reference,
        warranty=chosen.warranty,
        we_warrant=chosen.details.we_warrant,
        rounds=chosen.details.rounds,
        per_round=chosen.details.per_round,
        returnable=chosen.returnable,
        why=why,
        override=override,
    )


def turnaround_words(chosen: ChosenOutside, titles: Mapping[str, str]) -> str:
    """The sentence on the turnaround: its days, its beginning, and the step that waits."""
    work = chosen.work
    if work.days is None:
        return say("outside.no_turnaround")
    facts = {"n": work.days, "step": titles.get(work.starts_after, work.starts_after)}
    turnaround = say("outside.from_step" if work.starts_after else "outside.from_acceptance", **facts)
    if not work.needed_by:
        return turnaround
    return say("outside.waits", turnaround=turnaround, step=titles.get(work.needed_by, work.needed_by))
