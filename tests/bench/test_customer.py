"""Measures a sent quote's page, detail and paper, each beside the least work that would give the same answer."""

from collections.abc import Callable
from typing import Any

import orjson
import pytest
from django.http import HttpRequest, HttpResponse
from django.template.loader import render_to_string
from django.test import Client
from django.urls import path

from quotes.documents.quote_pdf import paper_html, quote_paper
from quotes.models import Quote, Revision
from quotes.queries import frozen
from shop.documents import pdf
from shop.urls import handler404, handler500
from shop.urls import urlpatterns as product
from tests.bench.ratios import ratio
from tests.bench.test_ratios import hold, three_kits
from tests.cast import Cast
from tests.quotes.phone import Phone

__all__ = ["handler404", "handler500", "three_kits"]
pytestmark = [pytest.mark.bench, pytest.mark.paper]

page_facts: dict[str, Any] = {}
detail: dict[str, Any] = {}


def bare_page(request: HttpRequest, id: str) -> HttpResponse:
    """The same template with facts that are ready, after reading the frozen text."""
    frozen.read(Revision.objects.get(pk=id))
    return HttpResponse(render_to_string("quotes/page.html", page_facts))


def bare_detail(request: HttpRequest, id: str) -> HttpResponse:
    """The same JSON, after reading who is signed in and the frozen text."""
    assert request.user.is_authenticated
    frozen.read(Revision.objects.get(pk=id))
    return HttpResponse(orjson.dumps(detail), content_type="application/json")


urlpatterns = [path("bare/page/<uuid:id>", bare_page), path("bare/detail/<uuid:id>", bare_detail), *product]


@pytest.fixture
def sent(three_kits: Quote, cast: Cast, settings: Any) -> tuple[Revision, str]:
    """(the sent revision of the demonstration's three kits, the customer's link)"""
    settings.ROOT_URLCONF = __name__
    client = cast.signed_in("advisor")
    customer = client.post("customers", {"name": "Maren Oldacre"}).json()["id"]
    three_kits.vehicle.customer_id = customer
    three_kits.vehicle.attributes |= {"wear sensor": "yes", "transmission": "automatic"}
    three_kits.vehicle.save()
    answer = client.get(f"quotes/{three_kits.pk}")
    draft = client.patch(f"quotes/{three_kits.pk}", {"customer": customer}, seen=answer).json()
    body = {"version": draft["version"], "recipient": "Maren", "below_floor": True}
    link = client.post(f"quotes/{three_kits.pk}/send", body)
    assert link.status_code == 201, link.content
    return Revision.objects.get(quote=three_kits, state="sent"), link.json()["link"]["url"]


def asking(client: Client, address: str) -> Callable[[], object]:
    assert client.get(address).status_code == 200, address
    return lambda: client.get(address)


def test_the_customers_page(sent: tuple[Revision, str]) -> None:
    revision, url = sent
    phone = Phone(url)
    page_facts.update(phone.client.get(phone.page).context[0].flatten())
    bare = asking(Client(), f"/bare/page/{revision.pk}")
    assert len(bare().content) > 0.95 * len(phone.html.encode())  # type: ignore[attr-defined]
    measured = ratio(asking(phone.client, phone.page), bare)
    hold("the customer's page of three kits / its text read and its template filled", measured, 2)


def test_the_detail_of_a_sent_quote(sent: tuple[Revision, str], cast: Cast) -> None:
    revision, _ = sent
    client = Client()
    client.force_login(cast.advisor.user)
    address = f"/api/v1/shops/saltmarsh/quotes/{revision.quote_id}"
    detail.update(client.get(address).json())
    measured = ratio(asking(client, address), asking(client, f"/bare/detail/{revision.pk}"))
    hold("GET a sent quote of three kits / its text read and the same JSON written", measured, 2)


def test_the_paper(sent: tuple[Revision, str]) -> None:
    from weasyprint import CSS, HTML

    revision, _ = sent
    text, style = str(revision.snapshot), pdf.STYLE.read_text("utf-8")
    html = paper_html(text)

    def bare() -> None:
        HTML(string=html).write_pdf(stylesheets=[CSS(string=style)], pdf_variant="pdf/a-3a")

    hold("the paper of three kits / the PDF of the same HTML", ratio(lambda: quote_paper(text), bare), 1.1)
