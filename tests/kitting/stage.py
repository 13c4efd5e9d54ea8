"""A phone that counts, and the kits, the job and the list on which it counts."""

import uuid
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Any

from kitting.calc.contents import PullNeed
from kitting.models import PullLine, PullList
from kitting.services.kits import NewLine, NewReusedPart, NewRevision, add_kit
from kitting.services.pull_lists import open_pull_list
from shop.calc.quantity import plain
from tests.cast import Cast
from tests.factories import (
    AT,
    JobFactory,
    OperationFactory,
    PartFactory,
    PullLineFactory,
    PullListFactory,
    SupplierFactory,
    agreement_of,
)


@dataclass
class Phone:
    """Makes events as the app does: an id each, its own counter, and what it has pulled."""

    pull_list: PullList
    device: str = field(default_factory=lambda: str(uuid.uuid4()))
    n: int = 0
    seen: int = 0
    epoch: int = 1

    def event(self, of: PullLine | str, kind: str = "set", total: Any = 4, damaged: Any = 0, **more: Any) -> dict:
        self.n += 1
        return {
            "v": 1,
            "id": str(uuid.uuid4()),
            "list": str(self.pull_list.pk),
            "line": str(getattr(of, "pk", of)),
            "kind": kind,
            "total": total,
            "damaged": damaged,
            "target": None,
            "device": self.device,
            "n": self.n,
            "epoch": self.epoch,
            "seen": self.seen,
            "made_at": "2026-11-24T10:15:00Z",
            **more,
        }

    def undo(self, event: dict) -> dict:
        return self.event(event["line"], "undo", None, None, target=event["id"])

    def note(self, line: PullLine, what: str) -> dict:
        return self.event(line, "note", None, None, note={"what": what})


def list_of(cast: Cast, lines: int = 3, **fields: Any) -> tuple[PullList, list[PullLine]]:
    """An open list of that many lines of four pieces each."""
    pull_list = PullListFactory(shop=cast.shop)
    return pull_list, [
        PullLineFactory(shop=cast.shop, pull_list=pull_list, position=n + 1, **fields) for n in range(lines)
    ]


def send(client: Any, pull_list: PullList, *events: Any) -> list[dict]:
    answer = client.post(f"pull-lists/{pull_list.pk}/events", {"events": list(events)}, key=None)
    assert answer.status_code == 200, answer.content
    return answer.json()["results"]


def pull(client: Any, pull_list: PullList, **query: Any) -> dict:
    return client.get(f"pull-lists/{pull_list.pk}/events", query).json()


@dataclass
class Bench:
    """A kit as a supplier sends it, and a job that it is for."""

    cast: Cast
    supplier: Any = None
    parts: dict[str, Any] = field(default_factory=dict)

    def part(self, number: str, **fields: Any) -> Any:
        if number not in self.parts:
            self.parts[number] = PartFactory(shop=self.cast.shop, number=number, **fields)
        return self.parts[number]

    def turbo_kit(self, code: str = "BI-TC35-A") -> Any:
        """Two cartons; bag 1 of the first holds bolts and, by transmission, one of two brackets; a loose manual."""
        first_needed = OperationFactory(shop=self.cast.shop, code=f"{code}-20")
        manual = [{"attribute": "transmission", "in": ["manual"]}]
        automatic = [{"attribute": "transmission", "in": ["automatic"]}]
        self.supplier = self.supplier or SupplierFactory(shop=self.cast.shop, name="Brightwater Induction")
        lines = (
            NewLine("carton", label="C1"),
            NewLine("bag", label="1-01", parent=0),
            NewLine("part", Decimal(8), part=self.part("BI-BOLT"), parent=1, operation=first_needed),
            NewLine("part", Decimal(1), part=self.part("BI-BRK-M"), parent=1, when=manual),
            NewLine("part", Decimal(1), part=self.part("BI-BRK-A"), parent=1, when=automatic),
            NewLine("part", Decimal(1), part=self.part("BI-PLUG-M"), parent=0, when=manual, ships="when"),
            NewLine("part", Decimal("2.5"), part=self.part("BI-HOSE", unit="m"), parent=0),
            NewLine("carton", Decimal(2), label="C2"),
            NewLine("part", Decimal(3), part=self.part("BI-CLAMP"), parent=7),
            NewLine("part", part=self.part("BI-BOOK"), role="paper"),
        )
        reused = (NewReusedPart("Bumper bolts", Decimal(6), first_needed, first_needed),)
        return add_kit(
            actor=self.cast.acting("parts"),
            code=code,
            title="Turbocharger and charge-cooler kit",
            supplier=self.supplier,
            contents=NewRevision(lines=lines, reused=reused, fits=[{"attribute": "engine", "in": ["2.0"]}]),
        )

    def job(self) -> Any:
        return JobFactory(shop=self.cast.shop)

    def opened(self, *kits: Any, needs: Any = (), **attributes: str) -> PullList:
        return open_pull_list(
            actor=self.cast.acting("advisor"),
            agreement=agreement_of(self.job()),
            kits=kits,
            needs=needs,
            vehicle_attributes=attributes,
            now=AT,
        )


def need(part: Any, quantity: int = 1, **more: Any) -> PullNeed:
    return PullNeed(part.pk, part.number, part.title, Decimal(quantity), part.unit, **more)


def rows_of(pull_list: PullList) -> list[tuple[str, str, str, str, str]]:
    """(kind, number or title, quantity, carton, bag) in order."""
    lines = PullLine.objects.filter(pull_list=pull_list).order_by("position")
    return [(row.kind, row.number or row.title, plain(row.quantity), row.carton, row.bag) for row in lines]
