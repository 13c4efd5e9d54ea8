"""The quote that the demonstration sends when it first starts, by its own script and the public API."""

import json
import uuid
from importlib.util import module_from_spec, spec_from_file_location
from typing import Any

import pytest
from django.utils import timezone

from quotes.models import Revision
from quotes.queries import frozen
from quotes.queries.pricing import shop_day
from shop.models import Shop
from tests.browser.test_how import advisor_of, make_saltmarsh
from tests.cast import Cast
from tests.demo import DEMO
from tests.quotes.phone import Phone

pytestmark = pytest.mark.once


def demo_script() -> Any:
    spec = spec_from_file_location("demo_open", DEMO / "open.py")
    assert spec and spec.loader
    script = module_from_spec(spec)
    spec.loader.exec_module(script)
    return script


@pytest.mark.parametrize("zone", ["Pacific/Kiritimati", "Pacific/Pago_Pago"])  # never both on the day of UTC
def test_its_days_are_those_of_the_shop(cast: Cast, zone: str) -> None:
    Shop.objects.update(zone=zone)
    client, script = cast.signed_in("advisor"), demo_script()

    class Api(script.Api):  # type: ignore[misc, name-defined]
        def ask(self, method: str, path: str, body: Any = None, headers: dict[str, str] | None = None) -> Any:
            return client.generic(method, path).json()

    assert Api("", "saltmarsh").today() == shop_day(Shop.objects.get(slug="saltmarsh"), timezone.now()).isoformat()


def test_it_has_a_discount_with_its_reason_and_its_customer_an_address(db: None) -> None:
    script = demo_script()
    make_saltmarsh()
    client = advisor_of("saltmarsh")

    class Api(script.Api):  # type: ignore[misc, name-defined]
        def ask(self, method: str, path: str, body: Any = None, headers: dict[str, str] | None = None) -> Any:
            sent = {"Idempotency-Key": str(uuid.uuid4()), **(headers or {})}
            data = "" if body is None else json.dumps(body)
            answer = client.generic(method, path, data, "application/json", headers=sent)
            assert answer.status_code < 300, answer.content
            return answer.json()

    api = Api("", "saltmarsh")
    phone = Phone(script.customer_link(api))
    assert "Three kits in one visit" in phone.html and "−150.00" in phone.html
    first, chosen, revision = Revision.objects.order_by("id")
    assert (first.state, chosen.state, chosen.number) == ("replaced", "sent", 2)
    changed = api.get(f"quotes/{chosen.quote_id}/difference")["groups"]
    assert "Braided hoses, front pair" in str(changed)
    assert revision.state == "sent" and revision.quote.customer is not None and revision.quote.customer.address
    assert [choice["title"] for choice in frozen.read(chosen)["choices"]] == ["Brake pads", "Extras"]
    assert Phone(script.customer_link(api)).html and Revision.objects.count() == 3  # a later start sends no other
    script.show_job(api)
    job = api.get("jobs?state=in_bay")["items"][0]
    agreed = api.get(f"quotes/{api.get('quotes?state=accepted')['items'][0]['id']}")
    assert [work["firm"] for work in agreed["outside"]] == ["Lathe & Lambda"] and len(agreed["contingencies"]) == 1
    assert [choice["title"] for choice in agreed["choices"]] == ["Brake pads"]
    assert [row["state"] for row in api.get(f"jobs/{job['id']}/changes")["changes"]] == ["sent"]
