"""The list of kits: what a changed row changes, and what it leaves."""

import io
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
from django.core.management import CommandError, call_command

from kitting.models import Kit, KitLine, KitOutside, KitRevision, Need, ReusedPart
from shop.models import History
from tests.cast import Cast
from tests.demo import KITS, saltmarsh_files
from tests.demo import take_in as take_in_all

pytestmark = pytest.mark.once

CODE = "FV-BB356"


def take_in(cast: Cast, folder: Path, body: str) -> str:
    file, out = folder / "kits.csv", io.StringIO()
    file.write_text(body)
    call_command("import", "kits", file, shop=cast.shop.slug, stdout=out)
    return out.getvalue()


@pytest.fixture
def kit(cast: Cast) -> Kit:
    take_in_all(cast.shop.slug, [*saltmarsh_files(), ("kit", KITS["brakes"])])
    return Kit.objects.get(code=CODE)


def contents(revision: KitRevision) -> list[Any]:
    """The rows of a version, without ids; a line's parent by its position."""
    lines = KitLine.objects.filter(revision=revision).order_by("position")
    names = ("kind", "label", "part", "quantity", "conditions", "ships", "role", "operation", "parent__position")
    rows: list[Any] = list(lines.values_list(*names))
    for model in (Need, ReusedPart, KitOutside):
        for row in model.objects.filter(revision=revision).order_by("position").values():
            rows.append({name: value for name, value in row.items() if name not in ("id", "revision_id")})
    return rows


def test_a_changed_figure_makes_the_next_version_with_the_same_contents(cast: Cast, kit: Kit, tmp_path: Path) -> None:
    body = f"Kit;Title;Selling price;Hours;Lead days\n{CODE};Big brakes;1290.00;3.5;\n"
    assert "next versions with another figure: 1" in take_in(cast, tmp_path, body)
    first, second = KitRevision.objects.filter(kit=kit).order_by("number")
    assert (second.price, second.hours, second.lead_days) == (Decimal("1290.00"), Decimal("3.5"), first.lead_days)
    assert second.labour_id == first.labour_id and second.file is None
    assert contents(second) == contents(first) != []
    assert Kit.objects.get(pk=kit.pk).title == "Big brakes"
    take_in(cast, tmp_path, body)
    assert KitRevision.objects.filter(kit=kit).count() == 2


def test_a_file_without_labour_price_or_needs_says_that_the_next_version_lacks_them(
    cast: Cast, kit: Kit, tmp_path: Path
) -> None:
    take_in(cast, tmp_path, f"Kit;Selling price\n{CODE};1290.00\n")
    head, lines = f"Kit;{CODE}\nTitle;Brakes\n", "\nPart no;Qty\nFV-1;2\n"
    needs = "\nWhat;Pieces;Comes off at;Goes back at\nArch liners;2;GEN-07;GEN-08\n"
    file, out = tmp_path / "contents.csv", io.StringIO()
    file.write_text(head + lines)
    call_command("import", "kit", file, shop=cast.shop.slug, check=True, stdout=out)
    assert "without labour. Version 2 has BB356-FIT." in out.getvalue()
    assert "no selling price, so the next version is without one of its own. Version 2 has one." in out.getvalue()
    assert "Version 2 lists items not in the kit: 8; parts re-used: 3. The file lists neither" in out.getvalue()
    file.write_text(head + "Labour template;BB356-FIT\nSelling price;1290\n" + lines + needs)
    whole = io.StringIO()
    call_command("import", "kit", file, shop=cast.shop.slug, check=True, stdout=whole)
    assert "Version 2" not in whole.getvalue()


def test_a_head_is_changed_without_a_version_and_empty_cells_leave_it(cast: Cast, kit: Kit, tmp_path: Path) -> None:
    body = f"Kit;Title;Order number;Supplier;For vehicles;Fitted before\n{CODE};;FV-NEW;Fellmark;model=T35;4\n"
    take_in(cast, tmp_path, body)
    row = Kit.objects.select_related("part__preferred").get(pk=kit.pk)
    assert (row.title, row.part.number, row.fitted_before) == (kit.title, "FV-NEW", 4)
    assert row.fits == [{"attribute": "model", "in": ["T35"]}]
    assert row.part.preferred is not None and row.part.preferred.name == "Fellmark"
    assert KitRevision.objects.filter(kit=kit).count() == 1
    changes = History.objects.filter(subject="kit", verb="changed").latest("id").changes
    assert changes["fitted_before"] == [0, 4] and "title" not in changes


def test_another_supplier_without_a_price_is_to_be_checked(cast: Cast, kit: Kit, tmp_path: Path) -> None:
    assert "Fellmark has no price" in take_in(cast, tmp_path, f"Kit;Supplier\n{CODE};Fellmark\n")


def test_a_new_kit_has_a_title_a_price_and_hours(cast: Cast, tmp_path: Path) -> None:
    head = "Kit;Title;Supplier;Selling price;Hours;Lead days\n"
    with pytest.raises(CommandError):
        take_in(cast, tmp_path, head + "RTM;Roof tent;;900;;\nRACK;Roof rack;;100;1;\n")
    assert not Kit.objects.exists()
    take_in(cast, tmp_path, head + "RTM;Roof tent;Fellmark;900;5.2;5\n")
    revision = KitRevision.objects.select_related("kit__part__preferred").get()
    assert (revision.kit.title, revision.price, revision.hours, revision.lead_days) == (
        "Roof tent",
        900,
        Decimal("5.2"),
        5,
    )
    assert revision.kit.part.preferred is not None and revision.kit.part.preferred.name == "Fellmark"


def test_a_kit_stands_once_in_the_list(cast: Cast, tmp_path: Path) -> None:
    row = "RTM;Roof tent;900;5.2\n"
    with pytest.raises(CommandError):
        take_in(cast, tmp_path, "Kit;Title;Selling price;Hours\n" + row + row)
    assert not Kit.objects.exists()
