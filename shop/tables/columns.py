"""Maps columns to fields by the headings that people use, wherever in the sheet the table begins."""

import re
import unicodedata
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from functools import lru_cache

from shop.tables.sheets import SheetRow, column_letters
from shop.tables.structure.place_rows import place_of
from shop.tables.values import Reader, plain_text, text

ColumnMapping = Mapping[str, str]
LONGEST_HEADING = 400  # longer than any known heading
BRACKETS = re.compile(r"\([^()]*\)|\[[^][]*\]")  # excludes opening brackets inside, so that matching takes linear time


@dataclass(frozen=True, slots=True)
class Field:
    """A column that a table may have.

    `headings` are its possible names. `required`: a table without this column is not recognised. `filled`: every row
    needs a value. `begins`: each heading that begins with one of the names is a field of its own ("attribute: drive" ->
    "attribute:drive").
    """

    name: str
    headings: tuple[str, ...]
    read: Reader = field(default_factory=text)
    required: bool = False
    filled: bool = False
    begins: bool = False
    several: bool = False


@dataclass(frozen=True, slots=True)
class Layout:
    """The fields of a table that the rules of structure look at.

    `places` are the outermost first: carton, bag. `figures` hold numbers, `texts` may hold words on the vehicle, and
    `condition` is the field that states them.
    """

    number: str
    quantity: str
    places: tuple[str, ...] = ()
    figures: tuple[str, ...] = ()
    texts: tuple[str, ...] = ()
    condition: str = ""


@dataclass(frozen=True, slots=True)
class Table:
    """A list that a file may contain. `sheets` are the possible names of its sheet."""

    name: str
    fields: tuple[Field, ...]
    sheets: tuple[str, ...] = ()
    layout: Layout | None = None

    def field(self, name: str) -> Field:
        """The field of that name; a field that `begins` with it is found by its full name."""
        stem = name.partition(":")[0]
        return next(field for field in self.fields if field.name == stem)

    @property
    def required(self) -> frozenset[str]:
        return frozenset(field.name for field in self.fields if field.required)

    @property
    def filled(self) -> tuple[str, ...]:
        return tuple(field.name for field in self.fields if field.filled)


@dataclass(frozen=True, slots=True)
class Column:
    """A column of a sheet. `index` counts from 0; `holds` are some of its texts where it has a letter for a heading."""

    index: int
    heading: str
    field: str = ""  # "" for a column that is not imported
    base: int = 1  # pieces that its price is for
    holds: tuple[str, ...] = ()

    @property
    def letters(self) -> str:
        return column_letters(self.index)


@dataclass(frozen=True, slots=True)
class Heading:
    """A row of headings and its columns.

    `twice` are the columns ignored because another one has the same field; `several` all those of one field that a
    table may have more than once.
    """

    table: Table
    number: int
    columns: tuple[Column, ...]
    twice: tuple[Column, ...] = ()
    several: tuple[Column, ...] = ()
    found: Mapping[str, int] = field(init=False, compare=False)  # {field: index of its column}

    def __post_init__(self) -> None:
        columns = {column.field: column.index for column in self.columns if column.field}
        object.__setattr__(self, "found", columns)  # worked out once: each cell of a list asks for it

    @property
    def missing(self) -> frozenset[str]:
        return self.table.required - set(self.found)


def folded(heading: str) -> str:
    """The heading without case, accents' form, brackets and punctuation: "Part No. (manufacturer)" is "part no"."""
    return _folded(heading[:LONGEST_HEADING])


@lru_cache(maxsize=20_000)
def _folded(heading: str) -> str:
    plain = BRACKETS.sub(" ", unicodedata.normalize("NFKC", heading)).casefold()
    return " ".join(re.sub(r"[^\w%]+", " ", plain.replace("_", " ")).split())


def match_headings(line: SheetRow, table: Table, mapping: ColumnMapping) -> Heading:
    """The cells of this row as headings of `table`. The mapping {field: heading} takes precedence."""
    mapped = _mapped_headings(table, mapping)
    words = {word: field.name for field in table.fields for word in field.headings if field.name not in mapped.values()}
    begins = [(word + " ", field.name) for field in table.fields if field.begins for word in field.headings]
    costs = {field.name for field in table.fields} & {"cost"} - set(mapped.values())
    columns: list[Column] = []
    twice: list[Column] = []
    used: set[str] = set()
    for index, cell in line.filled():
        heading = plain_text(cell)
        key = folded(heading)
        name = mapped.get(key) or words.get(key) or _begun(key, begins)
        base = price_base(heading) if costs and name in ("", "cost") else 1
        if base > 1:
            name = "cost"
        if name and name in used:
            first = next(n for n, column in enumerate(columns) if column.field == name)
            if folded(columns[first].heading) in COUNTED and key not in COUNTED:
                columns[first] = replace(columns[first], field="")
            else:
                twice.append(Column(index, heading, name))
                name = ""
        used.add(name)
        columns.append(Column(index, heading, name, base))
    return _with_several(Heading(table, line.number, tuple(columns), tuple(twice)), set(words), set(mapped.values()))


