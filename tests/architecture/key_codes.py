"""The codes that end keys which are built in code: for each pattern, where its codes come from."""

import ast
from collections.abc import Callable, Iterable
from typing import get_args

from kitting.calc import freezing
from kitting.calc.contents import COUNTED_IN
from kitting.calc.job_readiness import StepState
from kitting.calc.kit_changes import ChangeCode
from kitting.calc.line_state import Code
from kitting.calc.readiness import Verdict
from kitting.documents.pull_list import EDITIONS
from kitting.models import PullLine
from kitting.models.kits import KitLineShips, NeedCharge
from kitting.presenters.suppliers import ANSWERS
from kitting.services.kit_list import FIGURES
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
from shop.presenters.mails import SENTENCES
from shop.rule_presets import PRESETS
from shop.tables import rule_wording
from shop.tables.findings import WEIGHTS
from shop.tables.registry import kinds
from tests.architecture.test_words import calls, literal, nodes, sources
from tests.imports.test_headings import MEANINGS
from tests.imports.test_words import CHOICES, CODES, QUESTIONS, WHY, texts


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
    "kit.change.{}": lambda: {*get_args(ChangeCode), "added_line", "removed_line", *FIGURES, "labour"},
    "kit.ships.{}": lambda: KitLineShips,
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
    "rule.shown.{}": lambda: (*rule_wording.MEASURED, *rule_wording.COUNTED),
    "rule.title.{}": lambda: rule_fields.FIELDS,
    "start.{}": lambda: get_args(StepCode),
    "start.{}.why": lambda: get_args(StepCode),
    "start.{}.example": lambda: get_args(StepCode),
    "vin.how.rule.{}": lambda: listed("_explained", "shop/presenters/vin.py"),
    "vin.{}": lambda: VinStatus,
    "why.{}": lambda: {code for name in PRICED for code in codes("of", f"quotes/calc/{name}.py")},
}
"""The source of the codes of a key: the enum, the table, or the calls that name them."""
