"""Files whose cells were destroyed or can be read in two ways: dates, zeros, decimals, units, letters, prices."""

from datetime import datetime

from tests.ugly.spec import TITLE, Expected, UglyFile, book, goods, lines_of, text_file

HEAD = ["Part no.", "Description", "Qty"]
PARTS = goods("CE", 8)
SIX = [(f"{n:06d}", "Bolt", 2) for n in (2744, 31007, 410223, 902, 77120, 555001, 2750, 600100)]
MANY_UNITS = (
    ("Stk", "pc"), ("Stück", "pc"), ("pièces", "pc"), ("szt.", "pc"), ("ks", "pc"), ("db", "pc"), ("stuks", "pc"),
    ("uds", "pc"), ("kpl", "pc"), ("шт", "pc"), ("pz", "pc"), ("Satz", "set"), ("jeu", "set"), ("Paar", "pair"),
    ("paire", "pair"), ("coppia", "pair"), ("Meter", "m"), ("lfm", "m"), ("mètre", "m"), ("Liter", "L"), ("litro", "L"),
)  # fmt: skip
UNITS_COLUMN = [[f"UN-{n}", "Part", 2, word] for n, (word, _) in enumerate(MANY_UNITS)]

QUOTED = b'Kit number;UG-100\r\n\r\nPart no.;Description;Qty\r\nA-1;Bolt;2\r\nA-2;"Pipe;1\r\nA-3;Nut;4\r\n'

