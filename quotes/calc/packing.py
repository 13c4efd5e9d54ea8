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


def unpacked(base: Document, pieces: Mapping[str, list[Any]], further: Document) -> dict[str, Any]:
    """The further document as it was before `packed`."""
    document = dict(further)
    for path in LINES:
        lines = [*_at(base, path), *pieces.get(path, ())]
        document = _with(document, path, [lines[place] for place in _at(document, path)])
    for path in SENTENCES:
        document = _with(document, path, [*_at(base, path), *_at(document, path)])
    return document


def _packed(base: Document, further: Document, pieces: Pieces) -> dict[str, Any]:
    document = dict(further)
    for path in LINES:
        base_lines = _at(base, path)
        more = pieces.setdefault(path, [])
        document = _with(document, path, [_place(line, base_lines, more) for line in _at(document, path)])
    for path in SENTENCES:
        first = len(_at(base, path))
        document = _with(document, path, _at(document, path)[first:])
    return document


def _place(line: Any, base_lines: Sequence[Any], more: list[Any]) -> int:
    if line in base_lines:
        return base_lines.index(line)
    if line not in more:
        more.append(line)
    return len(base_lines) + more.index(line)


def _at(document: Document, path: str) -> list[Any]:
    """The list at a path; empty where the document has none."""
    node: Any = document
    for name in path.split("."):
        node = node.get(name, {})
    return list(node)


def _with(document: Document, path: str, lines: list[Any]) -> dict[str, Any]:
    """The document with these lines; a path that it does not have stays away."""
    name, _, subpath = path.partition(".")
    if name not in document:
        return dict(document)
    return {**document, name: _with(document[name], subpath, lines) if subpath else lines}
