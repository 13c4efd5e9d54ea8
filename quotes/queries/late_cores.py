"""Core deposits whose old parts came back after the job was closed with its account, which stays as it was."""

import json
from collections.abc import Sequence

from quotes.models import ClosingAccount
from shop.models import CoreReturn


def standing_cores(cores: Sequence[CoreReturn]) -> list[CoreReturn]:
    """The returned cores that no opposite row cancels, in their order."""
    reversed_ids = {core.reversed_core_id for core in cores}
    return [core for core in cores if core.reversed_core_id is None and core.pk not in reversed_ids]


def late_cores(closing: ClosingAccount | None, cores: Sequence[CoreReturn]) -> list[CoreReturn]:
    """The standing cores of a job, in their order, that came back after its closing account was written.

    Cores in the account can no longer be reversed, so the first standing ones are always those in the account.
    """
    if closing is None:
        return []
    counted = sum(row["kind"] == "core" for row in json.loads(closing.snapshot)["rows"])
    return standing_cores(cores)[counted:]
