"""The figures of a quote: kits, labour, needs, outside work, fees and totals. No cost is among them.

A sent version has the figures of its frozen text. What an older text does not hold is left out of the answer.
"""

from datetime import date
from enum import StrEnum
from typing import Annotated, Literal

from msgspec import UNSET, Meta, UnsetType

from kitting.answers.units import Unit
from kitting.models.kits import NeedCharge
from quotes.models.lines import PartCondition
from shop.answers.base import Answer, Exact, TextId

NoticeCode = Literal[
    "capacity_unknown",
    "discount_too_large",
    "drained_unknown",
    "here_from_past",
    "kit_archived",
    "kit_fit_unknown",
    "kit_not_for_vehicle",
    "mix_drain_more",
    "mix_too_strong",
    "no_hours",
    "no_pack",
    "no_part_price",
    "no_price",
    "no_rate",
    "offer_ended",
    "other_owner",
    "outside_needs_itself",
    "outside_step_gone",
    "rate_old",
    "unknown_class",
]


ContingencyKind = Literal["labour", "part", "text"]


class OverrideOut(Answer, frozen=True):
    """A person's own figure in the place of the one worked out."""

    value: Annotated[Exact, Meta(description="Hours for labour, else an amount.")]
    because: Annotated[str, Meta(description="The reason that the person gave.")]


class QuotedKitOut(Answer, frozen=True, kw_only=True):
    """A kit on the quote."""

    line: TextId
    letter: Annotated[str, Meta(description="The letter by which the quote names the kit.")]
    kit: TextId
    code: Annotated[str, Meta(description="The kit's code.")]
    title: str
    issue: Annotated[int, Meta(description="The number of the kit's version.")]
    parts: Annotated[int, Meta(description="Lines of its parts list that apply to the vehicle.")]
    listed: Annotated[int | UnsetType, Meta(description="All lines of its parts list.")] = UNSET
    cartons: Annotated[int, Meta(description="Cartons in the box.")]
    first_fit: Annotated[
        Exact | UnsetType | None, Meta(description="The factor on its hours for the first fit; null for none.")
    ] = UNSET
    fitted_before: Annotated[
        bool | UnsetType, Meta(description="The workshop fitted it before it was quoted here.")
    ] = UNSET
    returnable: Annotated[bool | UnsetType, Meta(description="False: its supplier does not take it back.")] = UNSET
    supplied: Annotated[bool | UnsetType, Meta(description="The customer brings the kit.")] = UNSET
    price: Exact
    why: list[str]
    alone_hours: Annotated[Exact, Meta(description="The hours of the kit alone.")]
    saves_hours: Annotated[Exact, Meta(description="The hours that the quote would have less without the kit.")]
    saves_amount: Annotated[Exact, Meta(description="The amount that the quote would have less without the kit.")]
    key: str
    override: OverrideOut | None


class QuotedOperationOut(Answer, frozen=True, kw_only=True):
    """An operation on the quote."""

    key: str
    code: str
    title: str
    skill: str
    kits: Annotated[list[str], Meta(description="The codes of the kits that it is for.")]
    hours: Exact
    rate: Annotated[Exact, Meta(description="The price of an hour.")]
    price: Exact
    why: list[str]
    override: OverrideOut | None
    corroded: Annotated[
        Exact | UnsetType | None,
        Meta(description="By how many percent corroded fasteners raise the hours; null for none."),
    ] = UNSET
    lines: Annotated[
        list[TextId] | UnsetType, Meta(description="The ids of the labour lines that a person added for it.")
    ] = UNSET


class QuotedStageOut(Answer, frozen=True):
    """An install stage with the sum of its operations."""

    title: str
    hours: Exact
    price: Exact
    keys: Annotated[list[str], Meta(description="The keys of its operations in the order of work.")]


