"""The first paper waits for nothing that could be loaded before: beside the server, after its start."""

from threading import Event
from typing import Any

import pytest

from shop.documents import pdf
from shop.documents.warming import Warming
from shop.serving import background


@pytest.fixture
def printed(monkeypatch: pytest.MonkeyPatch) -> Event:
    done = Event()
    monkeypatch.setattr(pdf, "render", lambda html, **facts: done.set() or b"%PDF")
    return done


def test_a_page_is_printed_beside_the_server(printed: Event) -> None:
    warming = Warming(delay=0)
    warming.start()
    assert printed.wait(20)
    warming.stop()


def test_a_server_that_stops_before_prints_nothing(printed: Event) -> None:
    warming = Warming(delay=3600)
    warming.start()
    warming.stop()
    assert not printed.is_set()


def test_a_page_that_cannot_be_printed_is_logged(monkeypatch: pytest.MonkeyPatch, caplog: Any) -> None:
    called = Event()

    def fail(html: str, **facts: Any) -> bytes:
        called.set()
        raise OSError("no such library")

    monkeypatch.setattr(pdf, "render", fail)
    warming = Warming(delay=0)
    warming.start()
    assert called.wait(20)
    warming.stop()
    assert [(record.levelname, record.message) for record in caplog.records] == [("WARNING", "paper cannot be printed")]


def test_the_server_starts_it() -> None:
    assert Warming in {start.__self__.__class__ for start, _ in background.PAIRS if hasattr(start, "__self__")}
