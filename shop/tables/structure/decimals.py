"""Settles whether "1.000" means thousands or thousandths by the column's other cells, or asks a person."""

import re
from dataclasses import replace

from shop.tables.findings import facts_of
from shop.tables.structure.blocks import Block, Ruled
from shop.tables.structure.questions import AnswerChoice, Answers, FileQuestion, answered

EITHER = re.compile(r"\s*[-+]?[1-9][0-9]{0,2}([.,])[0-9]{3}(?![0-9.,])")
DECIMAL = re.compile(r"\s*[-+]?(?:0([.,])[0-9]+|[0-9]+([.,])(?:[0-9]{1,2}|[0-9]{4,}))(?![0-9.,])")


def with_decimals(block: Block, answers: Answers) -> Ruled:
    """Settles the decimal sign of each column of figures that has a cell with two meanings."""
    layout = block.table.layout
    questions: list[FileQuestion] = []
    decimals: dict[str, str] = {}
    for name in layout.figures if layout else ():
        if name not in block.heading.found:
            continue
        cells = [block.cell(row, name) for row in block.rows]
        texts = [cell.value for cell in cells if isinstance(cell.value, str)]
        either = [match for match in map(EITHER.match, texts) if match]
        if not either:
            continue
        sign = decimal_sign_of(texts) or _sign_of_figures(block, name)
        if sign:
            decimals[name] = sign
            continue
        written = either[0][1]
        question = _question(block, name, either[0][0].strip(), written, len(either), answers)
        questions.append(question)
        decimals[name] = written if question.value == written else "," if written == "." else "."
    return Ruled(replace(block, decimals=decimals), (), tuple(questions))


def decimal_sign_of(texts: list[str]) -> str:
    """The decimal sign of the texts that have one meaning; "" if there are none, or they contradict one another."""
    signs = {match[1] or match[2] for match in map(DECIMAL.match, texts) if match}
    return signs.pop() if len(signs) == 1 else ""


def _sign_of_figures(block: Block, besides: str) -> str:
    """The decimal sign of the other columns of figures."""
    layout = block.table.layout
    assert layout is not None
    texts = [
        str(cell.value)
        for name in layout.figures
        if name != besides and name in block.heading.found
        for row in block.rows
        if isinstance((cell := block.cell(row, name)).value, str)
    ]
    return decimal_sign_of(texts)


def _question(block: Block, name: str, example: str, sign: str, count: int, answers: Answers) -> FileQuestion:
    other = "," if sign == "." else "."
    number = re.sub(r"[^0-9.,]", "", example)
    choices = (
        AnswerChoice(sign, "decimal_small", facts_of(value=number.replace(sign, "."))),
        AnswerChoice(other, "decimal_large", facts_of(value=number.replace(sign, ""))),
    )
    at = block.at(None, name)
    facts = facts_of(n=count, example=example, column=at.column)
    return answered(FileQuestion(f"decimal:{name}", "decimal", choices, sign, facts, block.sheet, at.column), answers)