class QuotedLabourOut(Answer, frozen=True, kw_only=True):
    """All work on the quote."""

    hours: Exact
    apart_hours: Annotated[Exact, Meta(description="The hours of all kits, each fitted on a visit of its own.")]
    amount: Annotated[Exact, Meta(description="The sum of the labour.")]
    why: list[str]
    stages: Annotated[list[QuotedStageOut] | UnsetType, Meta(description="By install stage, in the order of work.")] = (
        UNSET
    )
    operations: Annotated[list[QuotedOperationOut], Meta(description="In the order of work.")]


class QuotedPackOut(Answer, frozen=True):
    """Packs of one size for a need."""

    part: TextId
    number: Annotated[str, Meta(description="The part's number.")]
    title: str
    size: Annotated[Exact, Meta(description="The contents of one pack, in the unit of the need.")]
    count: Annotated[int, Meta(description="The number of them.")]


class ChargeReason(StrEnum):
    """The source of the way of charging a consumable; `kits_differ`: several kits state different ways."""

    CHOSEN = "chosen"
    RULES = "rules"
    KIT = "kit"
    KITS_DIFFER = "kits_differ"


class QuotedNeedOut(Answer, frozen=True):
    """Something that the work needs and no kit holds."""

    key: str
    title: str
    quantity: Exact
    unit: Unit
    packs: Annotated[list[QuotedPackOut], Meta(description="Those that hold the quantity at the lowest price.")]
    kits: Annotated[list[str], Meta(description="The codes of the kits that need it.")]
    operation: Annotated[str, Meta(description="The code of the operation that first needs it, or empty.")]
    charge: NeedCharge
    price: Exact
    why: list[str]
    override: OverrideOut | None
    item: Annotated[TextId | UnsetType, Meta(description="The id of the consumable or part that is needed.")] = UNSET
    charged_because: Annotated[
        ChargeReason | UnsetType,
        Meta(description="The way of charging was chosen by an advisor, or is that of the rules, a kit or several."),
    ] = UNSET


class QuotedOutsideOut(Answer, frozen=True, kw_only=True):
    """Work of another firm."""

    line: TextId
    key: str
    title: str
    firm: str
    name: Annotated[str, Meta(description="The title with the firm's name.")]
    price: Exact
    tax_class: str
    days: Annotated[int | None, Meta(description="Open days; null without a turnaround.")]
    starts_after: Annotated[str, Meta(description="The code of the step before it; empty for acceptance.")]
    needed_by: Annotated[str, Meta(description="The code of the step that waits for its result, or empty.")]
    turnaround: Annotated[str, Meta(description="The firm's turnaround and the step that waits for it, in words.")]
    they_do: Annotated[str | UnsetType, Meta(description="The firm's work, as the customer reads it.")] = UNSET
    they_need: Annotated[str, Meta(description="The things that the firm needs from the workshop.")]
    reference: Annotated[str | UnsetType, Meta(description="The firm's reference of its offer.")] = UNSET
    warranty: Annotated[str, Meta(description="The firm's warranty.")]
    we_warrant: Annotated[str | UnsetType, Meta(description="The workshop's warranty.")] = UNSET
    rounds: Annotated[int | UnsetType | None, Meta(description="Rounds of a loop that are sold; null without one.")] = (
        UNSET
    )
    per_round: Annotated[bool | UnsetType, Meta(description="Each round is charged.")] = UNSET
    returnable: Annotated[bool | UnsetType, Meta(description="False: its supplier does not take it back.")] = UNSET
    why: list[str]
    override: OverrideOut | None


