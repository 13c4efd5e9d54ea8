"""The phone of a customer who was sent a quote."""

from typing import Any

from tests.forms import FormClient


class Phone:
    """A customer's phone that opened the link."""

    def __init__(self, url: str) -> None:
        self.client = FormClient(enforce_csrf_checks=True)
        self.url = url
        answer = self.client.get(url)
        self.first = answer
        self.page = answer["Location"] if answer.status_code == 303 else url
        self.html = self.client.get(self.page).content.decode()

    def field(self, name: str) -> str:
        return self.html.split(f'name="{name}" value="')[1].split('"')[0]

    def answer(
        self, answer: str = "accept", name: str = "Maren Oldacre", consent: tuple[str, ...] = ("road",), **fields: str
    ) -> Any:
        body = {
            "revision": self.field("revision"),
            "digest": self.field("digest"),
            "name": name,
            "consent": list(consent),
        }
        body |= {"answer": answer, "csrfmiddlewaretoken": self.field("csrfmiddlewaretoken"), **fields}
        return self.client.post(f"{self.page}answer", body, headers={"Origin": "http://testserver"})
