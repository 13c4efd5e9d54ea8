from decimal import Decimal
from typing import Any

import pytest
from django.db import IntegrityError, connection
from django.test.utils import CaptureQueriesContext

from kitting.models import Kit, KitLine, KitRevision
from kitting.services.kits import NewLine, NewNeed, NewRevision, add_kit, revise_kit
from shop.calc.errors import CalculationError
from shop.models import LabourTemplate, TemplateStep
from tests.cast import Cast
from tests.client import CheckedClient
from tests.factories import ConsumableFactory, OperationFactory, PackFactory, SupplierFactory, VehicleFactory
from tests.kit_form import change_kit
from tests.kitting.stage import Bench

pytestmark = pytest.mark.once

BODY = {"code": "FV-BB356", "title": "Front big-brake kit", "price": "2190.00", "hours": "4.5"}


def test_a_kit_begins_as_a_price_and_a_number_of_hours(cast: Cast) -> None:
    client = cast.signed_in("advisor")
    answer = client.post("kits", BODY)
    kit = answer.json()
    assert answer.status_code == 201
    assert (kit["code"], kit["number"], kit["price"], kit["hours"]) == ("FV-BB356", "FV-BB356", "2190.00", "4.50")
    assert (kit["revision"], kit["parts"], kit["cartons"], kit["lines"], kit["labour"]) == (1, 0, 0, [], None)
    assert client.get(f"kits/{kit['id']}").json() == kit


@pytest.mark.parametrize(
    ("change", "pointer"),
    [
        ({"code": ""}, "/code"),
        ({"code": "..."}, "/code"),
        ({"title": "x" * 201}, "/title"),
        ({"price": "-1"}, "/price"),
        ({"price": "1.00001"}, "/price"),
        ({"price": None}, "/price"),
        ({"price": "1_0"}, "/price"),
        ({"price": "1e2"}, "/price"),
        ({"hours": "\uff11"}, "/hours"),
        ({"hours": "1.005"}, "/hours"),
        ({"hours": "NaN"}, "/hours"),
        ({"margin": "1"}, "/margin"),
    ],
)
def test_a_bad_kit_names_the_field_and_saves_nothing(cast: Cast, change: dict, pointer: str) -> None:
    answer = cast.signed_in("advisor").post("kits", {**BODY, **change})
    assert answer.status_code == 400 and answer.json()["errors"][0]["pointer"] == pointer
    assert not Kit.objects.exists()


HIDDEN, VISIBLE = "T\u202e3\u200b5", "T35"


def test_what_cannot_be_seen_in_a_kit_is_left_out(cast: Cast) -> None:
    client = cast.signed_in("advisor")
    kit = client.post("kits", BODY | {"code": HIDDEN, "title": HIDDEN, "models": [HIDDEN]}).json()
    assert (kit["code"], kit["title"], kit["number"], kit["models"]) == (VISIBLE, VISIBLE, VISIBLE, [VISIBLE])
    changed = change_kit(client, kit["id"], number=f"9-{HIDDEN}", fits="drive=T\u202e35").json()
    assert (changed["number"], changed["conditions"]) == (f"9-{VISIBLE}", f"drive={VISIBLE}")


def test_a_kit_is_not_bought_under_the_number_of_a_pack(cast: Cast) -> None:
    """Its supplier would become the one whose offer prices the consumable, which an advisor may not change."""
    client, supplier = cast.signed_in("advisor"), SupplierFactory(shop=cast.shop)
    pack = PackFactory(shop=cast.shop, preferred=supplier)
    kit = client.post("kits", BODY).json()
    body = {"code": "FV-2", "title": "Brakes", "number": pack.number}
    for pointer, answer in (
        ("/number", change_kit(client, kit["id"], number=pack.number)),
        ("/number", client.post(f"kits/{kit['id']}/duplicates", body)),
        ("/code", client.post("kits", BODY | {"code": pack.number})),
    ):
        assert (answer.status_code, answer.json()["errors"][0]["pointer"]) == (400, pointer)
    pack.refresh_from_db()
    assert (pack.preferred, Kit.objects.count()) == (supplier, 1)


@pytest.mark.parametrize("name", ["code", "title", "number"])
@pytest.mark.parametrize("text", ["a\r\nb", "a\x01b", "\u200b!"])
def test_a_copy_that_cannot_be_written_or_found_is_refused(cast: Cast, name: str, text: str) -> None:
    client = cast.signed_in("advisor")
    kit = client.post("kits", BODY).json()
    body = {"code": "FV-2", "title": "Brakes", "number": "FV-2"} | {name: text}
    answer = client.post(f"kits/{kit['id']}/duplicates", body)
    assert (answer.status_code, {error["pointer"] for error in answer.json()["errors"]}) == (400, {f"/{name}"})
    assert Kit.objects.count() == 1


