"""Keys to find by: what people type, stripped to letters and digits, in one form for every alphabet."""

import unicodedata

LAST = "\U0010ffff"  # the last code point: the upper end of a prefix range, where keys are compared by bytes


def search_key(text: str) -> str:
    """NFKC, case-folded, only letters and digits: 'BI-WSH 1418' -> 'biwsh1418', 'Ärmel' -> 'ärmel'."""
    folded = unicodedata.normalize("NFKC", text).casefold()
    return "".join(each for each in unicodedata.normalize("NFKC", folded) if each.isalnum())


def prefix_range(key: str) -> tuple[str, str]:
    """(from, below) so that `from <= stored < below` finds every stored key that begins with `key`."""
    return key, key + LAST
