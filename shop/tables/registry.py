"""The registry of file kinds. Each app registers its own in `imports.kinds`."""

from collections.abc import Iterable

from django.utils.module_loading import autodiscover_modules

from shop.tables.engine import FileKind

_kinds: dict[str, FileKind] = {}


def register(kind: FileKind) -> FileKind:
    _kinds[kind.name] = kind
    return kind


def kinds() -> dict[str, FileKind]:
    """{name: kind} of all apps."""
    autodiscover_modules("imports.kinds")
    return dict(_kinds)


def names() -> Iterable[str]:
    return sorted(kinds())