def test_a_number_is_one_kit_only(cast: Cast) -> None:
    client = cast.signed_in("advisor")
    client.post("kits", BODY)
    again = client.post("kits", BODY)
    assert again.status_code == 409 and "a different number" in again.json()["detail"]
    assert Kit.objects.count() == KitRevision.objects.count() == 1


@pytest.mark.parametrize(("role", "status"), [("advisor", 201), ("manager", 201), ("parts", 403), ("technician", 403)])
def test_who_adds_a_kit(cast: Cast, role: str, status: int) -> None:
    assert cast.signed_in(role).post("kits", BODY).status_code == status


def test_it_refuses_a_stranger(cast: Cast, bench: Bench) -> None:
    kit = bench.turbo_kit().kit
    client = CheckedClient(shop=cast.elsewhere.slug)
    client.force_login(cast.stranger.user)
    assert client.get(f"kits/{kit.pk}").status_code == 404 and client.get("kits").json()["items"] == []
    own = VehicleFactory(shop=cast.shop)
    assert client.get("kits", {"vehicle": str(own.pk)}).status_code == 404
    assert cast.signed_in("parts").get("kits", {"vehicle": "x"}).status_code == 400


@pytest.mark.parametrize(("typed", "count"), [("charge", 1), ("bi tc35", 1), ("TURBO", 1), ("brake", 0), ("", 1)])
def test_a_kit_is_found_by_title_or_number(bench: Bench, typed: str, count: int) -> None:
    bench.turbo_kit()
    assert len(bench.cast.signed_in("technician").get("kits", {"q": typed}).json()["items"]) == count


@pytest.mark.parametrize(
    ("attributes", "fits", "why"),
    [
        ({"engine": "2.0", "transmission": "manual"}, "yes", ""),
        ({"engine": "2.4"}, "no", "Does not fit this vehicle (fits engine: 2.0 only)."),
        ({"engine": "2.0"}, "ask", "Not recorded: gearbox."),
        ({}, "ask", "Not recorded: engine and gearbox."),
    ],
)
def test_a_kit_says_whether_it_fits_the_vehicle(bench: Bench, attributes: dict, fits: str, why: str) -> None:
    bench.turbo_kit()
    vehicle = VehicleFactory(shop=bench.cast.shop, attributes=attributes)
    client = bench.cast.signed_in("advisor")
    (item,) = client.get("kits", {"vehicle": str(vehicle.pk)}).json()["items"]
    assert (item["fits"], item["why"]) == (fits, why)
    assert client.get("kits").json()["items"][0]["fits"] is None


def work_when(revision: KitRevision, **need: str) -> None:
    """A labour template of the version with one step, done where the vehicle has these attributes."""
    template = LabourTemplate.objects.create(shop=revision.shop, code=f"FIT-{revision.kit.code}")
    TemplateStep.objects.create(
        shop=revision.shop,
        template=template,
        operation=OperationFactory(shop=revision.shop),
        position=1,
        hours=Decimal(1),
        conditions=[{"attribute": attribute, "in": [value]} for attribute, value in need.items()],
    )
    KitRevision.objects.filter(pk=revision.pk).update(labour=template)


def test_a_kit_says_which_attributes_its_fit_contents_and_work_depend_on(bench: Bench) -> None:
    revision = bench.turbo_kit()
    condition = {"attribute": "wear sensor", "in": ["front"]}
    work_when(revision, **{"tow bar": "yes"})
    KitLine.objects.filter(revision=revision, part__number="BI-PLUG-M").update(conditions=[condition])
    (item,) = bench.cast.signed_in("technician").get("kits").json()["items"]
    assert {attribute["attribute"]: attribute["values"] for attribute in item["attributes"]} == {
        "engine": ["2.0"],
        "tow bar": ["no", "yes"],
        "transmission": ["automatic", "manual"],
        "wear sensor": ["front"],
    }


