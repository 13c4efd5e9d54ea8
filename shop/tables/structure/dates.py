"""Part numbers and places that a spreadsheet turned into dates: "3/5" is "03-May" in a file of text."""

import re

from shop.tables.findings import Finding, must_fix
from shop.tables.structure.blocks import Block, Ruled

MONTHS = (
    ("jan", "ene", "gen", "janv"), ("feb", "fév", "févr"), ("mar", "mär", "mrt", "mars", "mrz"),
    ("apr", "avr", "abr", "kwi"), ("may", "mai", "mag", "maj", "mei"), ("jun", "juin", "giu", "cze"),
    ("jul", "juil", "lug", "lip"), ("aug", "août", "ago", "sie"), ("sep", "sept", "set", "wrz"),
    ("oct", "okt", "ott", "paź"), ("nov", "lis"), ("dec", "dez", "déc", "dic", "gru"),
)  # fmt: skip
MONTH_OF = {word: number for number, words in enumerate(MONTHS, 1) for word in words}
NAMES = "|".join(sorted(MONTH_OF, key=len, reverse=True))
NAMED = re.compile(rf"([0-9]{{1,2}})[-. /]{{1,2}}({NAMES})\.?(?:[-. /]([0-9]{{2,4}}))?", re.IGNORECASE)
MONTH_FIRST = re.compile(rf"({NAMES})[-. /]([0-9]{{2}})", re.IGNORECASE)
WHOLE = re.compile(
    r"([0-9]{1,2})[/.]([0-9]{1,2})[/.](?:19|20)[0-9]{2}|(?:19|20)[0-9]{2}-([0-9]{2})-([0-9]{2})(?:[T ].*)?"
)


def day_and_month(content: object) -> tuple[int, int] | None:
    """(day, month) of a text that reads like a date; None for any other content."""
    if not isinstance(content, str) or len(content) > 30:
        return None
    text = content.strip()
    if match := NAMED.fullmatch(text):
        return int(match[1]), MONTH_OF[match[2].casefold()]
    if match := MONTH_FIRST.fullmatch(text):
        return int(match[2]), MONTH_OF[match[1].casefold()]
    if match := WHOLE.fullmatch(text):
        return (int(match[1]), int(match[2])) if match[1] else (int(match[4]), int(match[3]))
    return None


def without_dates(block: Block) -> Ruled:
    """Refuses texts like "03-May" among part numbers, cartons and bags. Real dates are refused by their reader.

    If most of a column reads like dates, they are the supplier's own numbers and are left alone.
    """
    layout = block.table.layout
    findings: list[Finding] = []
    for name in (layout.number, *layout.places) if layout else ():
        if name not in block.heading.found:
            continue
        dates = {n: day_and_month(block.cell(row, name).value) for n, row in enumerate(block.rows)}
        texts = [n for n, value in dates.items() if value]
        filled = sum(not block.cell(row, name).empty for row in block.rows)
        own = set(texts) if len(texts) * 2 > filled else set()
        for n, value in dates.items():
            if value and n not in own and name not in block.rows[n].filled:
                day, month = value
                at = block.at(block.rows[n], name)
                findings.append(must_fix("date_for_a_number", at, one=f"{day}/{month}", other=f"{month}/{day}"))
    return Ruled(block, tuple(findings))
