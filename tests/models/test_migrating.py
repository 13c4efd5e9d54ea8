"""`manage.py migrate` renders only the models that change (the whole: tests/drills)."""

import pytest
from django.core.management import get_commands
from django.db import models
from django.db.migrations.state import ModelState, ProjectState

from shop.management.commands.migrate import changed_models_alone

POSITIVE = models.CheckConstraint(name="bolt_count_is_positive", condition=models.Q(count__gt=0))
BY_COUNT = models.Index(name="bolts_by_count", fields=["count"])


@pytest.fixture
def state() -> ProjectState:
    """Bolts that lie in a box, both models rendered."""
    state = ProjectState()
    for name, fields in {
        "Box": [],
        "Bolt": [("box", models.ForeignKey("bench.Box", models.CASCADE)), ("count", models.IntegerField())],
    }.items():
        key = ("id", models.BigAutoField(primary_key=True))
        state.add_model(ModelState("bench", name, [key, *fields], {"constraints": [], "indexes": []}))
    assert rendered(state, "Bolt")._meta.get_field("box").related_model is rendered(state, "Box")
    return state


def rendered(state: ProjectState, name: str) -> type[models.Model]:
    return state.apps.get_model("bench", name)


def test_it_is_the_command_of_the_project() -> None:
    assert get_commands()["migrate"] == "shop"


def test_a_change_renders_its_own_model(state: ProjectState) -> None:
    box, bolt = rendered(state, "Box"), rendered(state, "Bolt")
    with changed_models_alone():
        state.add_constraint("bench", "bolt", POSITIVE)
        state.add_index("bench", "bolt", BY_COUNT)
        state.add_field("bench", "bolt", "note", models.TextField(default=""), preserve_default=True)
    later = rendered(state, "Bolt")
    assert rendered(state, "Box") is box and later is not bolt
    assert (later._meta.constraints, later._meta.indexes) == ([POSITIVE], [BY_COUNT])
    assert later._meta.get_field("note") and later._meta.get_field("box").related_model is box


def test_all_are_rendered_before_rows_are_moved(state: ProjectState) -> None:
    with changed_models_alone():
        state.add_field("bench", "box", "note", models.TextField(default=""), preserve_default=True)
        assert rendered(state, "Bolt")._meta.get_field("box").related_model is not rendered(state, "Box")
        state.clear_delayed_apps_cache()  # as Django does before it moves rows
    assert rendered(state, "Bolt")._meta.get_field("box").related_model is rendered(state, "Box")


def test_a_new_name_reaches_the_keys_of_other_models(state: ProjectState) -> None:
    with changed_models_alone():
        state.rename_model("bench", "Box", "Carton")
    assert rendered(state, "Bolt")._meta.get_field("box").related_model is rendered(state, "Carton")


def test_a_state_that_is_not_rendered_stays_so(state: ProjectState) -> None:
    del state.apps
    with changed_models_alone():
        state.add_constraint("bench", "bolt", POSITIVE)
    assert "apps" not in vars(state)
    assert rendered(state, "Bolt")._meta.constraints == [POSITIVE]
