"""A question about a whole column or a kind of row. A person answers it once for a file and its supplier."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from shop.tables.findings import Facts

Answers = Mapping[str, str]


@dataclass(frozen=True, slots=True)
class AnswerChoice:
    """A possible answer. `code` and `facts` are worded by the catalogue."""

    value: str
    code: str
    facts: Facts = ()


@dataclass(frozen=True, slots=True)
class FileQuestion:
    """A doubt about a file. `key` stays the same in each file of a supplier.

    `guess` is how the file is read until somebody answers. A question that is not `needed` counts as answered by its
    guess.
    """

    key: str
    code: str
    choices: tuple[AnswerChoice, ...]
    guess: str
    facts: Facts = ()
    sheet: str = ""
    column: str = ""
    needed: bool = True
    answer: str = ""

    @property
    def value(self) -> str:
        return self.answer or self.guess

    @property
    def open(self) -> bool:
        """True while the file cannot be imported without an answer."""
        return self.needed and not self.answer


def answered(question: FileQuestion, answers: Answers) -> FileQuestion:
    """The question with its answer, if there is one among its choices."""
    answer = answers.get(question.key, "")
    return replace(question, answer=answer) if any(choice.value == answer for choice in question.choices) else question
