"""Files whose words and columns carry conditions, successors, two quantities, prices per hundred, or no kit number."""

from tests.ugly.spec import TITLE, Expected, UglyFile, book, goods, lines_of, text_file

HEAD = ["Part no.", "Description", "Qty"]
PARTS = goods("ME", 10)
BOTH = "transmission=automatic", "transmission=manual"

MORE = ("3110", "3120", "3130", "3140", "3150")

FILES = (
    UglyFile(
        "automatic_only_in_the_description.csv",
        text_file(
            [*TITLE, HEAD, *PARTS, ["ME-21", "Cooler pipe, automatic only", 1], ["ME-22", "Clutch line (manual)", 1]]
        ),
        lines_of("", "", [*PARTS, ("ME-21", "", 1), ("ME-22", "", 1)]),
        checks=("condition_in_words B15", "condition_in_words B16"),
    ),
    UglyFile(
        "conditions_in_remarks.csv",
        text_file(
            [
                *TITLE,
                [*HEAD, "Remark"],
                *[[*part, ""] for part in PARTS],
                ["ME-21", "Bracket", 1, "2.4 only"],
                ["ME-22", "Shield", 1, "except Sport"],
                ["ME-23", "Pipe", 1, "not for manual gearbox"],
                ["ME-24", "Lead", 1, "nur Automatik"],
            ]
        ),
        lines_of("", "", [*PARTS, *[(f"ME-2{n}", "", 1) for n in range(1, 5)]]),
        checks=tuple(f"condition_in_words D{row}" for row in range(15, 19)),
    ),
    UglyFile(
        "parts_whose_names_only_look_like_conditions.csv",
        text_file(
            [
                *TITLE,
                HEAD,
                ["ME-31", "Manual, fitting instructions", 1],
                ["ME-32", "Automatic tensioner", 1],
                ["ME-33", "Clip, sport grey", 2],
            ]
        ),
        lines_of("", "", [("ME-31", "", 1), ("ME-32", "", 1), ("ME-33", "", 2)]),
    ),
    UglyFile(
        "variants_as_headings_between_the_lines.csv",
        text_file(
            [
                *TITLE,
                ["Bag", *HEAD],
                *[["A", *part] for part in PARTS[:4]],
                ["Automatic gearbox only"],
                *[["B", *part] for part in PARTS[4:7]],
                ["Manual gearbox only"],
                *[["C", *part] for part in PARTS[7:10]],
            ]
        ),
        (
            *lines_of("", "A", PARTS[:4]),
            *lines_of("", "B", PARTS[4:7], BOTH[0]),
            *lines_of("", "C", PARTS[7:10], BOTH[1]),
        ),
        says=("variants_by_heading",),
    ),
    UglyFile(
        "one_variant_as_a_heading.csv",
        text_file(
            [
                *TITLE,
                ["Bag", *HEAD],
                *[["A", *part] for part in PARTS[:2]],
                ["Automatic gearbox only"],
                ["B", *PARTS[2]],
                ["C", *PARTS[3]],
            ]
        ),
        (
            *lines_of("", "A", PARTS[:2]),
            *lines_of("", "B", PARTS[2:3], BOTH[0]),
            *lines_of("", "C", PARTS[3:4], BOTH[0]),
        ),
        asks=("variants",),
        answers={"variants": "condition"},
    ),
    UglyFile(
        "a_bag_goes_on_under_the_other_variant.csv",
        text_file(
            [
                *TITLE,
                ["Bag", *HEAD],
                ["Automatic gearbox only"],
                ["A", *PARTS[0]],
                ["Manual gearbox only"],
                ["A", *PARTS[1]],
                ["B", *PARTS[2]],
            ]
        ),
        (
            *lines_of("", "A", PARTS[:1], BOTH[0]),
            *lines_of("", "A", PARTS[1:2], BOTH[1]),
            *lines_of("", "B", PARTS[2:3], BOTH[1]),
        ),
        asks=("variants",),
        answers={"variants": "condition"},
    ),
    UglyFile(
        "variants_of_no_known_attribute_as_headings.csv",
        text_file(
            [
                *TITLE,
                HEAD,
                ["Only for right-hand drive"],
                ["ME-35", "Heat shield", 1],
                ["Sport only"],
                ["ME-36", "Strut", 1],
                ["Not for estate"],
                ["ME-37", "Spacer", 1],
            ]
        ),
        (
            Expected("", "", "ME-35", "1", "variant=right-hand drive"),
            Expected("", "", "ME-36", "1", "variant=Sport"),
            Expected("", "", "ME-37", "1"),
        ),
        asks=("variants",),
        answers={"variants": "condition"},
        checks=("condition_in_words 10",),
    ),
    UglyFile(
        "variants_above_the_rows_of_bags.csv",
        text_file(
            [
                *TITLE,
                HEAD,
                ["Bag 1"],
                *PARTS[:4],
                ["Automatic gearbox only"],
                ["Bag 2"],
                *PARTS[4:7],
                ["Manual gearbox only"],
                ["Bag 3"],
                *PARTS[7:10],
            ]
        ),
        (
            *lines_of("", "1", PARTS[:4]),
            *lines_of("", "2", PARTS[4:7], BOTH[0]),
            *lines_of("", "3", PARTS[7:10], BOTH[1]),
        ),
        says=("variants_by_heading", "places_in_rows"),
    ),
    UglyFile(
        "quantities_for_manual_and_automatic.csv",
        text_file(
            [
                *TITLE,
                ["Part no.", "Description", "Qty manual", "Qty automatic"],
                ["ME-41", "Bolt", 4, 4],
                ["ME-42", "Pipe", "", 2],
                ["ME-43", "Clutch line", 1, "-"],
                ["ME-44", "Nut", 4, 6],
            ]
        ),
        (
            Expected("", "", "ME-41", "4"),
            Expected("", "", "ME-42", "2", BOTH[0]),
            Expected("", "", "ME-43", "1", BOTH[1]),
            Expected("", "", "ME-44", "4", BOTH[1]),
            Expected("", "", "ME-44", "6", BOTH[0]),
        ),
        says=("quantities_by_variant",),
    ),
    UglyFile(
        "quantities_in_brackets.xlsx",
        book(
            [
                *TITLE,
                ["Part no.", "Description", "Qty (auto)", "Qty (manual)"],
                ["ME-45", "Bolt", 4, 4],
                ["ME-46", "Pipe", 2, 0],
            ]
        ),
        (Expected("", "", "ME-45", "4"), Expected("", "", "ME-46", "2", BOTH[0])),
        says=("quantities_by_variant",),
    ),
    UglyFile(
        "quantities_for_left_and_right_hand_drive.csv",
        text_file(
            [
                *TITLE,
                ["Part no.", "Description", "Qty LHD", "Qty RHD"],
                ["ME-51", "Bolt", 4, 4],
                ["ME-52", "Pipe, long", 1, 0],
                ["ME-53", "Pipe, short", 0, 1],
            ]
        ),
        (
            Expected("", "", "ME-51", "4"),
            Expected("", "", "ME-52", "1", "variant=LHD"),
            Expected("", "", "ME-53", "1", "variant=RHD"),
        ),
        says=("quantities_by_variant",),
    ),
    UglyFile(
        "quantities_for_the_left_and_the_right.csv",
        text_file(
            [
                *TITLE,
                ["Part no.", "Description", "Qty left", "Qty right"],
                ["ME-55", "Bolt", 4, 4],
                ["ME-56", "Bracket", 1, 0],
            ]
        ),
        (Expected("", "", "ME-55", "4"), Expected("", "", "ME-56", "1", "variant=left")),
        asks=("quantity",),
        answers={"quantity": "variants"},
    ),
    UglyFile(
        "quantity_ordered_and_quantity_delivered.csv",
        text_file(
            [*TITLE, ["Part no.", "Description", "Qty ordered", "Qty"], ["ME-61", "Bolt", 8, 4], ["ME-62", "Nut", 8, 8]]
        ),
        (Expected("", "", "ME-61", "4"), Expected("", "", "ME-62", "8")),
        asks=("quantity",),
        answers={"quantity": "D"},
    ),
    UglyFile(
        "two_columns_called_quantity.csv",
        text_file(
            [*TITLE, ["Part no.", "Qty", "Description", "Pieces"], ["ME-71", 1, "Bolt", 4], ["ME-72", 1, "Nut", 4]]
        ),
        (Expected("", "", "ME-71", "4"), Expected("", "", "ME-72", "4")),
        asks=("quantity",),
        answers={"quantity": "D"},
    ),
    UglyFile(
        "successors_in_remarks.csv",
        text_file(
            [
                *TITLE,
                [*HEAD, "Notes"],
                *[[*part, ""] for part in PARTS],
                ["3078-C", "Wheel bolt", 10, "replaces 3078-B"],
                ["3090", "Spacer", 4, "ersetzt 3089"],
                ["3100", "Nut", 4, "superseded by 3101"],
                ["3110", "Stud", 4, "formerly 3109"],
                ["3120", "Cap", 4, "replaces 3119 from 2027"],
                ["3130", "Clip", 4, "replaces 2 washers"],
                ["3140", "Seal", 4, "use 2 of each"],
                ["3150", "Pin", 4, "replaces 3149 (from 2027)"],
            ]
        ),
        lines_of("", "", [*PARTS, ("3078-C", "", 10), ("3090", "", 4), ("3100", "", 4), *[(n, "", 4) for n in MORE]]),
        checks=("successor_in_words D18", "successor_in_words D19", "successor_in_words D22"),
        says=("supersession_read",),
    ),
    UglyFile(
        "quantities_under_a_heading_in_two_rows.xlsx",
        book(
            [
                *TITLE,
                ["Box", "Part no.", "Item", "Qty", None, "Unit"],
                ["Box", None, None, "manual", "automatic", None],
                [1, "ME-85", "Disc", 2, 2, "ea"],
                [1, "ME-86", "Shim", None, 4, "ea"],
                [1, "ME-87", "Pedal bracket", 1, None, "ea"],
            ],
            merged=("D4:E4",),
        ),
        (
            Expected("1", "", "ME-85", "2"),
            Expected("1", "", "ME-86", "4", BOTH[0]),
            Expected("1", "", "ME-87", "1", BOTH[1]),
        ),
        says=("headings_in_two_rows", "quantities_by_variant"),
    ),
    UglyFile(
        "columns_without_a_heading.csv",
        text_file(
            [
                *TITLE,
                ["", *HEAD, "", ""],
                ["10", "ME-88", "Bolt", 4, "2", "seen"],
                ["20", "ME-89", "Nut", 4, "6", ""],
                ["30", "ME-90", "Stud", 4, "6", ""],
            ]
        ),
        lines_of("", "", [("ME-88", "", 4), ("ME-89", "", 4), ("ME-90", "", 4)]),
        checks=("column_without_heading 4",),
        says=("column_without_heading",),
    ),
    UglyFile(
        "prices_per_hundred_in_the_heading.csv",
        text_file([*TITLE, [*HEAD, "EK je 100 €"], ["ME-81", "Bolt", 4, "14.90"], ["ME-82", "Nut", 4, "6.20"]]),
        lines_of("", "", [("ME-81", "", 4), ("ME-82", "", 4)]),
        says=("price_divided",),
    ),
    UglyFile(
        "prices_per_a_column.csv",
        text_file(
            [*TITLE, [*HEAD, "Price", "Per"], ["ME-81", "Bolt", 4, "14.90", 100], ["ME-82", "Hose", 1, "18.20", 1]]
        ),
        lines_of("", "", [("ME-81", "", 4), ("ME-82", "", 1)]),
        says=("price_divided",),
    ),
    UglyFile(
        "no_kit_number_anywhere.csv",
        text_file([HEAD, *PARTS]),
        lines_of("", "", PARTS),
        must_fix=("kit_without_code",),
    ),
    UglyFile(
        "the_kit_number_typed.csv",
        text_file([HEAD, *PARTS]),
        lines_of("", "", PARTS),
        fields={"kit": "UG-100", "title": "Ugly kit", "supplier": "Quillfen Supply", "currency": "EUR"},
    ),
)
