"""Cell values in the ways that people write them."""

from datetime import date, datetime, time
from decimal import Decimal

import pytest

from shop.imports.rules_tables import skill
from shop.tables.conditions import when
from shop.tables.dates import clock, day
from shop.tables.numbers import Quantity, litres, number, quantity, share, whole
from shop.tables.prices import price
from shop.tables.sheets import Cell
from shop.tables.values import CellError, Reader, article, barcode, email, listed, one_of, text, yes_or_no

Q = quantity()


def value(read: Reader, content: object, decimal: str = "") -> object:
    cell = content if isinstance(content, Cell) else Cell(content)  # type: ignore[arg-type]
    return read(cell, decimal).value


def notes(read: Reader, content: object, decimal: str = "") -> list[str]:
    cell = content if isinstance(content, Cell) else Cell(content)  # type: ignore[arg-type]
    return [code for _, code, _ in read(cell, decimal).notes]


def bad(read: Reader, content: object, decimal: str = "") -> str:
    with pytest.raises(CellError) as caught:
        value(read, content, decimal)
    return caught.value.code


@pytest.mark.parametrize(
    ("written", "sign", "amount", "unit"),
    [
        ("2", "", "2", ""),
        (" 2 pcs", "", "2", "pc"),
        ("2pcs.", "", "2", "pc"),
        ("2 x", "", "2", "pc"),
        ("x2", "", "2", "pc"),
        ("2 off", "", "2", "pc"),
        ("1 set", "", "1", "set"),
        ("1,5", "", "1.5", ""),
        ("1,5 m", ",", "1.5", "m"),
        ("0.25 L", "", "0.25", "L"),
        (".5", "", "0.5", ""),
        (",5", "", "0.5", ""),
        ("1.250,50", "", "1250.50", ""),
        ("1,250.50", "", "1250.50", ""),
        ("1\u202f250,5", "", "1250.5", ""),
        ("1\u00a0250", "", "1250", ""),
        ("1\u2019250.5", "", "1250.5", ""),
        ("1,234,567", "", "1234567", ""),
        ("1.500", ".", "1.500", ""),
        ("1,500", ",", "1.500", ""),
        ("1.500", ",", "1500", ""),
        ("1,500", ".", "1500", ""),
        ("1.500", "", "1.500", ""),
        ("+3", "", "3", ""),
        ("1.2E+01 pcs", "", "12", "pc"),
        ("1,234e+00", ".", "1.234", ""),
        ("2.5E-01", "", "0.25", ""),
        ("\ufeff4", "", "4", ""),
    ],
)
def test_a_quantity_however_it_is_written(written: str, sign: str, amount: str, unit: str) -> None:
    assert value(Q, written, sign) == Quantity(Decimal(amount), unit)


@pytest.mark.parametrize(
    ("written", "code"),
    [
        ("a few", "not_a_number"),
        ("2-3", "unknown_unit"),
        ("1/2", "fraction"),
        ("1 1/2", "fraction"),
        ("½", "fraction"),
        ("1,500", "two_meanings"),
        ("1.2.3", "not_a_number"),
        ("1,23,456.0", "not_a_number"),
        ("1e3", "unknown_unit"),
        ("1.2E+123", "unknown_unit"),
        ("1.2E+16", "out_of_range"),
        ("NaN", "not_a_number"),
        ("Infinity", "not_a_number"),
        ("2²", "unknown_unit"),
        ("٣", "not_a_number"),
        ("3 bar", "unknown_unit"),
        ("20 %", "not_a_number"),
        ("0", "not_above_zero"),
        ("-2", "below_zero"),
        ("\u22122", "below_zero"),
        ("1.23456", "too_many_decimals"),
        ("9" * 13, "out_of_range"),
        ("#REF!", "cell_error"),
        (time(1, 30), "a_date_or_time"),
        (datetime(2026, 2, 1), "a_date_or_time"),
        (True, "not_a_number"),
    ],
)
def test_it_refuses_what_is_no_clear_number(written: object, code: str) -> None:
    assert bad(Q, written) == code


def test_what_was_understood_is_said() -> None:
    assert notes(Q, "2 pcs") == ["read_as_pieces"]
    assert notes(Q, "2 pr") == notes(Q, "2 sets") == []
    assert notes(Q, "1,5") == ["decimal_comma"]
    assert notes(Q, "1.500", ",") == ["thousands"]
    assert notes(Q, "1.2E+01") == ["scientific"]
    assert notes(Q, "1.5") == notes(Q, Decimal("1.5")) == []


