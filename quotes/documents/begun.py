"""The total of a version when it was begun from the version before: the same choices at that day's prices and rules."""

from msgspec import to_builtins

from quotes.calc.difference import packed_lines, priced_lines
from quotes.calc.forms import FrozenContent
from quotes.presenters.figures import figures_answer
from quotes.queries.pricing import QuoteFigures


def begun_lines(figures: QuoteFigures, kits: list[FrozenContent]) -> FrozenContent:
    """The total and the lines of a version that was just begun, and the kits that have a newer version since."""
    content = to_builtins(figures_answer(figures))
    return {"gross": content["totals"]["gross"], "lines": packed_lines(priced_lines(content)), "kits": kits}
