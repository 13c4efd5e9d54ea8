"""Supersessions in words: "replaces 3078-B", "ersetzt durch 3101", "use 4410-12L from 2027"."""

import re
from dataclasses import replace

from shop.tables.findings import Finding, done_for_you, facts_of, please_check
from shop.tables.sheets import Cell
from shop.tables.structure.blocks import Block, BlockRow, Ruled, with_cell
from shop.tables.structure.questions import AnswerChoice, Answers, FileQuestion, answered

NUMBER = r"[:\s]+(?:part |no\.? |nr\.? |n° )?(?P<number>[A-Z0-9][\w./-]*[0-9][\w./-]*)"
OLD = r"replaces|supersedes|ersetzt|remplace|sostituisce|reemplaza|sustituye a|vervangt|zastępuje|nahrazuje|ersätter"
NEW = (
    r"superseded by|replaced by|ersetzt durch|remplacé par|sostituito da|reemplazado por|vervangen door|"
    r"zastąpione przez|nahrazeno"
)
OLD_OR_NOT = r"in place of|instead of|formerly|previously|was|ersatz für|früher|en remplacement de|ancien(?:nement)?|ex"
NEW_OR_NOT = (
    r"now|neu|use|order|fit|verwenden|bestellen|utiliser|commander|usare|ordinare|usar|pedir|gebruik|bestel|użyj|"
    r"zamów"
)
WORDS = re.compile(
    rf"\b(?:(?P<new>{NEW})|(?P<old>{OLD})|(?P<new_or_not>{NEW_OR_NOT})|(?P<old_or_not>{OLD_OR_NOT})){NUMBER}(?P<rest>.*)",
    re.IGNORECASE,
)
BEHIND = re.compile(r"\s*[.,;()].*|\s*")  # what may follow a number without making it conditional
DATED = re.compile(r"\b(?:19|20)[0-9]{2}\b|\b(?:from|until|ab|bis|à partir|vanaf|dal|desde|od)\b", re.IGNORECASE)
RUNS = re.compile(r"[0-9]+|[^\W\d_]+")
SHARED = 4  # equal first characters by which two numbers look like one supplier's
LONGEST = 300


def successors_in_words(block: Block, answers: Answers) -> Ruled:
    """Reads older and newer numbers that the words name plainly, and asks a person to look at the others.

    A name is plain if its verb has no other meaning, the number looks like those of the list, and no day or condition
    follows.
    """
    layout = block.table.layout
    if layout is None:
        return Ruled(block)
    numbers = {block.text(row, layout.number) for row in block.rows}
    shapes = {_shape(number) for number in numbers}
    question = answered(
        FileQuestion(
            "supersessions",
            "supersessions",
            (AnswerChoice("read", "supersessions_read"), AnswerChoice("none", "supersessions_none")),
            "read",
            (),
            block.sheet,
            needed=False,
        ),
        answers,
    )
    findings: list[Finding] = []
    rows: list[BlockRow] = []
    count = 0
    for row in block.rows:
        for name in layout.texts:
            match = WORDS.search(block.text(row, name)[:LONGEST])
            if match is None:
                continue
            own = block.text(row, layout.number)
            like = _shape(match["number"]) in shapes or match["number"][:SHARED] == own[:SHARED]
            is_old = bool(match["old"] or match["old_or_not"])
            field = "replaces" if is_old else "replaced_by"
            if match["number"] == own or block.text(row, field) or (match["new_or_not"] and not like):
                continue
            at = block.at(row, name)
            plain = like and (match["old"] or match["new"]) and BEHIND.fullmatch(match["rest"])
            if not plain or DATED.search(match["rest"]):
                code = "successor_in_words" if is_old else "predecessor_in_words"
                findings.append(please_check(code, at, number=match["number"]))
                continue
            count += 1
            if question.value == "read":
                old, new = (match["number"], own) if is_old else (own, match["number"])
                findings.append(done_for_you("supersession_read", at, old=old, new=new))
                row = _with_number(block, row, field, match["number"])
        rows.append(row)
    questions = (replace(question, facts=facts_of(n=count)),) if count else ()
    return Ruled(replace(block, rows=tuple(rows)), tuple(findings), questions)


def _shape(number: str) -> str:
    """The number with a sign for each run of digits and of letters: "7309-002" is "9-9"."""
    return RUNS.sub(lambda run: "9" if run[0][0].isdigit() else "A", number)


def _with_number(block: Block, row: BlockRow, name: str, number: str) -> BlockRow:
    index = max(len(row.line.cells), max(block.heading.found.values()) + 1)
    return replace(row, line=with_cell(row.line, index, Cell(number)), columns={**row.columns, name: index})
