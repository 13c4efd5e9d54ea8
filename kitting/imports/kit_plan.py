"""An imported kit: its lines, its needs, the parts that are re-used, and outside work."""

from dataclasses import dataclass
from decimal import Decimal

from kitting.imports.buying import (
    ImportedOffer,
    ImportedPart,
)
from kitting.imports.kit_needs import ImportedNeed
from kitting.imports.kit_outside import ImportedOutside
from shop.tables.conditions import Condition
from shop.tables.engine import ParsedRow
from shop.tables.findings import Finding


@dataclass(frozen=True, slots=True)
class ImportedKitLine:
    """A line of the contents as the file states it."""

    carton: str
    bag: str
    part: ImportedPart
    quantity: Decimal
    when: tuple[Condition, ...]
    ships: str
    role: str
    operation: str
    code: str
    offer: ImportedOffer | None
    row: ParsedRow
    replaces: str = ""  # the older number that this part replaces
    replaced_by: str = ""

    @property
    def place(self) -> tuple[str, str]:
        return self.carton, self.bag

    @property
    def key(self) -> tuple[str, str, str, str, tuple[Condition, ...]]:
        return self.carton, self.bag, self.part.key, self.role, self.when


@dataclass(frozen=True, slots=True)
class ImportedReusedPart:
    """A part that comes off and goes back on, as the file states it."""

    title: str
    quantity: Decimal
    off_at: str
    back_at: str
    row: ParsedRow


@dataclass(frozen=True, slots=True)
class KitPlan:
    """The next revision of a kit, with the places of its title block's fields."""

    code: str
    code_at: Finding
    title: str
    number: str
    labour: str
    labour_at: Finding
    supplier: str
    currency: str
    offer: ImportedOffer | None
    offer_at: Finding
    price: Decimal | None
    price_at: Finding
    hours: Decimal | None
    fits: tuple[Condition, ...]
    lines: tuple[ImportedKitLine, ...]
    needs: tuple[ImportedNeed, ...]
    reused: tuple[ImportedReusedPart, ...]
    outside: tuple[ImportedOutside, ...] | None  # None: the file has no such list
    returnable: bool | None = None  # of the kit as it is bought; None: the file does not say