def test_a_comma_needs_no_look_in_a_sheet_of_commas() -> None:
    assert [weight for weight, _, _ in Q(Cell("1,5"), ".").notes] == ["please_check"]
    assert [weight for weight, _, _ in Q(Cell("1,5"), ",").notes] == ["done_for_you"]


def test_a_formula_counts_by_its_last_value_and_says_so() -> None:
    assert value(Q, Cell(Decimal(8), "=2*4")) == Quantity(Decimal(8))
    (note,) = Q(Cell(Decimal(8), "=2*4"), "").notes
    assert note == ("please_check", "formula_value", (("value", "8"),))
    assert bad(Q, Cell(None, "=B2")) == "formula_without_value"
    assert bad(text(), Cell("#N/A", "=B2")) == "cell_error"


@pytest.mark.parametrize(
    ("written", "rate", "codes"),
    [
        ("20 %", "0.2", []),
        ("2,5%", "0.025", ["decimal_comma"]),
        ("0.2", "0.2", []),
        (Decimal("0.2"), "0.2", []),
        (Decimal(1), "1", []),
        ("20", "0.2", ["read_as_percent"]),
        (Decimal("6.5"), "0.065", ["read_as_percent"]),
        ("0", "0", []),
    ],
)
def test_a_share_is_a_part_of_one(written: object, rate: str, codes: list[str]) -> None:
    assert value(share(), written) == Decimal(rate) and notes(share(), written) == codes


def test_a_share_is_at_most_the_whole() -> None:
    assert bad(share(), "120 %") == "out_of_range" and bad(share(), "-5 %") == "below_zero"


def test_money_may_carry_its_sign_or_code() -> None:
    for written in ("€ 4.386,00", "4 386,00 EUR", "EUR 4,386.00", "$4386"):
        assert value(number(), written) == Decimal(4386)


def test_a_dash_stands_for_the_decimals_of_a_price() -> None:
    for written in ("298,-", "298.-", "298,--", "298.--", "€ 298 ,\u2013", "298,\u2014 EUR", "CHF 298.\u2212"):
        assert value(price(), written) == 298 and notes(price(), written) == ["dash_for_decimals"], written
    for written in ("1.298,-", "1'298.-", "1 298,--", "1,298.-", "1.298.-"):
        assert value(price(), written, ",") == 1298, written
    assert price()(Cell("1.298,-"), "").notes == (("done_for_you", "dash_for_decimals", (("value", "1298"),)),)
    assert value(price(), "298,50") == Decimal("298.5") and value(price(), "0,-") == 0
    for written in ("12.98,-", "2.98-", "298-", "298,---", ",-", "1.2981,-"):
        assert bad(price(), written) in ("not_a_number", "unknown_unit"), written
    assert bad(price(), "-298,-") == "below_zero" and bad(Q, "5,-") == "not_a_number"


def test_units_that_do_not_belong_are_refused() -> None:
    assert value(number(units=("h",)), "1.5 h") == Decimal("1.5")
    assert bad(number(units=("h",)), "1.5 m") == "unknown_unit"
    assert value(whole(units=("d",)), "9 days") == 9
    assert bad(whole(), "1.5") == "too_many_decimals"


def test_more_than_can_be_is_refused() -> None:
    assert value(number(scale=2, most=999), "999.00") == 999
    assert bad(number(scale=2, most=999), "999.01") == "above"
    assert value(whole(most=9), "9") == 9
    assert bad(whole(most=9), "10") == "above"


def test_volumes_come_out_in_litres() -> None:
    assert value(litres, "5,2 L") == Decimal("5.2") and value(litres, "850 ml") == Decimal("0.85")
    assert bad(litres, "2 m") == "unknown_unit"


def test_a_part_number_is_never_a_quantity() -> None:
    assert value(article(), "002240") == "002240" and notes(article(), "002240") == ["leading_zeros"]
    assert value(article(), Decimal("22417")) == "22417"
    assert value(article(), Decimal("1E+3")) == "1000"
    assert bad(article(), "9,52E+12") == "number_shortened"


def test_a_figure_is_no_skill() -> None:
    assert value(skill, "Body Work") == "body work"
    assert bad(skill, Decimal(97)) == bad(skill, "97.5") == "not_a_skill"


