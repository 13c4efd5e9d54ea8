"""Reads XML from an untrusted source into a tree whose elements know their line of the file.

A document type, an entity, a reference to something outside, too many levels or too many elements are refused while
they are read, before anything is built of them. The size of the file is bounded before (`reading.MAX_BYTES`).
"""

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any
from xml.etree.ElementTree import ParseError

from defusedxml.common import DefusedXmlException
from defusedxml.ElementTree import DefusedXMLParser

from shop.tables.findings import FileError

MOST_LEVELS = 30  # UBL's own examples have ten
MOST_ELEMENTS = 200_000


@dataclass(slots=True)
class XmlElement:
    """An element; `tag` is "{namespace}name", `line` counts from 1."""

    tag: str
    line: int
    attributes: dict[str, str]
    text: str = ""
    children: list["XmlElement"] = field(default_factory=list)

    @property
    def name(self) -> str:
        return self.tag.rpartition("}")[2]

    def all(self, path: str) -> Iterator["XmlElement"]:
        """The elements below it on a path of names, as in "Item/Name"."""
        first, _, rest = path.partition("/")
        for child in self.children:
            if child.name == first:
                if rest:
                    yield from child.all(rest)
                else:
                    yield child

    def first(self, *paths: str) -> "XmlElement | None":
        """The first element with a text on the first of these paths that leads to one."""
        return next((element for path in paths for element in self.all(path) if element.text), None)


def read_xml(body: bytes, root: str) -> XmlElement:
    """The root element, whose tag has to be `root`. Raises FileError for anything else, with the line it is in."""
    tree = _TreeBuilder(root)
    parser = DefusedXMLParser(target=tree, forbid_dtd=True)
    tree.position = parser.parser
    try:
        parser.feed(body)
        parser.close()
    except FileError:
        raise
    except DefusedXmlException:
        raise FileError("unsafe_xml") from None
    except (ParseError, LookupError, ValueError):
        raise FileError("broken_xml", line=tree.line) from None
    assert tree.root is not None, "a sound document has a root"
    return tree.root


class _TreeBuilder:
    """The parser's target: builds the tree and counts."""

    def __init__(self, tag: str) -> None:
        self.tag = tag
        self.position: Any = None
        self.root: XmlElement | None = None
        self.open: list[XmlElement] = []
        self.texts: list[list[str]] = []
        self.count = 0

    @property
    def line(self) -> int:
        return int(self.position.CurrentLineNumber)

    def start(self, tag: str, attributes: dict[str, str]) -> None:
        element = XmlElement(tag, self.line, attributes)
        if self.root is None:
            if tag != self.tag:
                raise FileError("another_xml", line=element.line, name=element.name[:60])
            self.root = element
        self.count += 1
        if len(self.open) >= MOST_LEVELS or self.count > MOST_ELEMENTS:
            raise FileError("xml_too_large", line=element.line)
        if self.open:
            self.open[-1].children.append(element)
        self.open.append(element)
        self.texts.append([])

    def data(self, text: str) -> None:
        if self.texts:
            self.texts[-1].append(text)

    def end(self, tag: str) -> None:
        self.open.pop().text = "".join(self.texts.pop()).strip()

    def close(self) -> None:
        """Does nothing: the tree is at `root`."""
