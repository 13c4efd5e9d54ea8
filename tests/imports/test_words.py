"""Every possible finding has a sentence that reads well."""

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest
from django.conf import settings

from shop.tables.findings import Finding
from shop.tables.registry import kinds
from shop.tables.wording import choice_words, field_words, question_words, sentence
from shop.words import catalogue, knows
from tests.ugly.reader import FILES, reading_of

FOLDERS = ("shop/tables", "shop/imports", "kitting/imports")
SOURCES = [path for folder in FOLDERS for path in (settings.BASE_DIR / folder).rglob("*.py")]
MAKERS = {"must_fix": 0, "please_check": 0, "done_for_you": 0, "CellError": 0, "FileError": 0}


def literal_codes(path: Path) -> Iterator[str]:
    """Codes in the source of findings: the first argument, both branches of a choice, and the middles of notes."""
    for node in ast.walk(ast.parse(path.read_text())):
        if isinstance(node, ast.Call) and getattr(node.func, "id", "") in MAKERS and node.args:
            yield from texts(node.args[0])
        if isinstance(node, ast.Tuple) and len(node.elts) == 3 and is_facts(node.elts[2]):
            yield from texts(node.elts[1])
        if isinstance(node, ast.Assign) and getattr(node.targets[0], "id", "") == "code":
            yield from texts(node.value)


def is_facts(node: ast.expr) -> bool:
    empty = isinstance(node, ast.Tuple) and not node.elts
    return empty or (isinstance(node, ast.Call) and getattr(node.func, "id", "") == "facts_of")


def texts(node: ast.expr) -> Iterator[str]:
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        yield node.value
    if isinstance(node, ast.IfExp):
        yield from texts(node.body)
        yield from texts(node.orelse)


MADE_UP = (
    {"in_no_carton", "in_no_bag", "hidden_rows"}
    | {f"vin_{name}" for name in ("malformed", "check_digit_wrong")}
    | {f"rules_{name}" for name in ("bad_rules", "tax_loop", "duplicate_tax", "unknown_tax", "bad_rate")}
)
CODES = sorted({code for path in SOURCES for code in literal_codes(path) if code} | MADE_UP)


PLACES = ("carton", "bag")
QUESTIONS = sorted(
    {"sections", "variants", "zeros", "decimal", "quantity", "second_table", "hidden_rows", "hidden_columns"}
    | {"struck_rows", "one_cell", "supersessions"}
    | {f"empty_{place}" for place in PLACES}
)
CHOICES = sorted(
    {"variants_condition", "variants_none", "empty_down", "zeros_restore", "zeros_keep", "decimal_small"}
    | {"decimal_large", "quantity_column", "quantity_variants", "second_table_out", "second_table_in", "hidden_out"}
    | {"one_cell_apart", "one_cell_whole", "supersessions_read", "supersessions_none"}
    | {"hidden_read", *(f"sections_{value}" for value in (*PLACES, "none")), *(f"empty_none_{name}" for name in PLACES)}
)
WHY = ("heading", "total", "foot", "section", "hidden", "struck", "no_column", "by_you")


def test_every_question_and_every_answer_has_its_sentence() -> None:
    questions = [question for file in FILES for question in reading_of(file).file.questions]
    assert {question.code for question in questions} <= {*QUESTIONS}
    assert {choice.code for question in questions for choice in question.choices} <= {*CHOICES}
    for question in questions:
        words, why = question_words(question)
        assert words.endswith("?") and why.endswith(".")
        assert all(choice_words(choice) for choice in question.choices)


def test_the_search_finds_the_codes() -> None:
    assert len(CODES) > 90
    assert {"not_a_number", "part_twice_in_bag", "macro_workbook", "decimal_comma", "row_above"} <= set(CODES)


@pytest.mark.parametrize("code", CODES)
def test_every_finding_has_its_sentence(code: str) -> None:
    assert knows(f"import.found.{code}")


def test_no_remedy_without_a_finding() -> None:
    codes_with_sentence = {key.removeprefix("import-found-") for key in catalogue() if key.startswith("import-found-")}
    remedies = {key.removeprefix("import-remedy-") for key in catalogue() if key.startswith("import-remedy-")}
    assert remedies <= codes_with_sentence


def test_every_sentence_ends_like_one() -> None:
    for key, text in catalogue().items():
        if key.startswith(("import-found-", "import-remedy-")):
            assert all(reading.endswith(".") for reading in text.readings()), key


def of_the_whole_file(path: Path) -> Iterator[str]:
    """Codes of findings that are made without a place, or with a sheet alone: nothing stands before their sentence."""
    for node in ast.walk(ast.parse(path.read_text())):
        if isinstance(node, ast.Call) and getattr(node.func, "id", "") in {*MAKERS} - {"CellError"}:
            where = node.args[1] if len(node.args) > 1 else None
            if where is None or isinstance(where, ast.Call) and not names_a_row(where):
                yield from texts(node.args[0])


def names_a_row(where: ast.Call) -> bool:
    """`Finding(weight, code, facts, sheet, row)`; a place that another function gives is taken to have its row."""
    is_finding = getattr(where.func, "id", "") == "Finding"
    return not is_finding or len(where.args) > 4 or any(keyword.arg == "row" for keyword in where.keywords)


def test_a_sentence_on_the_whole_file_begins_with_a_capital() -> None:
    codes = {code for path in SOURCES for code in of_the_whole_file(path)}
    assert {"empty_file", "applies_to_unchecked", "hidden_sheet"} <= codes
    assert "not_a_number" not in codes
    readings = [reading for code in codes for reading in catalogue()[f"import.found.{code}"].readings()]
    assert [reading for reading in readings if not (reading[0].isupper() or reading[0] == "{")] == []


def test_a_finding_reads_with_its_place() -> None:
    finding = Finding("must_fix", "not_a_number", (), "BOM", 47, "D", "quantity", "Qty", "a few")
    assert sentence(finding) == "Row 47, quantity: this is not a number."
    assert sentence(Finding("please_check", "decimal_comma", (("more", "4"),), "", 3, "E", "cost")) == (
        "Row 3, cost: comma read as decimal sign. And 4 more like it."
    )
    assert sentence(Finding("done_for_you", "total_left_out", (), "", 75)) == "Row 75: a total, left out."
    assert sentence(Finding("must_fix", "empty_file")) == "There is nothing in this file."


def test_every_field_has_words_a_person_uses() -> None:
    for kind in kinds().values():
        for field in (*kind.title, *(field for table in kind.tables for field in table.fields)):
            assert "_" not in field_words(field.name)
