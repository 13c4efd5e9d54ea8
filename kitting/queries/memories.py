"""Lists the headings, answers and corrections that a supplier's next file takes over from its earlier ones."""

import hashlib
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import orjson

from kitting.models import Supplier
from kitting.models.parts import About

LETTERS = 16  # of a key


@dataclass(frozen=True, slots=True)
class FileMemory:
    """One thing that is remembered about files of a kind. `was` is what a file says, `text` how that is read."""

    kind: str
    about: About
    name: str
    was: str
    text: str

    @property
    def key(self) -> str:
        """A name that stays the same as long as the memory does."""
        parts = [self.kind, self.about, self.name, self.was, self.text]
        return hashlib.sha256(orjson.dumps(parts)).hexdigest()[:LETTERS]


def memories(supplier: Supplier) -> list[FileMemory]:
    """All that is remembered, by kind of file."""
    return [memory for kind in _kinds(supplier) for memory in _of_kind(supplier, kind)]


def _kinds(supplier: Supplier) -> list[str]:
    return sorted({*supplier.columns, *supplier.answers})


def _of_kind(supplier: Supplier, kind: str) -> Iterator[FileMemory]:
    answers = supplier.answers.get(kind, {})
    for name, heading in supplier.columns.get(kind, {}).items():
        yield FileMemory(kind, "column", name, heading, "")
    for name, text in answers.get("answers", {}).items():
        yield FileMemory(kind, "answer", name, "", text)
    for name, text in answers.get("fields", {}).items():
        yield FileMemory(kind, "fact", name, "", text)
    for name, was, text in answers.get("values", ()):
        yield FileMemory(kind, "text", name, was, text)
    for text in answers.get("left_out", ()):
        yield FileMemory(kind, "left_out", "", text, "")


def without(supplier: Supplier, memory: FileMemory) -> tuple[dict[str, Any], dict[str, Any]]:
    """(columns, answers) of the supplier without this memory."""
    columns, answers = dict(supplier.columns), dict(supplier.answers)
    taught = dict(answers.get(memory.kind, {}))
    if memory.about == "column":
        columns[memory.kind] = _less(columns[memory.kind], memory.name)
        return columns, answers
    if memory.about == "answer":
        taught["answers"] = _less(taught["answers"], memory.name)
    elif memory.about == "fact":
        taught["fields"] = _less(taught["fields"], memory.name)
    elif memory.about == "text":
        taught["values"] = [row for row in taught["values"] if row != [memory.name, memory.was, memory.text]]
    else:
        taught["left_out"] = [text for text in taught["left_out"] if text != memory.was]
    return columns, {**answers, memory.kind: taught}


def _less(names: dict[str, str], name: str) -> dict[str, str]:
    return {other: text for other, text in names.items() if other != name}
