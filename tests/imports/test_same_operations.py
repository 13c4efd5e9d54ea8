"""Operations that a file states as they are: they are said to be as before and keep their version."""

from collections.abc import Callable
from pathlib import Path

import pytest
from django.core.management import call_command

from shop.models import Operation, Shop
from tests.cast import make_shop

pytestmark = pytest.mark.once

HEAD = "Code;Title;Skill;Hours;Wait after;Includes;Overlaps;Cautions;Torques;Other values"
ROWS = {
    "BUMPER": "BUMPER;Bumper off;fit;1;;;;Two people|Hot;Bolt: 8 N·m|Clip: hand tight;Gap: 4 mm",
    "TURBO": "TURBO;Turbo on;fit;2;30;BUMPER;SUMP 0.3;;;",
    "SUMP": "SUMP;Sump on;fit;1.5;;;;;;",
}
Take = Callable[..., dict[str, int]]


@pytest.fixture
def take(db: None, tmp_path: Path) -> Take:
    """Imports the rows, some of them in other words, and returns {code: version}."""
    shop: Shop = make_shop("bay", "Bay")

    def imported(*codes: str, **others: str) -> dict[str, int]:
        path = tmp_path / "labour.csv"
        path.write_text("\n".join((HEAD, *(others.get(code, ROWS[code]) for code in codes))) + "\n")
        call_command("import", "labour", path, shop="bay")
        return dict(Operation.objects.filter(shop=shop).values_list("code", "version"))

    return imported


def test_an_operation_that_the_file_states_as_it_is_keeps_its_version(
    take: Take, capsys: pytest.CaptureFixture[str]
) -> None:
    take(*ROWS)
    assert "3 operations: 3 new, 0 updated, 0 as before" in capsys.readouterr().out
    assert take(*ROWS) == {"BUMPER": 1, "TURBO": 1, "SUMP": 1}
    assert "3 operations: 0 new, 0 updated, 3 as before" in capsys.readouterr().out
    assert take("SUMP", "TURBO", SUMP="SUMP;Sump on;fit;1.7;;;;;;") == {"BUMPER": 1, "TURBO": 1, "SUMP": 2}
    assert "2 operations: 0 new, 1 updated, 1 as before" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("code", "row", "changed"),
    [
        ("BUMPER", "BUMPER;Bumper away;fit;1;;;;Two people|Hot;Bolt: 8 N·m|Clip: hand tight;Gap: 4 mm", {"BUMPER"}),
        ("BUMPER", "BUMPER;Bumper off;fit;1;;;;Hot|Two people;Bolt: 8 N·m|Clip: hand tight;Gap: 4 mm", {"BUMPER"}),
        ("BUMPER", "BUMPER;Bumper off;fit;1;;;;Two people|Hot;Bolt: 9 N·m|Clip: hand tight;Gap: 4 mm", {"BUMPER"}),
        ("BUMPER", "BUMPER;Bumper off;fit;1;;;;Two people|Hot;Bolt: 8 N·m|Clip: hand tight;", {"BUMPER"}),
        ("TURBO", "TURBO;Turbo on;fit;2;20;BUMPER;SUMP 0.3;;;", {"TURBO"}),
        ("TURBO", "TURBO;Turbo on;fit;2;30;;SUMP 0.3;;;", {"TURBO"}),
        ("TURBO", "TURBO;Turbo on;fit;2;30;BUMPER;SUMP 0.4;;;", {"TURBO", "SUMP"}),
        ("SUMP", "SUMP;Sump on;fit;1.5;;;TURBO 0.3;;;", set()),
    ],
)
def test_one_that_differs_anywhere_has_another_version(take: Take, code: str, row: str, changed: set[str]) -> None:
    take(*ROWS)
    versions = take(*ROWS, **{code: row})
    assert {name for name, version in versions.items() if version > 1} == changed


def test_an_archived_one_comes_back(take: Take) -> None:
    take(*ROWS)
    Operation.objects.filter(code="SUMP").update(archived=True)
    assert take(*ROWS) == {"BUMPER": 1, "TURBO": 1, "SUMP": 2}
    assert not Operation.objects.get(code="SUMP").archived