def test_the_contents_are_shown_in_reading_order_with_their_depth(bench: Bench) -> None:
    kit = bench.turbo_kit().kit
    kit_answer = bench.cast.signed_in("technician").get(f"kits/{kit.pk}").json()
    assert (kit_answer["parts"], kit_answer["cartons"], kit_answer["supplier"]) == (7, 2, "Brightwater Induction")
    assert [(line["depth"], line["label"] or line["number"]) for line in kit_answer["lines"]] == [
        (0, "C1"),
        (1, "1-01"),
        (2, "BI-BOLT"),
        (2, "BI-BRK-M"),
        (2, "BI-BRK-A"),
        (1, "BI-PLUG-M"),
        (1, "BI-HOSE"),
        (0, "C2"),
        (1, "BI-CLAMP"),
        (0, "BI-BOOK"),
    ]
    bracket, plug = kit_answer["lines"][3], kit_answer["lines"][5]
    assert (bracket["when"], bracket["ships"], plug["ships"]) == ("gearbox: manual", "always", "when")
    assert [place for place, line in enumerate(kit_answer["lines"]) if line["fitted"]] == [2, 3, 4, 5, 6, 8]
    assert kit_answer["lines"][2]["operation"] == "BI-TC35-A-20" and kit_answer["reused"][0]["quantity"] == "6"


def test_the_next_version_is_shown_and_the_one_in_use_stays_as_it_was(bench: Bench) -> None:
    first = bench.turbo_kit()
    KitRevision.objects.filter(pk=first.pk).update(used_at="2026-11-24T09:00:00Z")
    actor, oil = bench.cast.acting("parts"), ConsumableFactory(shop=bench.cast.shop, specification="0W-20")
    contents = NewRevision(
        lines=[NewLine("part", Decimal(2), part=bench.part("BI-NUT"))],
        needs=[NewNeed(Decimal("4.5"), consumable=oil)],
        price=Decimal("6480"),
    )
    second = revise_kit(actor=actor, kit=first.kit, contents=contents)
    assert second.number == 2 and KitLine.objects.filter(revision=first).count() == 10
    kit = bench.cast.signed_in("manager").get(f"kits/{first.kit_id}").json()
    assert (kit["revision"], kit["parts"], kit["price"]) == (2, 1, "6480.00")
    assert kit["needs"][0]["title"] == "engine oil, 0W-20" and kit["needs"][0]["quantity"] == "4.5"


def test_a_version_may_change_what_the_kit_is_called_and_fits(bench: Bench) -> None:
    kit, actor = bench.turbo_kit().kit, bench.cast.acting("parts")
    revise_kit(
        actor=actor, kit=kit, contents=NewRevision(fits=[{"attribute": "engine", "in": ["2.4"]}]), title="Charge cooler"
    )
    client = bench.cast.signed_in("parts")
    (item,) = client.get("kits", {"q": "charge cooler"}).json()["items"]
    assert (item["title"], item["why"]) == ("Charge cooler", "engine: 2.4")
    assert client.get("kits", {"q": "turbo"}).json()["items"] == []


@pytest.mark.both
def test_a_version_in_use_takes_no_further_line(bench: Bench) -> None:
    first = bench.turbo_kit()
    KitRevision.objects.filter(pk=first.pk).update(used_at="2026-11-24T09:00:00Z")
    with pytest.raises(IntegrityError, match="kit_line_added_only_to_a_draft"):
        KitLine.objects.create(
            shop=bench.cast.shop, revision=first, position=99, kind="part", part=bench.part("X"), quantity=1
        )


def test_contents_that_cannot_be_flattened_are_refused_whole(bench: Bench) -> None:
    contents = NewRevision(lines=[NewLine("carton", label="C1")])
    with pytest.raises(CalculationError, match="bad_node"):
        add_kit(actor=bench.cast.acting("parts"), code="EMPTY", title="Empty", contents=contents)
    assert not Kit.objects.exists()


@pytest.mark.both
def test_questions_to_the_database_do_not_grow_with_kits_or_lines(bench: Bench) -> None:
    client, vehicle = bench.cast.signed_in("parts"), VehicleFactory(shop=bench.cast.shop)
    first = bench.turbo_kit("KIT-1")
    kit: Any = first.kit
    work_when(first, transmission="manual")

    def query_counts() -> list[int]:
        counts = []
        for path, query in (("kits", {"vehicle": str(vehicle.pk)}), (f"kits/{kit.pk}", {})):
            with CaptureQueriesContext(connection) as queries:
                assert client.get(path, query).status_code == 200
            counts.append(len(queries))
        return counts

    few = query_counts()
    for n in range(4):
        work_when(bench.turbo_kit(f"KIT-{n + 2}"), transmission="automatic")
    revise_kit(
        actor=bench.cast.acting("parts"),
        kit=kit,
        contents=NewRevision(
            lines=[NewLine("part", part=bench.part(f"P-{n}")) for n in range(20)],
            labour=LabourTemplate.objects.get(code="FIT-KIT-1"),
        ),
    )
    assert query_counts() == few
