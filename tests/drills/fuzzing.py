"""Schemathesis over the application in this process: every operation of the OpenAPI document, asked by one person.

The requests go through the whole WSGI application. The path parameters are real ids of the shop most of the time,
the rest comes from the document: valid, at the edges of valid, and invalid.
"""

from collections import Counter, defaultdict
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field
from random import Random
from typing import Any
from unittest.mock import patch
from uuid import UUID

import schemathesis
from django.conf import settings
from django.core.wsgi import get_wsgi_application
from django.db import connections
from django.test import Client
from schemathesis.config import SchemathesisConfig
from schemathesis.engine import Status, events, from_schema
from schemathesis.engine.recorder import ScenarioRecorder
from schemathesis.transport.wsgi import WSGITransport

from shop.models import Member, PersonSession
from tests.api.asked import Asked
from tests.client import document

SEED = 20261126
EXAMPLES = 3  # of each operation while fuzzing, and walks through several operations
STEPS = 8  # operations in a walk
REAL = 0.8  # how often an id in a path is one of the shop's
IN_A_SHOP = "/api/v1/shops/{slug}/"
PASS = "the-pass-of-whoever-asks"  # stands in the session's cookie where the person is signed in
CSRF = "c" * 32
Known = Callable[[str, int, bytes], bool]
OF_A_NETWORK = {"cert", "max_redirects", "proxies", "verify"}


class Door:
    """The application for one person: the pass in a cookie becomes a session that is alive, whoever signed out."""

    def __init__(self, member: Member) -> None:
        self.member, self.key, self.keys = member, "", Random(SEED)
        self.application = get_wsgi_application()

    def __call__(self, environ: dict[str, Any], start_response: Callable[..., Any]) -> Iterable[bytes]:
        try:
            cookies = environ.get("HTTP_COOKIE", "").replace(f"{_cookie()}={PASS}", self._session())
            environ["HTTP_COOKIE"] = f"{cookies}; {settings.CSRF_COOKIE_NAME}={CSRF}"
            environ["HTTP_X_CSRFTOKEN"] = CSRF
            environ.pop("HTTP_ACCEPT_ENCODING", None)  # the answer is read as it comes
            environ |= self._another_key(environ.get("HTTP_IDEMPOTENCY_KEY"))
            response = self.application(environ, start_response)
            body = list(response)
            response.close()
            return body
        finally:
            connections.close_all()  # the thread that asks is not ours to end

    def _another_key(self, key: str | None) -> dict[str, str]:
        """Each request is a command of its own: a key that fits the document is generated once and then repeated."""
        try:
            return {"HTTP_IDEMPOTENCY_KEY": str(UUID(int=UUID(key or "").int ^ self.keys.getrandbits(128)))}
        except ValueError:
            return {}

    def _session(self) -> str:
        if not PersonSession.objects.filter(pk=self.key).exists():
            client = Client()
            client.force_login(self.member.user)
            self.key = client.cookies[settings.SESSION_COOKIE_NAME].value
        return f"{settings.SESSION_COOKIE_NAME}={self.key}"


def _cookie() -> str:
    return str(document()["components"]["securitySchemes"]["session"]["name"])


