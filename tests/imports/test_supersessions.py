"""Older and newer numbers that a kit's file names lead to one another; what the shop knows already stays."""

from pathlib import Path

import pytest
from django.core.management import call_command
from django.core.management.base import CommandError

from kitting.models import Part
from kitting.queries.contents import superseded_by
from shop.models import Shop
from tests.cast import make_shop


def numbers(shop: Shop) -> dict[str, str]:
    return superseded_by(shop)


def imported(path: Path, kit: str, *rows: str, heads: str = "Remark") -> None:
    lines = "\n".join(rows)
    path.write_text(f"Kit;{kit}\n\nPart no;Description;Qty;{heads}\n{lines}\n")
    call_command("import", "kit", path, shop="bare")


@pytest.fixture
def bare(db: None) -> Shop:
    return make_shop("bare", "Bare Bay")


def test_what_a_file_says_plainly_leads_from_the_older_number_to_the_newer(
    bare: Shop, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "kit.csv"
    plain = ("77-10;Bolt;4;replaces 76-10", "77-11;Nut;4;superseded by 77-12")
    imported(path, "K-1", *plain, "77-13;Cap;1;formerly 76-13")
    assert numbers(bare) == {"76-10": "77-10", "77-11": "77-12"}
    assert Part.objects.get(shop=bare, number="77-12").title == "Nut"
    output = capsys.readouterr().out
    assert "Older numbers that lead to newer ones: 2" in output and "77-10 replaces 76-10" in output
    imported(path, "K-2", "78-10;Bolt;4;76-10;", "78-11;Nut;4;;78-12", heads="Replaces;Superseded by")
    assert numbers(bare) == {"76-10": "77-10", "77-11": "77-12", "78-11": "78-12"}, "the first one stays"
    assert "76-10 already leads to another number" in capsys.readouterr().out


def test_a_circle_of_numbers_must_be_fixed(bare: Shop, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "kit.csv"
    imported(path, "K-1", "77-10;Bolt;4;replaces 76-10")
    with pytest.raises(CommandError):
        imported(path, "K-2", "76-10;Bolt;4;replaces 77-10")
    assert "leads back to it" in capsys.readouterr().out and numbers(bare) == {"76-10": "77-10"}
