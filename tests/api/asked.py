"""A request for a path of the OpenAPI document, for tests that walk all paths."""

import io
from dataclasses import dataclass
from typing import Any

from tests.client import CheckedClient


@dataclass(frozen=True)
class Asked:
    """`path` as the document writes it; `ids` go into it. `data` is a body, or a query of a GET."""

    method: str
    path: str
    ids: dict[str, str]
    data: dict[str, Any] | None = None
    seen: int | None = None

    def of(self, client: CheckedClient) -> Any:
        where = self.path.format(**self.ids)
        if self.method == "get":
            return client.get(where, self.data or {})
        if self.method == "post" and self.data and "file" in self.data:
            return client.post(where, self.data | {"file": upload(self.data["file"])}, format="multipart")
        if self.method == "post":
            return client.post(where, self.data)
        seen = None if self.seen is None else f'"{self.seen}"'
        if self.method == "delete":
            return client.delete(where, seen=seen)
        return getattr(client, self.method)(where, self.data, seen=seen)


def upload(body: bytes) -> io.BytesIO:
    file = io.BytesIO(body)
    file.name = "photograph.jpg"
    return file
