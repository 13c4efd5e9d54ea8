"""Words that make a line hold for some vehicles only: "automatic only", "except Sport", "2.4 only"."""

import re
from dataclasses import dataclass

from shop.calc.when import KNOWN_VALUES
from shop.tables.conditions import Condition
from shop.tables.findings import Finding, please_check
from shop.tables.structure.blocks import Block, Ruled
from shop.tables.structure.words import AUTOMATIC, MANUAL
from shop.tables.values import plain_text

ONLY = (
    r"(?:(?P<before>[\w.][\w./ -]{0,30}?)\s+(?:only|seulement|uniquement|soltanto|solamente)\b"
    r"|\b(?:only|nur|uniquement|seulement|solo|sólo|alleen|tylko|pouze|endast|kun|vain|csak|только)\s+"
    r"(?:for|if|with|on|für|bei|mit|pour|avec|per|con|para|voor|met|dla|pro|med)?\s*(?P<after>[\w.][\w./ -]{0,30}))"
)
NOT = (
    r"\b(?:not for|not with|except|except for|excluding|nicht für|nicht bei|außer|ausser|sauf|pas pour|eccetto|tranne|"
    r"excepto|salvo|behalve|niet voor|oprócz|kromě)\s+(?P<out>[\w.][\w./ -]{0,30})"
)
FITTED = r"\b(?:if fitted with|if equipped with|if the vehicle has|vehicles with|cars with|models with)\s+\w+"
GEARBOX = rf"\b(?:for |für |pour |with )?(?:{MANUAL}|{AUTOMATIC})[\s-]+(?:gearbox|transmission|getriebe|boîte|cambio)\b"
BRACKETED = rf"\((?:for |für )?(?:{MANUAL}|{AUTOMATIC}|lhd|rhd|4wd|2wd|awd|fwd|rwd)\.?\)"
FOR_KNOWN = rf"\b(?:for|für|pour) (?:{MANUAL}|{AUTOMATIC})\b"
SIDE = r"(?:^|[,;(]\s*)(?:lhd|rhd|4wd|2wd|awd)(?:\s*$|\s*[,;)])"
SMELLS = re.compile("|".join((ONLY, NOT, FITTED, GEARBOX, BRACKETED, FOR_KNOWN, SIDE)), re.IGNORECASE)
HINTS = re.compile(
    r"only|nur|seulement|uniquement|solo|sólo|solamente|soltanto|alleen|tylko|pouze|endast|kun|vain|csak|только|not |"
    r"nicht|pas pour|niet|except|exclud|au(?:ß|ss)er|sauf|eccetto|tranne|salvo|behalve|oprócz|kromě|with|has|manual|"
    r"manue|auto|schalt|lhd|rhd|[24afr]wd",
    re.IGNORECASE,
)
VALUES = {
    "manual": re.compile(rf"\b(?:{MANUAL})\b", re.IGNORECASE),
    "automatic": re.compile(rf"\b(?:{AUTOMATIC})\b", re.I),
}
LONGEST = 300


@dataclass(frozen=True, slots=True)
class Guess:
    """Words that read like a condition. `conditions` is empty if no attribute is known for them.

    `variant` then holds what they name: "right-hand drive" in "only for right-hand drive", "" in "not for Sport".
    """

    words: str
    conditions: tuple[Condition, ...] = ()
    variant: str = ""

    @property
    def proposal(self) -> str:
        """The condition as one writes it in the column "fits"; "" if none is known."""
        return "; ".join(f"{name}={' or '.join(values)}" for name, values in self.conditions)


def condition_in(text: str) -> Guess | None:
    """The condition in a text, or None if nothing in it reads like one."""
    text = text[:LONGEST]
    match = SMELLS.search(text) if HINTS.search(text) else None
    if match is None:
        return None
    words = " ".join(match[0].split()).strip(" ,;()")
    values = [value for value, pattern in VALUES.items() if pattern.search(match[0])]
    if len(values) != 1:
        return Guess(words, variant="" if values else _variant(match, words))
    value = values[0]
    if match["out"]:
        value = next(other for other in KNOWN_VALUES["transmission"] if other != value)
    return Guess(words, (("transmission", (value,)),))


def _variant(match: re.Match[str], words: str) -> str:
    named = match["after"] or match["before"] or (words if re.fullmatch(SIDE, words, re.IGNORECASE) else "")
    return " ".join(named.split())[:40]


def value_in(text: str) -> Condition | None:
    """The attribute and value that a heading names: "automatic", "auto", "Schaltgetriebe"."""
    values = [value for value, pattern in VALUES.items() if pattern.search(text)]
    return ("transmission", (values[0],)) if len(values) == 1 else None


def conditions_in_words(block: Block) -> Ruled:
    """Asks a person to look at each line whose words read like a condition that its own column does not state."""
    layout = block.table.layout
    if layout is None:
        return Ruled(block)
    findings: list[Finding] = []
    for row in block.rows:
        if row.when or (layout.condition and block.text(row, layout.condition)):
            continue
        for name in layout.texts:
            cell = block.cell(row, name)
            guess = condition_in(plain_text(cell)) if isinstance(cell.value, str) else None
            if guess is not None:
                at = block.at(row, name)
                findings.append(
                    please_check("condition_in_words", at, words=guess.words, proposal=guess.proposal or "none")
                )
    return Ruled(block, tuple(findings))
