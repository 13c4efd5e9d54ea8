"""A kit as its screen changes it."""

from typing import Any

from tests.client import CheckedClient

FIELDS = ("title", "number", "price", "hours", "lead_days", "fitted_before")


def change_kit(client: CheckedClient, id: object, **changes: Any) -> Any:
    """The answer to a change of the kit as it is read now."""
    read = client.get(f"kits/{id}")
    kit = read.json()
    typed = {name: kit[name] for name in FIELDS} | {"supplier": kit["supplier_id"], "fits": kit["conditions"]}
    return client.put(f"kits/{id}", typed | changes, seen=read["ETag"])
