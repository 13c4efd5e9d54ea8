"""Reads the frozen text of a sent revision, and recomputes the total from that text alone."""

from collections.abc import Mapping, Sequence
from typing import Any

from quotes.calc.forms import read_text
from quotes.calc.frozen import document_from
from quotes.calc.kept_explanations import unpack_explanations
from quotes.calc.packing import unpacked
from quotes.models import Revision
from shop.calc.quantity import money
from shop.calc.tax import total_document


def read(revision: Revision) -> dict[str, Any]:
    """The document of a sent revision: that of the accepted price, else of the first price."""
    return opened(revision.snapshot, revision.combination or 0)


def opened(text: str, combination: int = 0) -> dict[str, Any]:
    """The document of one price in a frozen text of any form.

    `possible` holds every price of the text, in order, with its document; it is empty for a text with one price.
    `choices` holds those that the customer is left, in order.
    """
    base = read_text(text)
    several = base.pop("combinations", None)
    documents = _documents(base, several) if several else [base]
    facts: dict[str, Any] = {"possible": [], "undecided": None, "combination": combination, "choices": []}
    if several:
        if several["names"]:
            facts["undecided"] = {"title": several["title"], "names": several["names"]}
        facts["choices"] = several.get("choices", [])
        facts["possible"] = [
            {name: price[name] for name in ("stated", "words", "unfit")}
            | {"selection": price.get("selection", []), "document": document}
            for price, document in zip(several["of"], documents, strict=True)
        ]
    return {**documents[combination], **facts}


def reopened(document: Mapping[str, Any], combination: int) -> dict[str, Any]:
    """The same text, opened at another of its prices."""
    facts = {name: document[name] for name in ("possible", "undecided", "choices")}
    return {**document["possible"][combination]["document"], **facts, "combination": combination}


def _documents(base: dict[str, Any], several: Mapping[str, Any]) -> list[dict[str, Any]]:
    further = (price["document"] for price in several["of"][1:])
    documents = [base, *({**base, **unpacked(base, several["pieces"], combination)} for combination in further)]
    return [
        {**document, "vehicle": _with_stated(document["vehicle"], combination["stated"])}
        for document, combination in zip(documents, several["of"], strict=True)
    ]


def _with_stated(vehicle: Mapping[str, Any], stated: Sequence[Sequence[str | None]]) -> dict[str, Any]:
    attributes = dict(vehicle["attributes"]) | {name: value for name, value in stated if value is not None}
    return {**vehicle, "attributes": [[name, value] for name, value in sorted(attributes.items())]}


def selection_of(document: Mapping[str, Any]) -> list[str]:
    """The ids of the options in the document that was opened; empty for a quote without choices."""
    return list(document["possible"][document["combination"]]["selection"]) if document["possible"] else []


def asked_places(document: Mapping[str, Any]) -> list[int]:
    """The places of the prices with the options of the opened document, one for each answer about the vehicle."""
    if not document["possible"]:
        return [0]
    taken = selection_of(document)
    return [place for place, price in enumerate(document["possible"]) if price["selection"] == taken]


def place_with(document: Mapping[str, Any], selection: Sequence[str]) -> int:
    """The place of the price with these options, for the same vehicle as the opened document."""
    stated = document["possible"][document["combination"]]["stated"]
    return next(
        place
        for place, price in enumerate(document["possible"])
        if price["selection"] == list(selection) and price["stated"] == stated
    )


def can_be_accepted(possible: Mapping[str, Any]) -> bool:
    """Returns whether a price can be accepted: every kit fits, and every stated value has a name."""
    return not possible["unfit"] and all(value is not None for _, value in possible["stated"])


def gross_of(frozen_text: dict[str, Any]) -> str:
    """The total with tax, recomputed from the inputs in the frozen text alone."""
    document = document_from(frozen_text["inputs"])
    return money(total_document(document).gross, document.exponent)


def kept_hours(document: Mapping[str, Any]) -> dict[str, dict[str, Any]]:
    """{key of an operation: explanation of its hours}; empty for a revision without stored explanations."""
    return {explanation["key"]: explanation for explanation in unpack_explanations(document.get("hours", []))}
