"""Finds places where a binary float could arise: literals, conversions, roundings, column types, and divisions.

A division must have a side that is an exact number (or a path) by what its own module says: a Decimal or Fraction
made on the spot, or a name that the module annotates as one. Two whole numbers divided give a float in Python.
"""

import ast
from collections.abc import Iterable, Iterator
from pathlib import Path

EXACT = {"Decimal", "Fraction", "Exact", "Path"}  # a path is divided by a name
MAKES_EXACT = EXACT | {"rounded", "exact"}
BINARY = {"float", "complex", "round", "FloatField", "Avg", "StdDev", "Variance", "from_float", "to_float"}
MODULES = {"math", "cmath", "statistics", "random", "numpy"}
WHOLE = {"ceil", "floor", "gcd", "lcm", "isqrt", "trunc"}  # of an exact number each gives a whole one
AGAINST_FLOATS = "isinstance"  # asking whether something is a float is how floats are refused


def faults(path: Path, source: str) -> list[str]:
    """Each as "path:line: what"."""
    tree = ast.parse(source)
    nodes = list(ast.walk(tree))
    exact_names = _annotated_exact(nodes)
    ids = {id(name) for node in nodes for name in _kinds_asked_for(node)}
    problems = []
    for node in nodes:
        if id(node) not in ids:
            problems += [f"{path}:{node.lineno}: {what}" for what in _of(node, exact_names, path)]  # type: ignore[attr-defined]
    return problems


def _of(node: ast.AST, exact_names: set[str], path: Path) -> Iterator[str]:
    if isinstance(node, ast.Constant) and isinstance(node.value, float | complex):
        yield f"the float {node.value}"
    elif isinstance(node, ast.Name | ast.Attribute | ast.alias) and _name(node) in BINARY:
        yield str(_name(node))
    elif isinstance(node, ast.Attribute) and node.attr == "DecimalField" and path.name not in DECIMAL_FIELDS:
        yield "a DecimalField"
    elif isinstance(node, ast.Import | ast.ImportFrom):
        yield from _imported(node)
    elif isinstance(node, ast.BinOp | ast.AugAssign):
        yield from _computed(node, exact_names)


DECIMAL_FIELDS = {"figure.py"}  # the one field of a request that reads a decimal


def _imported(node: ast.Import | ast.ImportFrom) -> Iterator[str]:
    if isinstance(node, ast.Import):
        yield from (f"import {alias.name}" for alias in node.names if alias.name in MODULES)
    elif node.module in MODULES:
        yield from (f"{node.module}.{alias.name}" for alias in node.names if alias.name not in WHOLE)


def _computed(node: ast.BinOp | ast.AugAssign, exact_names: set[str]) -> Iterator[str]:
    left, right = (node.left, node.right) if isinstance(node, ast.BinOp) else (node.target, node.value)
    if isinstance(node.op, ast.Div) and not (
        _is_path(left, right) or _exact(left, exact_names) or _exact(right, exact_names)
    ):
        yield f"the division {ast.unparse(node)}"
    if isinstance(node.op, ast.Pow) and isinstance(right, ast.UnaryOp) and not _exact(left, exact_names):
        yield f"the power {ast.unparse(node)}"


def _exact(node: ast.expr, exact_names: set[str]) -> bool:
    if isinstance(node, ast.Call):
        return _name(node.func) in MAKES_EXACT or _name(node.func) in exact_names
    if isinstance(node, ast.Name | ast.Attribute):
        return _name(node) in exact_names
    if isinstance(node, ast.Subscript):
        return _exact(node.value, exact_names)
    if isinstance(node, ast.BinOp):
        return _exact(node.left, exact_names) or _exact(node.right, exact_names)
    return isinstance(node, ast.UnaryOp) and _exact(node.operand, exact_names)


def _annotated_exact(nodes: list[ast.AST]) -> set[str]:
    """Names that the module annotates as exact wherever it annotates them, or gives an exact value."""
    exact: set[str] = set()
    other: set[str] = set()
    for name, annotation in _annotations(nodes):
        (exact if _says_exact(annotation) else other).add(name)
    exact_names = exact - other
    for _ in range(3):  # a value may lean on the one before it
        for node in nodes:
            if (
                isinstance(node, ast.Assign)
                and isinstance(node.targets[0], ast.Name)
                and _exact(node.value, exact_names)
            ):
                exact_names.add(node.targets[0].id)
    return exact_names


def _annotations(nodes: list[ast.AST]) -> Iterator[tuple[str, ast.expr]]:
    for node in nodes:
        if isinstance(node, ast.AnnAssign):
            yield str(_name(node.target)), node.annotation
        elif isinstance(node, ast.arg) and node.annotation is not None:
            yield node.arg, node.annotation
        elif isinstance(node, ast.FunctionDef) and node.returns is not None:
            yield node.name, node.returns


def _says_exact(annotation: ast.expr) -> bool:
    """Decimal, Fraction, either; a list, tuple or mapping of them counts, for it is read by its places."""
    names = {_name(node) for node in ast.walk(annotation) if isinstance(node, ast.Name | ast.Attribute)}
    return bool(names & EXACT) and not names & {"int", "float", "Any", "bool"}


def _kinds_asked_for(node: ast.AST) -> Iterable[ast.AST]:
    if isinstance(node, ast.Call) and _name(node.func) == AGAINST_FLOATS:
        return ast.walk(node.args[1])
    return ()


def _is_path(left: ast.expr, right: ast.expr) -> bool:
    """`/` beside a text, or below a place that the settings name."""
    root = left
    while isinstance(root, ast.BinOp):
        root = root.left
    named = ast.unparse(root)
    return (
        isinstance(right, ast.Constant | ast.JoinedStr)
        and isinstance(getattr(right, "value", ""), str)
        or named.startswith(("settings.", "Path("))
    )


def _name(node: ast.AST) -> str | None:
    if isinstance(node, ast.Name):
        return node.id
    if isinstance(node, ast.Attribute):
        return node.attr
    return node.name if isinstance(node, ast.alias) else None


def project_faults(root: Path, apps: Iterable[str] = ("shop", "kitting", "quotes")) -> list[str]:
    return [
        fault
        for app in apps
        for path in sorted((root / app).rglob("*.py"))
        if "migrations" not in path.parts
        for fault in faults(path.relative_to(root), path.read_text("utf-8"))
    ]
