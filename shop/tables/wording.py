"""Findings in words: place, problem, and remedy."""

import re
from dataclasses import replace
from datetime import date

from shop.calc.rule_changes import RuleChange
from shop.tables.findings import MUST_FIX, Finding
from shop.tables.rule_wording import change_words
from shop.tables.structure.questions import AnswerChoice, FileQuestion
from shop.words import knows, say
from shop.words.figures import day_with_year, figure

FIGURES = frozenset(("before", "cost", "hours", "least", "n", "net", "now", "price", "rate", "value"))
IN_A_FILE = "\N{REPLACEMENT CHARACTER}"  # stands for the cell that a form does not have
DECIMAL = re.compile(r"-?\d+\.\d+")
ISO_DAY = re.compile(r"\d{4}-\d\d-\d\d")


def sentence(finding: Finding) -> str:
    """The finding as a sentence, as in "Row 47, quantity: this is not a number." """
    words = say(f"import.found.{finding.code}", **_facts(finding), **place(finding))
    more = dict(finding.facts).get("more")
    words = say("import.and_more", words=words, n=more) if more else words
    if finding.row and finding.field:
        return say("import.at.cell", row=str(finding.row), field=field_words(finding.field), words=words)
    if finding.row:
        return say("import.at.row", row=str(finding.row), words=words)
    return words


def at_a_field(finding: Finding) -> str:
    """The finding about what a person typed, which stands at its field: advice that names a cell is left out."""
    words = say(f"import.found.{finding.code}", **_facts(finding), **place(finding))
    key = "import.at.refused_field" if finding.weight == MUST_FIX else "import.at.field_to_check"
    advice = remedy(replace(finding, column=IN_A_FILE, row=1))
    return say(key, words=words, remedy="" if IN_A_FILE in advice else advice).strip()


def remedy(finding: Finding) -> str:
    """The advice for the finding; "" if there is none."""
    key = f"import.remedy.{finding.code}"
    return say(key, **_facts(finding), **place(finding)) if knows(key) else ""


def _facts(finding: Finding) -> dict[str, str]:
    """The facts of the finding as the reader's language writes decimals and days."""
    return {name: _fact(name, value) for name, value in finding.facts}


def _fact(name: str, value: str) -> str:
    if name in FIGURES and DECIMAL.fullmatch(value):
        return figure(value)
    if name == "day" and ISO_DAY.fullmatch(value):
        return day_with_year(date.fromisoformat(value))
    return value


def place(finding: Finding) -> dict[str, str]:
    return {"cell": finding.cell, "sheet": finding.sheet, "says": finding.says}


def field_words(field: str) -> str:
    """A field in words: "first needed at". A capacity or an attribute has its own name."""
    key = f"import.field.{field}"
    return say(key) if knows(key) else field.replace("attribute:", "").replace("capacity:", "").replace("_", " ")


def question_words(question: FileQuestion) -> tuple[str, str]:
    """(the question, why it is asked)"""
    facts = dict(question.facts)
    return say(f"import.question.{question.code}", **facts), say(f"import.question.{question.code}.why", **facts)


def choice_words(choice: AnswerChoice) -> str:
    return say(f"import.choice.{choice.code}", **dict(choice.facts))


def why_left_out(code: str) -> str:
    """The reason why a row is no line: "a total"."""
    return say(f"import.left_out.{code}")


def typed_words(field: str) -> str:
    """The label of a fact that a person types: "Kit number"."""
    return say(f"import.typed.{field}")


def becomes(finding: Finding) -> str:
    if finding.code == "rule_change":
        facts = dict(finding.facts)
        change = RuleChange(facts["path"], facts["row"], facts["column"], facts.get("before"), facts.get("after"))
        return change_words(change)
    return say(f"import.becomes.{finding.code}", **_facts(finding))
