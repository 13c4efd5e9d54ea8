"""No key that is computed leads nowhere, and no catalogue holds a sentence that nothing uses."""

import ast
import re
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from functools import cache
from typing import get_args

import pytest
from django.apps import apps
from django.db import models

from kitting.calc import freezing
from kitting.calc.contents import COUNTED_IN
from kitting.calc.job_readiness import StepState
from kitting.calc.line_state import Code
from kitting.calc.readiness import Verdict
from kitting.documents.pull_list import EDITIONS
from kitting.models import PullLine
from kitting.models.kits import NeedCharge
from kitting.presenters.suppliers import ANSWERS
from quotes.answers.newer_rules import FigureCode
from quotes.answers.start import StepCode
from quotes.calc.account import Settled
from quotes.documents.month import COLUMNS
from quotes.models.answers import AnswerWay
from quotes.presenters.customer import HouseFact
from quotes.presenters.explanations import _GENERAL
from quotes.queries.calendar import DayKind
from quotes.queries.merging import CONTACT
from shop.answers.headings import Needed
from shop.calc import days, rule_fields, rules
from shop.calc.template_changes import Change
from shop.calc.vin import VinStatus
from shop.documents.list_registry import out_lists
from shop.models.payments import PaymentMeans
from shop.presenters import rule_sets
from shop.presenters.mails import SENTENCES
from shop.rule_presets import PRESETS
from shop.tables.findings import WEIGHTS
from shop.tables.registry import kinds
from shop.words import catalogue, knows
from shop.words.catalogues import ident
from tests.architecture.test_words import APPS, ROOT, calls, in_the_browser, literal, nodes, sources
from tests.imports.test_headings import MEANINGS
from tests.imports.test_words import CHOICES, CODES, QUESTIONS, WHY, texts

KEY = re.compile(r"[a-z_]+(\.([\w-]|\{\})+)+")
"""A key, with {} for each part that is computed."""


def codes(name: str, under: str = "", arguments: int = 1) -> set[str]:
    """The texts written out as the first arguments of calls of that name, in files whose path begins with `under`."""
    trees = (tree for path, tree in sources() if path.as_posix().startswith(under))
    values = (argument for tree in trees for call in calls(tree, name) for argument in call.args[:arguments])
    return {code for argument in values for code in texts(argument)}


def choices(setting: str) -> set[str]:
    """The values that a setting of the price rules may have, as `shop/calc/rules.py` reads it."""
    (tree,) = (tree for path, tree in sources() if path.as_posix() == "shop/calc/rules.py")
    (read,) = (call for call in calls(tree, "one_of") if literal(call.args[0]) == setting)
    return {text for node in nodes(read.args[1]) for text in texts(node)}  # type: ignore[arg-type]


def firsts(variable: str, path: str) -> set[str]:
    """The texts that begin the pairs of a list, in the function of that file that calls it `variable`."""
    (tree,) = (tree for source, tree in sources() if source.as_posix() == path)
    lists = [node.value for node in nodes(tree) if isinstance(node, ast.Assign) and is_called(node, variable)]
    pairs = (node for value in lists for node in nodes(value) if isinstance(node, ast.Tuple))
    return {code for pair in pairs for code in texts(pair.elts[0])}


def is_called(node: ast.Assign, variable: str) -> bool:
    return any(getattr(target, "id", "") == variable for target in node.targets)


def listed(name: str, path: str) -> set[str]:
    """The texts in the lists that are the first arguments of calls of that name."""
    trees = (tree for source, tree in sources() if source.as_posix() == path)
    lists = (call.args[0] for tree in trees for call in calls(tree, name))
    return {code for value in lists if isinstance(value, ast.List) for item in value.elts for code in texts(item)}


def rule_choices() -> set[str]:
    """The values that a figure of the price rules may have, but for numbers."""
    fields = [field for whole in rule_fields.FIELDS.values() for field in (whole, *whole.columns)]
    values = {value for field in fields for value in field.choices if not value[:1].isdigit()}
    return {"yes", "no", "unrounded"} | values - {""}


HALVES = get_args(days.Half)
PRICE_SENTENCES = {"sells", "charged"}
PRICED = ("buying", "fitting", "labour_reasons", "priced_fees", "priced_labour", "priced_needs", "pricing")
"""The calculations of a quote, of which every reason is worded."""

