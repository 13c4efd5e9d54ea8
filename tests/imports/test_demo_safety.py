"""Cautions and the order of work in the demonstration's labour, checked against rules in tables.

`HAZARDS` names the operations of each class of hazard by title, and the content of their cautions. `ORDER` says what
comes first if both are done. Both hold in every template, on every vehicle, for every choice of kits.
"""

import re
from collections.abc import Iterator
from functools import cache
from importlib.util import module_from_spec, spec_from_file_location
from itertools import permutations, product
from typing import NamedTuple

import pytest
from django.conf import settings
from openpyxl import load_workbook

from shop.calc.rules import Rules
from shop.calc.sheet import SheetStep, merged_sheet
from shop.imports.labour import KIND
from shop.imports.labour_plan import ImportedOperation, ImportedStep, LabourPlan
from shop.imports.rules import KIND as RULES
from shop.queries.operations import FLAGS
from shop.tables.engine import read

DEMO = settings.BASE_DIR / "fixtures" / "demo"
FILES = {
    "saltmarsh": ("saltmarsh/labour.xlsx",),
    "copperfell": ("copperfell/operations.csv", "copperfell/templates.csv"),
}


class Hazard(NamedTuple):
    name: str
    operations: str  # titles
    says: tuple[str, ...]  # each in some caution of the operation


HAZARDS = (
    Hazard(
        "lifting, or under the vehicle",
        r"undertray|wheels and arch liners off|bumper off|cross-member|springs|sump off|engine oil|exhaust off|downpipe"
        r"|cooler lines|into the transmission lines|transmission (pipes|fluid)",
        (r"chock", r"manufacturer's points", r"rated stands", r"shake"),
    ),
    Hazard("wheels on", r"wheels on$", (r"longer bolts", r"just on the ground", r"star", r"50 to 100 km", r"by hand")),
    Hazard("spacers", r"wheel clearance", (r"longer bolts only",)),
    Hazard("heavy", r"manifold and catalyst off|turbocharger onto|cross-member", (r"two people",)),
    Hazard("hot exhaust", r"(exhaust|catalyst) off", (r"burns", r"cool")),
    Hazard(
        "fuel",
        r"fuel rail",
        (r"flame", r"lamp", r"extinguisher", r"ventilate", r"before the battery is off", r"approved can"),
    ),
    Hazard("restraints", r"^battery|front end o(ff|n)|bumper off", (r"restraint plug open",)),
    Hazard("fuel pressure before the battery is off", r"^battery off", (r"relieve it before",)),
    Hazard("hot coolant", r"coolant(?!.*lines)|charge-cooling circuit", (r"only when cold|never open a hot",)),
    Hazard("coolant pressure", r"pressure-test", (r"never test above the pressure on the cap", r"fans")),
    Hazard("coolant spilt", r"drain the coolant|coolant lines|charge-cooling", (r"catch every drop", r"poisonous")),
    Hazard("refrigerant", r"front end off|heat exchanger|cooler and bracket", (r"air-conditioning lines", r"licensed")),
    Hazard("brake dust", r"discs off|hub faces", (r"dust", r"do not blow")),
    Hazard(
        "brake fluid",
        r"hoses and unions|bleed the brakes|clutch line",
        (r"eye protection", r"paint", r"cap open lines"),
    ),
    Hazard("fluid type", r"bleed the brakes|clutch line", (r"fluid type on the reservoir cap",)),
    Hazard("pedal", r"bleed the brakes|bed in", (r"firm pedal",)),
    Hazard("bedding in", r"bed in", (r"low-speed stops",)),
    Hazard("hot oil", r"engine oil|sump off", (r"below 50 °C",)),
    Hazard(
        "hot transmission fluid",
        r"transmission (pipes|lines|fluid)|into the trans|cooler lines",
        (r"burns", r"let it cool"),
    ),
    Hazard(
        "transmission fluid lost",
        r"into the transmission lines|transmission pipes",
        (r"catch the fluid", r"replace what ran out before the engine is started"),
    ),
    Hazard("started dry", r"first start", (r"full again: oil, coolant, transmission fluid",)),
    Hazard("welding", r"weld", (r"battery", r"extinguisher", r"fuel lines", r"extraction")),
    Hazard("cutting", r"trimmed|cut out", (r"eye protection",)),
    Hazard("compressed air", r"boost leak", (r"regulated", r"never above", r"clear", r"eye protection")),
    Hazard("running engine", r"first start|fluid level set", (r"extraction", r"belts and fans")),
    Hazard("flammable cleaner", r"flange faces|hub faces", (r"flammable", r"ventilate")),
    Hazard("nickel paste", r"studs, gasket", (r"nickel", r"gloves")),
    Hazard("asthma", r"cut out and on", (r"asthma",)),
    Hazard("permanent feed", r"trailer loom|^loom", (r"battery off", r"fuse")),
    Hazard("springs", r"springs", (r"store energy",)),
    Hazard("driving", r"road test|drive|bed in", (r"licensed and insured", r"legal")),
    Hazard("arrival", r"^receive", (r"brakes.*tyres.*lamps",)),
    Hazard("original calibration", r"read and archive", (r"do not overwrite",)),
    Hazard("writing to a module", r"calibration, key|coded|read and archive", (r"stable supply",)),
    Hazard(
        "used once",
        r"new manifold|onto the manifold|downpipe|brackets on|calipers and pads|cross-member",
        (r"fitted new",),
    ),
    Hazard("removable ball", r"tow ball", (r"locked",)),
)

