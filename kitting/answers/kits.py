"""Kits and their contents."""

from typing import Annotated, Literal
from uuid import UUID

from msgspec import Meta

from kitting.answers.units import Unit
from kitting.models.kits import KitLineKind, KitLineShips, NeedCharge, NeedRule
from shop.answers.base import Answer, Exact

Fit = Literal["yes", "ask", "no", "open"]


class KitAttributeOut(Answer, frozen=True):
    """An attribute of a vehicle, and the values that can be recorded of it, sorted."""

    attribute: str
    values: Annotated[list[str], Meta(description="Those that can be recorded.")]


class KitRowOut(Answer, frozen=True):
    """A kit in a list of them."""

    id: UUID
    code: str
    title: str
    supplier: Annotated[str | None, Meta(description="Null where none is preferred.")]
    revision: Annotated[int | None, Meta(description="The number of its newest version.")]
    parts: Annotated[int, Meta(description="Lines of its parts list.")]
    cartons: int
    fits: Annotated[
        Fit | None,
        Meta(
            description="Whether it fits the vehicle that was asked about; null when none was. It is open where nobody "
            "recorded which vehicles the kit is for."
        ),
    ]
    why: Annotated[str, Meta(description="`fits` in words.")]
    models: Annotated[list[str], Meta(description="The vehicle models that it is for, where these are recorded.")]
    attributes: Annotated[
        list[KitAttributeOut], Meta(description="The attributes on which its fit, its contents and its work depend.")
    ]


class KitLineOut(Answer, frozen=True):
    """A line of the contents list; lines come in reading order."""

    kind: Annotated[KitLineKind, Meta(description="A carton, a bag or a part.")]
    depth: Annotated[int, Meta(description="0 for what lies loose in the kit.")]
    label: Annotated[str, Meta(description="Of a carton or a bag, else empty.")]
    number: Annotated[str, Meta(description="The part's number, else empty.")]
    title: str
    quantity: Exact
    unit: Unit
    when: Annotated[str, Meta(description="The condition on the vehicle in words, or empty.")]
    ships: Annotated[KitLineShips, Meta(description="Whether it comes with the kit.")]
    operation: Annotated[str, Meta(description="The code of the operation that first needs it, or empty.")]
    fitted: Annotated[bool, Meta(description="False for cartons, bags, spares and leaflets: no step waits for them.")]


class KitNeedOut(Answer, frozen=True):
    """Something that the work needs and that is not in the box."""

    title: str
    number: Annotated[str, Meta(description="The number of a pack of it, or empty.")]
    rule: Annotated[NeedRule, Meta(description="The rule by which the quantity is worked out.")]
    quantity: Exact
    unit: Unit
    of: Annotated[str, Meta(description="The operation or the circuit that the rule counts, or empty.")]
    charge: NeedCharge
    operation: str


class ReusedOut(Answer, frozen=True):
    """A part that comes off the vehicle and goes back on."""

    title: str
    quantity: Exact
    off_at: Annotated[str, Meta(description="The code of an operation, or empty.")]
    back_at: Annotated[str, Meta(description="The code of an operation, or empty.")]


class KitOutsideOut(Answer, frozen=True):
    """Work of another firm that goes with the kit. What it costs is told to those who quote it, on a quote."""

    title: str
    firm: str
    days: Annotated[int | None, Meta(description="Open days; null without a turnaround.")]
    starts_after: Annotated[str, Meta(description="The code of the operation before it; empty for acceptance.")]
    needed_by: Annotated[str, Meta(description="The code of the operation that waits for its result, or empty.")]
    they_do: Annotated[str, Meta(description="The firm's work, as the customer reads it.")]
    they_need: Annotated[str, Meta(description="The things that the firm needs from the workshop.")]
    rounds: Annotated[int | None, Meta(description="Rounds of a loop that are sold; null without one.")]


class KitFileOut(Answer, frozen=True):
    """The file that a version was imported from."""

    id: Annotated[UUID, Meta(description="Of the import, whose original is the file.")]
    name: str
    revision: Annotated[int, Meta(description="The number of the version.")]
    is_kept: Annotated[bool, Meta(description="False once the shop's retention has passed and its bytes are gone.")]


class KitVersionOut(Answer, frozen=True):
    """A version of a kit beside the one before it."""

    number: Annotated[int, Meta(description="The number of the version.")]
    changes: Annotated[
        list[str],
        Meta(description="Differences from the version before, as sentences. Prices are for roles that quote."),
    ]


class KitCostOut(Answer, frozen=True):
    """The cost of a kit that was typed for it."""

    cost: Annotated[Exact | None, Meta(description="Of the whole kit, before tax; null where it is not known.")]
    is_offered: Annotated[bool, Meta(description="A supplier's price is recorded, and counts in place of the cost.")]
    version: Annotated[int, Meta(description="That of the kit.")]


class KitOut(KitRowOut, frozen=True):
    """A kit with the contents list of its newest version."""

    archived: Annotated[bool, Meta(description="True: it is not offered any more.")]
    number: Annotated[str, Meta(description="The number under which the kit is bought.")]
    supplier_id: Annotated[UUID | None, Meta(description="Null where no supplier is preferred.")]
    price: Annotated[Exact | None, Meta(description="Its selling price; null for roles that do not quote.")]
    hours: Annotated[Exact | None, Meta(description="Hours of its own, where it has no labour template.")]
    lead_days: Annotated[
        int | None, Meta(description="Calendar days from the order until it comes, where no offer names them.")
    ]
    conditions: Annotated[str, Meta(description="The vehicles that it is for, as its list writes them; empty for any.")]
    labour: Annotated[str | None, Meta(description="The code of its labour template.")]
    labour_id: Annotated[UUID | None, Meta(description="The version of the template that is its work.")]
    labour_number: Annotated[int | None, Meta(description="The number of that version.")]
    returnable: Annotated[bool, Meta(description="False: its supplier does not take it back.")]
    fitted_before: Annotated[
        int, Meta(description="The number of times the workshop fitted it before it was quoted here.")
    ]
    file: Annotated[
        KitFileOut | None,
        Meta(description="The file of this version; null where there is none, and for roles that import no kits."),
    ]
    earlier_files: Annotated[
        list[KitFileOut], Meta(description="Those of earlier versions, newest first; for roles that import kits.")
    ]
    lines: Annotated[list[KitLineOut], Meta(description="The contents list.")]
    needs: Annotated[list[KitNeedOut], Meta(description="The further needs of the work.")]
    reused: Annotated[list[ReusedOut], Meta(description="Parts of the vehicle that go back on.")]
    outside: Annotated[list[KitOutsideOut], Meta(description="Work of other firms that goes with it.")]
