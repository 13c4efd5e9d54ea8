"""What a service raises when it cannot do what was asked: codes and facts, without a sentence.

`shop.api.problems` words them. Mistakes in the input of a calculation are `shop.calc.errors`.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class FieldError:
    """A field of the request that cannot be used.

    `pointer` is a JSON pointer (RFC 6901), `key` a sentence below `field.` of the catalogue. `words` stands in its
    place where somebody else worded it.
    """

    pointer: str
    key: str = ""
    facts: Mapping[str, object] = field(default_factory=dict)
    words: str = ""


class RequestError(Exception):
    """A request that is refused: its HTTP status, a sentence below `problem.` of the catalogue, and its facts."""

    def __init__(self, status: int, code: str, fields: tuple[FieldError, ...] = (), **facts: object) -> None:
        super().__init__(code)
        self.status, self.code, self.fields, self.facts = status, code, fields, facts


def field_error(pointer: str, key: str, /, **facts: object) -> RequestError:
    """The refusal of a request for one of its fields."""
    return RequestError(400, "invalid", (FieldError(pointer, key, facts),))
