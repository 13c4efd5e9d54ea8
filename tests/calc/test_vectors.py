"""All worked cases through the runner of the command, and the runner's messages about bad files."""

import json
from pathlib import Path
from typing import Any

import pytest
from django.core.management import call_command

from shop.calc.errors import CalculationError
from shop.vectors.registry import calculations_of
from shop.vectors.runner import Case, check_case, read_case, read_file, run_file

FIXTURES = Path(__file__).parents[2] / "fixtures" / "vectors"
CALCULATIONS = calculations_of(("shop", "kitting", "quotes"))
FILES = [read_file(file) for file in sorted(FIXTURES.glob("*.json"))]
CASES = [read_case(calculation, case) for calculation, cases in FILES for case in cases]


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.id)
def test_a_worked_case_comes_out_exactly(case: Case) -> None:
    assert check_case(case, CALCULATIONS) == ()


def test_every_calculation_has_worked_cases() -> None:
    assert {case.calculation for case in CASES} == CALCULATIONS.keys()


def echo(case: dict[str, Any]) -> dict[str, Any]:
    if "refuse" in case:
        raise CalculationError(case["refuse"], case["culprit"])
    return {key: value for key, value in case.items() if key != "id"}


def checked(case: dict[str, Any], expect: dict[str, Any]) -> tuple[str, ...]:
    return check_case(Case("echo", "e1", case, expect), {"echo": echo})


@pytest.mark.parametrize("value", ["1.0", 1, True, None, ["a", "b"], {"a": ["1"]}])
def test_what_is_the_same_passes_and_more_keys_do_no_harm(value: Any) -> None:
    assert checked({"x": value, "y": "2"}, {"x": value}) == ()


@pytest.mark.parametrize(
    ("expected", "actual"),
    [
        ("1.0", "1.00"),
        ("1", 1),
        (1, True),
        (0, False),
        (1, 1.0),
        (None, "null"),
        (["a", "b"], ["b", "a"]),
        (["a"], ["a", "b"]),
        ({"a": "1"}, {"a": "1", "b": "2"}),
        ({"a": {"b": ["1"]}}, {"a": {"b": [1]}}),
    ],
)
def test_what_differs_is_told_with_its_key(expected: Any, actual: Any) -> None:
    failures = f"x: expected {json.dumps(expected)}, got {json.dumps(actual)}"
    assert checked({"x": actual}, {"x": expected}) == (failures,)


def test_a_key_that_is_missing_is_a_difference_even_from_null() -> None:
    assert checked({}, {"x": None}) == ("x: expected null, got nothing",)


def test_a_refusal_must_be_expected_by_its_code_and_name_a_culprit() -> None:
    assert checked({"refuse": "loop", "culprit": "a > a"}, {"error": "loop"}) == ()
    assert checked({"refuse": "loop", "culprit": " "}, {"error": "loop"}) == ('error: "loop" names no culprit',)
    failures = ('error: expected "loop", got "ring: a"',)
    assert checked({"refuse": "ring", "culprit": "a"}, {"error": "loop"}) == failures
    assert checked({"refuse": "ring", "culprit": "a"}, {"x": "1"}) == ('error: expected null, got "ring: a"',)
    assert checked({"x": "1"}, {"error": "loop"}) == ('error: expected "loop", got no refusal',)


def test_an_unexpected_exception_fails_the_case_and_not_the_run() -> None:
    assert checked({"refuse": "loop"}, {"error": "loop"}) == ("KeyError: 'culprit'",)


def a_file(tmp_path: Path, content: Any) -> Path:
    file = tmp_path / "file.json"
    file.write_bytes(content if isinstance(content, bytes) else json.dumps(content).encode())
    return file


CASE = {"id": "v1", "given": {"vin": ""}, "expect": {"status": "malformed"}}


@pytest.mark.parametrize(
    "content",
    [
        b"",
        b"{",
        b"\xff",
        b"[" * 100_000,
        b'{"calculation": "vin", "cases": NaN}',
        b'{"calculation": "vin", "calculation": "vin", "cases": []}',
        [],
        {},
        {"calculation": "vin"},
        {"calculation": "vin", "cases": []},
        {"calculation": "vin", "cases": {}},
        {"calculation": None, "cases": [CASE]},
    ],
    ids=lambda content: str(content)[:60],
)
def test_a_malformed_file_is_one_failure_on_one_line(tmp_path: Path, content: Any) -> None:
    (outcome,) = run_file(a_file(tmp_path, content), CALCULATIONS)
    assert not outcome.passed
    assert len(str(outcome).splitlines()) == 1


@pytest.mark.parametrize(
    "case",
    [{**CASE, "id": ""}, {**CASE, "id": 1}, {**CASE, "given": []}, {**CASE, "expect": {}}, {"id": "v1"}, "v1"],
    ids=str,
)
def test_a_malformed_case_fails_alone(tmp_path: Path, case: Any) -> None:
    file = a_file(tmp_path, {"calculation": "vin", "cases": [case, CASE]})
    malformed, good = run_file(file, CALCULATIONS)
    assert malformed.case == "case 1"
    assert not malformed.passed
    assert good.passed


@pytest.mark.parametrize(
    ("calculation", "fields"),
    [("tides", {}), ("vin", {}), ("vin", {"vin": 1}), ("totals", {"paid": 1}), ("totals", {"paid": "much"})]
    + [("totals", {"exponent": "2.5"}), ("totals", {"rounding": "up"}), ("totals", {"prices_include_tax": "no"})]
    + [("totals", {"lines": {}}), ("totals", {"lines": ["1"]}), ("landed", {"markup": []}), ("totals", {"paid": None})],
)
def test_what_cannot_be_read_or_is_unknown_fails_as_a_case(
    tmp_path: Path, calculation: str, fields: dict[str, Any]
) -> None:
    file = a_file(tmp_path, {"calculation": calculation, "cases": [{**CASE, "given": fields}]})
    (outcome,) = run_file(file, CALCULATIONS)
    assert outcome.case == "v1"
    assert not outcome.passed


def test_the_command_tells_a_line_a_failure_and_counts(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    wrong = {**CASE, "id": "v2", "expect": {"status": "valid", "suggestion": "\u00e9\ud800"}}
    file = a_file(tmp_path, {"calculation": "vin", "cases": [CASE, wrong]})
    with pytest.raises(SystemExit) as stopped:
        call_command("vectors", str(file), str(tmp_path / "none.json"))
    assert stopped.value.code == 1
    first, second, last = capsys.readouterr().out.splitlines()
    assert first == (
        f'{file} v2 status: expected "valid", got "malformed"; suggestion: expected "\\u00e9\\ud800", got null'
    )
    assert "none.json" in second
    assert last == "1 passed, 2 failed"


def test_the_command_is_content_with_our_own_cases(capsys: pytest.CaptureFixture[str]) -> None:
    call_command("vectors", *map(str, sorted(FIXTURES.glob("*.json"))))
    assert capsys.readouterr().out.splitlines() == [f"{len(CASES)} passed, 0 failed"]
