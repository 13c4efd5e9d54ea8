"""Plausibility of vehicle identification numbers, as a warning: the calculation named vin (fixtures/vectors/vin.json).

Units: characters; places count from 1. The check digit is defined in 49 CFR 565.15, the character set in ISO 3779.
"""

from dataclasses import dataclass
from enum import StrEnum

_ALPHABET = frozenset("0123456789ABCDEFGHJKLMNPRSTUVWXYZ")
_HYPHENS = "-\u2010\u2011"
_MISREAD = str.maketrans("IOQ", "100")
_VALUES = {str(digit): digit for digit in range(10)} | dict(
    zip(
        "ABCDEFGHJKLMNPRSTUVWXYZ",
        (1, 2, 3, 4, 5, 6, 7, 8, 1, 2, 3, 4, 5, 7, 9, 2, 3, 4, 5, 6, 7, 8, 9),
        strict=True,
    )
)
_WEIGHTS = (8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2)
_YEARS = {mark: (1980 + at, 2010 + at) for at, mark in enumerate("ABCDEFGHJKLMNPRSTVWXY123456789")}
_CHECKED_MARKET = "north_america"


class VinStatus(StrEnum):
    MALFORMED = "malformed"
    NOT_CHECKABLE = "not_checkable"
    CHECK_DIGIT_WRONG = "check_digit_wrong"
    VALID = "valid"


@dataclass(frozen=True, slots=True)
class VinCheck:
    """The normalised `vin` and its status.

    `suggestion` is only set for a malformed one. `model_years` are the two years that its tenth character may stand
    for.
    """

    vin: str
    status: VinStatus
    suggestion: str | None = None
    model_years: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class CheckTerm:
    """The value of one character and the weight of its place. The check digit's own place has weight 0."""

    value: int
    weight: int


@dataclass(frozen=True, slots=True)
class CheckSum:
    """The weighted sum, its remainder modulo 11, and the character that the remainder stands for at place 9."""

    terms: tuple[CheckTerm, ...]
    total: int
    remainder: int
    digit: str


def check_vin(vin: str, market: str | None = None) -> VinCheck:
    """The check of `vin`. The check digit is judged only for the market `north_america`, or without a market.

    Refuses nothing: a VIN that looks wrong is a warning.
    """
    vin = normalise_vin(vin)
    if not _well_formed(vin):
        return VinCheck(vin, VinStatus.MALFORMED, _suggestion(vin))
    return VinCheck(vin, _check_digit_status(vin, market), None, _YEARS.get(vin[9], ()))


def normalise_vin(vin: str) -> str:
    """The VIN in upper case, without any white space or hyphens."""
    return "".join(mark for mark in vin.upper() if not mark.isspace() and mark not in _HYPHENS)


def _well_formed(vin: str) -> bool:
    return len(vin) == 17 and _ALPHABET.issuperset(vin)


def _suggestion(vin: str) -> str | None:
    suggestion = vin.translate(_MISREAD)
    return suggestion if _well_formed(suggestion) else None


def _check_digit_status(vin: str, market: str | None) -> VinStatus:
    if vin[8] not in "0123456789X" or market not in (None, _CHECKED_MARKET):
        return VinStatus.NOT_CHECKABLE
    return VinStatus.VALID if vin[8] == check_sum(vin).digit else VinStatus.CHECK_DIGIT_WRONG


def check_sum(vin: str) -> CheckSum:
    """The check digit's calculation, step by step, for a well-formed VIN."""
    terms = tuple(CheckTerm(_VALUES[mark], weight) for mark, weight in zip(vin, _WEIGHTS, strict=True))
    total = sum(term.value * term.weight for term in terms)
    remainder = total % 11
    return CheckSum(terms, total, remainder, "X" if remainder == 10 else str(remainder))


def wrong_marks(vin: str) -> tuple[str, ...]:
    """The characters that no VIN may contain, each once, in order."""
    return tuple(dict.fromkeys(mark for mark in vin if mark not in _ALPHABET))
