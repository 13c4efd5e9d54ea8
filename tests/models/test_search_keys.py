"""A prefix finds what begins with it on every database, whatever language the database sorts by."""

from importlib import import_module

import pytest
from django.apps import apps
from django.db.models import UUIDField
from hypothesis import given
from hypothesis import strategies as st

from kitting.models import Kit, Part
from shop.calc.keys import prefix_range, search_key, search_words, word_forms, words_of
from shop.keys import KeyField
from shop.models import Customer, Vehicle
from shop.rows import ShopRow
from tests.cast import Cast
from tests.factories import CustomerFactory, KitFactory, PartFactory, VehicleFactory
from tests.quotes import test_outside as outside
from tests.quotes.stage import make_stage
from tests.search_words import WORDS, right_words, stored_words

KEYS = ["tarn", "tarn1", "tarnz", "tarnß", "tarnш", "tarn\uff5a", "tarn\U00020000"]
OTHERS = ["tar", "taro", "tarm", "ştarn", "\U00020000tarn"]
COLUMNS = [
    (CustomerFactory, Customer, "name_key"),
    (CustomerFactory, Customer, "phone_key"),
    (VehicleFactory, Vehicle, "title_key"),
    (VehicleFactory, Vehicle, "plate_key"),
    (PartFactory, Part, "number_key"),
    (KitFactory, Kit, "title_key"),
]


@pytest.mark.parametrize(("factory", "model", "field"), COLUMNS)
def test_a_prefix_is_a_range_of_the_column(cast: Cast, factory: type, model: type, field: str) -> None:
    for key in KEYS + OTHERS:
        factory(shop=cast.shop, **{field: key})
    low, high = prefix_range("tarn")
    rows = model.objects.filter(shop=cast.shop)
    matches = rows.filter(**{f"{field}__gte": low, f"{field}__lt": high}).values_list(field, flat=True)
    assert sorted(matches) == sorted(KEYS)


def test_every_key_of_a_model_is_compared_by_bytes() -> None:
    named = {
        (model, field.name): isinstance(field, KeyField)
        for model in apps.get_models()
        for field in model._meta.local_fields
        if field.name.endswith("_key") and issubclass(model, ShopRow) and not isinstance(field, UUIDField)
    }
    assert {(model, field) for _, model, field in COLUMNS} <= set(named)
    assert all(named.values()), named


def test_the_box_finds_a_plate_a_make_and_a_part_by_their_beginning(cast: Cast) -> None:
    VehicleFactory(shop=cast.shop, title="Tarnmark T35", plate="SL-TX 88", plate_key=search_key("SL-TX 88"))
    PartFactory(shop=cast.shop, number="BI-4711", title="Bracket")
    for typed, kind in (("tarnm", "vehicle"), ("sl tx", "vehicle"), ("bi-47", "part")):
        items = cast.signed_in("technician").get("find", {"q": typed}).json()["items"]
        assert [item["kind"] for item in items] == [kind], typed


MIGRATIONS = (
    "shop.migrations.0012_customerword_vehicleword",
    "kitting.migrations.0007_kitword_partword",
    "quotes.migrations.0017_outsideworkword",
)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("BI-WSH 1418", {"bi", "wsh", "biwsh", "1418"}),
        ("Ärmel, M10x40", {"ärmel", "m10x40"}),
        ("O'Rook (Ltd.)", {"o", "rook", "orook", "ltd"}),
        ("टर्बो kit", {search_key("टर्बो"), "kit"}),  # a vowel's mark does not part a word
        ("- / -", set()),
    ],
)
def test_words_are_runs_of_letters_and_digits_and_what_is_written_in_one_go(text: str, words: set[str]) -> None:
    assert search_words(text) == words


@pytest.mark.parametrize(
    ("word", "other"),
    [
        *(("brakes", "brake"), ("bushes", "bush"), ("boxes", "box"), ("lenses", "lens"), ("hoses", "hose")),
        *(("bodies", "body"), ("body", "bodie"), ("trolleys", "trolley"), ("ties", "tie")),
        *((word, None) for word in ("brake", "glass", "chassis", "radius", "bus", "key", "trolley", "m10s")),
    ],
)
def test_a_noun_is_looked_for_in_both_numbers(word: str, other: str | None) -> None:
    assert word_forms(word) == ((word, other) if other else (word,))


def test_the_migration_gives_older_rows_the_words_that_the_services_keep(cast: Cast) -> None:
    KitFactory(shop=cast.shop, fits=[{"attribute": "model", "in": ["T35", "Vell 2.4"]}])
    VehicleFactory(shop=cast.shop, plate="SL-TX 88")
    CustomerFactory(shop=cast.shop, name="Gone", archived=True)
    outside.draft(make_stage(cast))
    before = stored_words()
    for words in WORDS.values():
        words.objects.all().delete()
    for name in MIGRATIONS:
        import_module(name).fill_words(apps, None)
    assert stored_words() == before == right_words() and all(before.values())


@given(st.text(st.characters(max_codepoint=127)))
def test_a_key_of_plain_letters_is_made_as_every_other(text: str) -> None:
    """A dash that is no ASCII takes the way of all alphabets, and stands in no key."""
    assert search_key(text) == search_key(f"{text}\N{EN DASH}")
    assert words_of(text) == words_of(f"{text} \N{EN DASH}")
    assert search_words(text) == search_words(f"{text} \N{EN DASH}")
