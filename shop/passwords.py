"""Password validators in addition to Django's. Each refusal is a sentence of the catalogue."""

from dataclasses import dataclass
from typing import Any

from django.core.exceptions import ValidationError

from shop.words import say

LONGEST = 256  # characters, the limit of the sign-in form
DIFFERENT = 5
SHORTEST = 3  # letters in a row that count as a piece of the person's own texts
ADDED = 4  # letters that a password must have in addition to such pieces


@dataclass(frozen=True, slots=True)
class PasswordOwner:
    """The texts of a person of which a password may not consist."""

    name: str
    email: str
    workshops: tuple[str, ...]


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
    """Refuses pieces of the person's name, e-mail address and workshops, in any order, with next to nothing added.

    Counts the letters that stand in no run of `SHORTEST` letters of one of these texts.
    """

    def validate(self, password: str, user: Any = None) -> None:
        typed = _bare(password)
        if len(typed) - len(_covered(typed, _own_texts(user))) < min(ADDED, len(typed)):
            raise ValidationError(say("password.own"), code="password_is_own")

    def get_help_text(self) -> str:
        return say("password.own")


def _own_texts(user: Any) -> list[str]:
    texts = [getattr(user, "email", ""), getattr(user, "name", ""), *getattr(user, "workshops", ())]
    return [_bare(text) for text in texts]


def _covered(typed: str, texts: list[str]) -> set[int]:
    """The places of the letters that stand in a run of `SHORTEST` letters of one of the texts."""
    starts = range(len(typed) - SHORTEST + 1)
    runs = [start for start in starts if any(typed[start : start + SHORTEST] in text for text in texts)]
    return {place for start in runs for place in range(start, start + SHORTEST)}


def _bare(text: str) -> str:
    return "".join(letter for letter in text.casefold() if letter.isalnum())