class QuotedExtraOut(Answer, frozen=True):
    """A loose part or a line written by hand."""

    line: TextId
    part: Annotated[TextId | None, Meta(description="Null for a line written by hand.")]
    title: str
    quantity: Exact
    unit_price: Exact
    price: Exact
    tax_class: str
    condition: Annotated[
        PartCondition | UnsetType | None,
        Meta(description="The condition in which a part is sold; null for a line written by hand."),
    ] = UNSET
    original: Annotated[bool | UnsetType, Meta(description="A part of the vehicle's manufacturer.")] = UNSET
    override: Annotated[
        OverrideOut | UnsetType | None, Meta(description="A part's own price for one, and its reason.")
    ] = UNSET
    core: Annotated[bool | UnsetType, Meta(description="A deposit that is paid back when the old part comes.")] = UNSET
    supplied: Annotated[bool | UnsetType, Meta(description="A part that the customer brings.")] = UNSET
    fitted_by: Annotated[str | UnsetType, Meta(description="The code of the operation that fits it, or empty.")] = UNSET
    returnable: Annotated[bool | UnsetType, Meta(description="False: its supplier does not take it back.")] = UNSET


class ContingencyOut(Answer, frozen=True, kw_only=True):
    """A line that is charged only if something happens. It is in no sum of the quote."""

    line: TextId
    kind: Annotated[ContingencyKind, Meta(description="Work, a part, or a line written by hand.")]
    part: Annotated[TextId | None, Meta(description="Null for work and for a line written by hand.")]
    skill: Annotated[str, Meta(description="Of work; else empty.")]
    event: Annotated[str, Meta(description="The event that has to happen, as the customer reads it.")]
    title: Annotated[str, Meta(description="The work that is then done, or the part that is fitted.")]
    quantity: Annotated[Exact, Meta(description="Of one time: hours of work, pieces of a part.")]
    unit_price: Exact
    tax_class: str
    price: Annotated[Exact, Meta(description="Of one time, with tax.")]
    tax: Annotated[Exact, Meta(description="The tax inside the price of one time.")]
    cap: Annotated[int, Meta(description="The most times that it is charged.")]
    highest: Annotated[Exact, Meta(description="The most that it can come to, with tax.")]
    why: list[str]
    override: OverrideOut | UnsetType | None = UNSET


class QuotedFeeOut(Answer, frozen=True):
    """A fee, or the shop supplies."""

    key: str
    title: str
    price: Exact
    why: list[str]
    stated: Annotated[
        bool | UnsetType, Meta(description="Its amount stands in sight on page and paper, by the price rules.")
    ] = UNSET


class TakenOffOut(Answer, frozen=True):
    """Something agreed that a change takes off the job."""

    source: Annotated[TextId, Meta(description="The id of the version in which it was agreed.")]
    item: Annotated[str, Meta(description="Its key in the text of that version.")]
    kind: Annotated[Literal["kit", "labour", "need", "extra", "outside"], Meta(description="Its name, in words.")]
    title: str
    hours: Annotated[Exact, Meta(description="Of an operation; else 0.0.")]
    price: Annotated[Exact, Meta(description="The amount that it takes from the total, with its minus.")]


class DiscountOut(Answer, frozen=True):
    """The discount as a percentage or an amount."""

    key: str
    title: str
    because: Annotated[str, Meta(description="The reason that the customer reads.")]
    percent: Annotated[Exact | None, Meta(description="As it was agreed; null for an amount.")]
    amount: Annotated[Exact | None, Meta(description="As it was agreed.")]
    why: list[str]
    price: Annotated[Exact, Meta(description="The amount that it takes from the total, with its minus.")]


class QuotedTaxOut(Answer, frozen=True):
    """One tax of the quote."""

    code: Annotated[str, Meta(description="As the price rules name it.")]
    title: str
    rate: Annotated[Exact, Meta(description="In percent.")]
    amount: Annotated[Exact, Meta(description="Its sum.")]


