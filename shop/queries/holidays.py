"""Public holidays by country and region, from the `holidays` library. A person takes what applies to the shop."""

from dataclasses import dataclass
from datetime import date
from functools import cache

from shop.errors import field_error
from shop.models import ClosedDay, Shop
from shop.words.languages import language

NAME_LENGTH = 120


@dataclass(frozen=True, slots=True)
class Holiday:
    """A public holiday. `closed`: the shop is closed on this day already."""

    date: date
    name: str
    closed: bool


@cache
def country_codes() -> frozenset[str]:
    """The two-letter codes (ISO 3166-1) of the countries whose holidays are known."""
    from holidays.registry import EntityLoader

    return frozenset(EntityLoader.get_country_codes(include_aliases=False))


@cache
def countries(spoken: str) -> tuple[tuple[str, str], ...]:
    """(code, name in the language) of these countries, by name."""
    from babel import Locale

    names = Locale.parse(spoken, sep="-").territories
    return tuple(sorted(((code, names.get(code, code)) for code in country_codes()), key=lambda row: row[1]))


@cache
def regions(country: str) -> tuple[tuple[str, str], ...]:
    """(code, name) of the regions of a country with holidays of their own, by name."""
    from holidays import country_holidays

    entity = country_holidays(country)
    names: dict[str, str] = {}
    for name, code in getattr(entity, "subdivisions_aliases", {}).items():
        names.setdefault(code, name)  # the first is the name in full, abbreviations follow
    return tuple(sorted(((code, names.get(code, code)) for code in entity.subdivisions), key=lambda row: row[1]))


def country_of(zone: str) -> str:
    """The country of a time zone, if its holidays are known; else empty."""
    from babel.core import get_global

    code = get_global("zone_territories").get(zone, "")
    return code if code in country_codes() else ""


def chosen_place(zone: str, country: str | None, region: str) -> tuple[str, str]:
    """(country, region) of a request; without a country that of the time zone, or "" if it is not known.

    Refuses a country without known holidays, and a region that the country does not have.
    """
    code = country_of(zone) if country is None else country
    if country is not None and code not in country_codes():
        raise field_error("/country", "holidays_country")
    if region and region not in dict(regions(code) if code else ()):
        raise field_error("/region", "holidays_region")
    return code, region


def chosen_year(text: str | None, years: range) -> int:
    """The year of a request; without one the first of `years`. Refuses one that is not among them."""
    if text is None:
        return years[0]
    year = int(text) if text.isascii() and text.isdecimal() and len(text) <= 4 else 0
    if year not in years:
        raise field_error("/year", "holidays_year", first=str(years[0]), last=str(years[-1]))
    return year


def holidays_of(shop: Shop, country: str, region: str, year: int, since: date) -> list[Holiday]:
    """The holidays of a year from `since` on, in the reader's language where the library has their names in it."""
    from holidays import country_holidays

    days = country_holidays(country, subdiv=region or None, years=year, language=_tongue(country))
    closed = set(ClosedDay.objects.filter(shop=shop, date__year=year).values_list("date", flat=True))
    return [
        Holiday(day, name[:NAME_LENGTH], day in closed)
        for day, name in sorted(days.items())
        if day >= since and day.year == year
    ]


def _tongue(country: str) -> str | None:
    """The library's tag of the reader's language for a country's holidays; None: the names in the country's own
    language.
    """
    from holidays import country_holidays

    spoken = language().replace("-", "_")
    tags = country_holidays(country).supported_languages
    same_language = [tag for tag in tags if tag.split("_")[0] == spoken.split("_")[0]]
    return spoken if spoken in tags else next(iter(same_language), None)
