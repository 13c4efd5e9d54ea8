"""Explains the check digit of a VIN with the numbers of that VIN."""

from shop.answers.explained import ExplainedOut, HowStepOut
from shop.calc.vin import VinCheck, VinStatus, check_sum, wrong_marks
from shop.words import say


def vin_explained(check: VinCheck) -> ExplainedOut | None:
    """Rule, steps and result for a VIN with a warning; None for one without."""
    if check.status == VinStatus.MALFORMED:
        return _malformed(check)
    if check.status == VinStatus.CHECK_DIGIT_WRONG:
        return _check_digit(check)
    return None


def _malformed(check: VinCheck) -> ExplainedOut:
    steps = [(say("vin.how.characters"), str(len(check.vin)))]
    if wrong := wrong_marks(check.vin):
        steps.append((say("vin.how.not_allowed"), ", ".join(wrong)))
    return _explained(["marks", "kept"], steps, say("vin.how.malformed"))


def _check_digit(check: VinCheck) -> ExplainedOut:
    worked = check_sum(check.vin)
    products = " + ".join(f"{term.value} × {term.weight}" for term in worked.terms if term.weight)
    steps = [
        (say("vin.how.values"), " ".join(str(term.value) for term in worked.terms)),
        (say("vin.how.sum", products=products), str(worked.total)),
        (say("vin.how.remainder", total=worked.total), str(worked.remainder)),
        (say("vin.how.should"), worked.digit),
        (say("vin.how.is"), check.vin[8]),
    ]
    return _explained(["digit", "ten", "kept"], steps, say("vin.how.wrong"))


def _explained(rule: list[str], steps: list[tuple[str, str]], result: str) -> ExplainedOut:
    return ExplainedOut(
        title=say("vin.how.title"),
        rule=[say(f"vin.how.rule.{code}") for code in rule],
        steps=[HowStepOut(words, figure) for words, figure in steps],
        result=result,
    )
