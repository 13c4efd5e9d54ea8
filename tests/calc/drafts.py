"""Random drafts of quotes: price rules, kits that share work, needs, extras and overrides."""

from decimal import Decimal as D
from typing import Any

from hypothesis import strategies as st

from kitting.calc.needs import NeedRow
from quotes.calc.labour import KitOperation, LabourOperation, Overlap, SharingRule
from quotes.calc.outside import OutsideTerms
from quotes.calc.quote_input import (
    Buying,
    ChosenKit,
    ChosenOutside,
    Extra,
    FigureOverride,
    OfferedItem,
    PackOffer,
    QuoteInput,
)
from shop.calc.outside import PlannedOutsideWork
from shop.calc.rules import Rules

SKILLS = ("mechanical", "electrical")
CLASSES = ("part", "labour", "fee", "supplies", "untaxed")
CODES = ("SETUP", "BUMPER", "TURBO", "WIRING")
ITEMS = ("oil", "sealant", "bolt")


def number(low: str, high: str, places: int) -> st.SearchStrategy[D]:
    return st.decimals(low, high, places=places)


def text(low: str, high: str, places: int) -> st.SearchStrategy[str]:
    return number(low, high, places).map(lambda value: f"{value:f}")


@st.composite
def house_rules(draw: st.DrawFn) -> Rules:
    rates: dict[str, Any] = {skill: draw(text("1", "30000", 4)) for skill in SKILLS}
    supplies = {"basis": ["labour"], "rate": draw(text("0", "0.2", 4)), "tax_class": "supplies"}
    taxes = [
        {"code": "A", "rate": draw(text("0", "0.3", 4)), "classes": ["part", "labour", "supplies"]},
        {"code": "B", "rate": draw(text("0", "0.2", 5)), "classes": ["part", "fee"], "on_top_of": ["A"]},
    ]
    fees = [
        {"code": "O", "title": "Used oil", "amount": draw(text("0", "9", 4)), "tax_class": "fee", "per": "engine oil"},
        {"code": "D", "title": "Disposal", "amount": draw(text("0", "90", 4)), "tax_class": "fee"},
    ]
    content = {
        "labour_rates": rates,
        "labour_costs": {SKILLS[0]: draw(text("1", "9000", 4))},
        "condition_factors": {"heavy": draw(text("1", "2", 3))},
        "markup": {
            "mode": draw(st.sampled_from(["graduated", "floored"])),
            "bands": [
                {"up_to": draw(text("1", "500", 2)), "x": draw(text("1", "3", 3))},
                {"x": draw(text("1", "2", 3))},
            ],
        },
        "supplies": draw(st.none() | st.just(supplies | {"cap": draw(text("0", "90", 2))}) | st.just(supplies)),
        "fees": fees,
        "taxes": taxes,
        "rounding": draw(st.sampled_from(["document", "line"])),
        "prices_include_tax": draw(st.booleans()),
        "duty_base": draw(st.sampled_from(["goods", "goods_and_freight"])),
    }
    return Rules.from_json(content)


buyings = st.builds(
    Buying,
    supplier=st.just("Brightwater Induction"),
    currency=st.just("USD"),
    unit_cost=number("0", "90000", 4),
    rate=st.none() | number("0.0001", "160", 6),
    rate_date=st.none(),
    rate_days=st.none(),
    duty_rate=number("0", "0.2", 4),
    freight=number("0", "900", 4),
    brokerage=number("0", "90", 4),
)


@st.composite
def drafts(draw: st.DrawFn) -> QuoteInput:
    exponent = draw(st.sampled_from([0, 2, 3]))
    kits = tuple(draw(chosen_kit(letter)) for letter in draw(st.sampled_from(["", "A", "AB", "ABC"])))
    extras = tuple(draw(extra(f"extra-{at}")) for at in range(draw(st.integers(0, 2))))
    choices = draw(
        st.sets(st.sampled_from([*(f"labour:{c}" for c in CODES), *(f"kit:{k.line}" for k in kits), "need:oil"]))
    )
    return QuoteInput(
        rules=draw(house_rules()),
        exponent=exponent,
        kits=kits,
        operations=tuple(
            LabourOperation(
                code, draw(st.sampled_from(SKILLS)), draw(st.sampled_from(SharingRule)), draw(st.booleans())
            )
            for code in CODES
        ),
        titles={code: f"{code.title()} work" for code in CODES},
        overlaps=(Overlap("BUMPER", "TURBO", draw(number("0", "1", 2))),),
        needs=tuple(need for kit in kits for need in draw(needs(kit.letter))),
        items={name: draw(item(name)) for name in ITEMS},
        capacities=draw(st.just({}) | st.fixed_dictionaries({"engine oil": number("1", "9", 3)})),
        condition=draw(st.sampled_from(["none", "heavy"])),
        extras=extras,
        outside=tuple(draw(outside(f"outside-{at}", exponent)) for at in range(draw(st.integers(0, 2)))),
        overrides={key: draw(override(key, exponent)) for key in sorted(choices)},
    )


