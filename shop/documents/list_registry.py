"""The registry of lists that leave a shop for a spreadsheet. Each app registers its own in `documents.out_lists`.

They are not imported again; the lists that are come from the kinds of files (`shop/tables/registry.py`).
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from django.utils.module_loading import autodiscover_modules

from shop.access import COUNTER, Actor
from shop.tables.writing import Content
from shop.words import say


@dataclass(frozen=True, slots=True)
class OutList:
    """A list by its name. `rows` gives a cell for each column; the heading of a column is `list.column.NAME`.

    `roles` may read it.
    """

    name: str
    columns: tuple[str, ...]
    rows: Callable[[Actor], Iterable[Sequence[Content]]]
    roles: frozenset[str] = COUNTER

    def headings(self) -> list[str]:
        return [say(f"list.column.{column}") for column in self.columns]


_lists: dict[str, OutList] = {}


def register(out_list: OutList) -> OutList:
    _lists[out_list.name] = out_list
    return out_list


def out_lists() -> dict[str, OutList]:
    """{name: list} of all apps."""
    autodiscover_modules("documents.out_lists")
    return dict(_lists)
