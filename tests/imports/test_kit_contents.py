"""The contents of a kit as a file: importing it unchanged makes a version with the same contents."""

import io
from pathlib import Path
from typing import Any

import openpyxl
import pytest
from django.core.management import call_command

from kitting.models import Kit, KitRevision, Part
from shop.models import Shop
from tests.cast import Cast
from tests.demo import KITS, saltmarsh_files, take_in
from tests.imports.test_kit_list import contents
from tests.prepared import prepared

pytestmark = pytest.mark.once


@pytest.fixture
def kits(cast: Cast) -> Cast:
    prepared(_fill, cast.shop)
    return cast


def _fill(shop: Shop) -> None:
    take_in(shop.slug, [*saltmarsh_files(), *(("kit", path) for path in KITS.values())])


def taken_out(cast: Cast, kit: Kit, **query: Any) -> bytes:
    answer = cast.signed_in("advisor").get(f"kits/{kit.pk}/contents", query)
    assert answer.status_code == 200, answer.content
    return bytes(answer.content)


def kit_heads() -> list[dict[str, Any]]:
    """The kits without the count of their changes, which the next version of each raises."""
    return [{name: row[name] for name in row if name != "version"} for row in Kit.objects.order_by("pk").values()]


@pytest.mark.parametrize("form", ["xlsx", "csv"])
def test_a_version_that_comes_back_is_the_same_again(kits: Cast, form: str, tmp_path: Path) -> None:
    heads = kit_heads()
    parts = list(Part.objects.order_by("pk").values())
    for kit in Kit.objects.all():
        file = tmp_path / f"kit.{form}"
        file.write_bytes(taken_out(kits, kit, format=form))
        call_command("import", "kit", file, shop=kits.shop.slug, stdout=io.StringIO())
        first, second = KitRevision.objects.filter(kit=kit).order_by("number")
        rows = contents(first)
        assert len(rows) > 3 and contents(second) == rows
        assert (second.labour_id, second.price, second.hours) == (first.labour_id, first.price, first.hours)
    assert kit_heads() == heads
    assert list(Part.objects.order_by("pk").values()) == parts


def test_an_earlier_version_is_taken_out_by_its_number(kits: Cast) -> None:
    kit = Kit.objects.get(code="FV-BB356")
    body = taken_out(kits, kit, version="1")
    assert openpyxl.load_workbook(io.BytesIO(body)).sheetnames[0] == "contents"
    client = kits.signed_in("advisor")
    assert client.get(f"kits/{kit.pk}/contents", {"version": "2"}).status_code == 404
    assert client.get(f"kits/{kit.pk}/contents", {"version": "x"}).status_code == 400
    assert kits.signed_in("technician").get(f"kits/{kit.pk}/contents").status_code == 403
