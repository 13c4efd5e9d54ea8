"""The kinds of file there are. Each app names its own in `imports.kinds`."""

from collections.abc import Iterable

from django.utils.module_loading import autodiscover_modules

from shop.imports.engine import Kind

_kinds: dict[str, Kind] = {}


def register(kind: Kind) -> Kind:
    _kinds[kind.name] = kind
    return kind


def kinds() -> dict[str, Kind]:
    """{name: kind}, of every app."""
    autodiscover_modules("imports.kinds")
    return dict(_kinds)


def names() -> Iterable[str]:
    return sorted(kinds())
