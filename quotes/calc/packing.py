"""Delta compression of similar JSON documents: lines of further documents refer to the base's lines by number.

The elements of each list in `LINES` are numbered: first the base's own, then `pieces`, the lines that the base lacks.
Everything else in a further document stays unchanged.
"""

from collections.abc import Mapping, Sequence
from typing import Any

LINES = (
    "shown.kits",
    "shown.labour.operations",
    "shown.needs",
    "shown.extras",
    "shown.contingencies",
    "shown.outside",
    "shown.labour.stages",
    "shown.fees",
    "shown.decide",
    "shown.notices",
    "how.figures",
    "hours.figures",
    "plan.steps",
    "plan.coming",
    "plan.outside",
    "inputs.lines",
    "circuits",
)
SENTENCES = ("how.sentences", "hours.sentences")  # further documents begin with the base's sentences

Document = Mapping[str, Any]
Pieces = dict[str, list[Any]]


def packed(base: Document, others: Sequence[Document]) -> tuple[Pieces, list[dict[str, Any]]]:
    """(pieces by path, the other documents with numbers in place of their lines)"""
    pieces: Pieces = {}
    return pieces, [_packed(base, other, pieces) for other in others]


def without_common(base: Document, further: Document) -> dict[str, Any]:
    """The further document without the values of its own that are the base's: a reader takes these from the base."""
    return {name: value for name, value in further.items() if name not in base or base[name] != value}


def unpacked(base: Document, pieces: Mapping[str, list[Any]], further: Document) -> dict[str, Any]:
    """The further document as it was before `packed`."""
    document = dict(further)
    for path in LINES:
        lines = [*_at(base, path), *pieces.get(path, ())]
        document = _with(document, path, [_line(lines, place) for place in _at(document, path)])
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


def _line(lines: Sequence[Any], place: Any) -> Any:
    """The line of a number; lists that an older text did not number have the lines themselves."""
    return lines[place] if isinstance(place, int) else place


def _place(line: Any, base_lines: Sequence[Any], more: list[Any]) -> int:
    if line in base_lines:
        return base_lines.index(line)
    if line not in more:
        more.append(line)
    return len(base_lines) + more.index(line)


def _at(document: Document, path: str) -> list[Any]:
    """The list at a path; empty if the document has none."""
    node: Any = document
    for name in path.split("."):
        node = node.get(name, {})
    return list(node)


def _with(document: Document, path: str, lines: list[Any]) -> dict[str, Any]:
    """The document with these lines at the path; unchanged if it lacks the path."""
    name, _, subpath = path.partition(".")
    if name not in document:
        return dict(document)
    return {**document, name: _with(document[name], subpath, lines) if subpath else lines}
