"""A module marked `once` runs on SQLite alone: a test in it that asks what the database does is marked `both`."""

import ast
from collections.abc import Iterator
from pathlib import Path

TESTS = Path(__file__).parents[1]
OF_THE_DATABASE = {
    *("IntegrityError", "DatabaseError", "OperationalError", "transaction", "connection", "connections"),
    *("select_for_update", "raw", "RawSQL"),
}
"""Refusals and triggers, locks, and SQL of our own: each database has its own. Numbers of queries do not differ."""

SAMPLE = """
pytestmark = pytest.mark.once
def helper(): connection.cursor()
def test_words(): assert say("quote")
def test_few_queries():
    with CaptureQueriesContext(connection): ...
def test_by_a_helper(): helper()
@pytest.mark.both
def test_on_both():
    with pytest.raises(IntegrityError): ...
def test_on_one():
    with pytest.raises(IntegrityError): ...
"""


def marks(decorated: ast.FunctionDef) -> set[str]:
    return {
        node.attr
        for decorator in decorated.decorator_list
        for node in ast.walk(decorator)
        if isinstance(node, ast.Attribute)
    }


def is_once(tree: ast.Module) -> bool:
    assigned = (
        node for node in tree.body if isinstance(node, ast.Assign) and ast.unparse(node.targets[0]) == "pytestmark"
    )
    return any("mark.once" in ast.unparse(node.value) for node in assigned)


def counted_on(node: ast.AST) -> list[ast.expr]:
    """The connection whose queries this call counts."""
    if isinstance(node, ast.Call) and getattr(node.func, "id", "") == "CaptureQueriesContext":
        return node.args
    return []


def names_in(function: ast.FunctionDef) -> set[str]:
    """Names, attributes and arguments (fixtures): all that a function may reach, but a connection to count on."""
    nodes = list(ast.walk(function))
    counted = {argument for node in nodes for argument in counted_on(node)}
    names = {node.id for node in nodes if isinstance(node, ast.Name) and node not in counted}
    return (
        names
        | {node.attr for node in nodes if isinstance(node, ast.Attribute)}
        | {node.arg for node in nodes if isinstance(node, ast.arg)}
    )


def unmarked(tree: ast.Module) -> Iterator[str]:
    """The tests that reach the database's own behaviour, in themselves or through functions of their module."""
    reached = {node.name: names_in(node) for node in tree.body if isinstance(node, ast.FunctionDef)}
    for _ in reached:
        reached = {
            name: names.union(*(reached[other] for other in names & reached.keys())) for name, names in reached.items()
        }
    for node in tree.body:
        if not (isinstance(node, ast.FunctionDef) and node.name.startswith("test_")):
            continue
        if "both" not in marks(node) and reached[node.name] & OF_THE_DATABASE:
            yield node.name


def test_the_search_finds_a_test_that_should_run_on_both() -> None:
    tree = ast.parse(SAMPLE)
    assert is_once(tree) and list(unmarked(tree)) == ["test_by_a_helper", "test_on_one"]


def test_no_module_that_runs_once_asks_what_the_database_does() -> None:
    trees = {path: ast.parse(path.read_text("utf-8")) for path in sorted(TESTS.rglob("test_*.py"))}
    once = {path: tree for path, tree in trees.items() if is_once(tree)}
    assert len(once) > 25
    assert {str(path.relative_to(TESTS)): names for path, tree in once.items() if (names := list(unmarked(tree)))} == {}
