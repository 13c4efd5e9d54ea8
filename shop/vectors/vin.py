"""The calculation of vin (section 11)."""

from typing import Any

from shop.calc.vin import check_vin
from shop.vectors.reading import text


def vin(case: dict[str, Any]) -> dict[str, Any]:
    market = text(case, "market") if case.get("market") is not None else None
    check = check_vin(text(case, "vin"), market)
    return {
        "status": check.status.value,
        "suggestion": check.suggestion,
        "model_years": [str(year) for year in check.model_years],
    }
