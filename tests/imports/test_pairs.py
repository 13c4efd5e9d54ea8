"""Operations that include or overlap one another, within a file and together with those of the shop."""

from decimal import Decimal
from pathlib import Path

import pytest
from django.core.management import CommandError, call_command

from shop.models import OperationPair, Shop
from tests.cast import make_shop

pytestmark = pytest.mark.once

HEAD = "Code;Title;Skill;Hours;Includes;Overlaps\n"


@pytest.fixture
def bay(db: None) -> Shop:
    return make_shop("bay", "Bay")


def take_in(path: Path, *rows: str) -> None:
    path.write_text(HEAD + "\n".join(rows) + "\n")
    call_command("import", "labour", path, shop="bay")


def row(code: str, includes: str = "", overlaps: str = "") -> str:
    return f'{code};Work on {code};mechanical;2;"{includes}";"{overlaps}"'


def pairs(shop: Shop) -> set[tuple[str, str, str, Decimal | None]]:
    return set(OperationPair.objects.filter(shop=shop).values_list("kind", "operation__code", "other__code", "hours"))


def test_a_circle_closed_by_a_second_file_must_be_fixed(
    bay: Shop, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    take_in(tmp_path / "a.csv", row("TURBO", "BUMPER"), row("BUMPER"))
    capsys.readouterr()
    with pytest.raises(CommandError, match="1 problem to fix"):
        take_in(tmp_path / "b.csv", row("BUMPER", "TURBO"))
    assert "in a loop: BUMPER > TURBO > BUMPER." in capsys.readouterr().out
    assert pairs(bay) == {("includes", "TURBO", "BUMPER", None)}


def test_a_circle_through_several_stored_operations_is_named_once(
    bay: Shop, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    take_in(tmp_path / "a.csv", row("A", "B"), row("B", "C"), row("C"), row("D"))
    capsys.readouterr()
    with pytest.raises(CommandError, match="1 problem to fix"):
        take_in(tmp_path / "b.csv", row("C", "D"), row("D", "A"))
    assert capsys.readouterr().out.count("in a loop: ") == 1


def test_a_circle_within_the_file_is_named_once(bay: Shop, tmp_path: Path) -> None:
    with pytest.raises(CommandError, match="1 problem to fix"):
        take_in(tmp_path / "a.csv", row("TURBO", "BUMPER"), row("BUMPER", "TURBO"))


def test_an_inclusion_may_be_turned_round_by_a_file_that_rewrites_both(bay: Shop, tmp_path: Path) -> None:
    take_in(tmp_path / "a.csv", row("TURBO", "BUMPER"), row("BUMPER"))
    take_in(tmp_path / "b.csv", row("TURBO"), row("BUMPER", "TURBO"))
    assert pairs(bay) == {("includes", "BUMPER", "TURBO", None)}


def test_an_overlap_written_on_both_rows_is_one(bay: Shop, tmp_path: Path) -> None:
    take_in(tmp_path / "a.csv", row("TURBO", "", "BUMPER: 0.5"), row("BUMPER", "", "TURBO: 0.5"))
    assert pairs(bay) == {("overlap", "BUMPER", "TURBO", Decimal("0.5"))}


@pytest.mark.parametrize(
    "rows",
    [
        (row("TURBO", "", "BUMPER 0.5"), row("BUMPER", "", "TURBO 0.4")),
        (row("TURBO", "", "BUMPER 0.5; BUMPER 0.4"), row("BUMPER")),
    ],
)
def test_an_overlap_has_one_number_of_hours(
    bay: Shop, tmp_path: Path, capsys: pytest.CaptureFixture[str], rows: tuple[str, ...]
) -> None:
    with pytest.raises(CommandError, match="1 problem to fix"):
        take_in(tmp_path / "a.csv", *rows)
    output = " ".join(capsys.readouterr().out.split())
    assert "BUMPER and TURBO overlap by 0.5 h in row 2, and by 0.4 h here." in output
    assert not pairs(bay)


def test_an_overlap_of_no_hours_is_none(bay: Shop, tmp_path: Path) -> None:
    with pytest.raises(CommandError, match="1 problem to fix"):
        take_in(tmp_path / "a.csv", row("TURBO", "", "BUMPER 0"), row("BUMPER"))


def test_a_pair_named_twice_in_a_row_is_one(bay: Shop, tmp_path: Path) -> None:
    take_in(tmp_path / "a.csv", row("TURBO", "BUMPER; BUMPER", "WASH 0.5; WASH 0.50"), row("BUMPER"), row("WASH"))
    assert pairs(bay) == {("includes", "TURBO", "BUMPER", None), ("overlap", "TURBO", "WASH", Decimal("0.5"))}


@pytest.mark.parametrize("code", ["TURBO", "BUMPER"])
def test_an_operation_that_is_imported_again_replaces_its_overlaps(bay: Shop, tmp_path: Path, code: str) -> None:
    other = {"TURBO": "BUMPER", "BUMPER": "TURBO"}[code]
    take_in(tmp_path / "a.csv", row("TURBO", "", "BUMPER 0.5"), row("BUMPER"), row("WASH", "", "DRY 0.2"), row("DRY"))
    take_in(tmp_path / "b.csv", row(code, "", f"{other} 0.3"))
    assert pairs(bay) == {
        ("overlap", "BUMPER", "TURBO", Decimal("0.3")),
        ("overlap", "DRY", "WASH", Decimal("0.2")),
    }
    take_in(tmp_path / "b.csv", row(code))
    assert pairs(bay) == {("overlap", "DRY", "WASH", Decimal("0.2"))}
