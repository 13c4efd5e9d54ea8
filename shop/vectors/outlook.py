"""Section 12, `outlook`."""

from dataclasses import fields
from datetime import date, datetime
from typing import Any

from shop.calc.outlook import OutlookInput, OutlookOperation, outlook
from shop.vectors.promise import calendar, operation, promised
from shop.vectors.reading import flag, many, mapping, number, text, whole


def outlook_case(given: dict[str, Any]) -> dict[str, Any]:
    here_from = given.get("here_from")
    found = outlook(
        OutlookInput(
            calendar=calendar(mapping(given, "calendar")),
            now=datetime.fromisoformat(text(given, "now")),
            operations=tuple(_operation(each) for each in many(given, "operations")),
            technicians=whole(given, "technicians", "1"),
            efficiency=number(given, "efficiency", "1"),
            here_from=None if here_from is None else date.fromisoformat(here_from),
        )
    )
    ready = {"date": found.ready.day.isoformat(), "half": found.ready.half}
    return {"bring": found.bring.isoformat(), "ready": ready, **promised(found.promise)}


def _operation(given: dict[str, Any]) -> OutlookOperation:
    planned = operation(given)
    return OutlookOperation(
        **{field.name: getattr(planned, field.name) for field in fields(planned)},
        no_return=flag(given, "no_return"),
        mobile_again=flag(given, "mobile_again"),
    )
