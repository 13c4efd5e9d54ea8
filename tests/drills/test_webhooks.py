"""The server is killed without warning while it sends messages of webhooks: none is lost, each keeps its id."""

import json
from collections import Counter
from collections.abc import Iterator

import pytest

from tests.drills.installation import Installation, kill
from tests.webhook_receiver import PATIENCE, Receiver, webhook_receiver


@pytest.fixture
def receiver(monkeypatch: pytest.MonkeyPatch) -> Iterator[Receiver]:
    for name in ("WEBHOOK_HTTP", "WEBHOOK_PRIVATE_TARGETS"):
        monkeypatch.setenv(name, "true")
    with webhook_receiver() as running:
        yield running


def states_after(installation: Installation, *words: str) -> dict[str, str]:
    """{id of the message: state}"""
    return dict(json.loads(installation.python("-m", "tests.drills.webhooks", *words).splitlines()[-1]))


def received(receiver: Receiver) -> Counter[str]:
    return Counter(headers["webhook-id"] for _, headers, _ in receiver.posts)


@pytest.mark.drill
def test_what_was_begun_when_the_server_was_killed_is_sent_again_under_its_id(
    installation: Installation, receiver: Receiver
) -> None:
    """Killed after the receiver has the message and before its answer."""
    states_after(installation, "put", "2", receiver.url)
    receiver.pauses = True
    process = installation.start()
    try:
        assert receiver.reached.wait(PATIENCE), "nothing was sent"
    finally:
        kill(process)
    receiver.pauses = False
    receiver.go_on.set()
    states = states_after(installation, "later")
    assert sorted(states.values()) == ["begun", "waiting"]
    with installation.served():
        while received(receiver).total() < 3:
            receiver.wait_for_a_post()
    assert received(receiver) == {id: 2 if state == "begun" else 1 for id, state in states.items()}


@pytest.mark.drill
def test_no_message_is_lost_however_often_the_server_is_killed(installation: Installation, receiver: Receiver) -> None:
    messages, kills = 60, 15
    written = states_after(installation, "put", str(messages), receiver.url)
    for cycle in range(kills):
        process = installation.start()
        try:
            for _ in range(1 + cycle % 4):
                receiver.wait_for_a_post()
        finally:
            kill(process)
    open_still = Counter(states_after(installation, "later").values())
    due = received(receiver).total() + open_still["begun"] + open_still["waiting"]
    with installation.served():
        while set(received(receiver)) != set(written) or received(receiver).total() < due:
            receiver.wait_for_a_post()
    states, posts = Counter(states_after(installation, "states").values()), received(receiver)
    assert set(states) <= {"done", "begun"} and states["begun"] <= 1  # the last may not be noted yet
    assert posts.total() - messages <= kills
    print(f"\n{messages} messages, {kills} kills: {len(posts)} received, {posts.total() - messages} of them again")
