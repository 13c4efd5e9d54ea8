"""Answers and words for the photographs of a quote's lines."""

from collections.abc import Sequence
from dataclasses import dataclass

from quotes.answers.line_photographs import LinePhotographOut
from quotes.calc.forms import FrozenContent
from quotes.models import LinePhotograph
from shop.words import say


@dataclass(frozen=True, slots=True)
class LinePictures:
    """The photographs of a line that its customer sees: the words that open them, and those on paper."""

    words: str
    on_paper: str
    pictures: Sequence[FrozenContent]


def photograph_answer(row: LinePhotograph) -> LinePhotographOut:
    return LinePhotographOut(
        id=row.pk, line=row.line_id, caption=row.caption, shown=row.shown, width=row.width, height=row.height
    )


def line_pictures(document: FrozenContent) -> dict[str, LinePictures]:
    """Maps the lines of a frozen text to their photographs; empty for a text without any."""
    by_line: dict[str, list[FrozenContent]] = {}
    for picture in document.get("photographs", ()):
        by_line.setdefault(picture["line"], []).append(picture)
    return {line: _pictures(pictures) for line, pictures in by_line.items()}


def _pictures(pictures: Sequence[FrozenContent]) -> LinePictures:
    captions = "; ".join(picture["caption"] for picture in pictures)
    return LinePictures(
        words=say("customer.line_photographs", n=len(pictures), captions=captions),
        on_paper=say("paper.line_photographs", n=len(pictures), captions=captions),
        pictures=pictures,
    )