COMPUTED: dict[str, Callable[[], Iterable[str]]] = {
    "account.consent.{}": lambda: AnswerWay,
    "account.column.{}": lambda: COLUMNS,
    "list.column.{}": lambda: {column for out_list in out_lists().values() for column in out_list.columns},
    "account.means.{}": lambda: PaymentMeans,
    "account.row.{}": lambda: ("agreed", "change"),
    "account.settled.{}": lambda: get_args(Settled),
    "bought.rule.{}": lambda: rules.MARKUP_MODES,
    "bought.{}": lambda: PRICE_SENTENCES,
    "bought.{}_inside": lambda: PRICE_SENTENCES,
    "bought.step.{}": lambda: codes("_step", "quotes/presenters/landed_cost.py"),
    "box.{}": lambda: {*COUNTED_IN} - {"pc"},
    "circuit.{}": lambda: freezing.GLYCOLS,
    "customer.consent.{}": lambda: (rules.REQUIRED, rules.OPTIONAL),
    "customer.deposit.{}": lambda: rules.DEPOSIT_BASES,
    "customer.who.{}": lambda: get_args(HouseFact),
    "customer.extra_work.{}": lambda: choices("ceiling.kind"),
    "calendar.half_{}": lambda: HALVES,
    "calendar.{}": lambda: get_args(DayKind),
    "day.short_{}": lambda: HALVES,
    "day.{}": lambda: HALVES,
    "how.rule.{}": lambda: {*_GENERAL.values()} | codes("sentences", "quotes/presenters/explanations", 9),
    "how.step.{}": lambda: codes("step", "quotes/presenters/explanations"),
    "import.becomes.{}": lambda: {*kinds()} - {"labour"},  # its templates are said one by one
    "import.choice.{}": lambda: CHOICES,
    "import.found.{}": lambda: CODES,
    "import.list.needed.{}": lambda: get_args(Needed),
    "import.means.{}": lambda: MEANINGS,
    "import.left_out.{}": lambda: WHY,
    "import.question.{}": lambda: QUESTIONS,
    "import.question.{}.why": lambda: QUESTIONS,
    "import.typed.{}": lambda: {name for kind in kinds().values() for name in kind.typed},
    "import.weight.{}": lambda: WEIGHTS,
    "line.{}": lambda: get_args(Code),
    "mail.state.{}": lambda: {"waiting", "begun", "sent", "console", "person", *SENTENCES.values()},
    "supplier.answer.{}": lambda: ANSWERS,
    "template.change.{}": lambda: set(get_args(Change)),
    "mail.why.{}": lambda: codes("Failure") | codes("NotWantedError") | codes("_refused"),
    "margin.how.charge_{}": lambda: NeedCharge,
    "margin.how.{}": lambda: codes("_step", "quotes/presenters/margin.py"),
    "merging.leaves_{}": lambda: {*CONTACT} - {"language"},
    "merging.takes_{}": lambda: {*CONTACT} - {"language"},
    "newer_rules.{}": lambda: {*get_args(FigureCode), "same", "title"},
    "promise.how.{}": lambda: firsts("worked", "shop/presenters/promise.py"),
    "quote.deposit_of.{}": lambda: rules.DEPOSIT_BASES,
    "number.{}": lambda: map(str, range(10)),
    "problem.{}.detail": lambda: codes("Problem", arguments=2) | codes("RequestError", arguments=2),
    "problem.{}.title": lambda: codes("Problem", arguments=2) | codes("RequestError", arguments=2),
    "pull_paper.{}": lambda: {*PullLine.Kind} - {"box", "beside"},
    "pull_paper.title.{}": lambda: EDITIONS,
    "readiness.how.{}": lambda: firsts("worked", "kitting/presenters/readiness.py"),
    "readiness.{}": lambda: {*get_args(Verdict)} - {"start_on_arrivals", "start_to_hold"},
    "readiness.step.{}": lambda: {*get_args(StepState)} - {"after"},
    "preset.{}": lambda: PRESETS,
    "preset.{}.for": lambda: PRESETS,
    "rule.about.{}": lambda: (section.code for section in rule_fields.SECTIONS),
    "rule.choice.{}": rule_choices,
    "rule.column.{}": lambda: (column.path for field in rule_fields.FIELDS.values() for column in field.columns),
    "rule.does.{}": lambda: rule_fields.FIELDS,
    "rule.section.{}": lambda: (section.code for section in rule_fields.SECTIONS),
    "rule.shown.{}": lambda: (*rule_sets.MEASURED, *rule_sets.COUNTED),
    "rule.title.{}": lambda: rule_fields.FIELDS,
    "start.{}": lambda: get_args(StepCode),
    "start.{}.why": lambda: get_args(StepCode),
    "start.{}.example": lambda: get_args(StepCode),
    "vin.how.rule.{}": lambda: listed("_explained", "shop/presenters/vin.py"),
    "vin.{}": lambda: VinStatus,
    "why.{}": lambda: {code for name in PRICED for code in codes("of", f"quotes/calc/{name}.py")},
}
"""The source of the codes of a key: the enum, the table, or the calls that name them."""

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
