"""Reads prices: numbers that may end in a dash in place of their decimals, such as "298,-", "298.-" and "298,--"."""

import re
from dataclasses import replace
from decimal import Decimal

from shop.tables.characters import HYPHENS
from shop.tables.findings import DONE_FOR_YOU, facts_of
from shop.tables.numbers import CURRENCY, number
from shop.tables.sheets import Cell
from shop.tables.values import SPACES, Reader, Value

DASHED = re.compile(r"([-+]?)([0-9]+|[1-9][0-9]{0,2}(?:([.,'\u2019])[0-9]{3})(?:\3[0-9]{3})*)[.,]--?")


def price(*, scale: int = 4) -> Reader:
    """A reader of prices of zero and above. A dash in place of the decimals stands for none, and a note says so."""
    read_number = number(scale=scale)

    def read(cell: Cell, decimal: str) -> Value:
        match = DASHED.fullmatch(_squeezed(cell.value)) if isinstance(cell.value, str) else None
        if match is None:
            return read_number(cell, decimal)
        amount = re.sub("[^0-9]", "", match[2])
        value = read_number(replace(cell, value=Decimal(match[1] + amount)), decimal)
        return replace(value, notes=((DONE_FOR_YOU, "dash_for_decimals", facts_of(value=amount)), *value.notes))

    return read


def _squeezed(text: str) -> str:
    """The text without spaces and currency, and with plain dashes."""
    return CURRENCY.sub("", SPACES.sub("", text)).translate(HYPHENS)


MONEY = price()
