"""The page of headings: every field of every kind of file, in words."""

from typing import Any

import pytest

from shop.presenters.headings import meaning_of
from shop.tables.columns import Table
from shop.tables.registry import kinds
from shop.tables.writing import TITLE
from shop.words import catalogue
from tests.cast import Cast

pytestmark = pytest.mark.once

TABLES = [table for kind in kinds().values() for table in (Table(TITLE, kind.title), *kind.tables)]
MEANINGS = {meaning_of(table.name, field.name) for table in TABLES for field in table.fields}


def headings(cast: Cast, role: str = "manager") -> dict[str, dict[str, dict[str, Any]]]:
    """{kind: {sheet: {heading: its entry}}}"""
    answer = cast.signed_in(role).get("lists/headings")
    assert answer.status_code == 200, answer.content
    return {
        kind["kind"]: {sheet["name"]: {row["heading"]: row for row in sheet["headings"]} for sheet in kind["sheets"]}
        for kind in answer.json()["kinds"]
    }


def test_every_heading_and_every_synonym_is_listed(cast: Cast) -> None:
    listed = headings(cast)
    assert set(listed) == set(kinds())
    for name, kind in kinds().items():
        for table in kind.tables:
            rows = listed[name][table.sheets[0]]
            words = [(row["heading"], *row["also"]) for row in rows.values()]
            assert words == [field.headings for field in table.fields]
    above = listed["kit"]["Above the list"]
    assert [row["heading"] for row in above.values()] == [field.headings[0] for field in kinds()["kit"].title]


def test_a_heading_says_what_it_means_whether_it_is_needed_and_shows_an_example(cast: Cast) -> None:
    contents = headings(cast)["kit"]["contents"]
    quantity = contents["quantity"]
    assert quantity["means"] == "How many are in the bag, for one kit. A unit may follow: “1.5 m”."
    assert (quantity["needed"], quantity["example"]) == ("every_row", "1")
    assert "menge" in quantity["also"]
    assert (contents["remark"]["needed"], contents["remark"]["example"]) == ("no", "")
    attribute = headings(cast)["vehicles"]["vehicles"]["attribute"]
    assert attribute["example"] == "yes"


def test_the_words_that_a_cell_may_hold_stand_together_by_their_meaning(cast: Cast) -> None:
    listed = headings(cast)
    assert ["spare", "spares", "extra"] in listed["kit"]["contents"]["role"]["words"]
    assert ["retention years", "retention"] in listed["rules"]["rules"]["rule"]["words"]
    units = listed["kit"]["contents"]["unit"]["words"]
    assert any("litres" in group for group in units) and not any("hours" in group for group in units)
    assert [group[0] for group in listed["labour"]["operations"]["no return"]["words"]] == ["1", "-"]
    assert listed["kit"]["contents"]["number"]["words"] == []


def test_the_sentences_on_headings_are_those_of_the_fields() -> None:
    prefix = "import-means-"
    assert {key.removeprefix(prefix) for key in catalogue() if key.startswith(prefix)} == MEANINGS


def test_no_two_fields_of_a_kind_have_the_same_words(cast: Cast) -> None:
    for sheets in headings(cast).values():
        for name, rows in sheets.items():
            means = [row["means"] for row in rows.values()]
            assert len(means) == len(set(means)), name


def test_each_role_sees_the_kinds_that_it_may_import(cast: Cast) -> None:
    assert set(headings(cast, "advisor")) == {"consumables", "kit", "kits", "packing_slip", "customers", "vehicles"}
    assert set(headings(cast, "parts")) == {"consumables", "kit", "packing_slip"}
