"""A monitoring program reads whether the server answers, whether it can work, and a handful of numbers."""

import re
import time
from collections.abc import Iterator
from datetime import timedelta
from pathlib import Path
from threading import Event
from typing import Any
from uuid import uuid4

import pytest
from django.db import DatabaseError
from django.db.migrations.executor import MigrationExecutor
from django.test import Client, override_settings
from django.utils import timezone

from shop.models import Outbox, Shop
from shop.queries import outbox
from shop.serving import probes
from shop.worker import STUCK, Worker
from tests.cast import Cast
from tests.door.serving import PROXY, serve

ALIVE = {"database": "ok", "files": "ok", "e-mails": "ok", "webhooks": "ok", "imports": "ok"}
LINE = re.compile(r"(kitwright_[a-z_]+)(\{[a-z]+=\"[a-z0-9]+\"\})? [0-9]+(\.[0-9]+)?")
COMMENT = re.compile(r"# (HELP|TYPE) (kitwright_[a-z_]+) \S.*")


@pytest.fixture(autouse=True)
def first_look(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """Forgets the checks of other tests, and assumes that the threads beside the server run."""
    monkeypatch.setattr(probes, "server_state", probes.ServerState())
    monkeypatch.setattr(probes, "response_counts", probes.ResponseCounts())
    monkeypatch.setattr(probes.worker, "is_alive", lambda: True)
    monkeypatch.setattr(probes.webhook_worker, "is_alive", lambda: True)
    monkeypatch.setattr(probes.file_worker, "is_alive", lambda: True)
    yield


def ready(status: int) -> dict[str, str]:
    response = Client().get("/readyz")
    assert response.status_code == status and response["Cache-Control"] == "no-store"
    return dict(line.split(": ") for line in response.content.decode().splitlines())


def refuse(*args: Any, **kw: Any) -> None:
    raise DatabaseError("gone")


def test_a_server_answers_probes_by_any_name_and_without_https(db: None) -> None:
    with override_settings(ALLOWED_HOSTS=["shop.example"], SECURE_SSL_REDIRECT=True):
        assert Client().get("/healthz", headers={"host": "10.0.0.7:8000"}).content == b"ok\n"
        assert Client().get("/readyz", headers={"host": "10.0.0.7:8000"}).status_code == 200
        assert Client().get("/sign-in", headers={"host": "10.0.0.7:8000"}).status_code == 400
    assert ready(200) == ALIVE


def test_a_process_answers_without_a_database() -> None:
    assert Client().get("/healthz").status_code == 200  # pytest refuses a query here


def test_a_server_without_a_database_is_not_ready(db: None, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(Shop.objects, "exists", refuse, raising=False)
    assert ready(503) == ALIVE | {"database": "does not answer, or lacks its tables"}


def test_a_server_that_was_not_migrated_is_not_ready(db: None, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(MigrationExecutor, "migration_plan", lambda self, targets: [("shop", "9999_next")])
    assert ready(503) == ALIVE | {"database": "migrations have not run"}


def test_a_server_without_its_folder_is_not_ready(db: None, monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setattr(probes.default_storage, "path", lambda name: str(tmp_path / "gone"), raising=False)
    assert ready(503) == ALIVE | {"files": "the folder cannot be written"}


def test_a_server_whose_threads_do_not_run_is_not_ready(db: None, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(probes.worker, "is_alive", lambda: False)
    monkeypatch.setattr(probes.webhook_worker, "is_alive", lambda: False)
    monkeypatch.setattr(probes.file_worker, "is_alive", lambda: False)
    nobody = "nobody sends them"
    assert ready(503) == ALIVE | {"e-mails": nobody, "webhooks": nobody, "imports": "nobody reads large files"}


def test_a_worker_that_is_stuck_is_not_alive(monkeypatch: pytest.MonkeyPatch) -> None:
    worker = Worker("test", lambda: False, Event())
    assert not worker.is_alive()
    monkeypatch.setattr(worker._thread, "is_alive", lambda: True)
    worker.looked_at = int(time.monotonic())
    assert worker.is_alive()
    worker.looked_at = int(time.monotonic()) - STUCK - 1
    assert not worker.is_alive()


def test_many_who_ask_cost_one_look(db: None, monkeypatch: pytest.MonkeyPatch) -> None:
    looks = []
    monkeypatch.setattr(probes.ServerState, "_files", lambda self: looks.append(1) or "ok")
    assert [ready(200) for _ in range(5)] == [ALIVE] * 5 and len(looks) == 1


def test_numbers_are_for_the_addresses_that_are_named(db: None) -> None:
    assert Client().get("/metrics").status_code == 404
    with override_settings(METRICS_FOR=["10.0.0.7"]):
        assert Client().get("/metrics").status_code == 404
        assert Client(REMOTE_ADDR="10.0.0.7").get("/metrics").status_code == 200


def test_the_numbers_count_responses_and_e_mails(cast: Cast) -> None:
    now = timezone.now()
    for state, ago in (("waiting", 90), ("waiting", 30), ("failed", 500), ("begun", 500), ("done", 500)):
        Outbox.objects.create(
            shop=cast.shop,
            kind="link",
            subject_id=uuid4(),
            body={},
            state=state,
            asked_at=now - timedelta(seconds=ago),
            due_at=now - timedelta(seconds=1),
            done_at=now if state == "done" else None,
        )
    Client().get("/sign-in")
    Client().get("/nowhere")
    Client().get("/healthz")
    with override_settings(METRICS_FOR=["127.0.0.1"]):
        response = Client().get("/metrics")
    lines = response.content.decode().splitlines()
    samples = dict(line.rsplit(" ", 1) for line in lines if not line.startswith("#"))
    assert samples.pop("kitwright_response_seconds_total")
    assert int(samples.pop("kitwright_email_oldest_seconds")) in range(90, 150)
    assert samples == {
        'kitwright_responses_total{class="2xx"}': "1",
        'kitwright_responses_total{class="3xx"}': "0",
        'kitwright_responses_total{class="4xx"}': "1",
        'kitwright_responses_total{class="5xx"}': "0",
        'kitwright_emails{state="waiting"}': "2",
        'kitwright_emails{state="failed"}': "1",
        'kitwright_emails{state="unsure"}': "1",
        "kitwright_ready": "1",
    }
    assert response["Content-Type"] == "text/plain; version=0.0.4; charset=utf-8"


def test_the_numbers_are_in_the_open_text_format(db: None) -> None:
    text = probes.metrics(timezone.now())
    assert text.endswith("\n")
    described: list[str] = []
    for line in text.splitlines():
        if comment := COMMENT.fullmatch(line):
            described.append(comment[2])
        else:
            sample = LINE.fullmatch(line)
            assert sample and described[-2:] == [sample[1]] * 2, line
    assert len(described) == 2 * len(set(described)), "a name is described twice"


def test_the_numbers_are_told_without_a_database(db: None, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(outbox, "numbers", refuse)
    monkeypatch.setattr(Shop.objects, "exists", refuse, raising=False)
    text = probes.metrics(timezone.now())
    assert "kitwright_ready 0" in text and "kitwright_emails" not in text


def test_nobody_takes_the_address_of_another_to_read_numbers(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("METRICS_FOR", "10.0.0.7")
    with serve(tmp_path) as running:
        head = "GET /metrics\nX-Forwarded-For: 10.0.0.7\nX-Forwarded-Proto: https"
        assert running.ask(head).status == 404
        assert running.ask(head, source=PROXY).status == 200
        assert running.ask("GET /readyz").status == 503, "the database is empty"
