"""Reads the vehicles that a kit is for as a person types them."""

from typing import Any

from shop.queries.entries import EntryError, read_texts


def typed_conditions(text: str) -> list[dict[str, Any]]:
    """The conditions of a text such as "model=T35; drive=rear". Raises EntryError at `fits` if it is refused."""
    values, findings = read_texts(kind="kits", table="kits", texts={"fits": text})
    if "fits" not in values and findings:
        raise EntryError(findings)
    return [{"attribute": name, "in": list(accepted)} for name, accepted in values.get("fits", ())]
