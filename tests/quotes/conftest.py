from collections.abc import Iterator

import pytest

from tests.cast import Cast
from tests.quotes.stage import Stage, make_stage, watched


@pytest.fixture
def stage(cast: Cast, request: pytest.FixtureRequest) -> Iterator[Stage]:
    with watched(make_stage(cast), request.function) as stage:
        yield stage
