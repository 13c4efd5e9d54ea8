"""Changes of a rule set: typed figures, a part of a rule set in a file, and the difference between two sets."""

import copy
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from shop.calc.errors import CalculationError
from shop.calc.rule_fields import FIELDS, MAPS, SKILL_MAPS, WITHOUT_NAMES, Row, RuleField, texts, value_of

Content = dict[str, Any]


@dataclass(frozen=True, slots=True)
class RuleChange:
    """A figure that differs between two sets; None on the side that lacks its row.

    `row` is the name of the row of a table, or the row itself where the table has no names. `column` is empty where
    a whole row came or went.
    """

    path: str
    row: str
    column: str
    before: str | None
    after: str | None


def with_figures(
    content: Mapping[str, Any], figures: Mapping[str, str], tables: Mapping[str, Sequence[Row]], exponent: int
) -> Content:
    """The rules with these figures and tables as typed; an empty text takes the default.

    Refuses `rule_unknown`, `rule_missing` and `rule_twice` besides what `value_of` refuses. The culprit is the
    figure's path, or path/row/column with the rows from 0.
    """
    changed = copy.deepcopy(dict(content))
    for path, typed in figures.items():
        field = _field(path, table=False)
        _put(changed, path, value_of(field, typed, exponent, path))
    for path, rows in tables.items():
        _put_rows(changed, _field(path, table=True), rows, exponent)
    return changed


def _field(path: str, *, table: bool) -> RuleField:
    field = FIELDS.get(path)
    if field is None or (field.kind == "table") != table:
        raise CalculationError("rule_unknown", path)
    return field


def _put(content: Content, path: str, value: Any) -> None:
    """Stores the value, or removes it if it is None, with the object around it once that is empty."""
    above, _, name = path.rpartition(".")
    if value is not None:
        (content.setdefault(above, {}) if above else content)[name] = value
        return
    holder = content.get(above, {}) if above else content
    holder.pop(name, None)
    if above and not holder:
        content.pop(above, None)


def _put_rows(content: Content, field: RuleField, rows: Sequence[Row], exponent: int) -> None:
    first = field.columns[0].path
    values = [_row(field, row, exponent, f"{field.path}/{at}") for at, row in enumerate(rows)]
    if field.path not in WITHOUT_NAMES:
        _check_names(field.path, first, values)
    if field.path == "labour":
        for column, name in SKILL_MAPS.items():
            content[name] = {row["skill"]: row[column] for row in values if column in row}
    elif field.path in MAPS:
        name, value = MAPS[field.path]
        content[field.path] = {row[name]: row.get(value) for row in values}
    else:
        _put(content, field.path, [_sentence(row) for row in values] if field.path == "words.cautions" else values)


def _row(field: RuleField, row: Row, exponent: int, place: str) -> Content:
    for name in row:
        if name not in {column.path for column in field.columns}:
            raise CalculationError("rule_unknown", f"{place}/{name}")
    values = {
        column.path: value_of(column, row.get(column.path, ""), exponent, f"{place}/{column.path}")
        for column in field.columns
    }
    return {name: value for name, value in values.items() if value not in (None, [])}


def _sentence(row: Content) -> Any:
    return row if "applies_to" in row else row.get("text", "")


def _check_names(path: str, first: str, rows: Sequence[Content]) -> None:
    names: set[str] = set()
    for at, row in enumerate(rows):
        name = row.get(first)
        if name is None:
            raise CalculationError("rule_missing", f"{path}/{at}/{first}")
        if name in names:
            raise CalculationError("rule_twice", f"{path}/{at}/{first}")
        names.add(name)


def merged(content: Mapping[str, Any], part: Mapping[str, Any]) -> Content:
    """The rules with a part of a rule set merged in, as JSON Merge Patch (RFC 7396) defines it.

    Objects are merged name by name, null removes, and everything else replaces: a list counts as a whole.
    """
    result = dict(content)
    for name, value in part.items():
        if value is None:
            result.pop(name, None)
        elif isinstance(value, Mapping):
            below = result.get(name)
            result[name] = merged(below if isinstance(below, Mapping) else {}, value)
        else:
            result[name] = copy.deepcopy(value)
    return result


def with_family_renamed(rules: Mapping[str, Any], old: str, new: str) -> dict[str, Any]:
    """The rules with the fees and the way of charging of a family under its new name. A way that the new one has stays.

    A fee names the family as it is written, a way of charging by any capitals.
    """
    changed = copy.deepcopy(dict(rules))
    for fee in changed.get("fees", ()):
        if fee.get("per") == old:
            fee["per"] = new
    ways = changed.get("charges", {})
    if gone := next((name for name in ways if name.casefold() == old.casefold()), None):
        way = ways.pop(gone)
        if new.casefold() not in (name.casefold() for name in ways):
            ways[new] = way
    return changed


def difference(before: Mapping[str, Any], after: Mapping[str, Any], exponent: int) -> tuple[RuleChange, ...]:
    """Every figure that differs, in the order of the sections. Equal numbers do not differ: 0.2 is 0.20."""
    old, new = texts(before, exponent), texts(after, exponent)
    return tuple(change for path, field in FIELDS.items() for change in _changes(field, old[path], new[path]))


def _changes(field: RuleField, old: Any, new: Any) -> Iterator[RuleChange]:
    if field.kind == "table":
        yield from _row_changes(field, _by_name(field, old), _by_name(field, new))
    elif field.kind == "lines":
        yield from _line_changes(field.path, old.splitlines(), new.splitlines())
    elif old != new:
        yield RuleChange(field.path, "", "", old, new)


def _line_changes(path: str, old: list[str], new: list[str]) -> Iterator[RuleChange]:
    """Sentences that came or went; with none of these, their new order."""
    gone, come = [line for line in old if line not in new], [line for line in new if line not in old]
    yield from (RuleChange(path, "", "", line, None) for line in gone)
    yield from (RuleChange(path, "", "", None, line) for line in come)
    if not (gone or come) and old != new:
        yield RuleChange(path, "", "", "\n".join(old), "\n".join(new))


def _by_name(field: RuleField, rows: Sequence[Row]) -> dict[str, Row]:
    """{text of the first column: row}; a text that a table has twice gets the place of its second row."""
    named: dict[str, Row] = {}
    for at, row in enumerate(rows, 1):
        name = row[field.columns[0].path]
        named[name if name not in named else f"{name} ({at})"] = row
    return named


def _row_changes(field: RuleField, old: Mapping[str, Row], new: Mapping[str, Row]) -> Iterator[RuleChange]:
    for name in dict.fromkeys((*old, *new)):
        before, after = old.get(name), new.get(name)
        if before is None or after is None:
            yield RuleChange(field.path, name, "", _whole(before), _whole(after))
            continue
        for column in field.columns:
            if before[column.path] != after[column.path]:
                yield RuleChange(field.path, name, column.path, before[column.path], after[column.path])


def _whole(row: Row | None) -> str | None:
    """A row in one text, without its first column."""
    return None if row is None else ", ".join(text for text in [*row.values()][1:] if text)