def override(key: str, exponent: int) -> st.SearchStrategy[FigureOverride]:
    values = number("0", "40", 1) if key.startswith("labour:") else number("0", "9000", exponent)
    return st.builds(FigureOverride, values, st.just("agreed with the customer"))


def outside(line: str, exponent: int) -> st.SearchStrategy[ChosenOutside]:
    terms = st.builds(
        OutsideTerms,
        number("0", "9000", exponent),
        number("0", "2", 4),
        number("0", "900", exponent),
        st.sampled_from(CLASSES),
    )
    work = PlannedOutsideWork(line, "Calibration by Lathe & Lambda", "Lathe & Lambda", 3)
    return st.builds(ChosenOutside, st.just(line), st.just("Calibration"), terms, st.just(work))


def chosen_kit(letter: str) -> st.SearchStrategy[ChosenKit]:
    work = st.builds(KitOperation, st.sampled_from(CODES), number("0", "9", 2))
    return st.builds(
        ChosenKit,
        line=st.just(f"line-{letter}"),
        letter=st.just(letter),
        code=st.just(f"KIT-{letter}"),
        title=st.just(f"Kit {letter}"),
        operations=st.lists(work, max_size=4).map(tuple),
        tax_class=st.sampled_from(CLASSES),
        buying=st.none() | buyings,
        own_price=st.none() | number("0", "9000", 0),
        own_hours=st.none() | number("0", "9", 2),
        first_fit=number("1", "2", 2),
    )


def needs(kit: str) -> st.SearchStrategy[list[NeedRow]]:
    return st.lists(
        st.builds(
            NeedRow,
            kit=st.just(kit),
            item=st.just("oil"),
            rule=st.just("of_capacity"),
            quantity=number("0.1", "1", 2),
            of=st.just("engine oil"),
        )
        | st.builds(
            NeedRow,
            kit=st.just(kit),
            item=st.just("sealant"),
            rule=st.just("bead"),
            quantity=number("0.1", "3", 2),
            of=st.sampled_from(["2", "3.5"]),
            charge=st.sampled_from(["pack", "used", "supplies"]),
        )
        | st.builds(
            NeedRow, kit=st.just(kit), item=st.just("bolt"), rule=st.just("fixed"), quantity=number("1", "9", 0)
        ),
        max_size=3,
    )


def item(name: str) -> st.SearchStrategy[OfferedItem]:
    family = {"oil": "engine oil", "sealant": "sealant", "bolt": ""}[name]
    unit = {"oil": "L", "sealant": "mL", "bolt": "pc"}[name]
    sizes = {"oil": ["1", "0.946", "5"], "sealant": ["40", "300"], "bolt": ["1"]}[name]
    packs = st.tuples(
        *(
            st.builds(
                PackOffer,
                st.just(f"{name}-{size}"),
                st.just(size),
                st.just(name),
                st.just(D(size)),
                st.none() | buyings,
            )
            for size in sizes
        )
    )
    return st.builds(
        OfferedItem, st.just(name), st.just(name), st.just(family), st.just(unit), st.sampled_from(CLASSES), packs
    )


def extra(line: str) -> st.SearchStrategy[Extra]:
    return st.builds(
        Extra,
        line=st.just(line),
        title=st.just("Wheel alignment"),
        tax_class=st.sampled_from(CLASSES),
        quantity=number("0.0001", "20", 4),
        unit_price=st.none() | number("0", "900", 4),
        buying=st.none() | buyings,
    )