@dataclass
class Findings:
    """`failures` is {(operation, check, title): example}, `answers` {operation: statuses}, `ran` requests by phase.

    `excused` counts what `known` says is no failure.
    """

    known: Known
    failures: dict[tuple[str, str, str], str] = field(default_factory=dict)
    answers: dict[str, Counter[int]] = field(default_factory=lambda: defaultdict(Counter))
    ran: Counter[str] = field(default_factory=Counter)
    checked: Counter[str] = field(default_factory=Counter)
    excused: Counter[str] = field(default_factory=Counter)

    def take(self, phase: str, recorder: ScenarioRecorder) -> None:
        for id, interaction in recorder.interactions.items():
            self.ran[phase] += 1
            if interaction.response is not None:
                self.answers[recorder.cases[id].value.operation.label][interaction.response.status_code] += 1
        for id, checks in recorder.checks.items():
            self.checked.update(check.name for check in checks)
            for check in checks:
                if check.status is Status.FAILURE and check.failure_info is not None:
                    self._add(recorder, id, check.name, check.failure_info)

    def _add(self, recorder: ScenarioRecorder, id: str, check: str, info: Any) -> None:
        response = recorder.find_response(case_id=id)
        key = (info.failure.operation or recorder.label, check, info.failure.title)
        if response is not None and self.known(check, response.status_code, response.content):
            self.excused[check] += 1
            return
        answer = f"{response.status_code} {response.content[:400]!r}" if response else "no answer"
        self.failures.setdefault(key, f"{answer}\n{info.failure.message}\n{info.code_sample}")


_send = WSGITransport.send


def in_process(transport: WSGITransport, case: Any, **options: Any) -> Any:
    """Sends without the settings of a network, which the check of sessions hands on and the transport refuses."""
    return _send(transport, case, **{name: value for name, value in options.items() if name not in OF_A_NETWORK})


def fuzzed(
    member: Member, ids: dict[str, dict[str, list[str]]], checks: dict[str, Any], known_problems: Known
) -> Findings:
    """The findings of requests to every operation as this person; `ids` is {path: {parameter: values}} of real rows.

    `checks` are settings of Schemathesis; `known` says of (check, status, body) that it is no failure.
    """
    schema = schemathesis.openapi.from_dict(document(), config=_config(member.shop.slug, ids, checks))
    schema.app = Door(member)
    report = Findings(known_problems)
    with patch.object(WSGITransport, "send", in_process):
        for event in from_schema(schema).execute():
            if isinstance(event, events.ScenarioFinished):
                report.take(event.phase.value, event.recorder)
            elif isinstance(event, events.NonFatalError):
                report.failures[event.label, "not run", type(event.value).__name__] = str(event.value)
            elif isinstance(event, events.FatalError):
                raise event.exception
    return report


def _config(slug: str, ids: dict[str, dict[str, list[str]]], checks: dict[str, Any]) -> SchemathesisConfig:
    names = {(path, name): f"{path} {name}" for path, parameters in ids.items() for name in parameters}
    generation = {"deterministic": True, "database": "none", "max-examples": EXAMPLES, "no-shrink": True}
    return SchemathesisConfig.from_dict(
        {
            "seed": SEED,
            "cache": {"enabled": False},
            "continue-on-failure": True,
            "workers": 1,
            "generation": generation,
            "phases": {"stateful": {"max-steps": STEPS}},
            "auth": {"openapi": {"session": {"api_key": PASS}}},
            "parameters": {"path.slug": slug, "header.If-Match": {"dictionary": "versions", "probability": REAL}},
            "checks": checks,
            "dictionaries": {
                "versions": {"values": [f'"{version}"' for version in range(1, 6)]},
                **{name: {"values": ids[path][parameter]} for (path, parameter), name in names.items()},
            },
            "operations": [
                {
                    "include-path": path,
                    "parameters": {
                        f"path.{name}": {"dictionary": names[path, name], "probability": REAL} for name in parameters
                    },
                }
                for path, parameters in ids.items()
            ],
        }
    )


def ids_of(requests: Iterable[Asked]) -> dict[str, dict[str, list[str]]]:
    """{path in the document: {parameter: ids}} of the requests."""
    ids: dict[str, dict[str, list[str]]] = defaultdict(lambda: defaultdict(list))
    for path, name, id in _named(requests):
        if id not in ids[path][name]:
            ids[path][name].append(id)
    return {path: dict(parameters) for path, parameters in ids.items()}


def _named(requests: Iterable[Asked]) -> Iterator[tuple[str, str, str]]:
    for request in requests:
        for name, id in request.ids.items():
            if f"{{{name}}}" in request.path:
                yield IN_A_SHOP + request.path, name, id
