"""Query parameters with their JSON Schemas, which accept exactly what the server reads."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from typing import Any

from rest_framework.pagination import CursorPagination
from rest_framework.request import Request

from shop.errors import field_error

UUID_TEXT = {"type": "string", "format": "uuid"}
YES_OR_NO = ("no", "yes")


@dataclass(frozen=True, slots=True)
class Query:
    """A query parameter: its description and its JSON Schema."""

    words: str
    schema: Mapping[str, Any]
    required: bool = False


def one_of(words: str, values: Iterable[str]) -> Query:
    return Query(words, {"type": "string", "enum": sorted(values)})


def archived_only(plural: str) -> Query:
    return one_of(f"yes: only archived {plural}; else those that are not", YES_OR_NO)


def wants_archived(request: Request) -> bool:
    """Returns whether `archived` asks for archived rows. Refuses what is neither yes nor no."""
    answer = request.query_params.get("archived", "no")
    if answer not in YES_OR_NO:
        raise field_error("/archived", "yes_or_no")
    return bool(answer == "yes")


def whole(words: str, least: int, most: int) -> Query:
    return Query(words, {"type": "integer", "minimum": least, "maximum": most})


def an_id(words: str) -> Query:
    return Query(words, UUID_TEXT)


def text_like(words: str, pattern: str) -> Query:
    return Query(words, {"type": "string", "pattern": pattern})


def required(query: "str | Query") -> Query:
    """The parameter, marked as required; the view refuses a request without it."""
    return replace(as_query(query), required=True)


def as_query(query: "str | Query") -> Query:
    """The parameter as a Query; one with only a description accepts any text."""
    return query if isinstance(query, Query) else Query(query, {"type": "string"})


class Pages(CursorPagination):
    """Keyset pagination; the next page stands in the Link header, never in the body."""

    page_size = 50
    page_size_query_param = "limit"
    max_page_size = 200
    invalid_cursor_message = "cursor"


MOST_ASKED = 10**9 - 1  # of a whole number in a query
OF_PAGES = {
    "cursor": text_like("the next page, from the Link header", r"^[A-Za-z0-9+/=_%-]*$"),
    "limit": whole("rows a page; at most 200 come", 1, MOST_ASKED),
}
