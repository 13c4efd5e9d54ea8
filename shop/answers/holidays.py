"""The public holidays of a country as a proposal of closed days."""

import datetime
from typing import Annotated

from msgspec import Meta

from shop.answers.base import Answer


class HolidayPlaceOut(Answer, frozen=True):
    """A country or a region with holidays of its own."""

    code: Annotated[str, Meta(description="As a request names it.")]
    title: Annotated[str, Meta(description="The name of the country or region.")]


class HolidayOut(Answer, frozen=True):
    """A public holiday."""

    date: Annotated[datetime.date, Meta(description="The day.")]
    reason: Annotated[str, Meta(description="The name of the holiday.")]
    closed: Annotated[bool, Meta(description="The shop is closed on this day already.")]


class HolidaysOut(Answer, frozen=True):
    """Countries, the regions of one of them, and its holidays from today on. The shop is closed on none by itself."""

    country: Annotated[str, Meta(description="Its code; that of the shop's time zone where none was asked for.")]
    region: Annotated[str, Meta(description="Its code; empty for the holidays of the whole country.")]
    year: Annotated[int, Meta(description="The year of the holidays.")]
    years: Annotated[list[int], Meta(description="The years that can be asked for.")]
    countries: Annotated[list[HolidayPlaceOut], Meta(description="By name.")]
    regions: Annotated[
        list[HolidayPlaceOut], Meta(description="Of the country, by name; empty where all have the same.")
    ]
    days: Annotated[list[HolidayOut], Meta(description="From today on, the next one first.")]
