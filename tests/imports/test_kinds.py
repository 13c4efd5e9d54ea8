"""The plan of each kind of file, without a database."""

from datetime import date
from decimal import Decimal
from typing import Any

import pytest

from kitting.imports.consumables import KIND as CONSUMABLES
from kitting.imports.kit import KIND as KIT
from shop.calc.rules import DepositTerms, Rules
from shop.imports.customers import KIND as CUSTOMERS
from shop.imports.labour import KIND as LABOUR
from shop.imports.rules import KIND as RULES
from shop.imports.vehicles import KIND as VEHICLES
from shop.queries.operations import FLAGS
from shop.tables.engine import FileKind, ImportPreview, read
from tests.cast import Cast
from tests.imports.files import KIT_HEAD, LINES, workbook


def planned(kind: FileKind, body: bytes | str) -> ImportPreview:
    reading = read(kind, "file", body.encode() if isinstance(body, str) else body)
    preview = kind.plan(reading)
    return ImportPreview(preview.plan, (*reading.findings, *preview.findings))


def wrong(preview: ImportPreview) -> list[tuple[str, int]]:
    return [(finding.code, finding.row) for finding in preview.findings if finding.weight == "must_fix"]


def to_check(preview: ImportPreview) -> list[tuple[str, int]]:
    return [(finding.code, finding.row) for finding in preview.findings if finding.weight == "please_check"]


# Kits: the head is rows 1 to 3, the headings row 4, lines from row 5.


def test_no_part_is_measured_in_hours() -> None:
    preview = planned(KIT, KIT_HEAD + LINES + "1;1-01;A;Bolt;2 h;;;\n1;1-02;B;Hose;1.5 m;;;\n")
    assert wrong(preview) == [("unknown_unit", 5)]


def test_a_kit_has_its_lines_by_carton_and_bag() -> None:
    preview = planned(KIT, KIT_HEAD + LINES + "1;1-01;A;Bolt;2;pcs;manual only;OP-1\n1;1-02;B;Hose;1.5 m;;;\n")
    assert wrong(preview) == []
    bolt, hose = preview.plan.lines
    assert (bolt.place, bolt.part.number, bolt.quantity, bolt.part.unit) == (("1", "1-01"), "A", Decimal(2), "pc")
    assert (bolt.when, bolt.operation) == ((("transmission", ("manual",)),), "OP-1")
    assert (hose.quantity, hose.part.unit) == (Decimal("1.5"), "m")


def test_the_same_part_twice_in_one_bag_must_be_fixed() -> None:
    preview = planned(
        KIT, KIT_HEAD + LINES + "1;2-07;C-0251;Clip;2;;;\n1;2-08;C-0251;Clip;1;;;\n1;2-07;c 0251;Clip;3;;;\n"
    )
    assert wrong(preview) == [("part_twice_in_bag", 7)]
    facts = dict(next(finding for finding in preview.findings if finding.code == "part_twice_in_bag").facts)
    assert facts == {"first": "5", "row": "7", "bag": "2-07", "one": "2", "other": "3", "sum": "5"}


def test_the_same_part_for_other_vehicles_or_as_a_spare_is_another_line() -> None:
    head = KIT_HEAD + "Bag;Part no;Qty;Fits;Role\n"
    preview = planned(KIT, head + "1;A;2;manual only;\n1;A;3;automatic only;\n1;A;1;;spare\n")
    assert wrong(preview) == []


def test_one_number_has_one_unit_and_one_title() -> None:
    preview = planned(KIT, KIT_HEAD + LINES + "1;1;A;Hose;2;m;;\n1;2;A;Hose;2;pcs;;\n1;3;A;Pipe;1;m;;\n")
    assert wrong(preview) == [("unit_not_as_before", 6)] and to_check(preview) == [("title_not_as_before", 7)]


def test_a_unit_behind_the_quantity_may_not_contradict_its_column() -> None:
    preview = planned(KIT, KIT_HEAD + LINES + "1;1;A;Hose;2 m;pcs;;\n1;1;B;Seals;2 pcs;set;;\n")
    assert wrong(preview) == [("units_differ", 5)]