OFF, ON, FIRST_START = "Battery off", "Battery on", "first start"
ORDER = (
    # (what comes first, what comes later) by title, wherever a job has both
    (r"every module, note", rf"^{OFF}"),
    (r"read and archive", rf"^{OFF}"),
    (rf"^{OFF}", r"front end off|bumper off|weld|^loom|trailer loom|fuel rail|exhaust off"),
    (r"weld|^loom|trailer loom|fuel rail|boost control", rf"^{ON}"),
    (
        rf"^{ON}",
        rf"coded|calibration, key|lamps (aimed|and plug)|{FIRST_START}|final scan|fluid level|road test, look|drive"
        r"|charge-cooling circuit",
    ),
    (r"drain the coolant", r"catalyst off"),
    (r"sump off", r"oil feed and return"),
    (r"boost leak", FIRST_START),
    (r"torque records", FIRST_START),
    (FIRST_START, r"fluid level|drive|road test, look|bed in"),
    (r"fluid level|final scan|wheels on|bleed the brakes", r"drive|road test, look|bed in"),
)


@cache
def labour(shop: str) -> tuple[dict[str, ImportedOperation], dict[str, tuple[ImportedStep, ...]]]:
    operations: dict[str, ImportedOperation] = {}
    templates: dict[str, tuple[ImportedStep, ...]] = {}
    for name in FILES[shop]:
        plan: LabourPlan = KIND.plan(read(KIND, name, (DEMO / name).read_bytes())).plan
        operations |= {operation.code: operation for operation in plan.operations}
        templates |= dict(plan.templates)
    return operations, templates


def jobs(templates: dict[str, tuple[ImportedStep, ...]]) -> Iterator[tuple[str, list[str]]]:
    """(name, codes in order) for every choice of kits in every order, on every vehicle that makes a difference."""
    values_by_attribute: dict[str, set[str]] = {}
    for steps in templates.values():
        for attribute, values in (condition for step in steps for condition in step.when):
            values_by_attribute.setdefault(attribute, {"another"}).update(values)
    for values in product(*(sorted(options) for options in values_by_attribute.values())):
        vehicle = dict(zip(values_by_attribute, values, strict=True))
        sheets = {
            code: [
                SheetStep(s.operation, s.after, all(vehicle[name] in allowed for name, allowed in s.when))
                for s in steps
            ]
            for code, steps in templates.items()
        }
        for n in range(1, len(sheets) + 1):
            for kits in permutations(sheets, n):
                order = [step.code for step in merged_sheet([sheets[kit] for kit in kits])]
                yield f"{' + '.join(kits)}, {', '.join(values)}", order


def says(pattern: str, text: str) -> bool:
    return re.search(pattern, text, re.IGNORECASE) is not None


