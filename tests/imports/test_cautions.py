"""The cautions of operations and the values that they have to keep, as a file states them."""

from pathlib import Path

import pytest
from django.core.management import call_command

from shop.models import Operation, OperationCaution, OperationValue
from tests.cast import make_shop

pytestmark = pytest.mark.once

HEAD = "Code;Title;Skill;Hours;Cautions;Torques;Other values\n"


def take_in(path: Path, *rows: str) -> None:
    path.write_text(HEAD + "\n".join(rows) + "\n")
    call_command("import", "labour", path, shop="bay")


def test_a_later_file_replaces_those_of_its_operations_only(db: None, tmp_path: Path) -> None:
    make_shop("bay", "Bay")
    hub = "HUB;Hub cleaned;mechanical;1"
    take_in(
        tmp_path / "a.csv",
        f"{hub};Hot | Heavy;Bolts: 115 N·m | Nuts: hand tight;Run-out: at most 0.05 mm",
        "DISC;Disc fitted;mechanical;1;Sharp;;",
    )
    take_in(tmp_path / "b.csv", f"{hub};Heavy;Bolts: 90 N·m;")
    cautions = OperationCaution.objects.order_by("operation__code", "position")
    assert list(cautions.values_list("operation__code", "text")) == [("DISC", "Sharp"), ("HUB", "Heavy")]
    assert list(OperationValue.objects.values_list("kind", "fastener", "value")) == [("torque", "Bolts", "90 N·m")]


def test_torque_values_come_before_other_values(db: None, tmp_path: Path) -> None:
    make_shop("bay", "Bay")
    take_in(tmp_path / "a.csv", "HUB;Hub cleaned;mechanical;1;;Bolts: 115 N·m | Nuts: hand tight;Run-out: 0.05 mm")
    values = Operation.objects.get().required_values.order_by("position")
    assert list(values.values_list("position", "kind", "fastener", "value")) == [
        (1, "torque", "Bolts", "115 N·m"),
        (2, "torque", "Nuts", "hand tight"),
        (3, "other", "Run-out", "0.05 mm"),
    ]
