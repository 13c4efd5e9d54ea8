"""Documents of the Universal Business Language in tests: read, added up, and held against the published schemas."""

from decimal import Decimal
from functools import cache
from typing import Any
from xml.etree.ElementTree import Element

from defusedxml import ElementTree
from lxml import etree

from tests.standards import folder

NAMES = {
    "cbc": "urn:oasis:names:specification:ubl:schema:xsd:CommonBasicComponents-2",
    "cac": "urn:oasis:names:specification:ubl:schema:xsd:CommonAggregateComponents-2",
}


@cache
def schema(name: str) -> Any:
    """The published schema of a document."""
    where = folder()
    assert where is not None
    return etree.XMLSchema(etree.parse(where / "ubl-2.4" / "xsdrt" / "maindoc" / f"UBL-{name}-2.4.xsd"))


def faults(body: bytes, name: str) -> list[str]:
    """The errors that the schema finds in a document; empty for a valid one, and where the schemas are not at hand.

    A test marked `standards` says when they are not.
    """
    if folder() is None:
        return []
    checker = schema(name)
    checker.validate(etree.fromstring(body))
    return [f"{error.line}: {error.message}" for error in checker.error_log]


def read(body: bytes) -> Element:
    root: Element = ElementTree.fromstring(body)
    return root


def texts(parent: Element, path: str) -> list[str]:
    return [element.text or "" for element in parent.findall(path, NAMES)]


def text(parent: Element, path: str) -> str:
    return next(iter(texts(parent, path)), "")


def amount(parent: Element, path: str) -> Decimal:
    return sum(map(Decimal, texts(parent, path)), Decimal(0))
