"""The explanations of a revision as its frozen text keeps them: each sentence once, and its place in the figures."""

from collections.abc import Sequence
from typing import Any

Explanation = dict[str, Any]


def pack_explanations(known: Sequence[Explanation], said: Sequence[str] = ()) -> dict[str, Any]:
    """{sentences: those `said` before, then in the order they are first said; figures: explanations that name a
    sentence by its place}"""
    places = {sentence: place for place, sentence in enumerate(said)}

    def place(sentence: str) -> int:
        return places.setdefault(sentence, len(places))

    figures = [
        each
        | {
            "rule": [place(sentence) for sentence in each["rule"]],
            "steps": [step | {"words": place(step["words"])} for step in each["steps"]],
        }
        for each in known
    ]
    return {"sentences": list(places), "figures": figures}


def unpack_explanations(how: dict[str, Any] | list[Explanation]) -> list[Explanation]:
    """The inverse of `to_keep`. Revisions sent before it have a list, with the sentences in every figure."""
    if isinstance(how, list):
        return how
    said = how["sentences"]
    return [
        each
        | {
            "rule": [said[place] for place in each["rule"]],
            "steps": [step | {"words": said[step["words"]]} for step in each["steps"]],
        }
        for each in how["figures"]
    ]
