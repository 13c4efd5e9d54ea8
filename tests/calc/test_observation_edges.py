"""The limits of each figure that a phone may send, and of its place in the log."""

from typing import Any
from uuid import UUID

import pytest

from kitting.calc.observation import EventError, Observation, clamped, read_observation

LIST, LINE, DEVICE, OTHER = (str(UUID(int=at)) for at in range(1, 5))


def sent(**change: Any) -> dict[str, Any]:
    event = {"v": 1, "id": OTHER, "list": LIST, "line": LINE, "kind": "set", "total": 4, "damaged": 1}
    event |= {"target": None, "device": DEVICE, "n": 1, "epoch": 1, "seen": 0, "made_at": "2026-11-24T10:15:00+01:00"}
    return event | change


def read(**change: Any) -> Observation:
    return read_observation(sent(**change), UUID(LIST))


def problem(**change: Any) -> str:
    with pytest.raises(EventError) as refused:
        read(**change)
    return refused.value.problem


def test_a_count_is_read_as_it_was_sent() -> None:
    observation = read(how="seen")
    assert (observation.total, observation.damaged, observation.extra) == (4, 1, {"how": "seen"})
    assert observation.made_at.isoformat() == "2026-11-24T09:15:00+00:00"


@pytest.mark.parametrize(
    ("kind", "total", "damaged", "fits"),
    [
        ("set", 99_999, 0, True),
        ("set", 100_000, 0, False),
        ("set", 4, 4, True),
        ("set", 4, 5, False),
        ("set", -1, -1, False),
        ("add", -999, 0, True),
        ("add", -1000, 0, False),
        ("add", 0, 999, True),
        ("add", 0, 1000, False),
        ("add", None, -1, True),
        ("add", 0, 0, False),
    ],
)
def test_numbers_stay_within_bounds(kind: str, total: int | None, damaged: int, fits: bool) -> None:
    if fits:
        assert read(kind=kind, total=total, damaged=damaged).damaged == damaged
    else:
        assert problem(kind=kind, total=total, damaged=damaged) == "out_of_bounds"


@pytest.mark.parametrize(
    "change",
    [
        {"total": True},
        {"total": 4.0},
        {"total": "4"},
        {"list": OTHER},
        {"kind": "undo", "target": OTHER},
        {"kind": "undo", "target": OTHER, "total": None},
        {"target": OTHER},
        {"made_at": "2026-11-24T10:15:00"},
        {"note": "a\x00b"},
        {"note": "a\ud800b"},
        {"n": 0},
        {"seen": -1},
    ],
    ids=str,
)
def test_what_cannot_be_read_is_malformed(change: dict[str, Any]) -> None:
    assert problem(**change) == "malformed"


@pytest.mark.parametrize("change", [{"kind": "halve"}, {"kind": "note"}, {"v": 2}])
def test_what_is_not_known_here_is_kept_whole(change: dict[str, Any]) -> None:
    observation = read(**change)
    assert (observation.total, observation.damaged) == (None, None)
    assert observation.extra == {"sent": {"total": 4, "damaged": 1}}


def test_who_counted_is_never_what_the_phone_says() -> None:
    plain = read()
    claimed = read(author="tomas", author_name="Tomas", seq=4, late=True)
    assert claimed.extra == {} and claimed.digest == plain.digest


def test_an_undo_names_its_target_and_nothing_else() -> None:
    assert read(kind="undo", total=None, damaged=None, target=OTHER).target == UUID(OTHER)


@pytest.mark.parametrize(
    ("seen", "epoch", "sees"),
    [(10, 1, 4), (3, 1, 3), (10, 2, 7), (10, 3, 9), (8, 3, 8)],
    ids=["before both", "less", "between", "after both", "within"],
)
def test_a_phone_has_seen_no_more_than_a_restore_left(seen: int, epoch: int, sees: int) -> None:
    assert clamped(seen, epoch, [(1, 4), (2, 7)], last_seq=9) == sees


def test_a_later_restore_cuts_the_sight_of_every_earlier_epoch() -> None:
    assert clamped(10, 1, [(1, 8), (2, 5)], last_seq=9) == 5


@pytest.mark.parametrize(("name", "value"), [("how", 3), ("note", 1.5), ("note", ["wrong_part"])])
def test_what_no_reader_could_take_is_kept_beside_what_it_can(name: str, value: Any) -> None:
    assert read(**{name: value}).extra == {"sent": {name: value}}
