"""One filled installation a run; each drill works on a copy of it."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from tests.drills.installation import Installation, copied, filled, new_installation


@pytest.fixture(scope="session")
def seed(tmp_path_factory: pytest.TempPathFactory) -> tuple[Installation, dict[str, Any]]:
    installation = new_installation(tmp_path_factory.mktemp("seed") / "var")
    return installation, filled(installation)


@pytest.fixture
def world(seed: tuple[Installation, dict[str, Any]]) -> dict[str, Any]:
    return seed[1]


@pytest.fixture
def installation(seed: tuple[Installation, dict[str, Any]], tmp_path: Path) -> Installation:
    return copied(seed[0], tmp_path / "var")


@pytest.fixture
def elsewhere(tmp_path: Path) -> Callable[[], Installation]:
    """Makes an empty installation on another machine, as it were."""
    installations: list[Installation] = []

    def make() -> Installation:
        installations.append(new_installation(tmp_path / f"elsewhere-{len(installations)}"))
        return installations[-1]

    return make
