"""The error that every calculation raises: a stable code and the name of its cause."""


class CalculationError(ValueError):
    """Raised by every calculation for an input that it refuses.

    `code` is a stable slug. `culprit` names the cause: a code, an id or a figure. Neither is a sentence for a person:
    the caller looks up the words.
    """

    def __init__(self, code: str, culprit: str) -> None:
        super().__init__(f"{code}: {culprit}")
        self.code = code
        self.culprit = culprit

    def __reduce__(self) -> tuple[type["CalculationError"], tuple[str, str]]:
        return type(self), (self.code, self.culprit)