def test_a_kit_without_a_number_or_without_lines_must_be_fixed() -> None:
    assert ("kit_without_code", 0) in wrong(planned(KIT, LINES + "1;1;A;Bolt;2;;;\n"))
    assert ("kit_without_lines", 0) in wrong(planned(KIT, KIT_HEAD + "Family;Quantity;Charged\nBrake fluid;1;pack\n"))


def test_a_bag_may_be_a_section_row() -> None:
    preview = planned(KIT, KIT_HEAD + "Part no;Qty;Title\nBag A;;\nA;1;x\nBag B;;\nB;1;y\n")
    assert [line.bag for line in preview.plan.lines] == ["A", "B"]


NEEDS = "Family;Part no;Title;How much;Quantity;Of;Charged\n"


@pytest.mark.parametrize(
    ("row", "rule", "quantity", "of"),
    [
        ("Brake fluid;;;;1,4;;pack", "fixed", "1.4", ""),
        ("Thread locker;;;per fastener;0,04;34;supplies", "per_fastener", "0.04", "34"),
        ("Sealant;;;bead;160 cm;3 mm;pack", "bead", "1.6", "3"),
        ("Engine oil;;;of capacity;1;Engine oil;pack", "of_capacity", "1", "engine oil"),
        ("Coolant;;;refill;0;coolant;pack", "refill", "0", "coolant"),
        ("Water;;;refill water;400 mL;coolant;pack", "refill_water", "0.4", "coolant"),
        (";N-1;Nut, one use;fixed;8 pcs;;pack", "fixed", "8", ""),
    ],
)
def test_needs_by_every_rule(row: str, rule: str, quantity: str, of: str) -> None:
    preview = planned(KIT, KIT_HEAD + LINES + "1;1;A;Bolt;2;;;\n\n" + NEEDS + row + "\n")
    assert wrong(preview) == []
    (need,) = preview.plan.needs
    assert (need.rule, need.quantity, need.of) == (rule, Decimal(quantity), of)


@pytest.mark.parametrize(
    ("row", "code"),
    [
        (";;;fixed;1;;pack", "need_of_what"),
        ("Brake fluid;N-1;;fixed;1;;pack", "need_of_what"),
        ("Thread locker;;;per fastener;0,04;M8;supplies", "need_of_how_many"),
        ("Sealant;;;bead;1,6;wide;pack", "need_of_what_width"),
        ("Sealant;;;bead;1,6 L;3;pack", "units_differ"),
        ("Engine oil;;;of capacity;1;;pack", "need_of_which_circuit"),
        ("Engine oil;;;by feel;1;;pack", "not_one_of"),
        ("Engine oil;;;fixed;;;pack", "missing_value"),
    ],
)
def test_a_need_that_says_too_little_must_be_fixed(row: str, code: str) -> None:
    preview = planned(KIT, KIT_HEAD + LINES + "1;1;A;Bolt;2;;;\n\n" + NEEDS + row + "\n")
    assert wrong(preview) == [(code, 8)]


PACKS = "Family;Specification;Unit;Number;Pack size;Supplier;Cost;Currency\n"


def test_packs_are_measured_in_the_unit_of_their_consumable() -> None:
    preview = planned(
        CONSUMABLES, PACKS + "Brake fluid;DOT 4;L;B-1;250 mL;Q;4.30;EUR\nBrake fluid;DOT 4;L;B-2;1 L;Q;11.20;EUR\n"
    )
    assert wrong(preview) == [] and [pack.size for pack in preview.plan] == [Decimal("0.25"), Decimal(1)]
    assert preview.plan[0].offer.cost == Decimal("4.30")


def test_packs_that_contradict_one_another_must_be_fixed() -> None:
    preview = planned(
        CONSUMABLES,
        PACKS + "Oil;5W-40;L;B-1;1;;;\nOil;5W-40;g;B-2;1;;;\nOil;5W-40;L;b1;5;;;\nOil;5W-40;L;B-3;2 m;;;\n",
    )
    assert sorted(wrong(preview)) == [("row_twice", 4), ("unit_not_as_before", 3), ("units_differ", 5)]


