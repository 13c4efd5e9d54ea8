"""`manage.py migrate` adds constraints and indexes without drawing the models again (the whole: tests/drills)."""

import pytest
from django.core.management import get_commands
from django.db import models
from django.db.migrations.state import ModelState, ProjectState

from shop.management.commands.migrate import nothing_drawn_again

POSITIVE = models.CheckConstraint(name="bolt_count_is_positive", condition=models.Q(count__gt=0))
BY_COUNT = models.Index(name="bolts_by_count", fields=["count"])


@pytest.fixture
def state() -> ProjectState:
    """Bolts that lie in a box, both models drawn."""
    state = ProjectState()
    for name, fields in {
        "Box": [],
        "Bolt": [("box", models.ForeignKey("bench.Box", models.CASCADE)), ("count", models.IntegerField())],
    }.items():
        key = ("id", models.BigAutoField(primary_key=True))
        state.add_model(ModelState("bench", name, [key, *fields], {"constraints": [], "indexes": []}))
    assert drawn(state, "Bolt")._meta.get_field("box").related_model is drawn(state, "Box")
    return state


def drawn(state: ProjectState, name: str) -> type[models.Model]:
    return state.apps.get_model("bench", name)


def test_it_is_the_command_of_the_project() -> None:
    assert get_commands()["migrate"] == "shop"


def test_a_constraint_and_an_index_reach_the_model_and_none_is_drawn_again(state: ProjectState) -> None:
    box, bolt = drawn(state, "Box"), drawn(state, "Bolt")
    with nothing_drawn_again():
        state.add_constraint("bench", "bolt", POSITIVE)
        state.add_index("bench", "bolt", BY_COUNT)
    assert (drawn(state, "Box"), drawn(state, "Bolt")) == (box, bolt)
    assert (bolt._meta.constraints, bolt._meta.indexes) == ([POSITIVE], [BY_COUNT])


def test_a_model_that_is_drawn_later_has_them(state: ProjectState) -> None:
    with nothing_drawn_again():
        state.add_constraint("bench", "bolt", POSITIVE)
        state.add_index("bench", "bolt", BY_COUNT)
        state.add_field("bench", "bolt", "note", models.TextField(default=""), preserve_default=True)
    later = drawn(state, "Bolt")
    assert later._meta.get_field("note")
    assert (later._meta.constraints, later._meta.indexes) == ([POSITIVE], [BY_COUNT])


def test_a_state_that_is_not_drawn_keeps_them(state: ProjectState) -> None:
    state.clear_delayed_apps_cache()
    del state.apps
    with nothing_drawn_again():
        state.add_constraint("bench", "bolt", POSITIVE)
    assert "apps" not in vars(state)
    assert drawn(state, "Bolt")._meta.constraints == [POSITIVE]
