"""Vehicle identification numbers: a warning, never a refusal.

The check digit is the one of 49 CFR 565.15; the characters are those of ISO 3779.
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
    """`vin` normalised; `suggestion` only for a malformed one; both model years its tenth mark may mean."""

    vin: str
    status: VinStatus
    suggestion: str | None = None
    model_years: tuple[int, ...] = ()


def check_vin(vin: str, market: str | None = None) -> VinCheck:
    """What can be said of `vin`; only `north_america` (or no market stated) has its check digit judged."""
    vin = normalise_vin(vin)
    if not _well_formed(vin):
        return VinCheck(vin, VinStatus.MALFORMED, _suggestion(vin))
    return VinCheck(vin, _check_digit_status(vin, market), None, _YEARS.get(vin[9], ()))


def normalise_vin(vin: str) -> str:
    """Upper case, without white space and hyphens, also inside."""
    return "".join(mark for mark in vin.upper() if not mark.isspace() and mark not in _HYPHENS)


def _well_formed(vin: str) -> bool:
    return len(vin) == 17 and _ALPHABET.issuperset(vin)


def _suggestion(vin: str) -> str | None:
    suggestion = vin.translate(_MISREAD)
    return suggestion if _well_formed(suggestion) else None


def _check_digit_status(vin: str, market: str | None) -> VinStatus:
    if vin[8] not in "0123456789X" or market not in (None, _CHECKED_MARKET):
        return VinStatus.NOT_CHECKABLE
    return VinStatus.VALID if vin[8] == _check_digit(vin) else VinStatus.CHECK_DIGIT_WRONG


def _check_digit(vin: str) -> str:
    remainder = sum(_VALUES[mark] * weight for mark, weight in zip(vin, _WEIGHTS, strict=True)) % 11
    return "X" if remainder == 10 else str(remainder)
