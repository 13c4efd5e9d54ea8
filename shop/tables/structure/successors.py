"""Supersessions in words: "replaces 3078-B", "ersetzt 3089", "superseded by 3101"."""

import re

from shop.tables.findings import Finding, please_check
from shop.tables.structure.blocks import Block, Ruled

NUMBER = r"[:\s]+(?:part |no\.? |nr\.? |n° )?(?P<number>[A-Z0-9][\w./-]*[0-9][\w./-]*)"
OLD = (
    r"replaces|supersedes|in place of|instead of|formerly|previously|was|ersetzt|ersatz für|früher|remplace|"
    r"en remplacement de|ancien(?:nement)?|sostituisce|ex|reemplaza|sustituye a|vervangt|zastępuje|nahrazuje|ersätter"
)
NEW = (
    r"superseded by|replaced by|now|ersetzt durch|neu|remplacé par|sostituito da|reemplazado por|vervangen door|"
    r"zastąpione przez"
)
WORDS = re.compile(rf"\b(?:(?P<new>{NEW})|(?P<old>{OLD})){NUMBER}", re.IGNORECASE)


def successors_in_words(block: Block) -> Ruled:
    """Asks a person to look at each line whose words name an older or a newer number of the part."""
    layout = block.table.layout
    if layout is None:
        return Ruled(block)
    findings: list[Finding] = []
    for row in block.rows:
        for name in layout.texts:
            match = WORDS.search(block.text(row, name)[:300])
            if match is not None:
                code = "successor_in_words" if match["old"] else "predecessor_in_words"
                findings.append(please_check(code, block.at(row, name), number=match["number"]))
    return Ruled(block, tuple(findings))
