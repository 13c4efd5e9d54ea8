"""Schemathesis with every check asks the API as each role: no crash, and nothing that the document does not say."""

from importlib import import_module
from typing import TYPE_CHECKING, Any

import orjson
import pytest

from shop.models import Member
from tests.api.row_requests import for_each_row
from tests.api.shop_rows import make_rows
from tests.api.test_permissions import IN_A_SHOP, ROLES
from tests.cast import make_cast

if TYPE_CHECKING:
    from tests.drills.fuzzing import Findings

REFUSALS = ["400", "401", "403", "404", "405", "406", "409", "410", "413", "415", "422", "429"]
CHECKS: dict[str, Any] = {
    # 412: If-Match names a version that is not the row's, which is compared before the body. 428: it is missing.
    "negative_data_rejection": {"expected-statuses": [*REFUSALS, "412", "428"]},
    "missing_required_header": {"expected-statuses": ["400", "401", "403", "404", "415", "428"]},
    # 410: a link by which people come in that was never made.
    "positive_data_acceptance": {"expected-statuses": ["2xx", "3xx", "401", "403", "404", "409", "410", "412", "429"]},
}
# Why a request that fits the document may be answered with 400 all the same, by the field that the answer names.
BEYOND_A_SCHEMA = {
    "/current_password": "only the person knows it",
    "/new_password": "common passwords are refused",
    "/key": "it is the key of a figure of that quote",
    "/here_from": "a day within five years of today; and a change of a job names this or `here`",
    "/day": "a day within five years of today",
    "/kind": "one of the kinds that the answer lists",
    "/file": "a file without content is sent as if it were a text",
    "/price": "no more decimal places than the shop's currency has",
    "/cost": "no more decimal places than the shop's currency has",
    "/handling": "no more decimal places than the shop's currency has",
    "/unit_price": "no more decimal places than the shop's currency has; a hand-written line needs one",
    "/time": "needed where the shop has no opening hours",
    "/lines": "lines of that list only",
    "/code": "at least one letter or digit",
    "/kit": "a line of a kit needs one",
    "/part": "a line of a part needs one",
    "/title": "a hand-written line needs one",
    "/quantity": "above zero",
    "/starts_after": "a step of that quote",
    "/needed_by": "a step of that quote",
    "/tax_class": "one of the workshop's classes",
    "/amount": "either this or a percentage, and no more decimal places than the shop's currency has",
    "/cursor": "it comes from the answer before",
    "/country": "a country of the list",
    "/currency": "a currency of ISO 4217",
    "/month": "a month of the calendar",
    "/number": "the number of a part",
    "/password": "only the person knows it",
    "/read_out": "it was read out",
    "/said_at": "a time between sending and now",
    "/rows": "the rows that the step is about",
    "/work": "work of another firm that the job has",
    "/week": "hours of at least one day",
    "/year": "this year or one of the next two",
    "/field": "a field of that kind of file",
    "/freight": "no more decimal places than the shop's currency has",
    "/happened_on": "no day in the future",
    "/hours": "above zero, and at most 999",
    "/last": "not before the first day",
    "/newer": "another number than the replaced one",
    "/other": "the id of another customer",
    "/phone": "digits",
    "/pin": "six digits that are not easy to guess",
    "/received_on": "no day in the future",
    "/returned_on": "no day in the future",
    "/since": "no day in the future",
    "/skill": "a skill of the price rules",
    "/steps": "at least one",
    "/text": "a list with a number in each line",
    "/url": "an address that other programs have",
    "/valid_from": "no day in the past",
}
CANNOT_COMPUTE = 422  # each measurement fits the document, and together they lead to no filling
OF_A_CELL = "This cannot be used: "  # a form of the Office is read as a row of a file, each field as its cell
UNWRITABLE = {
    "It contains an invalid character. Type it again.",  # control characters, which no pattern spells out
    "Enter a whole number.",  # one written with a decimal point, which a schema takes for a whole number
}


def known(check: str, status: int, body: bytes) -> bool:
    """Returns whether a check failed for a reason that the OpenAPI document cannot express."""
    if check == "unsupported_method":  # a form is refused by its headers, before anybody looks at the method
        return status == 415
    if check == "ensure_resource_availability":  # a quote has a paper once it was sent
        return status == 404 and bool(orjson.loads(body)["type"] == "/problems/no-paper")
    if check != "positive_data_acceptance" or status not in (400, CANNOT_COMPUTE):
        return False
    if status == CANNOT_COMPUTE:
        return bool(orjson.loads(body)["type"] == "/problems/cannot-compute")
    errors = orjson.loads(body).get("errors", [])
    return bool(errors) and all(_is_beyond_a_schema(error) for error in errors)


def _is_beyond_a_schema(error: dict[str, str]) -> bool:
    detail = error["detail"]
    return detail in UNWRITABLE or detail.startswith(OF_A_CELL) or _field(error) in BEYOND_A_SCHEMA


def _field(error: dict[str, str]) -> str:
    return "/" + error["pointer"].split("/")[1] if error["pointer"] else ""


@pytest.mark.drill
@pytest.mark.django_db(transaction=True)
@pytest.mark.parametrize("role", Member.Role.values)
def test_the_api_keeps_to_its_document_whatever_a_role_asks(role: str, settings: Any) -> None:
    settings.SIGN_IN_TRIES = settings.SIGN_IN_TRIES_OF_AN_ADDRESS = 10**6  # else most wrong tokens are only counted
    cast = make_cast()
    rows = make_rows(cast, cast.signed_in("manager"), "Tilda Quarrender", "OBX4417700131")
    fuzzing = import_module("tests.drills.fuzzing")  # imports schemathesis, which no other run has to wait for
    report = fuzzing.fuzzed(getattr(cast, role), fuzzing.ids_of(for_each_row(rows)), CHECKS, known)
    print(
        f"\n{role}: {dict(report.ran)} requests, {sum(report.checked.values())} checks, {dict(report.excused)} excused"
    )
    assert report.failures == {}, worded(report)
    assert allowed(role) <= report.answers.keys(), "an operation was never asked for"


def allowed(role: str) -> set[str]:
    return {
        f"{method.upper()} {IN_A_SHOP}{path}"
        for path, methods in ROLES.items()
        for method, roles in methods.items()
        if role in roles.split()
    }


def worded(report: "Findings") -> str:
    return "\n\n".join(f"{' / '.join(key)}\n{example}" for key, example in sorted(report.failures.items()))
