"""Keys to find by: what people type, stripped to letters and digits, in one form for every alphabet."""

import unicodedata

WORD_LENGTH = 40  # letters of a word that are kept
LAST = "\U0010ffff"  # the last code point: the upper end of a prefix range, where keys are compared by bytes


def search_key(text: str) -> str:
    """NFKC, case-folded, only letters and digits: 'BI-WSH 1418' -> 'biwsh1418', 'Ärmel' -> 'ärmel'."""
    folded = unicodedata.normalize("NFKC", text).casefold()
    return "".join(each for each in unicodedata.normalize("NFKC", folded) if each.isalnum())


def prefix_range(key: str) -> tuple[str, str]:
    """(from, below) so that `from <= stored < below` finds every stored key that begins with `key`."""
    return key, key + LAST


def words_of(text: str) -> tuple[str, ...]:
    """The words of a text as keys, in their order: 'Ärmel, M10x40' -> ('ärmel', 'm10x40').

    Whatever is neither letter, digit nor the mark over a letter separates them.
    """
    plain = unicodedata.normalize("NFKC", text)
    spaced = "".join(each if each.isalnum() or unicodedata.category(each)[0] == "M" else " " for each in plain)
    words = (search_key(each)[:WORD_LENGTH] for each in spaced.split())
    return tuple(dict.fromkeys(filter(None, words)))


def search_words(*texts: str) -> frozenset[str]:
    """Every word that a row with these texts is found by.

    What is written in one go is a word as well: 'BI-WSH 1418' -> 'bi', 'wsh', 'biwsh', '1418'.
    """
    found = {word for text in texts for word in words_of(text)}
    joined = (search_key(each)[:WORD_LENGTH] for text in texts for each in text.split())
    return frozenset(found.union(filter(None, joined)))
