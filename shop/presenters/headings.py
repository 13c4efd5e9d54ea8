"""The headings of a kind of file in words, from the fields of the kind and its example."""

from shop.answers.headings import FileHeadingOut, FileHeadingsOut, FileSheetOut, Needed
from shop.tables.columns import Field, Table
from shop.tables.engine import FileKind
from shop.tables.values import words_of
from shop.tables.writing import TITLE, StoredRows, heading_of, written
from shop.words import knows, say


def file_headings(kind: FileKind) -> FileHeadingsOut:
    """The headings of every list of the kind; those above its list come first."""
    sheets = [_sheet(kind, table, list(table.sheets)) for table in kind.tables]
    if kind.title:
        sheets.insert(0, _sheet(kind, Table(TITLE, kind.title), [say("import.list.title")]))
    return FileHeadingsOut(kind=kind.name, has_example=kind.example is not None, sheets=sheets)


def meaning_of(table: str, field: str) -> str:
    """The name of the sentence on a field: its own in this table, or the one that several tables share."""
    name = field.replace(" ", "_")
    own = f"{table.replace(' ', '_').replace('-', '_')}-{name}"
    return own if knows(f"import.means.{own}") else name


def _sheet(kind: FileKind, table: Table, names: list[str]) -> FileSheetOut:
    headings = [_heading(kind.example or {}, table, field) for field in table.fields]
    return FileSheetOut(name=names[0], also=names[1:], headings=headings)


def _heading(example: StoredRows, table: Table, field: Field) -> FileHeadingOut:
    return FileHeadingOut(
        heading=heading_of(field),
        also=list(field.headings[1:]),
        means=say(f"import.means.{meaning_of(table.name, field.name)}"),
        needed=_needed(field),
        example=_example(example, table, field),
        words=_word_groups(field),
    )


def _needed(field: Field) -> Needed:
    return "every_row" if field.filled else "column" if field.required else "no"


def _example(example: StoredRows, table: Table, field: Field) -> str:
    """The first cell of the field that the example fills."""
    for row in example.get(table.name, ()):
        for name, content in row.items():
            own = name == field.name or (field.begins and name.startswith(f"{field.name}:"))
            if own and content is not None:
                return written(content)
    return ""


def _word_groups(field: Field) -> list[list[str]]:
    """The words of a closed list, those of one meaning together."""
    groups: dict[str, list[str]] = {}
    for word, meaning in words_of(field.read).items():
        if word:
            groups.setdefault(meaning, []).append(word)
    return list(groups.values())
