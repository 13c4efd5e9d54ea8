"""A consumable's own selling price replaces the bands; one below cost is reported."""

import io
from decimal import Decimal
from pathlib import Path

import pytest
from django.core.management import call_command
from django.core.management.base import CommandError

from kitting.models import Part
from quotes.models import Revision
from tests.cast import Cast
from tests.quotes.stage import Stage, make_stage

pytestmark = pytest.mark.once

HEADS = "Family;Specification;Unit;Number;Pack size;Supplier;Price;Currency;Selling price\n"


@pytest.fixture
def stage(cast: Cast) -> Stage:
    return make_stage(cast)


def taken_in(stage: Stage, tmp_path: Path, *rows: str) -> str:
    file = tmp_path / "consumables.csv"
    file.write_text(HEADS + "".join(f"engine oil;5W-30;L;{row}\n" for row in rows))
    out = io.StringIO()
    call_command("import", "consumables", file, shop=stage.cast.shop.slug, stdout=out)
    return out.getvalue()


def price(number: str) -> Decimal | None:
    return Part.objects.get(number=number).selling_price


def test_a_quote_uses_it_instead_of_the_bands_with_the_tax_inside(stage: Stage, tmp_path: Path) -> None:
    """6.1 L: 5 L at 45.00 and two of 1 L at 12.00 by the bands are 69.00; at 39.90 and 9.95 they are 59.80."""
    assert stage.quote().json()["needs"][0]["price"] == "69.00"
    taken_in(stage, tmp_path, "OIL-5;5 L;Fluid trade;30;EUR;39.90", "OIL-1;1 L;Fluid trade;8;EUR;9.95")
    assert (price("OIL-5"), price("OIL-1")) == (Decimal("39.9000"), Decimal("9.9500"))
    quote = stage.quote().json()
    assert quote["needs"][0]["price"] == "59.80"
    assert quote["totals"]["gross"] == "3198.18"  # 3,207.38 less 9.20
    (oil,) = (item for item in margin(stage, quote)["bought"] if item["sells"] == "39.90")
    assert oil["sells_net"] == "33.25"
    assert [step["words"] for step in oil["how"] if step["figure"] == "39.90"] == ["Own selling price of the workshop"]


def margin(stage: Stage, quote: dict) -> dict:
    return stage.client.get(f"quotes/{quote['id']}/margin").json()


def test_a_file_that_does_not_name_it_leaves_it(stage: Stage, tmp_path: Path) -> None:
    taken_in(stage, tmp_path, "OIL-5;5 L;Fluid trade;30;EUR;39.90")
    taken_in(stage, tmp_path, "OIL-5;5 L;Fluid trade;31;EUR;")
    assert price("OIL-5") == Decimal("39.9")


def test_a_price_below_cost_is_remarked_on_and_imported_all_the_same(stage: Stage, tmp_path: Path) -> None:
    """35.90 with 20 % tax inside is 29.92 before tax, below 30; 36.00 is 30.00 and says nothing."""
    output = taken_in(stage, tmp_path, "OIL-5;5 L;Fluid trade;30;EUR;35.90", "OIL-1;1 L;Fluid trade;30;EUR;36.00")
    assert "a selling price of 35.90 is 29.92 before tax, below the cost of 30.00" in output
    assert "Enter 36.00 or more" in output and output.count("below the cost") == 1
    assert price("OIL-5") == Decimal("35.9")


def test_a_cost_abroad_counts_at_the_newest_rate(stage: Stage, tmp_path: Path) -> None:
    """30 USD at 0.9 are 27.00: 32.40 with tax inside is just enough."""
    rows = ("OIL-5;5 L;Overseas;30;USD;32.39", "OIL-1;1 L;Overseas;30;USD;32.40")
    output = taken_in(stage, tmp_path, *rows)
    assert output.count("below the cost of 27.00") == 1 and "a selling price of 32.39 is 26.99" in output


def test_it_is_as_fine_as_the_currency(stage: Stage, tmp_path: Path) -> None:
    with pytest.raises(CommandError):
        taken_in(stage, tmp_path, "OIL-5;5 L;Fluid trade;30;EUR;39.905")
    assert price("OIL-5") is None and not Revision.objects.exists()
