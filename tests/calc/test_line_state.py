"""Properties of line states; the worked cases are in fixtures/vectors/line-state.json."""

from hypothesis import given
from hypothesis import strategies as st

from kitting.calc.counting import Tally
from kitting.calc.line_figures import line_figures, line_standing
from kitting.calc.line_state import Flags, line_state

counts = st.integers(0, 9)
flags = st.builds(Flags, wrong_part=st.integers(0, 2), late=st.integers(0, 2), sealed=st.booleans())
kinds = st.sampled_from(["box", "beside", "need", "reused"])
settled = st.tuples(counts, counts).map(lambda pair: Tally(max(pair), min(pair), max(pair), False))

CALM = {"all_here", "untouched", "sealed"}


@given(counts, st.one_of(st.none(), settled), kinds, flags)
def test_something_is_always_said_and_nothing_twice(expected, tally, kind, given_flags):
    codes = [code for code, _ in line_state(expected, tally, kind, given_flags)]
    assert codes
    assert len(codes) == len(set(codes))
    assert ("beside" in codes) == (kind == "beside")


@given(counts, settled, kinds)
def test_the_numbers_account_for_every_piece(expected, tally, kind):
    states = dict(line_state(expected, tally, kind))
    assert states.get("damaged", 0) == tally.damaged
    assert tally.total == expected - states.get("short", 0) + states.get("over", 0)


@given(counts, settled, kinds, flags)
def test_a_calm_word_never_stands_beside_a_difference(expected, tally, kind, given_flags):
    codes = {code for code, _ in line_state(expected, tally, kind, given_flags)}
    assert not (codes & CALM and codes - CALM - {"late"})


@given(counts, settled, kinds, flags)
def test_count_again_comes_first_and_no_figure_after_it(expected, tally, kind, given_flags):
    unsettled = Tally(tally.total + 1, tally.damaged, tally.total, True)
    first, *others = line_state(expected, unsettled, kind, given_flags)
    assert first == ("count_again", 1)
    assert {code for code, _ in others} <= {"wrong_part", "late", "beside"}


lines = st.builds(line_standing, counts, st.one_of(st.none(), settled), kinds, flags)


@given(st.lists(lines, max_size=6))
def test_counted_and_not_counted_are_all_lines(several):
    figures = line_figures(several)
    assert figures.counted + figures.not_counted == figures.lines == len(several)
    assert figures.sealed + figures.differ + figures.count_again <= len(several)


@given(counts, settled, kinds)
def test_a_counted_line_differs_when_its_total_does_or_a_piece_is_damaged(expected, tally, kind):
    assert line_standing(expected, tally, kind).differs == (tally.total != expected or tally.damaged > 0)


@given(counts, st.one_of(st.none(), settled), kinds, st.integers(1, 2))
def test_a_line_with_a_wrong_part_note_differs(expected, tally, kind, notes):
    assert line_standing(expected, tally, kind, Flags(wrong_part=notes)).differs


@given(counts, settled, kinds, flags)
def test_a_line_to_count_again_is_not_a_difference_by_its_figures(expected, tally, kind, given_flags):
    unsettled = Tally(tally.total + 1, tally.damaged, tally.total, True)
    standing = line_standing(expected, unsettled, kind, given_flags)
    assert standing.count_again
    assert standing.differs == (given_flags.wrong_part > 0)
    assert not standing.sealed


def test_the_figures_of_a_bag_are_numbers_of_lines():
    bag = [
        line_standing(6, Tally(6, 0, 6, False), "box"),
        line_standing(6, Tally(5, 2, 5, False), "box"),
        line_standing(4, Tally(2, 0, 2, False), "box"),
        line_standing(4, Tally(4, 0, 4, False), "box", Flags(sealed=True)),
        line_standing(4, Tally(4, 0, 3, True), "box"),
        line_standing(2, None, "box", Flags(late=1)),
    ]
    figures = line_figures(bag)
    assert (figures.counted, figures.not_counted, figures.differ) == (5, 1, 2)
    assert (figures.short, figures.damaged, figures.over, figures.wrong_part) == (2, 1, 0, 0)
    assert (figures.sealed, figures.count_again, figures.late) == (1, 1, 1)
