"""Rows that name the carton or the bag of the lines under them: "CARTON 2: cooling", "Bag 3 of 24", "Beutel A"."""

import re
from dataclasses import dataclass, replace

from shop.tables.structure.words import BAGS, CARTONS, NUMBER_SIGNS, OF

LONGEST = 120


def _longest_first(words: str) -> str:
    return "|".join(sorted(words.split("|"), key=len, reverse=True))


PLACE = re.compile(
    rf"[\W_]*(?:(?P<carton>{_longest_first(CARTONS)})|(?P<bag>{_longest_first(BAGS)}))s?(?![^\W\d_])"
    rf"\s*(?:{NUMBER_SIGNS})?\s*[:.\-–]?\s*"
    rf"(?P<label>[0-9][\w.\-]*|[a-z]{{1,2}}(?:[-.]?[0-9][\w\-]*)?)"
    rf"(?:\s*(?:{OF})\s*[0-9]+)?(?P<rest>(?:\s*[:,(–—-]\s*|\s+)\S.*)?",
    re.IGNORECASE,
)
AROUND = re.compile(r"([^()]+?)[\s,–-]*\(([^()]+)\)")  # "Bag 1 - rail hardware (box 2)"
LOOSE = re.compile(r"^(?:loose|lose|los|en vrac|sciolti|luzem)\s+(?:in|im|dans|nella|w)?\s*", re.IGNORECASE)
EDGES = " \t:,;.*=-–—_#|()[]"


@dataclass(frozen=True, slots=True)
class NamedPlace:
    """A carton or a bag.

    `level` is 0 for a carton, 1 for a bag; `carton` is set if a bag's row also names its carton.
    """

    level: int
    label: str
    carton: str = ""


def place_of(text: str) -> NamedPlace | None:
    """The place that the text names; None if it names none. The label keeps a name: "2, cooling"."""
    text = LOOSE.sub("", text.strip())
    if len(text) <= LONGEST and (around := AROUND.fullmatch(text)):
        inner, outer = place_of(around[1]), place_of(around[2])
        if inner and outer and inner.level == 1 and outer.level == 0:
            return replace(inner, carton=outer.label)
    match = PLACE.fullmatch(text.rstrip(EDGES)) if len(text) <= LONGEST else None
    if match is None:
        return None
    rest = (match["rest"] or "").strip(EDGES)
    separated = re.match(r"\s*[:,(–—-]", match["rest"] or "")
    if rest and not separated and not re.fullmatch(r"\(?[0-9]+ [\w ]{1,20}\)?", rest):
        return None  # "Case M8 bolts" is a part
    name = "" if re.fullmatch(r"[0-9]+ [\w ]{1,20}", rest) else rest
    label = match["label"].rstrip(".-")
    return NamedPlace(0 if match["carton"] else 1, f"{label}, {name}"[:80] if name else label)