@pytest.mark.parametrize("shop", FILES)
@pytest.mark.parametrize("hazard", HAZARDS, ids=lambda hazard: hazard.name)
def test_every_operation_of_a_hazard_carries_its_caution(shop: str, hazard: Hazard) -> None:
    concerned = [operation for operation in labour(shop)[0].values() if says(hazard.operations, operation.title)]
    assert concerned, "no operation has this hazard"
    lacking = [
        f"{operation.code} {operation.title}: {caution_text}"
        for operation in concerned
        for caution_text in hazard.says
        if not any(says(caution_text, caution) for caution in operation.cautions)
    ]
    assert lacking == []


@pytest.mark.parametrize("shop", FILES)
def test_lifting_is_cautioned_before_anything_is_lifted(shop: str) -> None:
    """A job for one kit may reach the wheels by another operation than a job for three."""
    operations, templates = labour(shop)
    lifting = HAZARDS[0]
    checked = 0
    for job, order in jobs(templates):
        first = next(operations[code] for code in order if says(lifting.operations, operations[code].title))
        assert all(any(says(pattern, caution) for caution in first.cautions) for pattern in lifting.says), (
            job,
            first.code,
        )
        checked += 1
    assert checked > 50


@pytest.mark.parametrize("shop", FILES)
@pytest.mark.parametrize(("earlier", "later"), ORDER)
def test_the_order_of_work_agrees_with_the_cautions(shop: str, earlier: str, later: str) -> None:
    operations, templates = labour(shop)
    wrong, checked = set(), 0
    for _, order in jobs(templates):
        before = {n: code for n, code in enumerate(order) if says(earlier, operations[code].title)}
        after = {
            n: code
            for n, code in enumerate(order)
            if says(later, operations[code].title) and code not in before.values()
        }
        checked += bool(before and after)
        wrong |= {(after[m], before[n]) for n in before for m in after if m < n}
    assert checked and wrong == set()


@pytest.mark.parametrize("shop", FILES)
def test_no_vehicle_is_driven_before_its_battery_is_on_again(shop: str) -> None:
    operations, templates = labour(shop)
    titles = [[operations[code].title for code in order] for _, order in jobs(templates)]
    assert all(any(title.startswith(ON) for title in job) for job in titles if any(title == OFF for title in job))


def test_spacers_are_held_by_the_longer_bolts_alone() -> None:
    text = (DEMO / "suppliers" / "ferrous-vane-FV-BB356.csv").read_text("utf-8-sig")
    assert "Wheel spacer" in text and "M14 x 1.5 x 28, longer than original" in text
    assert "Wheel bolts" not in text.split("Used again")[1]


def test_what_comes_off_with_the_catalyst_goes_back_on() -> None:
    book = load_workbook(DEMO / "suppliers" / "brightwater-BI-TC35-A-contents-v4.xlsx", read_only=True)
    rows = [tuple(cell.value for cell in row) for row in book["Used again"].iter_rows()]
    assert ("Catalyst", 1, "TC-03", "TC-11") in rows


@pytest.mark.parametrize("shop", FILES)
def test_a_bolt_tightened_by_angle_has_torque_and_angle(shop: str) -> None:
    bolts = [
        torque
        for operation in labour(shop)[0].values()
        for torque in operation.torques
        if "Catalyst bracket" in torque[0]
    ]
    assert bolts and all(re.fullmatch(r"\d+ N·m, then \d+°", value) and "new" in name for name, value in bolts)


