"""Presenters return what has a type: an answer, a sentence, a dataclass. Plain data is named with its reason."""

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest
from django.conf import settings

ROOT = Path(settings.BASE_DIR)
CONTEXT = "the context of a template: Django takes a dict"
PLAIN = {
    "kitting/presenters/counting.py::_event": "an event of a newer phone has further fields, sent on as they came",
    "quotes/presenters/acceptance_form.py::form_facts": CONTEXT,
    "quotes/presenters/customer.py::presented": CONTEXT,
    "quotes/presenters/customer_page.py::page_facts": CONTEXT,
    "quotes/presenters/customer_page.py::preview_facts": CONTEXT,
    "quotes/presenters/customer.py::for_customer": "a frozen text without the workshop's own business, as JSON",
    "quotes/presenters/customer.py::_prices_for_customer": "a part of it",
    "quotes/presenters/customer.py::stripped": "a part of it",
}


def untyped(source: str) -> Iterator[str]:
    """Functions whose return type is a mapping to anything or anything itself, also by a name of the module."""
    tree = ast.parse(source)
    aliases = [node for node in tree.body if isinstance(node, ast.Assign) and isinstance(node.targets[0], ast.Name)]
    names = {"Any", *(ast.unparse(node.targets[0]) for node in aliases if _holds_anything(node.value, {"Any"}))}
    for node in ast.walk(tree):
        if isinstance(node, ast.FunctionDef) and node.returns and _holds_anything(node.returns, names):
            yield node.name


def _holds_anything(type_: ast.expr, names: set[str]) -> bool:
    words = [node.id for node in ast.walk(type_) if isinstance(node, ast.Name)]
    return any(word in names for word in words) or ("dict" in words and "object" in words)


@pytest.mark.parametrize(
    "source",
    [
        "def f() -> dict[str, Any]: ...",
        "def f() -> list[dict[str, Any]] | None: ...",
        "def f() -> Iterator[Mapping[str, Any]]: ...",
        "def f() -> dict[str, object]: ...",
        "Shape = dict[str, Any]\ndef f() -> Shape | None: ...",
        "class A:\n    def f(self) -> Any: ...",
    ],
)
def test_plain_data_is_recognized(source: str) -> None:
    assert [*untyped(source)] == ["f"]


def test_what_has_a_type_may_take_plain_data() -> None:
    assert [*untyped("def f(kept: dict[str, Any]) -> KitOut: ...\ndef g() -> dict[str, str]: ...")] == []


def test_presenters_return_what_has_a_type() -> None:
    found = {
        f"{path.relative_to(ROOT)}::{name}"
        for app in ("shop", "kitting", "quotes")
        for path in (ROOT / app / "presenters").rglob("*.py")
        for name in untyped(path.read_text("utf-8"))
    }
    assert found == set(PLAIN)
