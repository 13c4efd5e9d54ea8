"""Presenters return what has a type: an answer, a sentence, a dataclass. Plain data is named with its reason."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from django.conf import settings

ROOT = Path(settings.BASE_DIR)
PLAIN = {
    "kitting/presenters/counting.py::_event": "an event of a newer phone has further fields, sent on as they came",
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
    places = {
        f"{path.relative_to(ROOT)}::{name}"
        for app in ("shop", "kitting", "quotes")
        for path in (ROOT / app / "presenters").rglob("*.py")
        for name in untyped(path.read_text("utf-8"))
    }
    assert places == set(PLAIN)


ONE_PLACE = (
    "FrozenContent"  # quotes/calc/forms.py: the JSON of what was frozen or recorded, in whatever form it was sent
)
EVENT = {"kitting/answers/counting.py"}  # fields of a newer phone's count, passed on unchanged


def mappings_to_anything(source: str) -> list[str]:
    """Mappings to anything that are written out, wherever a type can stand."""
    plain = (node for node in ast.walk(ast.parse(source)) if isinstance(node, ast.Subscript))
    kinds = {"dict", "Mapping", "MutableMapping"}
    types = [ast.unparse(node) for node in plain if getattr(node.value, "id", "") in kinds]
    return [text for text in types if "Any" in re.findall(r"\w+", text)]


@pytest.mark.parametrize(
    "source",
    [
        "def f(facts: dict[str, Any]) -> str: ...",
        "Kept = Mapping[str, Any]",
        "def f() -> list[dict[str, Any]]: ...",
        "BLANK: dict[str, list[Any]] = {}",
        "return cast(dict[str, Any], value)",
    ],
)
def test_a_mapping_to_anything_is_recognized(source: str) -> None:
    assert mappings_to_anything(source)


def test_only_the_frozen_text_is_plain_data() -> None:
    paths = [
        path
        for app in ("shop", "kitting", "quotes")
        for folder in ("answers", "presenters", "documents", "pages")
        for path in (ROOT / app / folder).rglob("*.py")
    ]
    assert len(paths) > 80
    plain = {str(path.relative_to(ROOT)) for path in paths if mappings_to_anything(path.read_text("utf-8"))}
    assert plain == EVENT
    assert f"{ONE_PLACE} = dict[str, Any]" in (ROOT / "quotes" / "calc" / "forms.py").read_text("utf-8")