@pytest.mark.parametrize("written", ["=1+1", "+44 555", "-12", "@home"])
def test_text_that_begins_like_a_formula_stays_text(written: str) -> None:
    assert value(article(), written) == written and notes(article(), written) == ["kept_as_text"]


def test_text_is_tidied_not_changed() -> None:
    assert value(text(), "  Bolt \u00a0M8\n x 20\u200b ") == "Bolt M8 x 20"
    assert value(text(), "O\u0308se") == "Öse"
    assert value(text(), "a\x07b") == "ab"
    assert bad(text(5), "123456") == "too_long"


def test_a_gtin_is_kept_in_fourteen_digits() -> None:
    assert value(barcode, "9520001000072") == "09520001000072"
    assert value(barcode, Decimal("9520001000072")) == "09520001000072"
    assert value(barcode, "9520001000073") == "9520001000073" and notes(barcode, "9520001000073") == ["check_digit"]
    assert value(barcode, "BI-77") == "BI-77"


@pytest.mark.parametrize(
    ("written", "expected"),
    [
        (date(2026, 11, 2), date(2026, 11, 2)),
        (datetime(2026, 11, 2, 0, 0), date(2026, 11, 2)),
        ("2026-11-02", date(2026, 11, 2)),
        ("2.11.2026", date(2026, 11, 2)),
        ("2 November 2026", date(2026, 11, 2)),
        ("13/11/2026", date(2026, 11, 13)),
        ("11/13/2026", date(2026, 11, 13)),
        ("5/5/2026", date(2026, 5, 5)),
    ],
)
def test_a_day_however_it_is_written(written: object, expected: date) -> None:
    assert value(day, written) == expected


@pytest.mark.parametrize(
    ("written", "code"),
    [("03/04/2026", "two_dates"), ("31.02.2026", "not_a_date"), ("soon", "not_a_date"), (Decimal(45000), "not_a_date")],
)
def test_a_day_that_could_be_two_is_refused(written: object, code: str) -> None:
    assert bad(day, written) == code


def test_times_of_day() -> None:
    assert value(clock, time(8, 0)) == value(clock, "8:00") == value(clock, "08.00") == "08:00"
    assert value(clock, "24:00") == "24:00" and bad(clock, "24:30") == bad(clock, "8") == "not_a_time"


def test_yes_and_no() -> None:
    assert [value(yes_or_no, written) for written in ("yes", "X", True, "1", Decimal(1))] == [True] * 5
    assert [value(yes_or_no, written) for written in ("no", "-", False, "0")] == [False] * 4
    assert bad(yes_or_no, "maybe") == "not_yes_or_no"


def test_lists_words_and_addresses() -> None:
    assert value(listed(), "A-1; A-2,;A-3") == ("A-1", "A-2", "A-3")
    assert value(one_of({"per kit": "each"}), "Per_Kit") == "each" and bad(one_of({"a": "a"}), "b") == "not_one_of"
    assert value(email, "a.b@example.org") == "a.b@example.org" and bad(email, "a.b at example") == "not_an_email"


@pytest.mark.parametrize(
    ("written", "conditions"),
    [
        ("", ()),
        ("all", ()),
        ("manual/automatic", ()),
        ("transmission=manual", (("transmission", ("manual",)),)),
        ("Transmission : Automatic", (("transmission", ("automatic",)),)),
        ("manual only", (("transmission", ("manual",)),)),
        ("auto", (("transmission", ("automatic",)),)),
        ("model = T35 or Hauler", (("model", ("T35", "Hauler")),)),
        ("model=T35, Vell 2.4; transmission=manual", (("model", ("T35", "Vell 2.4")), ("transmission", ("manual",)))),
        ("wear_sensor=Yes", (("wear sensor", ("yes",)),)),
    ],
)
def test_what_a_part_asks_of_the_vehicle(written: str, conditions: object) -> None:
    assert value(when, written) == conditions


@pytest.mark.parametrize(
    ("written", "code"),
    [
        ("transmission=CVT", "unknown_value"),
        ("auto / CVT", "unknown_value"),
        ("left-hand cars", "unknown_condition"),
        ("transmission=manual; transmission=automatic", "condition_twice"),
    ],
)
def test_it_refuses_a_condition_nobody_could_check(written: str, code: str) -> None:
    assert bad(when, written) == code
