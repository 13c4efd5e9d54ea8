"""The errors that services raise: codes and facts, without a sentence.

`shop.api.problems` words them. Errors in the input of a calculation are in `shop.calc.errors`.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class FieldError:
    """A field of the request that cannot be used.

    `pointer` is a JSON pointer (RFC 6901), `key` names a sentence of the catalogue below `field.`. `words` replaces
    that sentence where the framework has worded the error.
    """

    pointer: str
    key: str = ""
    facts: Mapping[str, object] = field(default_factory=dict)
    words: str = ""


class RequestError(Exception):
    """A refused request: its HTTP status, the code of its sentence (below `problem.` in the catalogue), its facts."""

    def __init__(self, status: int, code: str, fields: tuple[FieldError, ...] = (), **facts: object) -> None:
        super().__init__(code)
        self.status, self.code, self.fields, self.facts = status, code, fields, facts


def field_error(pointer: str, key: str, /, **facts: object) -> RequestError:
    """The refusal of a request because of one field."""
    return RequestError(400, "invalid", (FieldError(pointer, key, facts),))
