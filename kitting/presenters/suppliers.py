"""Suppliers as answers."""

from msgspec.structs import asdict

from kitting.answers.suppliers import MemoryOut, SupplierOut, SupplierRowOut
from kitting.models import Supplier
from kitting.queries.memories import FileMemory, memories
from shop.tables.wording import field_words


def supplier_row(row: Supplier) -> SupplierRowOut:
    return SupplierRowOut(id=row.pk, name=row.name, contact=row.contact, currency=row.currency, version=row.version)


def supplier_answer(row: Supplier) -> SupplierOut:
    return SupplierOut(**asdict(supplier_row(row)), memories=[_memory(memory) for memory in memories(row)])


def _memory(memory: FileMemory) -> MemoryOut:
    question = memory.about == "answer"
    return MemoryOut(
        key=memory.key,
        kind=memory.kind,
        about=memory.about,
        name=memory.name if question or not memory.name else field_words(memory.name),
        was=memory.was,
        text=memory.text,
    )
