"""The public holidays of a country as an answer."""

from collections.abc import Iterable

from shop.answers.holidays import HolidayOut, HolidayPlaceOut, HolidaysOut
from shop.queries.holidays import Holiday, countries, regions
from shop.words.languages import language


def holidays_answer(
    country: str, region: str, year: int, years: Iterable[int], holidays: Iterable[Holiday]
) -> HolidaysOut:
    return HolidaysOut(
        country=country,
        region=region,
        year=year,
        years=list(years),
        countries=[HolidayPlaceOut(code=code, title=name) for code, name in countries(language())],
        regions=[HolidayPlaceOut(code=code, title=name) for code, name in (regions(country) if country else ())],
        days=[HolidayOut(date=row.date, reason=row.name, closed=row.closed) for row in holidays],
    )