def test_a_price_that_nobody_asks_is_left_out_and_said() -> None:
    preview = planned(CONSUMABLES, PACKS + "Oil;5W-40;L;B-1;1;;9.90;\n")
    assert to_check(preview) == [("price_without_supplier", 2)] and preview.plan[0].offer is None


OPERATIONS = "Code;Title;Skill;Hours;Includes;Overlaps;Cautions;Torques;Wait after;No return\n"


def test_operations_with_all_they_know() -> None:
    row = (
        "A",
        "Sump off",
        "Fabrication",
        "2,6 h",
        "B",
        "C 0,4; D: 0.2",
        "Hot | Heavy",
        "Screws: 10 N·m | Plug: 35 N·m",
        "12 h",
        "x",
    )
    preview = planned(LABOUR, OPERATIONS.replace(";", "\t") + "\t".join(row) + "\n")
    assert wrong(preview) == []
    (operation,) = preview.plan.operations
    assert (operation.skill, operation.hours, operation.includes) == ("fabrication", Decimal("2.6"), ("B",))
    assert operation.overlaps == (("C", Decimal("0.4")), ("D", Decimal("0.2")))
    assert operation.cautions == ("Hot", "Heavy")
    assert operation.torques == (("Screws", "10 N·m"), ("Plug", "35 N·m"))
    assert (operation.wait_after, operation.flags) == (720, (False, True, False, False, False))


@pytest.mark.parametrize(
    ("hours", "wait", "expected"),
    [
        ("999", "525600", []),
        ("999.5", "0", [("above", 2)]),
        ("1", "525601", [("above", 2)]),
        ("1", "8760 h", []),
        ("1", "8761 h", [("above", 2)]),
        ("1", f"{'9' * 5000} h", [("out_of_range", 2)]),
    ],
)
def test_hours_and_waits_that_nobody_can_mean_must_be_fixed(hours: str, wait: str, expected: list[Any]) -> None:
    assert wrong(planned(LABOUR, OPERATIONS + f"A;x;m;{hours};;;;;{wait};\n")) == expected


def test_the_hours_of_a_step_and_of_a_kit_have_the_same_limit() -> None:
    assert wrong(planned(LABOUR, "Template;Operation;Stage;Hours\nT;A;s;999\nT;B;s;1000\n")) == [("above", 3)]
    assert ("above", 2) in wrong(planned(KIT, f"Kit;K\nHours;1000\n{KIT_HEAD}{LINES}1;1;A;Hose;2;pcs;;\n"))


def test_operations_in_a_circle_must_be_fixed() -> None:
    head = "Code;Title;Skill;Hours;Includes\n"
    preview = planned(LABOUR, head + "A;x;m;1;B\nB;x;m;1;C\nC;x;m;1;A\nD;x;m;1;D\nE;x;m;1;A\n")
    assert wrong(preview) == [("includes_loop", 2), ("includes_loop", 5)]


STEPS = "Template;Operation;Stage;After;When\n"


def test_a_step_follows_the_one_above_unless_told() -> None:
    preview = planned(LABOUR, STEPS + "T;A;1;;\nT;B;1;;\nT;C;1;-;\nT;D;2;A; C;\n".replace("A; C", "A, C"))
    ((code, steps),) = preview.plan.templates
    assert code == "T" and [step.after for step in steps] == [(), ("A",), (), ("A", "C")]


def test_steps_that_wait_for_one_another_or_for_nothing_must_be_fixed() -> None:
    preview = planned(LABOUR, STEPS + "T;A;1;B;\nT;B;1;A;\nT;C;1;Z;\nT;C;1;A;\n")
    assert sorted(wrong(preview)) == [("after_loop", 2), ("row_twice", 5), ("step_unknown", 4)]


def test_customers_once_each() -> None:
    preview = planned(CUSTOMERS, "Name;Tel\nAda Quill;01632 960 801\nADA QUILL;01632960801\nAda Quill;01632 960 802\n")
    assert wrong(preview) == [("row_twice", 3)]


