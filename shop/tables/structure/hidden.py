"""Leaves out the rows and columns that a spreadsheet hides or strikes out, with a note, unless a person wants them
read.
"""

from dataclasses import replace

from shop.tables.findings import Finding, done_for_you, facts_of, please_check
from shop.tables.sheets import EMPTY, Sheet, column_letters
from shop.tables.structure.blocks import some
from shop.tables.structure.questions import AnswerChoice, Answers, FileQuestion, answered
from shop.tables.values import plain_text


def without_hidden(sheet: Sheet, answers: Answers) -> tuple[Sheet, tuple[Finding, ...], tuple[FileQuestion, ...]]:
    """The sheet without what is hidden or struck out."""
    findings: list[Finding] = []
    questions: list[FileQuestion] = []
    at = Finding("", "", (), sheet.name)
    for key, numbers in (("hidden_rows", sheet.hidden_rows), ("struck_rows", sheet.struck_rows)):
        rows = [line.number for line in sheet.lines if line.number in numbers]
        if not rows:
            continue
        question = _question(key, sheet.name, some(rows), len(rows), answers)
        questions.append(question)
        if question.value == "out":
            findings.append(please_check(key, at, n=len(rows), rows=some(rows)))
            gone = set(rows)
            sheet = replace(sheet, lines=tuple(line for line in sheet.lines if line.number not in gone))
    columns = [index for index in sorted(sheet.hidden_columns) if any(not line.at(index).empty for line in sheet.lines)]
    if columns:
        titles = ", ".join(f"{column_letters(index)}{_title(sheet, index)}" for index in columns)
        question = _question("hidden_columns", sheet.name, titles, len(columns), answers)
        questions.append(question)
        if question.value == "out":
            findings.append(done_for_you("hidden_columns", at, n=len(columns), columns=titles))
            dropped = set(columns)
            sheet = replace(
                sheet,
                lines=tuple(
                    replace(
                        line,
                        cells=tuple(EMPTY if index in dropped else cell for index, cell in enumerate(line.cells)),
                    )
                    for line in sheet.lines
                ),
            )
    return sheet, tuple(findings), tuple(questions)


def _title(sheet: Sheet, index: int) -> str:
    text = next((plain_text(line.at(index)) for line in sheet.lines if not line.at(index).empty), "")
    return f" “{text[:40]}”"


def _question(key: str, sheet: str, what: str, count: int, answers: Answers) -> FileQuestion:
    choices = (AnswerChoice("out", "hidden_out"), AnswerChoice("read", "hidden_read"))
    return answered(FileQuestion(key, key, choices, "out", facts_of(what=what, n=count), sheet, needed=False), answers)
