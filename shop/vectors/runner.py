"""Runs vector files. Any problem with a file or a case is a failure, never a skip or a crash."""

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any, NoReturn

from shop.calc.errors import CalculationError
from shop.vectors.comparison import differences, shown
from shop.vectors.reading import VectorError
from shop.vectors.registry import Calculation


@dataclass(frozen=True, slots=True)
class Case:
    """One worked case of a vector file; `calculation` is the name in the file."""

    calculation: str
    id: str
    given: dict[str, Any]
    expect: dict[str, Any]


@dataclass(frozen=True, slots=True)
class Outcome:
    """The outcome of one case, or of an unreadable file (`case` is None)."""

    file: str
    case: str | None
    failures: tuple[str, ...]

    @property
    def passed(self) -> bool:
        return not self.failures

    def __str__(self) -> str:
        where = self.file if self.case is None else f"{self.file} {self.case}"
        line = f"{where} {'; '.join(self.failures) or 'passed'}"
        return " ".join(line.split()).encode("ascii", "backslashreplace").decode()


def run_file(path: Path, calculations: Mapping[str, Calculation]) -> Iterator[Outcome]:
    """One outcome for each case; a single failed one if the file is missing or malformed."""
    try:
        calculation, cases = read_file(path)
    except Exception as problem:
        yield Outcome(str(path), None, (_describe(problem),))
        return
    for at, content in enumerate(cases, start=1):
        try:
            case = read_case(calculation, content)
        except VectorError as problem:
            yield Outcome(str(path), f"case {at}", (_describe(problem),))
        else:
            yield Outcome(str(path), case.id, check_case(case, calculations))


def read_file(path: Path) -> tuple[str, list[Any]]:
    """(calculation, raw cases) of a file. Raises VectorError, OSError or UnicodeDecodeError."""
    content = _object(_parsed(path.read_text(encoding="utf-8-sig")), "the file")
    calculation, cases = content.get("calculation"), content.get("cases")
    if not isinstance(calculation, str):
        raise VectorError(f"calculation is not text: {shown(calculation)}")
    if not isinstance(cases, list) or not cases:
        raise VectorError("cases is not a list of at least one case")
    return calculation, cases


def read_case(calculation: str, case: Any) -> Case:
    content = _object(case, "the case")
    identity = content.get("id")
    if not isinstance(identity, str) or not identity.strip():
        raise VectorError("no id")
    values = _object(content.get("given"), f"given of {identity}")
    expect = _object(content.get("expect"), f"expect of {identity}")
    if not expect:
        raise VectorError(f"{identity} expects nothing")
    return Case(calculation, identity, values, expect)


def check_case(case: Case, calculations: Mapping[str, Calculation]) -> tuple[str, ...]:
    """The failures of the case, one phrase each; empty if it passed."""
    calculation = calculations.get(case.calculation)
    if calculation is None:
        return (f"unknown calculation {shown(case.calculation)}",)
    try:
        actual = calculation(case.given)
    except CalculationError as refusal:
        return _refused(case.expect, refusal)
    except Exception as problem:
        return (_describe(problem),)
    if "error" in case.expect:
        return (f"error: expected {shown(case.expect['error'])}, got no refusal",)
    return tuple(differences(case.expect, actual))


def _refused(expect: dict[str, Any], refusal: CalculationError) -> tuple[str, ...]:
    if expect.get("error") != refusal.code:
        return (f"error: expected {shown(expect.get('error'))}, got {shown(str(refusal))}",)
    if not refusal.culprit.strip():
        return (f"error: {shown(refusal.code)} names no culprit",)
    return ()


def _parsed(text: str) -> Any:
    try:
        return json.loads(text, object_pairs_hook=_unique, parse_constant=_no_constant)
    except json.JSONDecodeError as problem:
        raise VectorError(f"not JSON: {problem}") from None


def _unique(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    keys = dict(pairs)
    if len(keys) != len(pairs):
        raise VectorError(f"a key twice in one object: {', '.join(key for key, _ in pairs)}")
    return keys


def _no_constant(name: str) -> NoReturn:
    raise VectorError(f"not JSON: {name}")


def _object(value: Any, name: str) -> dict[str, Any]:
    if not isinstance(value, dict):
        raise VectorError(f"{name} is not an object")
    return value


def _describe(problem: Exception) -> str:
    if isinstance(problem, VectorError):
        return f"malformed: {problem}"
    return f"{type(problem).__name__}: {problem}"
