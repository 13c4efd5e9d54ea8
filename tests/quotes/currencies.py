"""Workshops of three currencies, imported from files, and the pattern of an amount in each."""

import io
import re
from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import openpyxl
from django.core.management import call_command

from shop.models import Shop
from shop.services.people import open_shop


@dataclass(frozen=True)
class Money:
    """A currency and figures of its size: `scale` turns a price in euro into one of about the same worth."""

    currency: str
    exponent: int
    scale: int
    rate: str  # for one US dollar

    def of(self, euro: str, exponent: int | None = None) -> Decimal:
        return round_to(Decimal(euro) * self.scale, self.exponent if exponent is None else exponent)


def round_to(amount: Decimal, exponent: int) -> Decimal:
    return amount.quantize(Decimal(1).scaleb(-exponent))


def workbook(path: Path, **sheets: list[list[Any]]) -> Path:
    book = openpyxl.Workbook()
    book.remove(book.active)
    for title, rows in sheets.items():
        sheet = book.create_sheet(title.replace("_", " "))
        for row in rows:
            sheet.append(row)
    book.save(path)
    return path


def rules_file(path: Path, money: Money, **changed: list[list[Any]]) -> Path:
    sheets: dict[str, list[list[Any]]] = {
        "rules": [
            ["Rule", "Value"],
            ["Markup mode", "graduated"],
            ["Supplies rate", "5 %"],
            ["Supplies basis", "labour"],
            ["Supplies cap", money.of("48")],
            ["Prices include tax", "yes"],
        ],
        "labour_rates": [["Skill", "Rate", "Cost"], ["mechanical", money.of("165.533"), money.of("61.33")]],
        "bands": [["Up to", "x"], [money.of("100"), "1.5"], ["", "1.2"]],
        "taxes": [
            ["Code", "Title", "Rate", "Classes"],
            ["VAT", "Consumption tax", "7.7 %", "part, labour, supplies, fee"],
        ],
        "fees": [
            ["Code", "Title", "Amount", "Tax class", "Per"],
            ["oil", "Used oil", money.of("0.8055", 4), "fee", "engine oil"],
            ["disposal", "Disposal", money.of("3.25"), "fee", "quote"],
        ],
        "exchange_rates": [["Currency", "Valid from", "Rate"], ["USD", "2026-01-01", money.rate]],
    }
    return workbook(path, **(sheets | changed))


WORK = (("SETUP", "Set-up", "1.5"), ("TURBO", "Turbocharger fitted", "3.3"), ("TEST", "Road test", "0.7"))
MONEYS = [Money("JPY", 0, 160, "151.37"), Money("KWD", 3, 1, "0.307415"), Money("EUR", 2, 1, "0.9213")]


def take_in(kind: str, path: Path) -> None:
    call_command("import", kind, path, shop="saltmarsh", verbosity=0, stdout=io.StringIO())


def make_house(money: Money) -> Shop:
    """Rules, work, oil and a kit imported from files, as a workshop does."""
    shop, _ = open_shop(slug="saltmarsh", name="Saltmarsh Lane Motor Works", currency=money.currency, zone="Asia/Tokyo")
    assert shop.exponent == money.exponent
    with TemporaryDirectory() as folder:
        import_files(Path(folder), money)
    return shop


def import_files(folder: Path, money: Money) -> None:
    take_in("rules", rules_file(folder / "rules.xlsx", money))
    labour = workbook(
        folder / "labour.xlsx",
        operations=[["Code", "Title", "Skill", "Hours"], *([code, title, "mechanical", h] for code, title, h in WORK)],
        templates=[
            ["Template", "Position", "Operation", "Hours", "Stage"],
            *(["T1", at, code, hours, "Fitting"] for at, (code, _, hours) in enumerate(WORK, start=1)),
        ],
    )
    take_in("labour", labour)
    oil = folder / "oil.csv"
    oil.write_text(
        "Family;Specification;Form;Unit;Number;Title;Pack size;Supplier;Price;Currency\n"
        f"engine oil;5W-30;;L;OIL-1;Oil 1 L;1;Fellmark;{money.of('8.15')};{money.currency}\n"
        f"engine oil;5W-30;;L;OIL-5;Oil 5 L;5;Fellmark;{money.of('29.95')};{money.currency}\n"
    )
    take_in("consumables", oil)
    kit = workbook(
        folder / "kit.xlsx",
        kit=[
            ["Kit", "BI-T"],
            ["Title", "Turbocharger kit"],
            ["Supplier", "Brightwater Induction"],
            ["Price", "1234.5678"],
            ["Currency", "USD"],
            ["Duty", "4 %"],
            ["Labour template", "T1"],
        ],
        contents=[["Carton", "Number", "Title", "Qty"], ["C1", "BI-BOLT", "Bolt", 8]],
        needs=[
            ["Family", "Specification", "Rule", "Quantity", "Of", "Charge"],
            ["engine oil", "5W-30", "of capacity", 1, "engine oil", "pack"],
        ],
    )
    take_in("kit", kit)


AMOUNTS = ("price", "amount", "kits", "labour", "needs", "extras", "fees", "net", "tax", "gross", "saves_amount")
AMOUNTS += ("revenue", "cost", "profit", "unit_price")


def amounts(value: Any, where: str = "") -> Iterator[tuple[str, str]]:
    """Every amount of an answer that is money, by its place."""
    if isinstance(value, dict):
        for key, child in value.items():
            if key in AMOUNTS and isinstance(child, str) and child:
                yield f"{where}.{key}", child
            else:
                yield from amounts(child, f"{where}.{key}")
    elif isinstance(value, list):
        for at, child in enumerate(value):
            yield from amounts(child, f"{where}[{at}]")


def exact_decimals(exponent: int) -> re.Pattern[str]:
    return re.compile(r"-?\d+" + (rf"\.\d{{{exponent}}}" if exponent else ""))


def misfits(answer: Any, money: Money) -> dict[str, str]:
    fits = exact_decimals(money.exponent)
    figures = dict(amounts(answer))
    assert figures, "no amount at all"
    return {where: text for where, text in figures.items() if not fits.fullmatch(text)}


def grouped(text: str) -> str:
    whole, point, rest = text.partition(".")
    return f"{int(whole):,}{point}{rest}"


def wrong_on_paper(texts: list[str], money: Money) -> list[str]:
    fits = re.compile(
        r"-?\d{1,3}(?:,\d{3})*" + (rf"\.\d{{{money.exponent}}}" if money.exponent else "") + r"(?: [A-Z]{3})?"
    )
    return [text for text in texts if not fits.fullmatch(text.strip())]