FILES = (
    UglyFile(
        "numbers_that_became_dates.xlsx",
        book(
            [
                *TITLE,
                HEAD,
                *PARTS[:5],
                [datetime(2026, 5, 3), "Bracket", 1],
                [datetime(2026, 4, 2), "Bracket, lower", 1],
            ]
        ),
        lines_of("", "", PARTS[:5]),
        must_fix=("date_for_a_number A10", "date_for_a_number A11"),
    ),
    UglyFile(
        "numbers_that_became_dates.csv",
        text_file([*TITLE, HEAD, *PARTS[:5], ["03-May", "Bracket", 1], ["2. Apr", "Bracket, lower", 1]]),
        lines_of("", "", PARTS[:5]),
        must_fix=("date_for_a_number A10", "date_for_a_number A11"),
    ),
    UglyFile(
        "carton_3_of_5_that_became_a_date.xlsx",
        book(
            [
                *TITLE,
                ["Carton", *HEAD],
                *[["1", *part] for part in PARTS[:3]],
                *[[datetime(2026, 5, 3), *part] for part in PARTS[3:5]],
            ]
        ),
        lines_of("1", "", PARTS[:3]),
        must_fix=("date_for_a_number A8", "date_for_a_number A9"),
    ),
    UglyFile(
        "bag_that_became_a_date.csv",
        text_file([*TITLE, ["Bag", *HEAD], ["1-1", *PARTS[0]], ["1-1", *PARTS[1]], ["02/01/2026", *PARTS[2]]]),
        lines_of("", "1-1", PARTS[:2]),
        must_fix=("date_for_a_number A7",),
    ),
    UglyFile(
        "quantity_that_became_a_date.xlsx",
        book([*TITLE, HEAD, *PARTS[:3], ["CE-9", "Clip", datetime(2026, 4, 2)]]),
        lines_of("", "", PARTS[:3]),
        must_fix=("a_date_or_time C8",),
    ),
    UglyFile(
        "zeros_eaten.xlsx",
        book([*TITLE, HEAD, ["002240", "Nut", 2], *[[int(number), title, q] for number, title, q in SIX]]),
        (Expected("", "", "002240", "2"), *lines_of("", "", SIX)),
        asks=("zeros:number",),
        answers={"zeros:number": "restore"},
    ),
    UglyFile(
        "zeros_eaten.csv",
        text_file([*TITLE, HEAD, *[[str(int(number)), title, q] for number, title, q in SIX]]),
        lines_of("", "", SIX),
        asks=("zeros:number",),
        answers={"zeros:number": "restore"},
    ),
    UglyFile(
        "zeros_only_in_the_format.xlsx",
        book(
            [*TITLE, HEAD, *[[int(number), title, q] for number, title, q in SIX]],
            formats={f"A{row}": "000000" for row in range(5, 13)},
        ),
        lines_of("", "", SIX),
        says=("leading_zeros",),
    ),
    UglyFile(
        "plain_numbers_of_any_length.csv",
        text_file([*TITLE, HEAD, ["12", "Nut", 2], ["1200", "Bolt", 4], ["77", "Clip", 1], ["410223", "Hose", 1]]),
        lines_of("", "", [("12", "", 2), ("1200", "", 4), ("77", "", 1), ("410223", "", 1)]),
    ),
    UglyFile(
        "numbers_shortened_by_a_spreadsheet.csv",
        text_file([*TITLE, HEAD, *PARTS[:3], ["9.52012E+11", "Hose", 1]]),
        lines_of("", "", PARTS[:3]),
        must_fix=("number_shortened A8",),
    ),
    UglyFile(
        "a_thousand_or_one.csv",
        text_file([*TITLE, [*HEAD, "Unit"], ["W-1", "Loom", "1.000", "m"], ["W-2", "Sleeve", "1.250", "m"]]),
        (Expected("", "", "W-1", "1", unit="m"), Expected("", "", "W-2", "1.25", unit="m")),
        asks=("decimal:quantity",),
        answers={"decimal:quantity": "."},
    ),
    UglyFile(
        "three_decimals_on_every_piece.csv",
        text_file([*TITLE, HEAD, ["W-1", "Bolt", "2,000"], ["W-2", "Nut", "4,000"], ["W-3", "Hose", "1,000"]]),
        lines_of("", "", [("W-1", "", 2), ("W-2", "", 4), ("W-3", "", 1)]),
        asks=("decimal:quantity",),
        answers={"decimal:quantity": ","},
    ),
    UglyFile(
        "three_decimals_that_one_cell_settles.csv",
        text_file(
            [*TITLE, [*HEAD, "Unit"], ["W-1", "Loom", "1.250", "m"], ["W-2", "Sleeve", "0.500", "m"]],
        ),
        (Expected("", "", "W-1", "1.25", unit="m"), Expected("", "", "W-2", "0.5", unit="m")),
    ),
    UglyFile(
        "commas_throughout.csv",
        text_file(
            [*TITLE, [*HEAD, "Unit", "Cost"], ["W-1", "Loom", "1,5", "m", "3,40"], ["W-2", "Tube", "0,75", "m", "2,10"]]
        ),
        (Expected("", "", "W-1", "1.5", unit="m"), Expected("", "", "W-2", "0.75", unit="m")),
    ),
    UglyFile(
        "half_a_piece.csv",
        text_file([*TITLE, HEAD, *PARTS[:4], ["CE-9", "Bolt", "2.5"]]),
        lines_of("", "", PARTS[:4]),
        must_fix=("half_a_piece C9",),
    ),
    UglyFile(
        "units_of_many_languages.csv",
        text_file([*TITLE, [*HEAD, "Unit"], *UNITS_COLUMN]),
        tuple(Expected("", "", f"UN-{n}", "2", unit=unit) for n, (_, unit) in enumerate(MANY_UNITS)),
    ),
    UglyFile(
        "units_of_many_languages_behind_the_quantity.csv",
        text_file([*TITLE, HEAD, *[[f"UN-{n}", "Part", f"2 {word}"] for n, (word, _) in enumerate(MANY_UNITS)]]),
        tuple(Expected("", "", f"UN-{n}", "2", unit=unit) for n, (_, unit) in enumerate(MANY_UNITS)),
    ),
    UglyFile(
        "invisible_characters.csv",
        text_file(
            [
                *TITLE,
                HEAD,
                ["CE\u200b-0101", "Bolt", 2],
                ["CE\u20110102", "Nut", 2],
                ["CE-\u00ad0103", "Washer", 2],
                ["\ufeffCE\u20130104", "Clip", 2],
            ]
        ),
        lines_of("", "", [(f"CE-010{n}", "", 2) for n in range(1, 5)]),
        says=("characters_cleaned",),
    ),
    UglyFile(
        "letters_of_another_alphabet.csv",
        text_file([*TITLE, HEAD, *PARTS[:3], ["\u0421\u0415-0107", "Bolt", 2], ["\u039a-220", "Nut", 1]]),
        (*lines_of("", "", PARTS[:3]), Expected("", "", "\u0421\u0415-0107", "2"), Expected("", "", "\u039a-220", "1")),
        checks=("look_alike A8", "look_alike A9"),
    ),
    UglyFile(
        "a_quote_never_closed.csv",
        QUOTED,
        refused="quote_never_closed 5",
    ),
    UglyFile(
        "a_quote_that_swallows_rows.csv",
        QUOTED + b'A-4;"Cap";1\r\n',
        refused="quote_never_closed 5",
    ),
    UglyFile(
        "a_quote_closed_three_rows_later.csv",
        QUOTED + b'A-4;Cap";1\r\n',
        refused="quote_never_closed 5",
    ),
    UglyFile(
        "more_than_ten_thousand_rows.csv",
        b"Kit number;UG-100\nPart no.;Description;Qty\n" + b"A-1;Bolt;2\n" * 10_500,
        refused="too_many_rows",
    ),
)
