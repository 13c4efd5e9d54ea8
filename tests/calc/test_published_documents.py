"""Documents published by others: all figures must recompute to the cent."""

from typing import Any

import pytest

from shop.calc.tax import total_document
from tests.calc.published import Published, document_of, expected_of, net_prices, percentages, recomputed
from tests.standards import published_cases

pytestmark = pytest.mark.standards
DOCUMENTS = published_cases("en16931/cases.json")
# Tax in the books' currency, at a rate of exchange that the documents do not state.
IN_ANOTHER_CURRENCY = "tax_total_accounting_currency"


def name_of(published: Published | None) -> str:
    return published["source"].rpartition("/")[2] if published else "none"


@pytest.mark.parametrize("published", DOCUMENTS, ids=name_of)
def test_a_published_document_recomputes_to_the_cent(published: Published) -> None:
    document = document_of(published)
    expected = expected_of(without_books(published))
    assert recomputed(document, total_document(document)) == expected


@pytest.mark.parametrize("published", DOCUMENTS, ids=name_of)
def test_its_percentages_and_discounts_do_too(published: Published) -> None:
    for stated, computed in (*percentages(published), *net_prices(published)):
        assert computed == stated


def test_no_figure_of_the_documents_is_left_out() -> None:
    """The first test compares all figures but one, which is in another currency."""
    for published in DOCUMENTS:
        document = document_of(published)
        compared = recomputed(document, total_document(document)).keys()
        assert published["expected"].keys() - compared == {IN_ANOTHER_CURRENCY}
        assert published["expected"]["tax_breakdown"]
        assert all(line["expected_net"] for line in published["lines"])


def without_books(published: Published) -> dict[str, Any]:
    books = published["expected"][IN_ANOTHER_CURRENCY]
    assert books is None or books["currency"] != published["currency"]
    expected = {key: value for key, value in published["expected"].items() if key != IN_ANOTHER_CURRENCY}
    return published | {"expected": expected}
