"""Characters inside part numbers that nobody sees: invisible ones, hyphens of another kind, letters that look Latin."""

import unicodedata

HYPHENS = dict.fromkeys(map(ord, "\u2010\u2011\u2012\u2013\u2014\u2015\u2212\ufe63\uff0d"), "-")
LOOK_ALIKE = str.maketrans("АВСЕНІЈКМОРЅТХУасеіјорѕхуΑΒΕΖΗΙΚΜΝΟΡΤΥΧο", "ABCEHIJKMOPSTXYaceijopsxyABEZHIKMNOPTYXo")


def clean_number(written: str) -> str:
    """The number without invisible characters and with plain hyphens."""
    if written.isascii():
        return written
    visible = "".join(character for character in written if unicodedata.category(character) not in ("Cf", "Cc"))
    return visible.translate(HYPHENS)


def latin_twin(written: str) -> str:
    """The number in Latin letters if some of its letters only look Latin; "" if it is what it seems."""
    if written.isascii():
        return ""
    twin = written.translate(LOOK_ALIKE)
    return twin if twin.isascii() and twin != written else ""
