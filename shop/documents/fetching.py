"""Keeps a document from loading files or anything from the network while it is printed."""

from typing import Any

from weasyprint.urls import URLFetcher


class LockedFetcher(URLFetcher):
    """Opens data: URLs only, and records every other address that the document names."""

    def __init__(self) -> None:
        super().__init__(allowed_protocols={"data"}, allow_redirects=False, timeout=1)
        self.refused: list[str] = []

    def fetch(self, url: str, headers: Any = None) -> Any:
        if url.split(":", 1)[0].lower() != "data":
            self.refused.append(url)
        return super().fetch(url, headers)
