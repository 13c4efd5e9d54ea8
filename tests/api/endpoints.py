"""The API's endpoints as the router knows them: path as in the document, and the methods that each has."""

from collections.abc import Iterator
from typing import Any

from django.urls import URLPattern, URLResolver, get_resolver

from shop.endpoint import Endpoint

METHODS = ("get", "post", "put", "patch", "delete")


def _walk(patterns: list[Any], prefix: str = "/") -> Iterator[tuple[str, type[Endpoint]]]:
    for entry in patterns:
        route = prefix + str(entry.pattern)
        if isinstance(entry, URLResolver):
            yield from _walk(entry.url_patterns, route)
        elif isinstance(entry, URLPattern):
            view = getattr(entry.callback, "view_class", None)
            if view is not None and issubclass(view, Endpoint) and view.in_a_shop:
                yield _named(route), view


def _named(route: str) -> str:
    """'<uuid:id>' as the document writes it: '{id}'."""
    parts = [f"{{{part.split(':')[-1].rstrip('>')}}}" if part.startswith("<") else part for part in route.split("/")]
    return "/".join(parts)


VIEWS: dict[str, type[Endpoint]] = dict(_walk(get_resolver().url_patterns))


def endpoints() -> list[tuple[str, str]]:
    return [(path, method) for path, view in VIEWS.items() for method in METHODS if hasattr(view, method)]
