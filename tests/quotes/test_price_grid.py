"""Several prices stand side by side on the customer's page where two attributes of the vehicle are open."""

import re
from dataclasses import replace
from html import unescape
from itertools import product
from typing import Any

import pytest

from quotes.models import Decision
from quotes.presenters.possible_prices import PriceRow
from quotes.presenters.price_grid import PriceGrid, grid_of
from tests.quotes.open_gearbox import only, open_gearbox, step
from tests.quotes.phone import Phone
from tests.quotes.stage import Stage

pytestmark = pytest.mark.once

GEARBOX, SENSOR, PLUG = "transmission", "wear_sensor", "charge_plug"
TWO = {GEARBOX: ["manual", "automatic"], SENSOR: ["no", "yes"]}


def prices_of(values: dict[str, list[str]]) -> tuple[dict[str, Any], list[PriceRow]]:
    """A frozen text's prices of all combinations, and their rows: 1,000.00, 1,001.00 and so on."""
    words = {"no": "without {}", "yes": "with {}"}
    titles = {GEARBOX: "gearbox", SENSOR: "wear sensor", PLUG: "charge plug"}
    stated = [list(zip(values, combination, strict=True)) for combination in product(*values.values())]
    rows = [
        PriceRow(
            value=str(place),
            words=", ".join(words.get(value, value).format(titles.get(name)) for name, value in combination),
            gross=f"1,{place:03}.00",
            hours="4.0 h in all",
            ready="",
            unfit=None,
            open=True,
            chosen=False,
            differs=[],
        )
        for place, combination in enumerate(stated)
    ]
    return {"possible": [{"stated": combination} for combination in stated]}, rows


def figures(grid: PriceGrid | None) -> dict[str, list[str]]:
    assert grid is not None
    return {row.title: [price.gross for price in row.prices] for row in grid.rows}


def test_one_attribute_is_the_rows_and_the_other_the_columns() -> None:
    grid = grid_of(*prices_of(TWO))
    assert figures(grid) == {"manual": ["1,000.00", "1,001.00"], "automatic": ["1,002.00", "1,003.00"]}
    assert grid and grid.columns == ["without wear sensor", "with wear sensor"]


def test_the_order_in_which_the_prices_come_changes_no_place() -> None:
    content, rows = prices_of(TWO)
    content["possible"] = [content["possible"][place] for place in (3, 0, 2, 1)]
    grid = grid_of(content, [rows[place] for place in (3, 0, 2, 1)])
    assert grid and grid.columns == ["with wear sensor", "without wear sensor"]
    assert figures(grid) == {"automatic": ["1,003.00", "1,002.00"], "manual": ["1,001.00", "1,000.00"]}


def test_the_columns_are_an_attribute_of_two_values() -> None:
    grid = grid_of(*prices_of({GEARBOX: ["manual", "automatic"], "body": ["estate", "pickup", "coupe"]}))
    assert grid and grid.columns == ["manual", "automatic"]
    assert figures(grid)["pickup"] == ["1,001.00", "1,004.00"]


def test_three_attributes_make_four_rows() -> None:
    grid = grid_of(*prices_of({**TWO, PLUG: ["no", "yes"]}))
    assert [*figures(grid)][1:3] == ["manual, with wear sensor", "automatic, without wear sensor"]


@pytest.mark.parametrize("changed", [{"unfit": "The kit does not fit."}, {"open": False}, {"gross": "1,114,728.36"}])
def test_a_price_that_needs_more_room_gives_each_a_row(changed: dict[str, Any]) -> None:
    content, rows = prices_of(TWO)
    assert grid_of(content, [*rows[:3], replace(rows[3], **changed)]) is None


def test_other_prices_have_a_row_each() -> None:
    content, rows = prices_of(TWO)
    assert grid_of({}, []) is None
    assert grid_of(*prices_of({GEARBOX: ["manual", "automatic"]})) is None
    assert grid_of({"possible": content["possible"][:3]}, rows[:3]) is None
    assert grid_of(content, [*rows[:3], replace(rows[3], words="automatic, wear sensor fitted")]) is None
    assert grid_of(*prices_of({GEARBOX: ["manual", "semi-automatic"], SENSOR: ["no", "yes"]})) is None


def test_the_customers_page_has_each_price_where_its_headings_say(stage: Stage) -> None:
    """2.2 or 0.4 h of the gearbox at 165.00, and 0.3 h of the sensor: 3,207.38 and these."""
    step(open_gearbox(stage), "SENSOR", "0.30", only("wear_sensor", "yes"), kit="QF-T")
    phone = Phone(stage.sent()["link"]["url"])
    head, form = (re.findall(r'<table class="side">.*?</table>', phone.html, re.S) + ["", ""])[:2]
    assert read(head) == {
        "manual": ["manual, without wear sensor 3,273.38", "manual, with wear sensor 3,322.88"],
        "automatic": ["automatic, without wear sensor 3,570.38", "automatic, with wear sensor 3,619.88"],
    }
    assert columns(head) == ["Total with tax, EUR", "without wear sensor", "with wear sensor"]
    assert columns(form) == ["without wear sensor", "with wear sensor"]
    assert read(form)["automatic"] == [
        "automatic, without wear sensor 3,570.38 10.9 h in all",
        "automatic, with wear sensor 3,619.88 11.2 h in all",
    ]
    value = re.search(r'value="(\d)"', form.split("automatic, with wear")[0].rpartition("<input")[2])
    assert value and phone.answer(price=value[1]).status_code == 303
    assert Decision.objects.get().record["gross"] == "3619.88"


def columns(table: str) -> list[str]:
    return re.findall(r'<th[^>]* scope="col">(.*?)</th>', table)


def read(table: str) -> dict[str, list[str]]:
    """The texts of each row under its heading."""
    rows = re.findall(r'<th scope="row">(.*?)</th>(.*?)</tr>', table, re.S)
    return {title: [plain(cell) for cell in cells.split("</td>")[:-1]] for title, cells in rows}


def plain(html: str) -> str:
    return " ".join(unescape(re.sub(r"<[^>]*>", " ", html)).split())
