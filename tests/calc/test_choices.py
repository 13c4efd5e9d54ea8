from hypothesis import given, settings
from hypothesis import strategies as st

from quotes.calc.choices import (
    ANY,
    ONE,
    Choices,
    OfferedChoice,
    OfferedOption,
    changed,
    option_changes,
    proposed,
    selections,
    ways,
)
from tests.examples import many


def choice(take: str, options: str) -> OfferedChoice:
    """'a B' are two options of which the second is preselected."""
    offered = tuple(OfferedOption(name.lower(), name, name.isupper()) for name in options.split())
    return OfferedChoice(options, options, take, offered)


PADS, EXTRAS = choice(ONE, "r F e"), choice(ANY, "c W")


def test_the_preselected_options_are_proposed() -> None:
    assert proposed([PADS, EXTRAS]) == ("f", "w")


def test_of_a_choice_of_one_exactly_one_is_proposed() -> None:
    assert proposed([choice(ONE, "a b")]) == ("a",)
    assert proposed([choice(ONE, "a B C")]) == ("b",)
    assert proposed([choice(ONE, "")]) == ()


def test_every_selection_comes_once_with_the_proposed_one_first() -> None:
    possible = selections([PADS, EXTRAS])
    assert possible[0] == ("f", "w") and len(possible) == len(set(possible)) == ways([PADS, EXTRAS]) == 12
    assert ("r",) in possible and ("e", "c", "w") in possible and ("c", "w") not in possible


def test_without_choices_there_is_one_selection() -> None:
    assert selections([]) == ((),) and ways([]) == 1
    assert selections([choice(ONE, "")]) == ((),) and ways([choice(ONE, "")]) == 1


def test_a_press_takes_one_in_place_of_its_neighbours_and_turns_any() -> None:
    both = [PADS, EXTRAS]
    assert changed(both, ("f", "w"), "r") == ("r", "w")
    assert changed(both, ("f", "w"), "f") == ("f", "w")
    assert changed(both, ("f", "w"), "c") == ("f", "c", "w")
    assert changed(both, ("f", "w"), "w") == ("f",)


def test_a_choice_needs_something_to_choose_from() -> None:
    assert [choice(ONE, text).incomplete for text in ("", "a", "a b")] == [True, True, False]
    assert [choice(ANY, text).incomplete for text in ("", "a")] == [True, False]


def test_an_option_of_any_needs_lines_and_one_of_one_may_mean_nothing_more() -> None:
    options = (OfferedOption("a", "a", False, has_lines=False), OfferedOption("b", "b", False))
    assert OfferedChoice("x", "x", ANY, options).without_lines == options[:1]
    assert OfferedChoice("x", "x", ONE, options).without_lines == ()


def test_a_change_is_told_against_what_is_proposed() -> None:
    changes = option_changes([PADS, EXTRAS], ("r", "c"))
    assert (changes["e"].chosen, changes["e"].without) == (("e", "c"), ("f", "c"))
    assert (changes["r"].taken, changes["r"].proposed, changes["f"].proposed) == (True, False, True)
    assert (changes["c"].chosen, changes["c"].without, changes["c"].turned) == (("r", "c"), ("r",), ("r",))
    assert (changes["w"].chosen, changes["w"].without, changes["w"].turned) == (
        ("r", "c", "w"),
        ("r", "c"),
        ("r", "c", "w"),
    )


@st.composite
def offers(draw: st.DrawFn) -> Choices:
    """Up to three choices of up to three options, each with a name of its own."""
    totals = []
    for at in range(draw(st.integers(0, 3))):
        names = " ".join(
            f"{letter}{at}" for letter in draw(st.lists(st.sampled_from("abcABC"), max_size=3, unique=True))
        )
        options = tuple(
            OfferedOption(f"{place}{name}", name, name[0].isupper()) for place, name in enumerate(names.split())
        )
        totals.append(OfferedChoice(str(at), names, draw(st.sampled_from([ONE, ANY])), options))
    return totals


@given(choices=offers())
@settings(max_examples=many(100))
def test_single_changes_reach_every_selection_and_nothing_else(choices: Choices) -> None:
    """The page leads, press by press, to selections that were priced."""
    every, reached = set(selections(choices)), {proposed(choices)}
    assert len(every) == ways(choices)
    waiting = list(reached)
    while waiting:
        for change in option_changes(choices, waiting.pop()).values():
            new = {change.chosen, change.without, change.turned} - reached
            reached |= new
            waiting += new
    assert reached == every
