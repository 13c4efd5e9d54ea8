"""The calculation of outlook (section 12)."""

from dataclasses import fields
from datetime import date, datetime
from typing import Any

from shop.calc.outlook import OutlookInput, OutlookOperation, outlook
from shop.vectors.promise import calendar, operation, promised
from shop.vectors.reading import flag, many, mapping, number, text, whole


def outlook_case(case: dict[str, Any]) -> dict[str, Any]:
    here_from = case.get("here_from")
    result = outlook(
        OutlookInput(
            calendar=calendar(mapping(case, "calendar")),
            now=datetime.fromisoformat(text(case, "now")),
            operations=tuple(_operation(entry) for entry in many(case, "operations")),
            technicians=whole(case, "technicians", "1"),
            efficiency=number(case, "efficiency", "1"),
            here_from=None if here_from is None else date.fromisoformat(here_from),
        )
    )
    ready = {"date": result.ready.day.isoformat(), "half": result.ready.half}
    return {"bring": result.bring.isoformat(), "ready": ready, **promised(result.promise)}


def _operation(case: dict[str, Any]) -> OutlookOperation:
    planned = operation(case)
    return OutlookOperation(
        **{field.name: getattr(planned, field.name) for field in fields(planned)},
        no_return=flag(case, "no_return"),
        mobile_again=flag(case, "mobile_again"),
    )
