"""No key that is computed leads nowhere, and no catalogue holds a sentence that nothing uses."""

import ast
import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cache

import pytest
from django.apps import apps
from django.db import models

from shop.words import catalogue, knows
from shop.words.catalogues import ident
from tests.architecture.key_codes import COMPUTED, is_called
from tests.architecture.test_words import APPS, ROOT, calls, in_the_browser, literal, nodes, sources
from tests.imports.test_words import texts

KEY = re.compile(r"[a-z_]+(\.([\w-]|\{\})+)+")
"""A key, with {} for each part that is computed."""


NAMED = {
    "customer.error.{}": "only some refusals of an acceptance are said on the page, others are pages of their own",
    "field.{}": "of the framework's codes with another sentence where there is none; ours by test_words.py",
}
"""Keys of which no one table holds the codes."""

ADDED = "customer.state.{}"
"""Put together in a template."""

SPOKEN_BY_PREFIX = ("field-says-", "import-means-", "mix-")
"""Read from the catalogue by their prefix: `shop/serializers/words.py`, held by tests/api/test_field_words.py, the
headings of files, held by tests/imports/test_headings.py, and the sentences of a mix, which travel to the phone, held
by tests/calc/test_coolant_phone.py."""


@cache
def fitting(pattern: str) -> re.Pattern[str]:
    return re.compile(re.escape(ident(pattern)).replace(r"\{\}", r"([\w-]+)"))


@cache
def written() -> set[str]:
    """All texts and names in the code, quoted words of templates and names of constraints, as identifiers."""
    every = [node for _, tree in sources() for node in nodes(tree)]
    constants = {str(node.value) for node in every if isinstance(node, ast.Constant)}
    names = {str(getattr(node, kind)) for node in every for kind in ("arg", "attr", "name") if hasattr(node, kind)}
    templates = (path.read_text("utf-8") for app in APPS for path in (ROOT / app).rglob("*.html"))
    quoted = {text for template in templates for text in re.findall(r"""["']([\w.-]+)["']""", template)}
    constraints = {str(constraint.name) for model in apps.get_models() for constraint in model._meta.constraints}
    return {ident(word) for word in constants | names | quoted | constraints | {*models.Field.default_error_messages}}


@cache
def patterns() -> frozenset[str]:
    """Every f-string that may be a key or the code in one, with {} for what is computed."""
    formatted = (node for _, tree in sources() for node in nodes(tree) if isinstance(node, ast.JoinedStr))
    texts = {pattern_of(string) for string in formatted}
    return frozenset(text for text in texts if re.fullmatch(r"[\w.{}-]*[a-z][\w.{}-]*", text))


@cache
def computed() -> frozenset[str]:
    roots = {key.partition("-")[0] for key in catalogue()}
    return frozenset(pattern for pattern in patterns() if KEY.fullmatch(pattern) and pattern.partition(".")[0] in roots)


def test_every_computed_key_has_a_sentence_for_each_of_its_codes() -> None:
    codes_by_pattern = {pattern: sorted(of()) for pattern, of in COMPUTED.items()}
    assert [pattern for pattern, codes in codes_by_pattern.items() if not codes] == []
    keys = [pattern.replace("{}", code) for pattern, codes in codes_by_pattern.items() for code in codes]
    assert [key for key in keys if not knows(key)] == []


FUNCTIONS = (ast.FunctionDef, ast.AsyncFunctionDef)