def test_vehicles_with_attributes_and_capacities_of_any_name() -> None:
    head = "Owner;Make and model;VIN;Transmission;Attribute: Wear sensor;Capacity engine oil (L);Capacity: hub oil\n"
    preview = planned(VEHICLES, head + "Ada;Vell 2.4;90V2-47 0T;Auto;Yes;5,2;0,8\n")
    (vehicle,) = preview.plan
    assert vehicle.attributes == {"transmission": "automatic", "wear sensor": "yes"}
    assert vehicle.capacities == {"engine oil": "5.2", "hub oil": "0.8"}
    assert vehicle.vin == "90V2470T" and to_check(preview) == [("vin_malformed", 2)]
    assert wrong(preview) == []


def test_a_vin_or_plate_twice_must_be_fixed() -> None:
    preview = planned(VEHICLES, "Vehicle;Plate\nVell 2.4;QQ 1\nT35;qq-1\nHauler;\nHauler;\n")
    assert wrong(preview) == [("row_twice", 3)]


SHEETS: dict[str, list[list[Any]]] = {
    "Rules": [["Rule", "Value"], ["Valid from", "2026-09-01"], ["Markup mode", "graduated"], ["Validity, days", 21]],
    "Labour rates": [["Skill", "Rate"], ["Mechanical", "118,80"]],
    "Bands": [["Up to", "Times"], [100, 1.7], [None, 1.2]],
    "Taxes": [["Code", "Rate", "Classes", "On top of"], ["A", "20 %", "part; labour", None]],
}


def rules(**changed: list[list[Any]]) -> ImportPreview:
    return planned(RULES, workbook(SHEETS | {name.replace("_", " "): rows for name, rows in changed.items()}))


def test_a_workbook_of_rules_is_what_the_reader_of_rules_takes() -> None:
    preview = rules()
    assert wrong(preview) == []
    assert preview.plan.rules["labour_rates"] == {"mechanical": "118.8"}
    assert preview.plan.rules["markup"] == {"bands": [{"up_to": "100", "x": "1.7"}, {"x": "1.2"}], "mode": "graduated"}
    assert preview.plan.rules["taxes"] == [{"code": "A", "rate": "0.2", "classes": ["part", "labour"]}]
    assert preview.plan.rules["validity_days"] == 21 and str(preview.plan.valid_from) == "2026-09-01"


def test_more_people_than_find_room_at_a_vehicle_must_be_fixed_in_their_cell() -> None:
    crowded = [*SHEETS["Rules"], ["Technicians", 10]]
    (finding,) = [candidate for candidate in rules(Rules=crowded).findings if candidate.weight == "must_fix"]
    assert (finding.code, finding.row, dict(finding.facts)["limit"]) == ("above", 5, "9")


@pytest.mark.parametrize(
    ("taxes", "code"),
    [
        ([["A", "5 %", "part", "B"], ["B", "5 %", "part", "A"]], "rules_tax_loop"),
        ([["A", "5 %", "part", None], ["A", "6 %", "part", None]], "rules_duplicate_tax"),
        ([["A", "5 %", "part", "Z"]], "rules_unknown_tax"),
    ],
)
@pytest.mark.django_db
def test_taxes_that_cannot_be_must_be_fixed(cast: Cast, taxes: list[list[Any]], code: str) -> None:
    plan = rules(Taxes=[["Code", "Rate", "Classes", "On top of"], *taxes]).plan
    assert wrong(RULES.check(cast.acting("manager"), plan)) == [(code, 0)]


def test_a_rule_nobody_knows_is_left_out_and_said_and_one_said_twice_must_be_fixed() -> None:
    preview = rules(Rules=[*SHEETS["Rules"], ["Colour of the door", "blue"], ["Validity", 14]])
    assert to_check(preview) == [("rule_unknown", 5)] and ("rule_twice", 6) in wrong(preview)


@pytest.mark.parametrize("heading", ["Check point", "Hold point"])
def test_a_check_point_is_read_under_its_old_heading_too(heading: str) -> None:
    preview = planned(LABOUR, f"Code;Title;Skill;Hours;{heading}\nA;Gauge check;m;0.5;yes\nB;Fit;m;1;no\n")
    marked = [operation.code for operation in preview.plan.operations if operation.flags[FLAGS.index("hold_point")]]
    assert (wrong(preview), marked) == ([], ["A"])


