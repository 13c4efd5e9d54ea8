"""Every ugly file: what is read, what is asked before it, what must be fixed, and what is said."""

import pytest

from shop.tables.findings import DONE_FOR_YOU, MUST_FIX, PLEASE_CHECK
from tests.ugly.reader import FILES, measure, reading_of
from tests.ugly.spec import UglyFile

EVERY = pytest.mark.parametrize("file", FILES, ids=lambda file: file.name)


@EVERY
def test_it_reads_the_lines_that_a_person_would_write_down(file: UglyFile) -> None:
    assert reading_of(file, file.answers).lines == list(file.lines)


@EVERY
def test_it_asks_what_could_be_either_and_nothing_else(file: UglyFile) -> None:
    before = {question.key for question in reading_of(file).file.questions if question.open}
    assert before == set(file.asks)
    assert not any(question.open for question in reading_of(file, file.answers).file.questions)


@EVERY
def test_it_refuses_what_must_be_fixed_and_nothing_else(file: UglyFile) -> None:
    reading = reading_of(file, file.answers)
    expected = {*file.must_fix, *((file.refused,) if file.refused else ())}
    refused = [finding for finding in reading.findings if finding.weight == MUST_FIX]
    refused = [finding for finding in refused if finding.code not in ("kit_without_lines",) or not file.refused]
    codes = {
        (finding.code, finding.cell or str(finding.row or "") or dict(finding.facts).get("row", ""))
        for finding in refused
    }
    if file.refused:
        codes = {(code, place) for code, place in codes if code != "kit_without_code"}
    assert {" ".join(filter(None, pair)) for pair in codes} == expected


@EVERY
def test_it_asks_a_person_to_look_and_says_what_it_did(file: UglyFile) -> None:
    reading = reading_of(file, file.answers)
    for text in file.checks:
        code, _, place = text.partition(" ")
        assert reading.has(code, place, PLEASE_CHECK), text
    for code in file.says:
        assert reading.has(code, "", DONE_FOR_YOU), code
    if not file.checks:
        looked = {finding.code for finding in reading.findings if finding.weight == PLEASE_CHECK}
        assert looked <= {"title_not_as_before", "loose_quotes"}


@EVERY
def test_no_line_is_wrong_in_silence(file: UglyFile) -> None:
    assert measure(file).silent == 0
