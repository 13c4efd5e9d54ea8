"""Every calculation says which one it is, in which units it works, and every refusal of its worked cases."""

import ast
import json
from pathlib import Path

import pytest
from django.conf import settings

from shop.vectors.registry import calculations_of

ROOT = Path(settings.BASE_DIR)
WRITTEN = {
    "labour": ("quotes/calc/labour.py", "charge_labour"),
    "packs": ("kitting/calc/packs.py", "choose_packs"),
    "coolant": ("kitting/calc/coolant.py", "refill"),
    "landed": ("quotes/calc/landed.py", "land"),
    "totals": ("shop/calc/tax.py", "total_document"),
    "weigh": ("kitting/calc/weighing.py", "weigh"),
    "explode": ("kitting/calc/explosion.py", "flatten"),
    "counting": ("kitting/calc/counting.py", "fold"),
    "readiness": ("kitting/calc/readiness.py", "judge_readiness"),
    "outlook": ("shop/calc/outlook.py", "outlook"),
    "promise": ("shop/calc/promise.py", "promise"),
    "vin": ("shop/calc/vin.py", "check_vin"),
    "range": ("quotes/calc/price_range.py", "price_range"),
    "outside": ("quotes/calc/outside.py", "price_outside"),
    "discount": ("quotes/calc/discount.py", "split_discount"),
    "ceiling": ("quotes/calc/ceiling.py", "judge_ceiling"),
    "deposit": ("quotes/calc/deposit.py", "ask_deposit"),
    "contingency": ("quotes/calc/contingency.py", "price_once"),
    "account": ("quotes/calc/account.py", "sum_account"),
    "worked": ("quotes/calc/worked.py", "worked_share"),
    "charge": ("quotes/calc/charge.py", "choose_way"),
    "supplied": ("quotes/calc/supplied.py", "surcharge_supplied"),
    "lots": ("kitting/calc/lots.py", "take_lots"),
    "drained": ("kitting/calc/drained.py", "drained_litres"),
    "pooling": ("kitting/calc/pooling.py", "allocate_pieces"),
}


def docstrings(name: str) -> tuple[str, str]:
    """The docstrings of the module and of its public function."""
    path, function = WRITTEN[name]
    tree = ast.parse((ROOT / path).read_text("utf-8"))
    definition = next(node for node in tree.body if isinstance(node, ast.FunctionDef) and node.name == function)
    return ast.get_docstring(tree) or "", ast.get_docstring(definition) or ""


@pytest.mark.parametrize("name", WRITTEN)
def test_a_calculation_says_what_it_is_its_units_and_its_refusals(name: str) -> None:
    module, function = docstrings(name)
    cases = json.loads((ROOT / "fixtures" / "vectors" / f"{name}.json").read_text("utf-8"))["cases"]
    codes = {case["expect"]["error"] for case in cases if "error" in case["expect"]}
    assert f"fixtures/vectors/{name}.json" in module and "Units: " in module
    assert {code for code in codes if f"`{code}`" not in function} == set()
    assert "Refuses" in function


def test_no_calculation_is_forgotten() -> None:
    assert calculations_of(("shop", "kitting", "quotes")).keys() <= WRITTEN.keys() | {"line_state", "line_notes"}