def test_whoever_starts_the_demonstration_is_told_that_it_is_invented(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    spec = spec_from_file_location("demo_open", DEMO / "open.py")
    assert spec and spec.loader
    script = module_from_spec(spec)
    spec.loader.exec_module(script)
    monkeypatch.setenv("DEMO_PASSWORD", "x")
    monkeypatch.setattr(script.Api, "sign_in", lambda *arguments: None)
    monkeypatch.setattr(script, "customer_link", lambda api: "nowhere")
    monkeypatch.setattr(script, "show_in_bay", lambda *arguments: None)
    script.main("http://127.0.0.1:1")
    output = capsys.readouterr().out.replace("\n", " ")
    warning = "Never use its torque values or capacities on a real vehicle."
    assert warning in output and warning in (settings.BASE_DIR / "README.md").read_text("utf-8")


SOLD = {  # by template: sentences that the customer has to read, and sentences that would be untrue
    "BB356-FIT": (("bedded in",), ("emissions", "calibration", "tow bar", "throttle")),
    "ATC45-FIT": (("tow bar",), ("emissions", "calibration", "bedded in")),
    "TC35-FIT": (("emissions|calibration", "running-in"), ("tow bar", "bedded in")),
}


@pytest.mark.parametrize("shop", FILES)
@pytest.mark.parametrize("template", SOLD)
def test_a_customer_reads_the_cautions_of_what_is_sold(shop: str, template: str) -> None:
    plan = RULES.plan(read(RULES, "rules.xlsx", (DEMO / shop / "rules.xlsx").read_bytes())).plan
    sold = [step.operation for step in labour(shop)[1][template]]
    text = " ".join(caution.text for caution in Rules.from_json(plan.rules).cautions if caution.concerns(sold))
    expected, untrue = SOLD[template]
    assert [sentence for sentence in expected if not says(sentence, text)] == []
    assert [sentence for sentence in untrue if says(sentence, text)] == []
    assert says("insurer", text)


@pytest.mark.parametrize("shop", FILES)
def test_torque_values_are_torques_and_a_removable_ball_has_none(shop: str) -> None:
    operations = labour(shop)[0]
    torques = [(operation.code, what, value) for operation in operations.values() for what, value in operation.torques]
    assert len(torques) > 30 and [torque for torque in torques if "N·m" not in torque[2]] == []
    others = [(operation.code, what) for operation in operations.values() for what, _ in operation.others]
    assert ("BB-02", "Run-out") in others and ("GEN-10", "Pressure test") in others
    assert "QT-11" not in {code for code, _, _ in torques} and "QT-11" in {code for code, _ in others}


TIGHTENED = (
    r"battery on|front end on|and front wheels on|engine oil|manifold on|on the bench|onto the manifold|oil feed|lines$"
    r"|sump sealed|front section on|heat exchanger|charge cooler|pump|sensors|fuel rail|spark plugs|boost control"
    r"|intake duct, filter|pipes re-routed|clutch line|brackets on|calipers and pads on|unions|sensor leads"
    r"|cross-member|loom and socket|cut out and on|cooler and bracket|run and clipped|thermostatic bypass"
    r"|fluid level|helper springs"
)


@pytest.mark.parametrize("shop", FILES)
def test_a_step_that_tightens_a_bolt_has_its_value_or_says_where_to_look(shop: str) -> None:
    """The values are invented. Where the workshop has none, the step refers to the manufacturer's."""
    concerned = [operation for operation in labour(shop)[0].values() if says(TIGHTENED, operation.title)]
    assert len(concerned) > 30
    looked_up = "to the manufacturer's value, look it up"
    assert [
        operation.title
        for operation in concerned
        if not operation.torques and looked_up not in (value for _, value in operation.others)
    ] == []


@pytest.mark.parametrize("shop", FILES)
def test_wherever_wheels_come_off_the_file_says_so_and_the_rules_give_a_distance(shop: str) -> None:
    operations, templates = labour(shop)
    off = {
        code for code, operation in operations.items() if dict(zip(FLAGS, operation.flags, strict=True))["wheels_off"]
    }
    for name, steps in templates.items():
        titles = {operations[step.operation].title: step.operation for step in steps}
        back_on = any(re.search(r"wheels on$", title) for title in titles)
        assert back_on == bool(off & set(titles.values())), name
    plan = RULES.plan(read(RULES, "rules.xlsx", (DEMO / shop / "rules.xlsx").read_bytes())).plan
    assert Rules.from_json(plan.rules).wheel_check == "50 to 100 km"


@pytest.mark.parametrize("shop", FILES)
def test_every_job_page_of_the_demonstration_says_that_its_values_are_invented(shop: str) -> None:
    plan = RULES.plan(read(RULES, "rules.xlsx", (DEMO / shop / "rules.xlsx").read_bytes())).plan
    (sentence,) = Rules.from_json(plan.rules).bay_words
    assert says("torque values and capacities are invented", sentence) and says(
        "never use them on a real vehicle", sentence
    )
