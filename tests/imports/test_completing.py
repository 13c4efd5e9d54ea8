"""Several rows of one file about one customer or vehicle of the shop."""

from pathlib import Path

import pytest
from django.core.management import call_command

from shop.models import Customer, Shop, Vehicle
from tests.cast import make_shop
from tests.factories import CustomerFactory, VehicleFactory

pytestmark = pytest.mark.once


@pytest.fixture
def bay(db: None) -> Shop:
    return make_shop("bay", "Bay")


def take_in(kind: str, path: Path, text: str) -> None:
    path.write_text(text)
    call_command("import", kind, path, shop="bay")


def test_two_rows_complete_the_same_customer(bay: Shop, tmp_path: Path) -> None:
    take_in("customers", tmp_path / "a.csv", "Name;Phone\nKester Vole;\n")
    take_in(
        "customers", tmp_path / "b.csv", "Name;Phone;Email\nKester Vole;01632 960 901;\nKester Vole;;k@example.org\n"
    )
    customer = Customer.objects.get(shop=bay)
    assert (customer.phone, customer.email, customer.version) == ("01632 960 901", "k@example.org", 2)


def test_a_row_after_the_completion_may_be_a_namesake(bay: Shop, tmp_path: Path) -> None:
    take_in("customers", tmp_path / "a.csv", "Name;Phone\nKester Vole;\n")
    take_in("customers", tmp_path / "b.csv", "Name;Phone\nKester Vole;01632 960 901\nKester Vole;01632 960 902\n")
    assert sorted(Customer.objects.filter(shop=bay).values_list("phone", flat=True)) == [
        "01632 960 901",
        "01632 960 902",
    ]


def test_two_rows_complete_the_same_vehicle_one_by_vin_and_one_by_plate(bay: Shop, tmp_path: Path) -> None:
    take_in("vehicles", tmp_path / "a.csv", "Vehicle;VIN;Plate\nTarn 35;90T35E421RK098204;AB 12\n")
    take_in(
        "vehicles",
        tmp_path / "b.csv",
        "Vehicle;VIN;Plate;Transmission;Brakes\nTarn 35;90T35E421RK098204;;manual;\nTarn 35;;AB 12;;ceramic\n",
    )
    vehicle = Vehicle.objects.get(shop=bay)
    assert vehicle.attributes == {"transmission": "manual", "brakes": "ceramic"} and vehicle.version == 2


def test_a_plate_given_up_in_the_row_above_belongs_to_nobody(bay: Shop, tmp_path: Path) -> None:
    take_in("vehicles", tmp_path / "a.csv", "Vehicle;VIN;Plate\nTarn 35;90T35E421RK098204;AB 12\n")
    take_in("vehicles", tmp_path / "b.csv", "Vehicle;VIN;Plate\nTarn 35;90T35E421RK098204;CD 34\nMere 20;;AB 12\n")
    assert set(Vehicle.objects.filter(shop=bay).values_list("title", "plate")) == {
        ("Tarn 35", "CD 34"),
        ("Mere 20", "AB 12"),
    }


def test_whoever_and_whatever_another_shop_has_is_not_completed(bay: Shop, tmp_path: Path) -> None:
    other = make_shop("pier", "Pier")
    customer = CustomerFactory(shop=other, name="Kester Vole")
    vehicle = VehicleFactory(shop=other, customer=customer, vin="90T35E421RK098204")
    take_in("customers", tmp_path / "a.csv", "Name;Phone\nKester Vole;01632 960 901\n")
    take_in("vehicles", tmp_path / "b.csv", "Vehicle;VIN;Plate\nTarn 35;90T35E421RK098204;AB 12\n")
    customer.refresh_from_db()
    vehicle.refresh_from_db()
    assert (customer.phone, vehicle.plate) == ("", "")
    assert Customer.objects.filter(shop=bay).count() == Vehicle.objects.filter(shop=bay).count() == 1
