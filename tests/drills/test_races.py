"""Acts that race for one row, on the database of the run: invariants that hold whichever is first.

The acts of a race begin at the same instant, each on a thread and a connection of its own, through the service or
over HTTP. No test looks at who won or how long it took. The short form runs each race once, the long form many times.
"""

from collections.abc import Callable
from typing import Any

import pytest

from tests.cast import make_cast
from tests.drills import floor_races, quote_races
from tests.quotes.stage import Stage, make_stage
from tests.quotes.test_race import one_round

ROUNDS = 40
OF_ACCEPTANCE = 500
RACES = [*quote_races.RACES, *floor_races.RACES]


@pytest.fixture
def stage(transactional_db: None, settings: Any) -> Stage:
    settings.SIGN_IN_TRIES = floor_races.SIGN_IN_TRIES
    return make_stage(make_cast())


def test_each_race_has_one_outcome(stage: Stage) -> None:
    for run in RACES:
        run(stage)


@pytest.mark.drill
@pytest.mark.parametrize("run", RACES, ids=lambda run: run.__name__)
def test_a_race_has_one_outcome_however_often(stage: Stage, run: Callable[[Stage], None]) -> None:
    for _ in range(ROUNDS):
        run(stage)


@pytest.mark.drill
def test_one_acceptance_counts_in_five_hundred_rounds(stage: Stage) -> None:
    for _ in range(OF_ACCEPTANCE):
        one_round(stage)
