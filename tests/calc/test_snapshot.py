import json
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shop.calc.errors import CalculationError
from shop.calc.snapshot import canonical, digest, mark

TEXT = st.text(st.characters(exclude_categories=["Cs"]))
PLAIN = st.none() | st.booleans() | st.integers(-(2**53) + 1, 2**53 - 1) | TEXT
KEYS = st.text(st.characters(max_codepoint=127))
DOCUMENTS = st.recursive(PLAIN, lambda inner: st.lists(inner) | st.dictionaries(KEYS, inner), max_leaves=12)


@given(DOCUMENTS)
def test_reading_the_canonical_text_and_writing_it_again_gives_the_same_bytes(document: Any) -> None:
    text = canonical(document)
    assert canonical(json.loads(text)) == text


@given(st.dictionaries(KEYS, PLAIN))
def test_the_order_of_keys_does_not_matter(document: dict[str, Any]) -> None:
    assert canonical(dict(reversed(document.items()))) == canonical(document)


def test_it_is_compact_sorted_and_composed() -> None:
    assert canonical({"b": [1, "e\u0301"], "a": None}) == '{"a":null,"b":[1,"é"]}'


@pytest.mark.parametrize("bad", [1.5, Decimal("1.5"), {"ä": 1}, {1: 2}, "\ud800", 2**53, float("nan"), b"x"])
def test_what_two_readers_could_read_differently_is_refused(bad: Any) -> None:
    with pytest.raises(CalculationError) as refused:
        canonical({"deep": [bad]})
    assert refused.value.code == "not_canonical" and refused.value.culprit.startswith("$.deep[0]")


def test_the_digest_is_the_sha_256_of_the_text() -> None:
    assert digest("abc") == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
    assert mark(digest("abc")) == "BA78 16BF"
