"""The choices that a quote leaves to the customer, and every selection of their options.

A selection is the ids of the options that are taken, in the order of the quote. The workshop proposes one of them: the
preselected options.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import reduce
from itertools import product
from operator import mul
from typing import Any

ONE, ANY = "one", "any"
Selection = tuple[str, ...]


@dataclass(frozen=True, slots=True)
class OfferedOption:
    id: str
    title: str
    preselected: bool
    has_lines: bool = True


@dataclass(frozen=True, slots=True)
class OfferedChoice:
    """A choice of which the customer takes exactly one option (`one`), or any number of them (`any`)."""

    id: str
    title: str
    take: str
    options: tuple[OfferedOption, ...]

    @property
    def incomplete(self) -> bool:
        """Returns whether there is nothing to choose from yet."""
        return len(self.options) < (2 if self.take == ONE else 1)

    @property
    def without_lines(self) -> tuple[OfferedOption, ...]:
        """The options of `any` without lines, which give the customer nothing.

        In a choice of one, such an option can mean no change.
        """
        return tuple(option for option in self.options if self.take == ANY and not option.has_lines)

    @property
    def proposed(self) -> Selection:
        """The preselected options. In a choice of one, the first preselected one, else the first option."""
        taken = tuple(option.id for option in self.options if option.preselected)
        if self.take == ANY:
            return taken
        return taken[:1] or tuple(option.id for option in self.options[:1])

    @property
    def ways(self) -> int:
        """The number of possible answers."""
        return 2 ** len(self.options) if self.take == ANY else max(len(self.options), 1)


Choices = Sequence[OfferedChoice]


def proposed(choices: Choices) -> Selection:
    """The selection that the workshop proposes; it is shown first."""
    return tuple(id for choice in choices for id in choice.proposed)


def ways(choices: Choices) -> int:
    """The number of selections; 1 without choices."""
    return reduce(mul, (choice.ways for choice in choices), 1)


def selections(choices: Choices) -> tuple[Selection, ...]:
    """Every selection, the proposed one first. A caller asks for `ways` before: they double with every option."""
    first = proposed(choices)
    combined = (sum(answers, ()) for answers in product(*(_answers(choice) for choice in choices)))
    return (first, *(selection for selection in combined if selection != first))


def _answers(choice: OfferedChoice) -> Iterator[Selection]:
    if choice.take == ONE:
        yield from ((option.id,) for option in choice.options) if choice.options else ((),)
        return
    for answers in product((False, True), repeat=len(choice.options)):
        yield tuple(option.id for option, taken in zip(choice.options, answers, strict=True) if taken)


def changed(choices: Choices, selection: Selection, option: str) -> Selection:
    """The selection after one change: this option in place of its neighbours, or of `any` added or left out.

    Of a choice of one the option that is taken already changes nothing.
    """
    taken = set(selection)
    for choice in choices:
        ids = {other.id for other in choice.options}
        if option in ids:
            taken = (taken - ids) | {option} if choice.take == ONE else taken ^ {option}
    return tuple(other.id for choice in choices for other in choice.options if other.id in taken)


@dataclass(frozen=True, slots=True)
class OptionChange:
    """The selections before and after an option is taken, the rest left as it is.

    `chosen` is the selection with it, `without` that with what is proposed in its place, which for an option of `any`
    is none. `turned` is the selection after a customer presses the option, `taken` whether the shown selection has it.
    """

    option: OfferedOption
    taken: bool
    proposed: bool
    chosen: Selection
    without: Selection
    turned: Selection


def option_changes(choices: Choices, selection: Selection) -> dict[str, OptionChange]:
    """The selection by the ids of the options."""
    first = proposed(choices)
    return {
        option.id: _change(choices, choice, option, selection, first) for choice in choices for option in choice.options
    }


def _change(
    choices: Choices, choice: OfferedChoice, option: OfferedOption, selection: Selection, first: Selection
) -> OptionChange:
    turned = changed(choices, selection, option.id)
    taken = option.id in selection
    if choice.take == ONE:
        chosen, without = turned, changed(choices, selection, choice.proposed[0])
    else:
        chosen, without = (selection, turned) if taken else (turned, selection)
    return OptionChange(option, taken, option.id in first, chosen, without, turned)


def choices_from(content: Sequence[Mapping[str, Any]], first: Sequence[str]) -> tuple[OfferedChoice, ...]:
    """The choices of a frozen text; `first` are the options of its first price."""
    return tuple(
        OfferedChoice(
            choice["id"],
            choice["title"],
            choice["take"],
            tuple(OfferedOption(option["id"], option["title"], option["id"] in first) for option in choice["options"]),
        )
        for choice in content
    )
