"""Rows at the foot of a printed page: "Page 2 of 7", "continued on next page", "Packed by:"."""

import re

from shop.tables.columns import folded
from shop.tables.sheets import SheetRow
from shop.tables.structure.words import CONTINUED, OF, PAGES, SIGNED
from shop.tables.values import plain_text

PAGE = re.compile(rf"[\W_]*(?:{PAGES})[\s.:°]*[0-9]+(?:\s*(?:{OF})\s*[0-9]+)?[\W_]*", re.IGNORECASE)


def is_foot(line: SheetRow, quantity: int) -> bool:
    """True for a row of a page's foot. `quantity` is the column of quantities: a number there makes a row a line."""
    texts = [plain_text(cell) for _, cell in line.filled()]
    amount = plain_text(line.at(quantity))
    if amount[:1].isdigit():
        return False
    words = [folded(text) for text in texts]
    if any(PAGE.fullmatch(text) for text in texts) or any(word in CONTINUED for word in words):
        return True
    return all(text.endswith(":") or text.endswith("__") for text in texts) and any(
        word.strip("_ ") in SIGNED for word in words
    )
