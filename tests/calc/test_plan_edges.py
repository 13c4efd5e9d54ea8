"""Parts that the supplier has in stock nearby, without lead days."""

from tests.calc.test_plan import kit, planned, quote_of


def test_what_comes_on_the_day_it_is_ordered_has_no_lead_days_and_is_known() -> None:
    (awaited,) = planned(quote_of(kit("A", ("OFF", "1"), lead=0))).purchases
    assert awaited.lead_days == 0
