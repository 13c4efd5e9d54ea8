"""Limits the size of the app's initial JavaScript and of each screen's chunk.

Sizes are of `gzip -9`, in bytes. They are read from the build that `make setup` makes.
"""

import gzip
import json
from pathlib import Path
from typing import Any

import pytest
from django.conf import settings

FIRST = 40_000
SCREEN = 15_000


@pytest.fixture(scope="module")
def manifest() -> dict[str, Any]:
    path = Path(settings.FRONT) / ".vite" / "manifest.json"
    if not path.exists():
        pytest.fail("the front end is not built: run `make setup`")
    built: dict[str, Any] = json.loads(path.read_text("utf-8"))
    return built


def size_of(chunk: dict[str, Any]) -> int:
    return len(gzip.compress((Path(settings.FRONT) / chunk["file"]).read_bytes(), 9))


def loaded_with(name: str, manifest: dict[str, Any]) -> set[str]:
    """The chunk and all that it imports at once."""
    chunks, waiting = set[str](), [name]
    while waiting:
        chunk = waiting.pop()
        if chunk not in chunks:
            chunks.add(chunk)
            waiting += manifest[chunk].get("imports", ())
    return chunks


def test_the_first_javascript_stays_small(manifest: dict[str, Any]) -> None:
    sizes = {name: size_of(manifest[name]) for name in loaded_with("index.html", manifest)}
    assert len(sizes) > 1 and sum(sizes.values()) <= FIRST, sizes


def test_each_lazy_screen_stays_small(manifest: dict[str, Any]) -> None:
    screens = {name: value for name, value in manifest.items() if name.startswith("src/places/")}
    assert {"src/places/parts/list/PullList.svelte", "src/places/counter/quote/Quote.svelte"} <= set(screens)
    sizes = {name: size_of(value) for name, value in screens.items() if value["file"].endswith(".js")}
    assert {name: size for name, size in sizes.items() if size > SCREEN} == {}
