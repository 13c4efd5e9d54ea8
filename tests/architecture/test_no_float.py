"""No binary float touches money, hours or quantities: not in the code, not in an answer, not in the browser."""

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from django.conf import settings

from tests.architecture.exactness import faults, project_faults
from tests.client import document

SOURCES = settings.BASE_DIR / "frontend" / "src"
TEXT_TO_NUMBER = re.compile(
    r"\bNumber\(|parseFloat|parseInt|toFixed|toPrecision|valueAsNumber|Intl\.NumberFormat|toLocaleString"
    r"|type=\"number\"|Math\.round"
    r"|[=(,:?&|]\s*\+\s*[A-Za-z_(]"  # +text
    r"|[\w)\]]\s*\*\s*1\b"  # text * 1
)
WHOLE_NUMBERS = {  # where the browser turns a text into a number: each a count of pieces, of bytes or of days
    "calc/freezing.ts": ["Number("],  # a BigInt: a row of the table
    "calc/observed.ts": ["Number(", "Number("],  # an order of two events: 0 or 1
    "calc/weighing.ts": ["Number(", "Number("],  # a BigInt: pieces
    "lib/job/moves.ts": ["Number("],  # the reading of an odometer
    "lib/text/language.ts": ["Intl.NumberFormat", "Intl.NumberFormat"],  # groups counts, and the digits of a BigInt
    "lib/components/Occurrences.svelte": ["Number("],  # how often something happened
    "lib/components/LeadDaysField.svelte": ['type="number"'],  # days until an order comes
    "lib/components/NumberPad.svelte": ["Number("],  # the digit of the key that was pressed
    "places/counter/quote/lines/BareKitForm.svelte": ["Number("],  # days until a kit comes
    "places/counter/quote/lines/ContingencyForm.svelte": ["Number("],  # how often it may happen
    "places/counter/quote/lines/OutsideWorkForm.svelte": [*["Number("] * 2, *['type="number"'] * 2],  # days, rounds
    "places/office/kits/KitForm.svelte": ['type="number"'],  # how often a kit was fitted
    "places/office/kits/kitForm.ts": ["Number("],  # both of them
    "places/office/stock/NewSupplier.svelte": ["Number("],  # days until an order comes, as below
    "places/office/stock/SupplierForm.svelte": ["Number("],
    "places/parts/scale/bagOnScale.svelte.ts": ["Number("],  # pieces in the sample
    "places/office/import/list/IntoBag.svelte": ["Number("] * 2,  # rows of a file
    "places/office/import/NewFile.svelte": ["Math.round"],  # kilobytes of a file
    "lib/device/photograph.ts": ["Math.round"],  # pixels of a side
}


def test_no_float_is_in_the_code() -> None:
    assert project_faults(settings.BASE_DIR) == []


@pytest.mark.parametrize(
    "source",
    [
        "rate = 0.2",
        "x = 2j",
        "float(hours)",
        "list(map(float, hours))",
        "round(price, 2)",
        "from math import sqrt",
        "import math",
        "import statistics",
        "from django.db.models import Avg",
        "price = models.FloatField()",
        "price = models.DecimalField(max_digits=9, decimal_places=2)",
        "Decimal.from_float(x)",
        "def share(a: int, b: int): return a / b",
        "def share(hours): return hours / 2",
        "total /= 2",
        "unit = 10 ** -exponent",
        "def a(x: Decimal): ...\ndef b(x: int): return x / 2",
    ],
)
def test_a_planted_float_is_found(source: str) -> None:
    assert faults(Path("shop/calc/a.py"), source)


@pytest.mark.parametrize(
    "source",
    [
        "if isinstance(value, (float, bool)): raise ValueError",
        "Decimal(cents) / 100",
        "def half(hours: Decimal): return hours / 2",
        "def share(rates: list[Fraction]): return rates[0] / (rates[1] + 1)",
        "from math import ceil, lcm",
        'VAR / "media"',
        "settings.BASE_DIR / name / 'x'",
        "10 ** exponent",
        "mean = Fraction(whole) / pieces\nhalf = mean / 2",
    ],
)
def test_what_is_exact_passes(source: str) -> None:
    assert faults(Path("shop/calc/a.py"), source) == []


def test_no_request_and_no_answer_has_a_fraction_as_a_json_number() -> None:
    assert list(numbers(document(), "")) == []


def test_a_number_in_the_document_would_be_seen() -> None:
    planted = {"components": {"schemas": {"Price": {"properties": {"net": {"type": ["number", "null"]}}}}}}
    assert list(numbers(planted, "")) == ["/components/schemas/Price/properties/net"]


def test_the_browser_turns_no_text_into_a_number() -> None:
    assert {path: places for path, places in conversions() if places != WHOLE_NUMBERS.get(path)} == {}


def test_the_list_of_whole_numbers_has_nothing_that_is_gone() -> None:
    assert WHOLE_NUMBERS.keys() <= {path for path, _ in conversions()}


@pytest.mark.parametrize(
    "line",
    [
        "const sum = Number(a.price) + 1",
        "parseFloat(hours)",
        "total = +line.price + 1",
        "(+price).toFixed(2)",
        "price * 1",
        '<input type="number">',
    ],
)
def test_a_conversion_in_the_browser_would_be_seen(line: str) -> None:
    assert TEXT_TO_NUMBER.search(line)


def numbers(node: object, where: str) -> Iterator[str]:
    """Places of an OpenAPI document whose type is a JSON number that may have a fraction."""
    if isinstance(node, dict):
        kind = node.get("type")
        if kind == "number" or (isinstance(kind, list) and "number" in kind):
            yield where
        for name, value in node.items():
            yield from numbers(value, f"{where}/{name}")
    elif isinstance(node, list):
        for at, value in enumerate(node):
            yield from numbers(value, f"{where}/{at}")


def conversions() -> Iterator[tuple[str, list[str]]]:
    """(file, what it converts with), for every source of the front end that converts at all."""
    for path in sorted([*SOURCES.rglob("*.ts"), *SOURCES.rglob("*.svelte")]):
        if path.name.endswith(".test.ts"):
            continue
        code = re.sub(r"<style.*?</style>|(?<!:)//[^\n]*", "", path.read_text("utf-8"), flags=re.DOTALL)
        if matches := TEXT_TO_NUMBER.findall(code):
            yield str(path.relative_to(SOURCES)), matches
