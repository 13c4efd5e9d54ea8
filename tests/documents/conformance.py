"""The demands of PDF/A-3 at level A (ISO 19005-3), as far as reading a file can tell.

No validator of PDF/A could be had, so this list stands in for one. It checks:

1. part 3 and conformance A in the metadata, with the title and the instant of what is printed;
2. marked as tagged, with a tree of tags that leads to the pages and holds a heading and a paragraph or a table;
3. a language of the whole document;
4. an output intent of PDF/A with its colour profile inside;
5. every font of every page embedded, with a map from its glyphs to letters;
6. every attached file with its relationship to the document and its media type;
7. no script, no encryption, no form and no address that is opened by itself.
"""

from collections.abc import Iterator
from typing import Any

from pypdf import PdfReader

FORBIDDEN = ("/AcroForm", "/OpenAction", "/AA", "/JavaScript")


def faults(reader: PdfReader, language: str = "en-GB") -> list[str]:
    """The demands that the file does not meet."""
    catalogue: Any = reader.trailer["/Root"]
    return [
        *_metadata(reader),
        *_tags(catalogue, len(reader.pages)),
        *([] if catalogue.get("/Lang") == language else ["language"]),
        *_output_intent(catalogue),
        *(f"font {name}" for page in reader.pages for name in _bare_fonts(page)),
        *_attachments(catalogue),
        *(f"forbidden {name}" for name in FORBIDDEN if name in catalogue or name in catalogue.get("/Names", {})),
        *(["encrypted"] if reader.is_encrypted else []),
    ]


def _metadata(reader: PdfReader) -> Iterator[str]:
    text = reader.trailer["/Root"]["/Metadata"].get_data().decode()  # type: ignore[index]
    for phrase in ('pdfaid:part="3"', 'pdfaid:conformance="A"'):
        if phrase not in text:
            yield phrase
    title = reader.metadata.title if reader.metadata else ""
    if not title or title not in text:
        yield "title"
    if reader.metadata is None or reader.metadata.creation_date is None:
        yield "instant"


def _tags(catalogue: Any, pages: int) -> Iterator[str]:
    if not catalogue.get("/MarkInfo", {}).get("/Marked"):
        yield "not marked as tagged"
    tags = list(_walk(catalogue.get("/StructTreeRoot", {})))
    kinds = {str(tag.get("/S")) for tag in tags}
    if not kinds & {"/H1", "/H2"} or not kinds & {"/P", "/Table"}:
        yield f"tags {sorted(kinds)}"
    marked = {tag.raw_get("/Pg").idnum for tag in tags if "/Pg" in tag}
    if len(marked) != pages:
        yield f"tags of {len(marked)} of {pages} pages"


def _walk(tag: Any) -> Iterator[Any]:
    """The tags below this one, itself included."""
    yield tag
    inner = tag.get("/K", [])
    for part in inner if isinstance(inner, list) else [inner]:
        part = part.get_object() if hasattr(part, "get_object") else part
        if isinstance(part, dict) and "/S" in part:
            yield from _walk(part)


def _output_intent(catalogue: Any) -> Iterator[str]:
    intents = [intent.get_object() for intent in catalogue.get("/OutputIntents", [])]
    if not [intent for intent in intents if intent.get("/S") == "/GTS_PDFA1" and intent.get("/DestOutputProfile")]:
        yield "output intent"


def _bare_fonts(page: Any) -> Iterator[str]:
    for font in page["/Resources"].get("/Font", {}).values():
        font = font.get_object()
        inner = font["/DescendantFonts"][0].get_object() if "/DescendantFonts" in font else font
        descriptor = inner.get("/FontDescriptor", {})
        if not [name for name in descriptor if name.startswith("/FontFile")] or "/ToUnicode" not in font:
            yield str(font.get("/BaseFont"))


def _attachments(catalogue: Any) -> Iterator[str]:
    files = [file.get_object() for file in catalogue.get("/AF", [])]
    if not files:
        yield "no attached file"
    for file in files:
        if file.get("/AFRelationship") != "/Data" or not file.get("/UF"):
            yield f"relationship of {file.get('/UF')}"
        if file["/EF"]["/F"].get("/Subtype") != "/application/json":
            yield f"media type of {file.get('/UF')}"
