"""There is one way to a price: the calculation is called from one module, and that module from the outer ones."""

import ast
from collections import defaultdict
from functools import cache
from pathlib import Path

from django.conf import settings

APPS = ("shop", "kitting", "quotes")


def callers(name: str, root: Path = settings.BASE_DIR) -> set[str]:
    """Modules of the product that use `name`, calculations and their own module aside."""
    return modules_by_name(root)[name]


@cache
def modules_by_name(root: Path) -> defaultdict[str, set[str]]:
    """Every module is parsed once, whatever number of names is asked for."""
    places: defaultdict[str, set[str]] = defaultdict(set)
    for app in APPS:
        for path in (root / app).rglob("*.py"):
            if {"migrations", "calc"} & set(path.relative_to(root).parts):
                continue
            for node in ast.walk(ast.parse(path.read_text("utf-8"))):
                if isinstance(node, ast.Name):
                    places[node.id].add(str(path.relative_to(root)))
    return places


def test_a_quote_is_priced_in_one_place() -> None:
    assert callers("price_quote") == {"quotes/queries/pricing.py"}
    assert callers("savings") == {"quotes/queries/pricing.py"}


def test_its_parts_are_priced_nowhere_else() -> None:
    cases = {"quotes/vectors.py"}  # the worked cases run each calculation by itself
    for name in ("charge_labour", "land", "sell_price", "choose_packs", "pool_needs", "price_labour", "price_needs"):
        assert callers(name) <= cases | {"kitting/vectors.py"}, name


def test_a_second_caller_would_be_seen(tmp_path: Path) -> None:
    (tmp_path / "quotes" / "views").mkdir(parents=True)
    (tmp_path / "quotes" / "views" / "sly.py").write_text(
        "from quotes.calc.pricing import price_quote\nprice_quote(x)\n"
    )
    assert callers("price_quote", tmp_path) == {"quotes/views/sly.py"}
