from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from quotes.calc.packing import LINES, packed, unpacked
from tests.examples import many

FRAME, OIL, COOLER = {"title": "frame"}, {"title": "oil"}, {"title": "cooler"}


def document(needs: list[Any], **more: Any) -> dict[str, Any]:
    return {"shown": {"needs": needs, "totals": {"gross": "1.00"}}, **more}


def test_a_line_that_both_have_is_written_once() -> None:
    pieces, (other,) = packed(document([FRAME, OIL]), [document([OIL, COOLER, FRAME])])
    assert pieces["shown.needs"] == [COOLER]
    assert other["shown"] == {"needs": [1, 2, 0], "totals": {"gross": "1.00"}}


def test_a_line_that_two_further_ones_have_is_written_once() -> None:
    pieces, others = packed(document([FRAME]), [document([COOLER]), document([FRAME, COOLER, COOLER])])
    assert pieces["shown.needs"] == [COOLER]
    assert [other["shown"]["needs"] for other in others] == [[1], [0, 1, 1]]


def test_sentences_go_on_from_those_of_the_base() -> None:
    base = document([], how={"sentences": ["a", "b"], "figures": []})
    other = document([], how={"sentences": ["a", "b", "c"], "figures": [{"rule": [2]}]})
    pieces, (further,) = packed(base, [other])
    assert further["how"] == {"sentences": ["c"], "figures": [0]}
    assert unpacked(base, pieces, further) == other


def test_what_a_document_lacks_it_does_not_gain() -> None:
    base = document([FRAME], circuits=[OIL])
    pieces, (further,) = packed(base, [document([FRAME])])
    assert unpacked(base, pieces, further) == document([FRAME])


LINE = st.fixed_dictionaries({"title": st.sampled_from("abc"), "price": st.sampled_from(["1", "2"])})


@st.composite
def documents(draw: st.DrawFn) -> dict[str, Any]:
    content: dict[str, Any] = {}
    for path in LINES:
        if draw(st.booleans()):
            *above, last = path.split(".")
            place = content
            for name in above:
                place = place.setdefault(name, {})
            place[last] = draw(st.lists(LINE, max_size=3))
    return content


@given(base=documents(), others=st.lists(documents(), max_size=3))
@settings(max_examples=many(100))
def test_unpacking_gives_back_what_was_packed(base: Any, others: Any) -> None:
    pieces, further = packed(base, others)
    assert [unpacked(base, pieces, document) for document in further] == others
    assert all(line not in (base.get(path, ())) for path, lines in pieces.items() for line in lines)