def test_a_run_out_is_no_torque() -> None:
    heads = ["Code", "Operation", "Skill", "Hours", "Torque values", "Other values"]
    row = ["BB-02", "Hubs", "mechanical", "0.6"]
    mixed = planned(
        LABOUR, workbook({"Operations": [heads, [*row, "Screw: 20 N·m, then 90° | Run-out: 0.05 mm", None]]})
    )
    assert wrong(mixed) == [("not_a_torque", 2)]
    apart = planned(LABOUR, workbook({"Operations": [heads, [*row, "Screw: 20 N·m, then 90°", "Run-out: 0.05 mm"]]}))
    (operation,) = apart.plan.operations
    assert wrong(apart) == [] and operation.torques == (("Screw", "20 N·m, then 90°"),)
    assert operation.others == (("Run-out", "0.05 mm"),)


def test_a_caution_may_name_what_it_applies_to() -> None:
    words = [
        ["Kind", "Text", "Applies to"],
        ["caution", "Mind.", None],
        ["caution", "Tow less.", "QT-11; QF-ATC45"],
    ]
    cautions = rules(Words=words).plan.rules["words"]["cautions"]
    assert cautions == ["Mind.", {"text": "Tow less.", "applies_to": ["QT-11", "QF-ATC45"]}]
    assert wrong(rules(Words=[*words, ["consent", "I agree.", "QT-11"]])) == [("applies_to_cautions", 4)]


def test_opening_hours_closed_days_and_rates_are_taken_alone_too() -> None:
    preview = planned(
        RULES,
        workbook(
            {
                "Calendar": [
                    ["Day", "Opens", "Closes", "Valid from"],
                    ["Tuesday", "13:00", "17:30", None],
                    ["tue", "8:00", "12:00", None],
                    ["wed", "9:00", "13:00", "2027-01-04"],
                ],
                "Closed": [["Date", "Why"], ["2026-12-25", "Holiday"]],
                "Exchange": [["Currency", "Valid from", "Rate"], ["eur", "2026-11-02", "1.6215"]],
            }
        ),
    )
    assert wrong(preview) == [] and preview.plan.rules is None
    assert [(hours.valid_from, hours.week) for hours in preview.plan.weeks] == [
        (None, {"tue": [["08:00", "12:00"], ["13:00", "17:30"]]}),
        (date(2027, 1, 4), {"wed": [["09:00", "13:00"]]}),
    ]
    assert [str(rate.rate) for rate in preview.plan.rates] == ["1.6215"]


def test_a_day_that_closes_before_it_opens_must_be_fixed() -> None:
    body = workbook({"Calendar": [["Day", "Opens", "Closes"], ["mon", "17:00", "08:00"]]})
    assert wrong(planned(RULES, body)) == [("closes_before_opening", 2)]


def test_prices_can_be_rounded_up_to_one_of_three_steps() -> None:
    planned = rules(Rules=[*SHEETS["Rules"], ["Price rounding", 0.1]])
    assert Rules.from_json(planned.plan.rules).price_step == Decimal("0.1")
    assert wrong(rules(Rules=[*SHEETS["Rules"], ["Price rounding", 0.25]])) != []


def test_a_minimum_charge_is_read_in_hours_of_labour() -> None:
    planned = rules(Rules=[*SHEETS["Rules"], ["Minimum charge, hours", "0,5"]])
    assert Rules.from_json(planned.plan.rules).minimum_hours == Decimal("0.5")
    assert wrong(rules(Rules=[*SHEETS["Rules"], ["Minimum charge, hours", 0.25]])) != []


def test_a_deposit_has_a_share_a_base_and_the_words_on_how_to_pay() -> None:
    rows = [["Deposit", "30 %"], ["Deposit on", "total"], ["Deposit releases orders", "yes"], ["Deposit cover", "yes"]]
    words = [["Kind", "Code", "Text"], ["how to pay", "", "Pay by transfer."]]
    deposit = Rules.from_json(rules(Rules=[*SHEETS["Rules"], *rows], Words=words).plan.rules).deposit
    assert deposit == DepositTerms("total", Decimal("0.3"), ("Pay by transfer.",), True, True)
    assert wrong(rules(Rules=[*SHEETS["Rules"], ["Deposit on", "labour"]])) != []