class QuoteTotalsOut(Answer, frozen=True):
    """The sums of the quote."""

    kits: Annotated[Exact, Meta(description="The sum of the kits.")]
    labour: Annotated[Exact, Meta(description="The sum of the labour.")]
    needs: Annotated[Exact, Meta(description="The sum of fluids and small parts.")]
    outside: Annotated[Exact, Meta(description="The sum of other firms' work.")]
    extras: Annotated[Exact, Meta(description="The sum of loose parts and lines written by hand.")]
    fees: Annotated[Exact, Meta(description="With the shop supplies.")]
    discount: Annotated[Exact, Meta(description="With its minus.")]
    net: Annotated[Exact, Meta(description="The total before tax.")]
    taxes: Annotated[list[QuotedTaxOut], Meta(description="One for each tax.")]
    tax: Annotated[Exact, Meta(description="The sum of the taxes.")]
    gross: Exact
    prices_include_tax: bool
    taken: Annotated[Exact | UnsetType, Meta(description="The sum of what a change takes off, with its minus.")] = UNSET


class DepositOut(Answer, frozen=True):
    """The deposit that the customer pays before anything is ordered."""

    base: Annotated[Literal["parts", "total"], Meta(description="Kits and loose parts before discount, or the total.")]
    percent: Annotated[Exact, Meta(description="Of the base.")]
    amount: Annotated[Exact, Meta(description="With tax; never above the total.")]
    why: list[str]
    because: Annotated[
        Literal["percent", "cover", "total"] | UnsetType,
        Meta(description="Decided by the percentage, by goods that cannot be sent back, or by the total as the limit."),
    ] = UNSET
    covers: Annotated[bool | UnsetType, Meta(description="The rules let it cover what cannot be sent back.")] = UNSET


class ReceivedDepositOut(Answer, frozen=True):
    """The part of an accepted quote's deposit that has been received."""

    amount: Annotated[Exact, Meta(description="At most the deposit.")]
    day: Annotated[date, Meta(description="The day on which all of it was there; else that of the last payment.")]
    whole: Annotated[bool, Meta(description="As much as the deposit has been received.")]


class DecideOut(Answer, frozen=True):
    """An attribute of the vehicle that decides which parts are needed, and is not recorded."""

    attribute: str
    values: Annotated[list[str], Meta(description="The values that the kits know.")]
    words: str


class NoticeOut(Answer, frozen=True):
    """Something worth knowing before the quote is sent."""

    code: Annotated[NoticeCode, Meta(description="Its subject.")]
    about: Annotated[
        str, Meta(description="The line, capacity, currency or thing that it concerns, as data; else empty.")
    ]
    words: str


class ShownOut(Answer, frozen=True, kw_only=True):
    """The figures of a quote."""

    kits: Annotated[list[QuotedKitOut], Meta(description="In the order of their letters.")]
    labour: Annotated[QuotedLabourOut, Meta(description="All work on the quote.")]
    needs: Annotated[list[QuotedNeedOut], Meta(description="Fluids and small parts that the work needs.")]
    outside: Annotated[list[QuotedOutsideOut], Meta(description="Work of other firms.")]
    extras: Annotated[list[QuotedExtraOut], Meta(description="Loose parts and lines written by hand.")]
    contingencies: Annotated[
        list[ContingencyOut] | UnsetType,
        Meta(description="The work charged only if something happens; absent without any."),
    ] = UNSET
    fees: Annotated[list[QuotedFeeOut], Meta(description="Fees, and the shop supplies last.")]
    taken: Annotated[
        list[TakenOffOut] | UnsetType, Meta(description="Of a change to a job: what it takes off, else absent.")
    ] = UNSET
    discount: Annotated[DiscountOut | None, Meta(description="Null for none.")]
    deposit: Annotated[DepositOut | UnsetType | None, Meta(description="Null where the price rules ask for none.")] = (
        UNSET
    )
    totals: Annotated[QuoteTotalsOut, Meta(description="The sums of the quote.")]
    decide: Annotated[
        list[DecideOut], Meta(description="Attributes that decide which parts are needed, and are not recorded.")
    ]
    notices: Annotated[list[NoticeOut], Meta(description="Facts worth knowing before it is sent.")]
