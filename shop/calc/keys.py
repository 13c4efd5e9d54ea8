"""Search keys: text that people type, reduced to letters and digits in one form for every alphabet."""

import unicodedata

WORD_LENGTH = 40  # longer words are cut to this many characters
LAST = "\U0010ffff"  # the last code point ends a prefix range, because keys are compared by bytes


def search_key(text: str) -> str:
    """The text in NFKC, case-folded, with letters and digits only: 'BI-WSH 1418' -> 'biwsh1418', 'Ärmel' -> 'ärmel'."""
    folded = unicodedata.normalize("NFKC", text).casefold()
    return "".join(character for character in unicodedata.normalize("NFKC", folded) if character.isalnum())


def prefix_range(key: str) -> tuple[str, str]:
    """(from, below): `from <= stored < below` holds for every stored key that begins with `key`."""
    return key, key + LAST


def words_of(text: str) -> tuple[str, ...]:
    """The words of a text as keys, in their order: 'Ärmel, M10x40' -> ('ärmel', 'm10x40').

    Every character that is neither a letter, a digit nor a combining mark separates two words.
    """
    plain = unicodedata.normalize("NFKC", text)
    spaced = "".join(
        character if character.isalnum() or unicodedata.category(character)[0] == "M" else " " for character in plain
    )
    words = (search_key(word)[:WORD_LENGTH] for word in spaced.split())
    return tuple(dict.fromkeys(filter(None, words)))


def search_words(*texts: str) -> frozenset[str]:
    """All words by which a row with these texts can be found.

    Text without spaces counts as a word too: 'BI-WSH 1418' -> 'bi', 'wsh', 'biwsh', '1418'.
    """
    words = {word for text in texts for word in words_of(text)}
    joined = (search_key(token)[:WORD_LENGTH] for text in texts for token in text.split())
    return frozenset(words.union(filter(None, joined)))
