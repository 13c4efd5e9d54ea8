"""A job on the floor: its work, its pull list, a phone's counts, and the days entered for missing lines."""

from datetime import datetime
from decimal import Decimal
from typing import Any
from zoneinfo import ZoneInfo

from kitting.models import Kit, KitCopy, PullLine
from shop.models import Calendar, JobOperation
from tests.cast import Cast
from tests.factories import (
    JobFactory,
    JobOperationFactory,
    KitCopyFactory,
    KitFactory,
    OfferFactory,
    PackFactory,
    PartFactory,
    PullLineFactory,
    PullListFactory,
    SupplierFactory,
)
from tests.kitting.stage import Phone, send

ZONE = ZoneInfo("Europe/Berlin")
OPEN = [["08:00", "12:00"], ["13:00", "17:00"]]
WORK = [
    ("SETUP", "Set-up and protect", "2.00", [], {}),
    ("STRIP", "Front off", "6.00", ["SETUP"], {"no_return": True}),
    ("FIT", "Turbocharger fitted", "8.00", ["STRIP"], {}),
    ("CLOSE", "Front on", "2.00", ["FIT"], {"mobile_again": True}),
]


def local(day: int, hour: int = 0, minute: int = 0) -> datetime:
    return datetime(2026, 12, day, hour, minute, tzinfo=ZONE)


class Floor:
    """A job of four steps for one kit of three lines, and two packs from the shelf."""

    def __init__(self, cast: Cast, opened_at: datetime | None = None) -> None:
        self.cast, shop = cast, cast.shop
        Calendar.objects.create(shop=shop, week=dict.fromkeys(("mon", "tue", "wed", "thu", "fri"), OPEN))
        supplier = SupplierFactory(shop=shop, name="Brightwater Induction")
        part = PartFactory(shop=shop, number="BI-T", title="Turbocharger kit", preferred=supplier)
        self.kit = KitFactory(shop=shop, code="BI-T", title="Turbocharger kit", part=part)
        OfferFactory(shop=shop, supplier=supplier, part=part, lead_days=7)
        self.job = JobFactory(shop=shop, opened_at=opened_at or local(1, 8))
        for position, (code, title, hours, after, more) in enumerate(WORK, start=1):
            self.step(position, code, title, hours, after=after, **more)
        self.list = PullListFactory(shop=shop, job=self.job)
        self.copy = KitCopyFactory(shop=shop, kit=self.kit, job=self.job, number=1)
        self.ring = self.line("O-ring 14.0 x 2.5", "FIT", quantity=Decimal(4))
        self.duct = self.line("Duct, hot side", "FIT", quantity=Decimal(1))
        self.clip = self.line("Clip", "SETUP", quantity=Decimal(6))
        self.oil = PackFactory(shop=shop, number="OIL-5", title="Engine oil, 5 L", preferred=supplier)
        OfferFactory(shop=shop, supplier=supplier, part=self.oil, lead_days=3)
        self.pack = self.line(
            "Engine oil, 5 L", "CLOSE", kind="need", kit="", part=self.oil, quantity=Decimal(2), number="OIL-5"
        )
        self.phone = Phone(self.list)

    def step(self, position: int, code: str, title: str, hours: str, **sheet: Any) -> None:
        JobOperationFactory(
            shop=self.cast.shop,
            job=self.job,
            position=position,
            code=code,
            title=title,
            quoted_hours=Decimal(hours),
            sheet=sheet,
        )

    def line(self, title: str, operation: str, **fields: Any) -> PullLine:
        row = {"kit": "BI-T", "carton": "1", "title": title, "operation": operation} | fields
        row.setdefault("copy", self.copy_of(row["kit"]) if row["kit"] else None)
        return PullLineFactory(shop=self.cast.shop, pull_list=self.list, **row)

    def copy_of(self, code: str) -> KitCopy:
        """The job's first copy of the kit."""
        kit = Kit.objects.get(shop=self.cast.shop, code=code)
        first = KitCopy.objects.filter(kit=kit, job=self.job).order_by("number").first()
        return first or KitCopyFactory(shop=self.cast.shop, kit=kit, job=self.job, number=1)

    def needed_at(self, code: str) -> dict[str, Any]:
        """The fields of a line that the step needs first."""
        return {"operation": code, "step": JobOperation.objects.get(job=self.job, code=code)}

    def count(self, *counts: tuple[PullLine, int], damaged: int = 0) -> None:
        events = [self.phone.event(line, total=total, damaged=damaged) for line, total in counts]
        send(self.cast.signed_in("parts"), self.list, *events)

    def count_all(self, **but: int) -> None:
        """Counts every line in full, except the named ones."""
        full = {"ring": 4, "duct": 1, "clip": 6, "pack": 2} | but
        self.count(*((getattr(self, name), total) for name, total in full.items()))

    def readiness(self, role: str = "technician") -> dict[str, Any]:
        answer = self.cast.signed_in(role).get(f"jobs/{self.job.pk}/readiness")
        assert answer.status_code == 200, answer.content
        return answer.json()

    def due(self, *lines: PullLine, role: str = "parts", **body_fields: Any) -> Any:
        body = {"lines": [str(line.pk) for line in lines], "day": None} | body_fields
        return self.cast.signed_in(role).post(f"pull-lists/{self.list.pk}/due", body)


def group(readiness: dict[str, Any], title: str) -> dict[str, Any]:
    (group_,) = [part for part in readiness["missing"] if part["title"] == title]
    return group_
