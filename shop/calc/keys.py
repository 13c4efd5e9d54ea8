"""Search keys: text that people type, reduced to letters and digits in one form for every alphabet."""

import unicodedata

WORD_LENGTH = 40  # longer words are cut to this many characters
SHORTEST_NOUN = 4  # characters of the shortest word that is looked for in its other number too
_ASCII = [chr(code) for code in range(128)]
_WITHOUT_SIGNS = str.maketrans({character: None for character in _ASCII if not character.isalnum()})
_SIGNS_AS_SPACES = str.maketrans({character: " " for character in _ASCII if not character.isalnum()})
LAST = "\U0010ffff"  # the last code point ends a prefix range, because keys are compared by bytes


def search_key(text: str) -> str:
    """The text in NFKC, case-folded, with letters and digits only: 'BI-WSH 1418' -> 'biwsh1418', 'Ärmel' -> 'ärmel'."""
    if text.isascii():  # ten times as fast, which a file of many thousand rows notices
        return text.lower().translate(_WITHOUT_SIGNS)
    folded = unicodedata.normalize("NFKC", text).casefold()
    return "".join(character for character in unicodedata.normalize("NFKC", folded) if character.isalnum())


def prefix_range(key: str) -> tuple[str, str]:
    """(from, below): `from <= stored < below` holds for every stored key that begins with `key`."""
    return key, key + LAST


def words_of(text: str) -> tuple[str, ...]:
    """The words of a text as keys, in their order: 'Ärmel, M10x40' -> ('ärmel', 'm10x40').

    Every character that is neither a letter, a digit nor a combining mark separates two words.
    """
    if text.isascii():
        return tuple(dict.fromkeys(word[:WORD_LENGTH] for word in text.lower().translate(_SIGNS_AS_SPACES).split()))
    plain = unicodedata.normalize("NFKC", text)
    spaced = "".join(
        character if character.isalnum() or unicodedata.category(character)[0] == "M" else " " for character in plain
    )
    words = (search_key(word)[:WORD_LENGTH] for word in spaced.split())
    return tuple(dict.fromkeys(filter(None, words)))


def word_forms(word: str) -> tuple[str, ...]:
    """The beginnings by which a word key finds the same noun in both numbers: the word itself, then the other number.

    'brakes' -> ('brakes', 'brake'), 'bushes' -> ('bushes', 'bush'), 'body' -> ('body', 'bodie'). A beginning finds
    every longer word, so 'brake' alone finds 'brakes'. Regular English plurals only.
    """
    other = _other_number(word) if len(word) >= SHORTEST_NOUN and word.isalpha() else ""
    return (word, other) if other else (word,)


def _other_number(word: str) -> str:
    if word.endswith("ies") and len(word) > 5:
        return word[:-3] + "y"
    if word.endswith(("ches", "shes", "sses", "xes", "zes")) or (word.endswith("ses") and len(word) > 5):
        return word[:-2]
    if word.endswith("s"):
        return "" if word.endswith(("ss", "is", "us")) else word[:-1]
    return word[:-1] + "ie" if word.endswith("y") and word[-2] not in "aeiou" else ""


def search_words(*texts: str) -> frozenset[str]:
    """All words by which a row with these texts can be found.

    Text without spaces counts as a word too: 'BI-WSH 1418' -> 'bi', 'wsh', 'biwsh', '1418'.
    """
    words = {word for text in texts for word in words_of(text)}
    joined = (search_key(token)[:WORD_LENGTH] for text in texts for token in text.split())
    return frozenset(words.union(filter(None, joined)))
