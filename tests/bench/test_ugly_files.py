"""Measures how much of the ugly files is read right without a question, and that nothing is wrong in silence."""

import pytest

from tests.ugly.reader import FILES, measure

pytestmark = pytest.mark.bench

LEAST = 0.95
"""The least share of lines right without a question: of all lines those that no question is about, and of the files
whose layout leaves no doubt those that are read right."""


def test_ugly_files_are_read_right_or_asked_about() -> None:
    measures = {file.name: measure(file) for file in FILES}
    lines = sum(part.lines for part in measures.values())
    right = sum(part.right for part in measures.values())
    silent = sum(part.silent for part in measures.values())
    untouched = sum(part.untouched for part in measures.values())
    clear = [measures[file.name] for file in FILES if not file.asks]
    share = sum(part.right for part in clear) / sum(part.lines for part in clear)
    print(
        f"\n{len(FILES)} files, {lines} lines: {untouched / lines:.1%} right whatever is answered, "
        f"{right / lines:.1%} in files without a question, {silent} wrong in silence; "
        f"{share:.1%} right in the {len(clear)} files that leave no doubt"
    )
    assert silent == 0
    assert untouched / lines >= LEAST
    assert share >= LEAST
