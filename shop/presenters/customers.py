"""Customers as answers."""

from shop.answers.customers import CustomerOut
from shop.models import Customer
from shop.presenters.vehicles import vehicle_answer


def customer_answer(customer: Customer, market: str) -> CustomerOut:
    return CustomerOut(
        id=customer.pk,
        name=customer.name,
        phone=customer.phone,
        email=customer.email,
        address=customer.address,
        version=customer.version,
        vehicles=[vehicle_answer(vehicle, market) for vehicle in customer.vehicles.all()],
    )
