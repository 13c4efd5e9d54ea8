from typing import get_args

from quotes.access import STATES
from quotes.answers.rows import QuoteState
from quotes.answers.search import State
from shop.models.jobs import JobState


def test_the_states_of_the_document_are_those_of_the_rows() -> None:
    assert set(QuoteState.values) == set(STATES)
    assert set(get_args(State)) == {*STATES, *JobState.values}
