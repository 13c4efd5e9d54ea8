"""The stage's quote with a choice of brake pads and one of extras."""

from dataclasses import dataclass
from typing import Any

from tests.quotes.stage import Stage

PADS = (("Road pads", "0.00"), ("Fast-road pads", "84.00"), ("Endurance pads", "148.80"))


@dataclass
class Draft:
    """A draft as its last answer had it, and the requests that change its choices."""

    stage: Stage
    now: dict[str, Any]

    @property
    def path(self) -> str:
        return f"quotes/{self.now['id']}"

    def post(self, path: str, body: dict[str, Any]) -> dict[str, Any]:
        answer = self.stage.client.post(f"{self.path}/{path}", body)
        assert answer.status_code == 201, answer.content
        self.now = answer.json()
        return self.now

    def patch(self, path: str, body: dict[str, Any]) -> Any:
        return self._kept(self.stage.client.patch(f"{self.path}/{path}", body, seen=f'"{self.now["version"]}"'))

    def delete(self, path: str) -> Any:
        return self._kept(self.stage.client.delete(f"{self.path}/{path}", seen=f'"{self.now["version"]}"'))

    def _kept(self, answer: Any) -> Any:
        if answer.status_code == 200:
            self.now = answer.json()
        return answer

    def text(self, title: str, price: str) -> str:
        """The id of a new line of text."""
        before = {extra["line"] for extra in self.now["extras"]}
        body = {"kind": "text", "title": title, "unit_price": price, "tax_class": "part"}
        return next(e["line"] for e in self.post("lines", body)["extras"] if e["line"] not in before)

    def choice(self, title: str, take: str) -> str:
        return str(self.post("choices", {"title": title, "take": take})["choices"][-1]["id"])

    def option(self, choice: str, title: str, *lines: str) -> str:
        answer = self.post(f"choices/{choice}/options", {"title": title, "lines": list(lines)})
        return str(next(row for row in answer["choices"] if row["id"] == choice)["options"][-1]["id"])

    def options(self) -> dict[str, Any]:
        return {option["title"]: option for choice in self.now["choices"] for option in choice["options"]}

    def send(self) -> dict[str, Any]:
        return self.stage.as_before(_send, self.path, self.now["version"])


def _send(stage: Stage, _: Any, path: str, version: int) -> dict[str, Any]:
    answer = stage.client.post(f"{path}/send", {"version": version, "recipient": "01632 960 417"})
    assert answer.status_code == 201, answer.content
    return dict(answer.json())


def draft(stage: Stage, *kits: Any) -> Draft:
    return Draft(stage, stage.quote(*kits).json())


def pads_and_towing(stage: Stage) -> Draft:
    """Brake pads: take one, the first is proposed. Extras: take any, the towing kit and a coating."""
    return Draft(stage, stage.as_before(_pads_and_towing))


def _pads_and_towing(stage: Stage, _: Any) -> dict[str, Any]:
    """The draft as its last answer has it."""
    proposal = draft(stage)
    towing = next(kit["line"] for kit in proposal.now["kits"] if kit["title"] == "Towing kit")
    pads = proposal.choice("Brake pads", "one")
    for title, price in PADS:
        proposal.option(pads, title, proposal.text(title, price))
    extras = proposal.choice("Extras", "any")
    proposal.option(extras, "Towing kit, fitted", towing)
    proposal.option(extras, "Heat coating", proposal.text("Coating", "264.00"))
    return proposal.now
