"""Names: a class name has one meaning in the apps, and a value is named by a noun."""

import ast
from collections import defaultdict
from collections.abc import Iterator, Mapping
from pathlib import Path

import pytest
from django.conf import settings

APPS = ("shop", "kitting", "quotes")
TESTS = ("tests",)
# A view, a page or a request has the name of the row it is about.
NAMED_BY_THEIR_ROW = {"views", "pages", "serializers", "management", "migrations"}
VAGUE = frozenset(
    ("asked", "each", "found", "given", "got", "held", "kept", "known", "made", "mine", "one", "ours", "said")
    + ("shown", "theirs", "there", "told", "wanted")
)


def modules(*folders: str) -> Iterator[tuple[Path, ast.Module]]:
    """(path inside the project, syntax tree) of every module of the folders."""
    root = Path(settings.BASE_DIR)
    for folder in folders:
        for path in sorted((root / folder).rglob("*.py")):
            yield path.relative_to(root), ast.parse(path.read_text("utf-8"))


def classes_by_name(trees: Mapping[str, ast.Module]) -> dict[str, set[str]]:
    """Maps a public class name to the modules that define it."""
    names: dict[str, set[str]] = defaultdict(set)
    for path, tree in trees.items():
        for node in tree.body:
            if isinstance(node, ast.ClassDef) and not node.name.startswith("_"):
                names[node.name].add(path)
    return names


def vague_names(tree: ast.Module) -> list[tuple[int, str]]:
    """(line, name) of the parameters and local variables that have a vague name."""
    vague = []
    for function in outermost_functions(tree):
        for node in ast.walk(function):
            bound = node.arg if isinstance(node, ast.arg) else ""
            if isinstance(node, ast.Name) and isinstance(node.ctx, ast.Store):
                bound = node.id
            if bound in VAGUE:
                vague.append((function.lineno, bound))
    return vague


def outermost_functions(tree: ast.Module) -> Iterator[ast.FunctionDef | ast.Lambda]:
    nodes: list[ast.AST] = [tree]
    for node in nodes:
        if isinstance(node, ast.FunctionDef | ast.Lambda):
            yield node
        else:
            nodes.extend(ast.iter_child_nodes(node))


def test_a_class_name_has_one_meaning() -> None:
    trees = {str(path): tree for path, tree in modules(*APPS) if not NAMED_BY_THEIR_ROW.intersection(path.parts)}
    twice = {name: paths for name, paths in classes_by_name(trees).items() if len(paths) > 1}
    assert twice == {}


def test_a_class_name_with_two_meanings_is_found() -> None:
    trees = {"a.py": ast.parse("class Sheet: ..."), "b.py": ast.parse("class Sheet: ...\nclass _Sheet: ...")}
    assert classes_by_name(trees) == {"Sheet": {"a.py", "b.py"}}


def test_values_are_named_by_nouns() -> None:
    named = ((path, tree) for path, tree in modules(*APPS, *TESTS) if "migrations" not in path.parts)
    assert {str(path): vague for path, tree in named if (vague := vague_names(tree))} == {}


@pytest.mark.parametrize(
    "source",
    [
        "def f(given): ...",
        "def f(*, said=()): ...",
        "def f(): found = 1",
        "def f(): return [each for each in ()]",
        "def f():\n    for one in (): ...",
        "f = lambda each: each",
    ],
)
def test_a_vague_name_is_found(source: str) -> None:
    assert vague_names(ast.parse(source))
