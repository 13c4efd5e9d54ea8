"""Compact storage of a revision's explanations: each sentence is stored once and referred to by its place."""

from collections.abc import Sequence
from typing import Any

Explanation = dict[str, Any]


def pack_explanations(explanations: Sequence[Explanation], sentences: Sequence[str] = ()) -> dict[str, Any]:
    """{sentences: those given, then others in order of first use; figures: explanations with places for sentences}"""
    places = {sentence: place for place, sentence in enumerate(sentences)}

    def place(sentence: str) -> int:
        return places.setdefault(sentence, len(places))

    figures = [
        explanation
        | {
            "rule": [place(sentence) for sentence in explanation["rule"]],
            "steps": [step | {"words": place(step["words"])} for step in explanation["steps"]],
        }
        for explanation in explanations
    ]
    return {"sentences": list(places), "figures": figures}


def unpack_explanations(frozen: dict[str, Any] | list[Explanation]) -> list[Explanation]:
    """The inverse of `pack_explanations`. Older revisions have a list, with the sentences in every figure."""
    if isinstance(frozen, list):
        return frozen
    sentences = frozen["sentences"]
    return [
        explanation
        | {
            "rule": [sentences[place] for place in explanation["rule"]],
            "steps": [step | {"words": sentences[step["words"]]} for step in explanation["steps"]],
        }
        for explanation in frozen["figures"]
    ]
