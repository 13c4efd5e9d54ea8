"""Documents that differ little, written once: the lines of further ones are named by their place among those known.

A document is JSON of objects and lists. Of `LINES` the elements are named by number: first those of the base, in its
order, then `pieces`, which are the lines that the base lacks. Everything else of a further document stays as it is.
"""

from collections.abc import Mapping, Sequence
from typing import Any

LINES = (
    "shown.kits",
    "shown.labour.operations",
    "shown.needs",
    "shown.extras",
    "shown.fees",
    "shown.decide",
    "shown.notices",
    "how.figures",
    "hours.figures",
    "plan.steps",
    "plan.coming",
    "inputs.lines",
    "circuits",
)
SENTENCES = ("how.sentences", "hours.sentences")  # a further document has those of the base first

Document = Mapping[str, Any]
Pieces = dict[str, list[Any]]


def packed(base: Document, others: Sequence[Document]) -> tuple[Pieces, list[dict[str, Any]]]:
    """(pieces by path, the others with numbers for their lines)"""
    pieces: Pieces = {}
    return pieces, [_packed(base, other, pieces) for other in others]


def unpacked(base: Document, pieces: Mapping[str, list[Any]], other: Document) -> dict[str, Any]:
    """The further document as it was before `packed`."""
    found = dict(other)
    for path in LINES:
        known = [*_at(base, path), *pieces.get(path, ())]
        found = _with(found, path, [known[place] for place in _at(found, path)])
    for path in SENTENCES:
        found = _with(found, path, [*_at(base, path), *_at(found, path)])
    return found


def _packed(base: Document, other: Document, pieces: Pieces) -> dict[str, Any]:
    found = dict(other)
    for path in LINES:
        known = _at(base, path)
        more = pieces.setdefault(path, [])
        found = _with(found, path, [_place(line, known, more) for line in _at(found, path)])
    for path in SENTENCES:
        first = len(_at(base, path))
        found = _with(found, path, _at(found, path)[first:])
    return found


def _place(line: Any, known: Sequence[Any], more: list[Any]) -> int:
    if line in known:
        return known.index(line)
    if line not in more:
        more.append(line)
    return len(known) + more.index(line)


def _at(document: Document, path: str) -> list[Any]:
    """The list at a path; empty where the document has none."""
    found: Any = document
    for name in path.split("."):
        found = found.get(name, {})
    return list(found)


def _with(document: Document, path: str, lines: list[Any]) -> dict[str, Any]:
    """The document with these lines; a path that it does not have stays away."""
    name, _, rest = path.partition(".")
    if name not in document:
        return dict(document)
    return {**document, name: _with(document[name], rest, lines) if rest else lines}