@dataclass(frozen=True)
class Place:
    """The place at which a key is computed: its function, and the module with tables and calls."""

    function: ast.FunctionDef | ast.AsyncFunctionDef
    module: ast.Module

    def codes(self, value: ast.expr) -> set[str]:
        """The codes that the value can be; empty where one of its ways is not known."""
        if isinstance(value, ast.Subscript) and isinstance(value.value, ast.Name):
            table = self._constant(value.value.id)
            return _all(texts(node) for node in table.values) if isinstance(table, ast.Dict) else set()
        return self._of_name(value.id) if isinstance(value, ast.Name) else {*texts(value)}

    def _of_name(self, name: str) -> set[str]:
        ways: list[set[str]] = []
        for node in nodes(self.function):
            if isinstance(node, ast.Assign) and any(getattr(target, "id", "") == name for target in node.targets):
                ways.append({*texts(node.value)})
            if isinstance(node, ast.For | ast.comprehension):
                ways += self._of_loop(node.target, node.iter, name)
        parameters = [arg.arg for arg in self.function.args.args]
        if name in parameters:
            ways += self._given(parameters.index(name))
        return _all(ways)

    def _of_loop(self, target: ast.expr, rows: ast.expr, name: str) -> list[set[str]]:
        names = [getattr(target, "id", "") for target in (target.elts if isinstance(target, ast.Tuple) else [target])]
        if name not in names:
            return []
        table = self._constant(rows.id) if isinstance(rows, ast.Name) else rows
        if not isinstance(table, ast.Tuple | ast.List):
            return [set()]
        if not isinstance(target, ast.Tuple):
            return [{*texts(row)} for row in table.elts]
        pairs = [row.elts for row in table.elts if isinstance(row, ast.Tuple)]
        return [{*texts(pair[names.index(name)])} for pair in pairs] if len(pairs) == len(table.elts) else [set()]

    def _given(self, position: int) -> list[set[str]]:
        """The codes in the calls of the function in its own module: nobody else calls a name with an underscore."""
        calls = [node for node in nodes(self.module) if isinstance(node, ast.Call)]
        own = [call for call in calls if getattr(call.func, "id", "") == self.function.name]
        if not self.function.name.startswith("_") or not own:
            return [set()]
        return [{*texts(call.args[position])} if len(call.args) > position else set() for call in own]

    def _constant(self, name: str) -> ast.expr | None:
        for node in self.module.body:
            targets = node.targets if isinstance(node, ast.Assign) else [getattr(node, "target", None)]
            if isinstance(node, ast.Assign | ast.AnnAssign) and any(
                getattr(target, "id", "") == name for target in targets
            ):
                return node.value
        return None


def _all(ways: Iterable[Iterable[str]]) -> set[str]:
    """All codes of all ways; none where a way has none."""
    ways_of_key = [{*way} for way in ways]
    return set().union(*ways_of_key) if all(ways_of_key) else set()


@cache
def found_beside() -> dict[str, set[str]]:
    """Pattern -> codes, of keys with one computed part whose codes stand in the function of every place that asks."""
    codes_by_pattern: dict[str, list[set[str]]] = {}
    for _, tree in sources():
        for function in (node for node in nodes(tree) if isinstance(node, FUNCTIONS)):
            for string in (node for node in nodes(function) if isinstance(node, ast.JoinedStr)):
                parts = [value for value in string.values if isinstance(value, ast.FormattedValue)]
                if len(parts) == 1:
                    pattern = pattern_of(string)
                    codes = Place(function, tree).codes(parts[0].value)
                    codes_by_pattern.setdefault(pattern, []).append(codes)
    return {pattern: set().union(*codes) for pattern, codes in codes_by_pattern.items() if all(codes)}


@cache
def asked_first() -> frozenset[str]:
    """Patterns of which every function that has one asks `knows` first, and says something else where it is no key."""
    places: dict[str, list[bool]] = {}
    for _, tree in sources():
        for function in (node for node in nodes(tree) if isinstance(node, FUNCTIONS)):
            keys = {
                pattern_of(argument)
                for call in calls(function, "knows")
                for argument in strings(call.args[0], function)
            }
            for string in (node for node in nodes(function) if isinstance(node, ast.JoinedStr)):
                places.setdefault(pattern_of(string), []).append(pattern_of(string) in keys)
    return frozenset(pattern for pattern, asks in places.items() if all(asks))


