"""Files whose cartons and bags stand once, in rows of their own, or nowhere."""

from itertools import chain
from typing import Any

from tests.ugly.spec import TITLE, Expected, UglyFile, book, goods, lines_of, text_file

HEAD = ["Carton", "Bag", "Part no.", "Description", "Qty"]
SHORT = ["Part no.", "Description", "Qty"]
Parts = list[tuple[str, str, int]]
Group = tuple[str, str, Parts]
FIVE_CARTONS = [
    (str(carton), f"{carton}-{bag:02d}", goods(f"QS{carton}{bag}", 5 + (carton + bag) % 4))
    for carton in range(1, 6)
    for bag in range(1, 6 if carton < 5 else 5)
]


def _once(
    groups: list[tuple[str, str, Parts]], *, carton_each: bool = False, bag_each: bool = False
) -> list[list[Any]]:
    """Rows with the carton and the bag on the first line of their group."""
    rows: list[list[Any]] = []
    last = ""
    for carton, bag, parts in groups:
        for n, (number, title, quantity) in enumerate(parts):
            first_of_carton = carton_each or (n == 0 and carton != last)
            rows.append([carton if first_of_carton else "", bag if bag_each or n == 0 else "", number, title, quantity])
        last = carton
    return rows


def _lines(groups: list[Group]) -> tuple[Expected, ...]:
    return tuple(chain.from_iterable(lines_of(*group) for group in groups))


def _sections(groups: list[Group], carton: str, bag: str) -> list[list[Any]]:
    """Rows under section rows such as "CARTON 2" and "Bag 3"; an empty pattern leaves that row out."""
    rows: list[list[Any]] = []
    last = ""
    for carton_label, bag_label, parts in groups:
        if carton and carton_label != last:
            rows.append([carton.format(carton_label)])
        last = carton_label
        if bag:
            rows.append([bag.format(bag_label)])
        rows += [[number, title, quantity] for number, title, quantity in parts]
    return rows


SMALL = [("1", "A", goods("SA", 4)), ("1", "B", goods("SB", 3)), ("2", "C", goods("SC", 5)), ("2", "D", goods("SD", 3))]
AGAIN = [("1", "1", goods("RA", 3)), ("1", "2", goods("RB", 3)), ("2", "1", goods("RC", 4)), ("2", "2", goods("RD", 2))]
BAGS = [("", str(n), goods(f"BG{n}", 3 + n % 3)) for n in range(1, 9)]
CARTONS = [("1", "", goods("CA", 6)), ("2", "", goods("CB", 5))]
LOOSE = [("1", "", goods("LS", 3))]

