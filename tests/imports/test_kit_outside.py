"""Work of other firms in a kit's file: read with the kit, checked at its cells, kept from version to version."""

from datetime import date
from decimal import Decimal
from typing import Any

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile

from kitting.imports.kit import KIND as KIT
from kitting.imports.kit_rows import write_kit
from kitting.models import Kit, KitOutside, Supplier
from shop.models import TemplateStep
from tests.cast import Cast
from tests.factories import OperationFactory
from tests.imports.files import KIT_HEAD
from tests.imports.test_kinds import planned, to_check, wrong
from tests.quotes.stage import Stage, make_stage

pytestmark = pytest.mark.once

PARTS = "Part no.;Description;Qty\nA-1;Bolt;2\n"
HEAD = "\nTitle;Firm;Cost;Tax class;Markup;Turnaround;Starts after;Needed for;Rounds;Cost a round;They need\n"
CALIBRATION = "Calibration;Lathe & Lambda;620;labour;15 %;3 days;SETUP;TURBO;2;yes;Build sheet\n"
WITH = KIT_HEAD + PARTS + HEAD + CALIBRATION
KIT_DAY = date(2026, 1, 5)


@pytest.fixture
def stage(cast: Cast) -> Stage:
    return make_stage(cast)


def checked(stage: Stage, text: str) -> Any:
    """The findings with which an advisor's file of a kit with the turbocharger's labour comes back."""
    head = KIT_HEAD.replace("\n\n", "\nLabour template;BI-T\n\n")
    return KIT.check(stage.cast.acting("manager"), planned(KIT, text.replace(KIT_HEAD, head)).plan)


def take_in(stage: Stage, text: str) -> list[KitOutside]:
    """The outside work of the newest version once the file is imported."""
    plan = planned(KIT, text).plan
    actor = stage.cast.acting("manager")
    write_kit(actor, plan, KIT_DAY)
    kit = Kit.objects.get(shop=stage.shop, code="K-1")
    newest = kit.revisions.order_by("-number")[0]
    return list(KitOutside.objects.filter(revision=newest).order_by("position"))


def test_outside_work_comes_in_with_its_kit(stage: Stage) -> None:
    Supplier.objects.create(shop=stage.shop, name="lathe & lambda", currency="EUR")
    [work] = take_in(stage, WITH)
    assert (work.title, work.cost, work.markup, work.handling) == ("Calibration", 620, Decimal("0.15"), 0)
    assert (work.days, work.rounds, work.per_round, work.they_need) == (3, 2, True, "Build sheet")
    assert work.starts_after and work.needed_by
    assert (work.starts_after.code, work.needed_by.code) == ("SETUP", "TURBO")
    assert work.firm.name == "lathe & lambda"  # the firm that the shop knows already


def test_a_file_without_the_list_leaves_it_as_it_was(stage: Stage) -> None:
    [before] = take_in(stage, WITH)
    [later] = take_in(stage, KIT_HEAD + PARTS)
    assert later.revision_id != before.revision_id
    names = ("title", "firm_id", "cost", "markup", "tax_class", "days", "starts_after_id", "needed_by_id", "they_need")
    names += ("rounds", "per_round", "position")
    assert [getattr(later, name) for name in names] == [getattr(before, name) for name in names]
    [changed] = take_in(stage, WITH.replace(";620;", ";640;"))
    assert changed.cost == 640


def test_what_is_wrong_is_named_at_its_cell(stage: Stage) -> None:
    rows = (
        "Calibration;Lathe & Lambda;620.123;labour;;3;SETUP;TURBO;;;\n"
        "Alignment;Lathe & Lambda;90;no such class;;;BUMPER;SETUP;;yes;\n"
        "Balancing;Lathe & Lambda;90;labour;;;WIRING;;;;\n"
    )
    turbo = TemplateStep.objects.get(template__code="BI-T", operation__code="BUMPER")
    TemplateStep.objects.filter(pk=turbo.pk).update(after=["SETUP"])
    preview = checked(stage, KIT_HEAD + PARTS + HEAD + rows)
    columns = {(finding.code, finding.row, finding.column) for finding in preview.findings}
    assert {("finer_than_currency", 9, "C"), ("outside_class_unknown", 10, "D")} <= columns
    assert {("result_before_work", 10, "H"), ("rounds_missing", 10, "J")} <= columns
    assert ("outside_step_unknown", 11, "G") in columns  # a step, but of another kit
    assert ("kit_outside", (("n", "3"),)) in [(line.code, line.facts) for line in preview.becomes]


def test_a_right_list_has_nothing_to_find(stage: Stage) -> None:
    preview = checked(stage, WITH)
    assert [finding.code for finding in preview.findings] == []


@pytest.mark.parametrize(
    ("old", "new", "code"),
    [
        (";3 days;", ";0;", "not_above_zero"),
        (";3 days;", ";251;", "above"),
        (";2;yes;", ";0;;", "not_above_zero"),
        (";620;", ";;", "missing_value"),
        (";labour;", ";;", "missing_value"),
        (";15 %;", ";-5 %;", "below_zero"),
    ],
)
def test_a_figure_that_cannot_be_is_refused(old: str, new: str, code: str) -> None:
    preview = planned(KIT, WITH.replace(old, new))
    assert wrong(preview) == [(code, 8)]
    assert to_check(preview) == []


def test_the_counter_sees_what_comes_with_the_kit_before_it_is_imported(stage: Stage) -> None:
    OperationFactory(shop=stage.shop, code="OTHER")
    file = SimpleUploadedFile("kit.csv", WITH.encode())
    answer = stage.client.post("imports", {"kind": "kit", "file": file}, format="multipart")
    assert answer.status_code == 201, answer.content
    assert "Work by other firms that goes with it: 1" in answer.json()["becomes"]["words"]
