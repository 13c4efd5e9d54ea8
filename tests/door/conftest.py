import pytest

from tests.cast import Cast
from tests.quotes.stage import Stage, make_stage


@pytest.fixture
def stage(cast: Cast) -> Stage:
    return make_stage(cast)