FILES = (
    UglyFile(
        "carton_and_bag_stand_once.xlsx",
        book([*TITLE, HEAD, *_once(FIVE_CARTONS)]),
        _lines(FIVE_CARTONS),
        says=("filled_down",),
    ),
    UglyFile(
        "bag_stands_once_carton_on_every_line.csv",
        text_file([*TITLE, HEAD, *_once(SMALL, carton_each=True)]),
        _lines(SMALL),
        says=("filled_down",),
    ),
    UglyFile(
        "carton_stands_once_bag_on_every_line.csv",
        text_file([*TITLE, HEAD, *_once(SMALL, bag_each=True)]),
        _lines(SMALL),
        says=("filled_down",),
    ),
    UglyFile(
        "bags_begin_at_1_in_every_carton.csv",
        text_file([*TITLE, HEAD, *_once(AGAIN)]),
        _lines(AGAIN),
        says=("filled_down",),
    ),
    UglyFile(
        "lines_outside_any_bag_beside_full_bags.csv",
        text_file([*TITLE, HEAD, *_once(SMALL[:2], carton_each=True, bag_each=True), *_once(LOOSE, carton_each=True)]),
        _lines([*SMALL[:2], *LOOSE]),
        says=("in_no_bag",),
    ),
    UglyFile(
        "some_bags_repeated_some_empty.csv",
        text_file(
            [
                *TITLE,
                HEAD,
                ["1", "A", "MX-1", "Bolt", 2],
                ["1", "A", "MX-2", "Nut", 2],
                ["1", "", "MX-3", "Washer", 2],
                ["1", "B", "MX-4", "Hose", 1],
                ["1", "", "MX-5", "Clamp", 2],
                ["1", "B", "MX-6", "Cap", 1],
            ]
        ),
        (
            *(Expected("1", bag, f"MX-{n}", q) for n, bag, q in ((1, "A", "2"), (2, "A", "2"), (3, "", "2"))),
            *(Expected("1", bag, f"MX-{n}", q) for n, bag, q in ((4, "B", "1"), (5, "", "2"), (6, "B", "1"))),
        ),
        asks=("empty:bag",),
        answers={"empty:bag": "none"},
    ),
    UglyFile(
        "one_part_to_a_bag_and_one_without.csv",
        text_file([*TITLE, SHORT + ["Bag"], ["P-1", "Pump", 1, "A"], ["P-2", "Lead", 1, "B"], ["P-3", "Cap", 1, ""]]),
        (Expected("", "A", "P-1", "1"), Expected("", "B", "P-2", "1"), Expected("", "B", "P-3", "1")),
        asks=("empty:bag",),
        answers={"empty:bag": "down"},
    ),
    UglyFile(
        "bag_rows_of_24.xlsx",
        book([*TITLE, SHORT, *_sections(BAGS, "", "Bag {} of 24")]),
        _lines(BAGS),
        says=("places_in_rows",),
    ),
    UglyFile(
        "carton_rows_with_names.csv",
        text_file([*TITLE, SHORT, *_sections(CARTONS, "CARTON {}: cooling", "")]),
        tuple(Expected(f"{line.carton}, cooling", "", line.number, line.quantity) for line in _lines(CARTONS)),
        says=("places_in_rows",),
    ),
    UglyFile(
        "carton_rows_above_bag_rows.csv",
        text_file([*TITLE, SHORT, *_sections(SMALL, "*** BOX {} ***", "Bag {}")]),
        _lines(SMALL),
        says=("places_in_rows",),
    ),
    UglyFile(
        "carton_rows_beside_a_bag_column.csv",
        text_file(
            [
                *TITLE,
                ["Bag", *SHORT],
                ["Carton 1 / 2"],
                *[[bag, *part] for _, bag, parts in SMALL[:2] for part in parts],
                ["Carton 2 / 2"],
                *[[bag, *part] for _, bag, parts in SMALL[2:] for part in parts],
            ]
        ),
        _lines(SMALL),
        says=("places_in_rows",),
    ),
    UglyFile(
        "german_carton_and_bag_rows.csv",
        text_file([*TITLE, SHORT, *_sections(SMALL, "Karton {} von 2", "Beutel {}")], encoding="cp1252"),
        _lines(SMALL),
    ),
    UglyFile(
        "french_carton_and_bag_rows.csv",
        text_file([*TITLE, SHORT, *_sections(SMALL, "Colis n° {} sur 2", "Sachet {}")]),
        _lines(SMALL),
    ),
    UglyFile(
        "bag_rows_with_the_number_of_parts.csv",
        text_file(
            [
                *TITLE,
                SHORT,
                *[
                    row
                    for _, bag, parts in SMALL
                    for row in ([f"Bag {bag}", "", len(parts)], *[list(part) for part in parts])
                ],
            ]
        ),
        tuple(Expected("", line.bag, line.number, line.quantity) for line in _lines(SMALL)),
        says=("places_in_rows",),
    ),
    UglyFile(
        "merged_carton_and_bag.xlsx",
        book(
            [*TITLE, HEAD, *_once(SMALL[:2])],
            merged=("A5:A11", "B5:B8", "B9:B11"),
        ),
        _lines(SMALL[:2]),
    ),
    UglyFile(
        "headings_between_the_lines_and_no_bag_column.csv",
        text_file([*TITLE, SHORT, ["Brackets"], *goods("HB", 3), ["Hoses"], *goods("HH", 4)]),
        (*lines_of("", "Brackets", goods("HB", 3)), *lines_of("", "Hoses", goods("HH", 4))),
        asks=("sections",),
        answers={"sections": "bag"},
    ),
    UglyFile(
        "headings_between_the_lines_beside_bags.csv",
        text_file(
            [*TITLE, HEAD, ["Brackets"], *_once(SMALL[:1], bag_each=True), ["Hoses"], *_once(SMALL[1:2], bag_each=True)]
        ),
        _lines(SMALL[:2]),
        says=("sections_left_out",),
    ),
    UglyFile(
        "a_bag_called_by_a_dash.csv",
        text_file([*TITLE, SHORT, *_sections(BAGS[:3], "", "— Bag no. {} —"), ["Packed by:", "", ""]]),
        _lines(BAGS[:3]),
    ),
    UglyFile(
        "second_carton_without_bags.csv",
        text_file([*TITLE, SHORT, ["Carton 1"], ["Bag A"], *goods("NA", 3), ["Carton 2"], *goods("NB", 3)]),
        (*lines_of("1", "A", goods("NA", 3)), *lines_of("2", "", goods("NB", 3))),
    ),
    UglyFile(
        "second_carton_begins_before_its_first_bag.csv",
        text_file(
            [
                *TITLE,
                HEAD,
                *_once([("1", "A", goods("NC", 3))]),
                *[["2", "", *goods("ND", 1)[0]], ["", "B", *goods("NE", 2)[0]], ["", "", *goods("NE", 2)[1]]],
            ]
        ),
        (
            *lines_of("1", "A", goods("NC", 3)),
            *lines_of("2", "", goods("ND", 1)),
            *lines_of("2", "B", goods("NE", 2)),
        ),
        says=("filled_down", "in_no_bag"),
    ),
    UglyFile(
        "carton_on_every_line_and_a_line_before_its_first_bag.csv",
        text_file(
            [
                *TITLE,
                HEAD,
                *_once([("1", "A", goods("NC", 3))], carton_each=True),
                *[["2", "", *goods("ND", 1)[0]], ["2", "B", *goods("NE", 2)[0]], ["2", "", *goods("NE", 2)[1]]],
            ]
        ),
        (
            *lines_of("1", "A", goods("NC", 3)),
            *lines_of("2", "", goods("ND", 1)),
            *lines_of("2", "B", goods("NE", 2)),
        ),
        asks=("empty:bag",),
        answers={"empty:bag": "down"},
    ),
)
