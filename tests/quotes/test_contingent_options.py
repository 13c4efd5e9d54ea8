"""A contingent line of an option is shown and agreed only with that option."""

from typing import Any

import pytest

from shop.models import Job
from tests.quotes.choosing import Draft
from tests.quotes.contingent import HOSE, STUD
from tests.quotes.phone import Phone
from tests.quotes.stage import Stage
from tests.quotes.test_choosing import draft, page_of, place

pytestmark = pytest.mark.once
__all__ = ["draft"]  # a fixture

ENDURANCE: dict[str, object] = {"choice-0": "2"}


def conditional(draft: Draft, **line: Any) -> Draft:
    """The draft with a line that is charged only if it happens, as part of the endurance pads."""
    line_id = draft.post("contingencies", line)["contingencies"][-1]["line"]
    option = draft.options()["Endurance pads"]["id"]
    assert draft.patch(f"lines/{line_id}", {"option": option}).status_code == 200
    return draft


@pytest.mark.parametrize("line", [STUD, HOSE], ids=["work", "a part"])
def test_it_stands_on_the_page_only_with_its_option(draft: Draft, line: dict[str, Any]) -> None:
    phone = Phone(conditional(draft, **line).send()["link"]["url"])
    assert line["event"] not in phone.html
    assert line["event"] in page_of(phone, ENDURANCE)


@pytest.mark.parametrize("query", [ENDURANCE, {"choice-0": "1"}], ids=["with it", "without"])
def test_it_is_agreed_only_with_its_option(draft: Draft, stage: Stage, query: dict[str, object]) -> None:
    phone = Phone(conditional(draft, **STUD).send()["link"]["url"])
    assert phone.answer(price=place(page_of(phone, query))).status_code == 303
    lines = stage.client.get(f"jobs/{Job.objects.get().pk}/occurrences").json()["lines"]
    assert [agreed["event"] for agreed in lines] == ([STUD["event"]] if query is ENDURANCE else [])
