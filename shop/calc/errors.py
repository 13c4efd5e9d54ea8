"""How every calculation says no: a stable code and the thing that caused it."""


class CalculationError(ValueError):
    """Raised by every calculation for an input it cannot answer.

    `code` is a stable slug, `culprit` names what was wrong (a code, an id, a figure); neither is worded for
    a person: whoever catches it finds the words.
    """

    def __init__(self, code: str, culprit: str) -> None:
        super().__init__(f"{code}: {culprit}")
        self.code = code
        self.culprit = culprit

    def __reduce__(self) -> tuple[type["CalculationError"], tuple[str, str]]:
        return type(self), (self.code, self.culprit)
