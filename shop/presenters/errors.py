"""Sentences for the errors of calculations."""

from shop.calc.errors import CalculationError
from shop.words import knows, say


def calculation_words(error: CalculationError) -> str:
    key = f"calc.{error.code}"
    return say(key if knows(key) else "calc.other", code=error.code, culprit=error.culprit)