def _with_several(heading: Heading, words: set[str], mapped: set[str]) -> Heading:
    """The heading with all columns of a field that may have several; the first of them is read unless one is exact."""
    for repeatable in heading.table.fields:
        if not repeatable.several or repeatable.name in mapped:
            continue
        name = repeatable.name
        stems = _several_names(repeatable.headings)
        bags = _columns_of_places(heading)
        also = {column.index for column in heading.twice if column.field == name}
        several = []
        for column in heading.columns:
            free = not column.field or column.index in also
            match = stems.fullmatch(column.heading.casefold()[:LONGEST_HEADING]) if free else None
            named = match is not None and folded(match[1] or match[2]) not in words
            if column.field == name or column.index in also or named or (free and column.index in bags):
                several.append(column)
        if not several:
            continue
        first = next((column.index for column in several if column.field == name), several[0].index)
        columns = tuple(replace(column, field=name) if column.index == first else column for column in heading.columns)
        twice = tuple(column for column in heading.twice if column.index not in also)
        heading = replace(heading, columns=columns, twice=twice, several=tuple(several) if len(several) > 1 else ())
    return heading


def _columns_of_places(heading: Heading) -> frozenset[int]:
    """The columns that are a carton or a bag each, as in "Bag 1", "Bag 2"."""
    layout = heading.table.layout
    if layout is None or not layout.places:
        return frozenset()
    columns = [column.index for column in heading.columns if not column.field and place_of(column.heading)]
    return frozenset(columns) if len(columns) > 1 else frozenset()


@lru_cache(maxsize=20)
def _several_names(headings: tuple[str, ...]) -> re.Pattern[str]:
    """Matches a name with something behind it or before it: "qty manual", "qty (manual)", "manual qty"."""
    names = "|".join(map(re.escape, headings))
    return re.compile(rf"(?:{names})[\s(]+(\S.*)|(\S.{{0,40}})\s(?:{names})")


PRICE_FOR = re.compile(
    r"(?:unit |net |list )?(?:price|cost|ek|preis|prix|prezzo|precio|prijs|cena)[\s,]*"
    r"(?:per|je|pro|pour|for|par|por|za|/)\s*"
    r"(10|100|1000|1\.000|1,000|hundred|thousand|hundert|tausend|cent|mille|cien|mil)\b.*"
)
COUNTED = frozenset(("item",))  # a position where another column describes the part
BASES = {"hundred": 100, "hundert": 100, "cent": 100, "cien": 100, "10": 10, "100": 100}


def price_base(heading: str) -> int:
    """The number of pieces that a heading such as "Price per 100" is for; 1 if it names none."""
    match = PRICE_FOR.fullmatch(heading.casefold().strip()[:LONGEST_HEADING])
    return BASES.get(match[1], 1000) if match else 1


def _mapped_headings(table: Table, mapping: ColumnMapping) -> dict[str, str]:
    """{folded heading: field} of this table. A key may begin with the table's name or sheet: "needs.title"."""
    names = {field.name for field in table.fields}
    begins = {field.name for field in table.fields if field.begins}
    mapped = {}
    for key, heading in mapping.items():
        name = key.removeprefix(f"{table.name}.").removeprefix(f"{next(iter(table.sheets), table.name)}.")
        if name in names or name.partition(":")[0] in begins:
            mapped[folded(heading)] = name
    return mapped


def _begun(key: str, begins: Iterable[tuple[str, str]]) -> str:
    for word, name in begins:
        if key.startswith(word):
            return f"{name}:{key[len(word) :]}"
    return ""


def best_heading(
    line: SheetRow, tables: Iterable[Table], sheet: str, mapping: ColumnMapping, fewest: int = 2
) -> Heading | None:
    """The table whose headings this row has: all required columns, and the `fewest` in all. Most columns win."""
    headings = [match_headings(line, table, mapping) for table in tables]
    whole = [heading for heading in headings if not heading.missing and len(heading.found) >= fewest]
    return max(whole, key=lambda heading: (folded(sheet) in heading.table.sheets, len(heading.found)), default=None)


def nearest_heading(lines: Iterable[SheetRow], tables: Iterable[Table], mapping: ColumnMapping) -> Heading | None:
    """The row most similar to headings although a required column is missing; None with fewer than two columns."""
    headings = [match_headings(line, table, mapping) for line in lines for table in tables]
    best = max(headings, key=lambda heading: (len(heading.found), -len(heading.missing)), default=None)
    return best if best is not None and len(best.found) >= 2 else None


def almost_heading(line: SheetRow, tables: Iterable[Table], mapping: ColumnMapping) -> Heading | None:
    """The row as headings of a table although a required column is missing: all texts, most of them headings.

    A row of one or two cells, or with a digit, is none.
    """
    texts = [plain_text(cell) for _, cell in line.filled()]
    if len(texts) < 3 or any(map(str.isdigit, "".join(texts))):
        return None
    near = nearest_heading([line], tables, mapping)
    return near if near is not None and near.missing and 2 * len(near.found) > len(texts) else None


def known_words(tables: Iterable[Table], mapping: ColumnMapping) -> frozenset[str]:
    """All words that a row of headings may contain, so that other rows can be skipped quickly."""
    words = {word for table in tables for field in table.fields for word in field.headings}
    return frozenset(words | {folded(heading) for heading in mapping.values()})
