"""Every sentence a person reads from the server, by key: `say("quote.sent", recipient=...)`.

The sentences stand in `words/en.toml` of each app. A missing key is an error, never an empty string on a screen.
"""

import tomllib
from functools import cache
from pathlib import Path
from typing import Any

PROJECT = Path(__file__).resolve().parents[2]


def _flat(table: dict[str, Any], prefix: str = "") -> dict[str, str]:
    found: dict[str, str] = {}
    for key, value in table.items():
        if isinstance(value, dict):
            found.update(_flat(value, f"{prefix}{key}."))
        else:
            found[prefix + key] = value
    return found


@cache
def catalogue() -> dict[str, str]:
    """key -> sentence, of every app."""
    found: dict[str, str] = {}
    for path in sorted(PROJECT.glob("*/words/en.toml")):
        for key, sentence in _flat(tomllib.loads(path.read_text("utf-8"))).items():
            assert key not in found, f"{key} stands in two catalogues"
            found[key] = sentence
    return found


def say(key: str, /, **facts: object) -> str:
    """The sentence with its facts. Given a stem, the fact `n` chooses between its `.one` and `.many`."""
    sentences = catalogue()
    if key not in sentences and "n" in facts:
        key = f"{key}.one" if str(facts["n"]) == "1" else f"{key}.many"
    return sentences[key].format(**facts)


def knows(key: str) -> bool:
    return key in catalogue()
