"""Reading a rules file warns of a price band that sells below cost after the tax inside the price."""

import io
from pathlib import Path
from typing import Any

import pytest
from django.core.management import call_command

from shop.imports.rules import KIND
from shop.tables.engine import ImportPreview
from tests.cast import Cast
from tests.imports.files import workbook
from tests.imports.test_kinds import SHEETS, rules

pytestmark = pytest.mark.once

INSIDE = [*SHEETS["Rules"], ["Prices include tax", "yes"]]


def below(cast: Cast, planned: ImportPreview) -> list[tuple[str, int, dict[str, str]]]:
    codes = ("band_below_cost", "band_inside_below_cost")
    findings = KIND.check(cast.acting("manager"), planned.plan).findings
    return [(finding.code, finding.row, dict(finding.facts)) for finding in findings if finding.code in codes]


@pytest.mark.parametrize(
    ("inside", "least", "expected"),
    [
        (True, "1.18", [("band_inside_below_cost", 3, {"x": "1.18", "percent": "98.3", "least": "1.2"})]),
        (True, "1.2", []),
        (False, "1.18", []),
        (False, "0.9", [("band_below_cost", 3, {"x": "0.9", "percent": "90.0", "least": "1"})]),
    ],
)
def test_a_band_is_measured_without_the_tax_inside(cast: Cast, inside: bool, least: str, expected: list[Any]) -> None:
    bands = [["Up to", "x"], ["2000", "1.7"], ["", least]]
    assert below(cast, rules(Bands=bands, **({"Rules": INSIDE} if inside else {}))) == expected


def test_the_command_says_so_and_imports_all_the_same(cast: Cast, tmp_path: Path) -> None:
    bands = [["Up to", "x"], ["2000", "1.7"], ["", "1.18"]]
    file = tmp_path / "rules.xlsx"
    file.write_bytes(workbook(SHEETS | {"Rules": INSIDE, "Bands": bands}))
    out = io.StringIO()
    call_command("import", "rules", file, shop=cast.shop.slug, stdout=out)
    output = out.getvalue()
    assert "Without the tax it is 98.3 % of the cost" in output and "Enter 1.2 or more" in output
    assert "Imported: rules.xlsx" in output
