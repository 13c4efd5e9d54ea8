from quotes.access import STATES
from quotes.answers.rows import QuoteState


def test_the_states_of_the_document_are_those_of_the_rows() -> None:
    assert set(QuoteState.values) == set(STATES)
