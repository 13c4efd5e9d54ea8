"""The API's endpoints as the router knows them: path as in the document, and the methods that each has."""

from collections.abc import Iterator
from typing import Any

from django.urls import URLPattern, URLResolver, get_resolver

from shop.api.endpoint import Endpoint

METHODS = ("get", "post", "put", "patch", "delete")


def _walk(patterns: list[Any], prefix: str = "/", *, in_a_shop: bool = True) -> Iterator[tuple[str, type[Endpoint]]]:
    for entry in patterns:
        route = prefix + str(entry.pattern)
        if isinstance(entry, URLResolver):
            yield from _walk(entry.url_patterns, route, in_a_shop=in_a_shop)
        elif isinstance(entry, URLPattern):
            view = getattr(entry.callback, "view_class", None)
            if view is not None and issubclass(view, Endpoint) and view.in_a_shop is in_a_shop:
                yield _named(route), view


def _named(route: str) -> str:
    """'<uuid:id>' as the document writes it: '{id}'."""
    parts = [f"{{{part.split(':')[-1].rstrip('>')}}}" if part.startswith("<") else part for part in route.split("/")]
    return "/".join(parts)


VIEWS: dict[str, type[Endpoint]] = dict(_walk(get_resolver().url_patterns))


OUTSIDE: dict[str, type[Endpoint]] = dict(_walk(get_resolver().url_patterns, in_a_shop=False))


def endpoints(views: dict[str, type[Endpoint]] = VIEWS) -> list[tuple[str, str]]:
    return [(path, method) for path, view in views.items() for method in METHODS if hasattr(view, method)]
