"""A prefix finds what begins with it on every database, whatever language the database sorts by."""

import pytest
from django.apps import apps

from kitting.models import Kit, Part
from shop.calc.keys import prefix_range, search_key
from shop.keys import KeyField
from shop.models import Customer, Vehicle
from shop.rows import ShopRow
from tests.cast import Cast
from tests.factories import CustomerFactory, KitFactory, PartFactory, VehicleFactory

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
    found = rows.filter(**{f"{field}__gte": low, f"{field}__lt": high}).values_list(field, flat=True)
    assert sorted(found) == sorted(KEYS)


def test_every_key_of_a_model_is_compared_by_bytes() -> None:
    named = {
        (model, field.name): isinstance(field, KeyField)
        for model in apps.get_models()
        for field in model._meta.local_fields
        if field.name.endswith("_key") and issubclass(model, ShopRow)
    }
    assert {(model, field) for _, model, field in COLUMNS} <= set(named)
    assert all(named.values()), named


def test_the_box_finds_a_plate_a_make_and_a_part_by_their_beginning(cast: Cast) -> None:
    VehicleFactory(shop=cast.shop, title="Tarnmark T35", plate="SL-TX 88", plate_key=search_key("SL-TX 88"))
    PartFactory(shop=cast.shop, number="BI-4711", title="Bracket")
    for typed, kind in (("tarnm", "vehicle"), ("sl tx", "vehicle"), ("bi-47", "part")):
        items = cast.signed_in("technician").get("find", {"q": typed}).json()["items"]
        assert [each["kind"] for each in items] == [kind], typed
