"""Line states: what holds beside the worked cases (fixtures/vectors/line-state.json)."""

from hypothesis import given
from hypothesis import strategies as st

from kitting.calc.counting import Tally
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
    said = dict(line_state(expected, tally, kind))
    usable = tally.total - said.get("damaged", 0)
    assert usable == expected - said.get("short", 0) + said.get("over", 0)


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
