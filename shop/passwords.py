"""Password validators in addition to Django's. Each refusal is a sentence of the catalogue."""

import re
from typing import Any

from django.core.exceptions import ValidationError

from shop.words import say

LONGEST = 256  # characters, the limit of the sign-in form
DIFFERENT = 5
SHORTEST = 3  # letters of a word of the person's own that counts
BESIDE = 4  # characters that a password must have in addition to the person's own name or address


class NotTooLong:
    def validate(self, password: str, user: Any = None) -> None:
        if len(password) > LONGEST:
            raise ValidationError(say("password.too_long", n=LONGEST), code="password_too_long")

    def get_help_text(self) -> str:
        return say("password.too_long", n=LONGEST)


class NotAlwaysTheSame:
    """Refuses a password of too few different characters, such as twelve blanks."""

    def validate(self, password: str, user: Any = None) -> None:
        if len(set(password) - {" "}) < DIFFERENT:
            raise ValidationError(say("password.too_plain", n=DIFFERENT), code="password_too_plain")

    def get_help_text(self) -> str:
        return say("password.too_plain", n=DIFFERENT)


class NotThePersons:
    """Refuses the person's name, e-mail address, or words of both in any order, with next to nothing added."""

    def validate(self, password: str, user: Any = None) -> None:
        typed = _bare(password)
        if typed and len(_without(typed, _own_words(user))) < min(BESIDE, len(typed)):
            raise ValidationError(say("password.own"), code="password_is_own")
        own = [_bare(text) for text in (getattr(user, "email", ""), getattr(user, "name", "")) if text]
        own += [_bare(part) for part in getattr(user, "email", "").split("@")]
        for text in own:
            within = len(text) > BESIDE and text in typed and len(typed) - len(text) < BESIDE
            if typed and (typed in text or within):
                raise ValidationError(say("password.own"), code="password_is_own")

    def get_help_text(self) -> str:
        return say("password.own")


def _own_words(user: Any) -> list[str]:
    """The words of the person's name and e-mail address, the longest first."""
    texts = f"{getattr(user, 'email', '')} {getattr(user, 'name', '')}".casefold()
    words = {word for word in re.split(r"[\W_]+", texts) if len(word) >= SHORTEST}
    return sorted(words, key=lambda word: (-len(word), word))


def _without(typed: str, words: list[str]) -> str:
    for word in words:
        typed = typed.replace(word, "")
    return typed


def _bare(text: str) -> str:
    return "".join(letter for letter in text.casefold() if letter.isalnum())
