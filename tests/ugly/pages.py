"""Files with page feet, carried sums, totals, repeated headings, second tables, and hidden rows and columns."""

from tests.ugly.spec import TITLE, Expected, UglyFile, book, goods, lines_of, text_file

HEAD = ["Part no.", "Description", "Qty"]
ONE, TWO, THREE = goods("PG", 8), goods("PH", 8), goods("PK", 5)
ALL = lines_of("", "", [*ONE, *TWO, *THREE])
SUM_ONE, SUM_TWO = sum(part[2] for part in ONE), sum(part[2] for part in (*ONE, *TWO))
SUM = sum(part[2] for part in (*ONE, *TWO, *THREE))

FILES = (
    UglyFile(
        "english_pages.csv",
        text_file(
            [
                *TITLE,
                HEAD,
                *ONE,
                ["Carried forward", "", SUM_ONE],
                ["Page 1 of 3"],
                HEAD,
                ["Brought forward", "", SUM_ONE],
                *TWO,
                ["Carried forward", "", SUM_TWO],
                ["Page 2 of 3"],
                HEAD,
                *THREE,
                ["Total", "", SUM],
                ["Page 3 of 3"],
            ]
        ),
        ALL,
        says=("heading_again", "total_left_out", "foot_left_out"),
    ),
    UglyFile(
        "german_pages.csv",
        text_file(
            [
                *TITLE,
                HEAD,
                *ONE,
                ["Übertrag", "", SUM_ONE],
                ["Seite 1 von 2", "", "", "Druck: 12.03.2026"],
                HEAD,
                ["Übertrag", "", SUM_ONE],
                *TWO,
                *THREE,
                ["Gesamtsumme", "", SUM],
                ["Seite 2 von 2", "", "", "Druck: 12.03.2026"],
            ],
            encoding="cp1252",
        ),
        ALL,
        says=("total_left_out", "foot_left_out"),
    ),
    UglyFile(
        "french_pages.csv",
        text_file(
            [
                *TITLE,
                HEAD,
                *ONE,
                ["", "À reporter", SUM_ONE],
                ["", "Page 1 / 2"],
                HEAD,
                ["", "Report", SUM_ONE],
                *TWO,
                ["", "Total général", SUM_TWO],
            ]
        ),
        lines_of("", "", [*ONE, *TWO]),
        says=("total_left_out", "foot_left_out"),
    ),
    UglyFile(
        "totals_of_many_languages.xlsx",
        book(
            [
                *TITLE,
                HEAD,
                *ONE[:2],
                ["Razem", None, 8],
                *ONE[2:4],
                ["Yhteensä", None, 8],
                *TWO[:2],
                ["Összesen:", None, 8],
                *TWO[2:4],
                ["Итого", None, 8],
                *THREE,
                ["Totaal", None, SUM],
            ]
        ),
        lines_of("", "", [*ONE[:4], *TWO[:4], *THREE]),
        says=("total_left_out",),
    ),
    UglyFile(
        "a_total_without_any_word.csv",
        text_file([*TITLE, HEAD, *ONE, ["", "", SUM_ONE]]),
        lines_of("", "", ONE),
        says=("total_left_out",),
    ),
    UglyFile(
        "a_total_in_a_language_nobody_listed.csv",
        text_file([*TITLE, HEAD, *ONE, ["Zbirno stanje", "", SUM_ONE]]),
        lines_of("", "", ONE),
        checks=("sum_left_out 13",),
    ),
    UglyFile(
        "a_part_that_is_called_total.csv",
        text_file([*TITLE, HEAD, ["T-1", "Total seal set", 1], ["T-2", "Total", 1], ["T-3", "Bolt", 3]]),
        lines_of("", "", [("T-1", "", 1), ("T-2", "", 1), ("T-3", "", 3)]),
    ),
    UglyFile(
        "sender_in_every_foot.xlsx",
        book(
            [
                *TITLE,
                HEAD,
                *ONE,
                ["Quillfen Supply, Dyke Road", None, "Page 1"],
                [None, "continued on next page", None],
                HEAD,
                *TWO,
                ["Quillfen Supply, Dyke Road", None, "Page 2"],
                ["Packed by:", "Checked by:", None],
            ]
        ),
        lines_of("", "", [*ONE, *TWO]),
        says=("foot_left_out",),
    ),
    UglyFile(
        "bags_go_on_over_the_page.csv",
        text_file(
            [
                *TITLE,
                ["Bag", *HEAD],
                ["A", *ONE[0]],
                *[["", *part] for part in ONE[1:4]],
                ["Page 1 of 2"],
                ["Bag", *HEAD],
                *[["", *part] for part in ONE[4:6]],
                ["B", *TWO[0]],
                *[["", *part] for part in TWO[1:4]],
                ["Page 2 of 2"],
            ]
        ),
        (*lines_of("", "A", ONE[:6]), *lines_of("", "B", TWO[:4])),
        says=("filled_down", "heading_again"),
    ),
    UglyFile(
        "small_print_under_the_list.csv",
        text_file(
            [
                *TITLE,
                HEAD,
                *ONE,
                ["Please check the contents on arrival."],
                ["Claims are accepted within 8 days of delivery."],
            ]
        ),
        lines_of("", "", ONE),
    ),
    UglyFile(
        "two_halves_beside_one_another.xlsx",
        book([*TITLE, [*HEAD, None, *HEAD], *[[*left, None, *right] for left, right in zip(ONE, TWO, strict=True)]]),
        lines_of("", "", [*ONE, *TWO]),
        says=("second_table_read",),
    ),
    UglyFile(
        "spares_beside_the_list.xlsx",
        book(
            [
                *TITLE,
                [None, None, None, None, "Recommended spares"],
                [*HEAD, None, *HEAD],
                *[[*left, None, *right] for left, right in zip(ONE[:5], THREE, strict=True)],
            ]
        ),
        lines_of("", "", ONE[:5]),
        asks=("second_table",),
        answers={"second_table": "out"},
    ),
    UglyFile(
        "legend_beside_the_list.xlsx",
        book(
            [
                *TITLE,
                [*HEAD, None, "Colour", "Meaning"],
                [*ONE[0], None, "red", "hot side"],
                [*ONE[1], None, "blue", "cold side"],
                *ONE[2:],
            ]
        ),
        lines_of("", "", ONE),
    ),
    UglyFile(
        "prices_of_other_kits_beside_the_list.csv",
        text_file(
            [
                *TITLE,
                [*HEAD, "", "Part no.", "Price"],
                [*ONE[0], "", "UG-200", "412.00"],
                [*ONE[1], "", "UG-300", "518.00"],
                *ONE[2:],
            ]
        ),
        lines_of("", "", ONE),
        checks=("second_table_left_out 4",),
    ),
    UglyFile(
        "hidden_cost.xlsx",
        book([*TITLE, [*HEAD, "Cost"], *[[*part, 3.5] for part in ONE]], hidden_columns="D"),
        lines_of("", "", ONE),
        says=("hidden_columns",),
    ),
    UglyFile(
        "hidden_rows.xlsx",
        book([*TITLE, HEAD, *ONE, *TWO], hidden_rows=(13, 14, 15, 16, 17, 18, 19, 20)),
        lines_of("", "", ONE),
        checks=("hidden_rows",),
    ),
    UglyFile(
        "hidden_rows_that_belong_to_the_list.xlsx",
        book([*TITLE, HEAD, *ONE, *TWO], hidden_rows=(6, 7)),
        lines_of("", "", [*ONE, *TWO]),
        answers={"hidden_rows": "read"},
    ),
    UglyFile(
        "description_over_two_rows.csv",
        text_file([*TITLE, HEAD, ONE[0], ["", "zinc plated, with captive washer", ""], *ONE[1:]]),
        lines_of("", "", ONE),
        asks=(),
        says=("sections_left_out",),
    ),
    UglyFile(
        "a_row_without_a_number.csv",
        text_file([*TITLE, HEAD, *ONE[:3], ["", "Cable tie, long", 4], *ONE[3:5]]),
        lines_of("", "", ONE[:5]),
        must_fix=("missing_value A8",),
    ),
)
_ = Expected