def strings(argument: ast.expr, function: ast.AST) -> Iterator[ast.JoinedStr]:
    """The f-string of an argument: itself, the value of `:=`, or that of the variable that it names."""
    if isinstance(argument, ast.NamedExpr):
        argument = argument.value
    if isinstance(argument, ast.JoinedStr):
        yield argument
    if isinstance(argument, ast.Name):
        assigned = (node for node in nodes(function) if isinstance(node, ast.Assign))
        yield from (
            node.value for node in assigned if is_called(node, argument.id) and isinstance(node.value, ast.JoinedStr)
        )


def pattern_of(string: ast.JoinedStr) -> str:
    return "".join(literal(value) or "{}" for value in string.values)


def test_every_code_that_stands_beside_its_key_has_a_sentence() -> None:
    here = {pattern: codes for pattern, codes in found_beside().items() if pattern in computed()}
    assert [key for p, codes in here.items() for code in codes if not knows(key := p.replace("{}", code))] == []


def test_every_computed_key_is_resolved_or_named() -> None:
    assert computed() - found_beside().keys() - asked_first() - COMPUTED.keys() == NAMED.keys()
    assert COMPUTED.keys() <= computed()


def headless(tree: ast.AST) -> list[str]:
    """The keys of sentences that begin with a computed part: nothing here could tell which sentences they are."""
    formatted = (node for call in calls(tree, "say") for node in nodes(call.args[0]) if isinstance(node, ast.JoinedStr))
    return [ast.unparse(string) for string in formatted if isinstance(string.values[0], ast.FormattedValue)]


def test_a_key_begins_with_a_word() -> None:
    assert [(path, key) for path, tree in sources() for key in headless(tree)] == []


@pytest.mark.parametrize("source", ["say(f'{key}_until')", "say(key if one else f'{key}_until', day=day)"])
def test_a_key_that_begins_with_a_computed_part_is_found(source: str) -> None:
    assert headless(ast.parse(source))


@cache
def stands(code: str) -> bool:
    """Returns whether the code is written somewhere, or is put together from what is."""
    return code in written() or any(
        all(part in written() for part in match.groups())
        for pattern in patterns()
        if "_" in pattern and (match := fitting(pattern).fullmatch(code))
    )


def is_used(key: str) -> bool:
    if key in written() or key.startswith(SPOKEN_BY_PREFIX):
        return True
    groups = (match.groups() for pattern in (*computed(), ADDED) if (match := fitting(pattern).fullmatch(key)))
    return any(all(stands(code) for code in parts) for parts in groups)


def test_no_sentence_of_the_server_is_unused() -> None:
    assert [key for key in catalogue() if not is_used(key)] == []


FRONT_END = ROOT / "frontend" / "src"
CATALOGUES = FRONT_END / "lib" / "messages"
QUOTED = re.compile(r"""['"`]([\w-]+(?:\.[\w-]+)*)['"`]|\b(\w+)\??:""")
BACKTICKS = re.compile(r"`(\w+(?:\.(?:\w+|\$\{[^}`]*\}))+)`")


def test_no_sentence_of_the_front_end_is_unused() -> None:
    """The types of `t` see that a computed key exists there: `npm run check`."""
    paths = (path for kind in ("*.ts", "*.svelte") for path in FRONT_END.rglob(kind) if CATALOGUES not in path.parents)
    code = [path.read_text("utf-8") for path in paths if ".test." not in path.name]
    quoted_keys = {quoted or other for text in code for quoted, other in QUOTED.findall(text)}
    patterns = {
        fitting(re.sub(r"\$\{[^}]*\}", "{}", literal_text)) for text in code for literal_text in BACKTICKS.findall(text)
    }
    stems = {key for key, _ in in_the_browser()}
    unused = {
        key
        for key in stems - quoted_keys
        if not any(
            all(part in quoted_keys for part in match.groups())
            for pattern in patterns
            if (match := pattern.fullmatch(ident(key)))
        )
    }
    assert unused == set()
