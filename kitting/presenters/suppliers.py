"""Suppliers as answers."""

from msgspec.structs import asdict

from kitting.answers.suppliers import MemoryOut, SupplierOut, SupplierRowOut
from kitting.models import Supplier
from kitting.queries.memories import FileMemory, memories
from shop.tables.wording import field_words
from shop.words import say

SIGNS = {",": "comma", ".": "point"}
ANSWERS = frozenset(
    {"sections_bag", "sections_carton", "sections_none", "variants_condition", "variants_none", "second_table_out"}
    | {"second_table_read", "zeros_number_restore", "zeros_number_keep", "hidden_rows_out", "hidden_rows_read"}
    | {"hidden_columns_out", "hidden_columns_read", "empty_carton_down", "empty_carton_none", "empty_bag_down"}
    | {"empty_bag_none", "decimal_quantity_comma", "decimal_quantity_point", "decimal_cost_comma"}
    | {"decimal_cost_point"}
)
"""Questions with their answers that have a sentence; another answer is shown as it is kept."""


def supplier_row(row: Supplier) -> SupplierRowOut:
    return SupplierRowOut(
        id=row.pk,
        name=row.name,
        contact=row.contact,
        currency=row.currency,
        lead_days=row.lead_days,
        archived=row.archived,
        version=row.version,
    )


def supplier_answer(row: Supplier) -> SupplierOut:
    return SupplierOut(**asdict(supplier_row(row)), memories=[_memory(memory) for memory in memories(row)])


def _memory(memory: FileMemory) -> MemoryOut:
    """The memory in words. An answer is one sentence, which says how the files are read."""
    question = memory.about == "answer"
    code = f"{memory.name.replace(':', '_')}_{SIGNS.get(memory.text, memory.text)}"
    has_sentence = question and code in ANSWERS
    return MemoryOut(
        key=memory.key,
        kind=memory.kind,
        about=memory.about,
        name="" if has_sentence else memory.name if question or not memory.name else field_words(memory.name),
        was=memory.was,
        text=say(f"supplier.answer.{code}") if has_sentence else memory.text,
    )
