"""Django's `migrate` in half the time: a change renders only the model that it changes, not all related ones."""

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from django.core.management.commands import migrate
from django.db.migrations.state import ProjectState

State: Any = ProjectState  # its types leave out what is private


def only_itself(state: ProjectState, app_label: str, model_name: str, delay: bool = False) -> set[tuple[str, str]]:
    """The models to render again after a change of the one that is named.

    Django names every model that can be reached from it, here nearly all, since every row belongs to a shop. The state
    is marked as delayed: Django then renders all models before a migration moves rows.
    """
    state.is_delayed = True
    return {(app_label, model_name)}


@contextmanager
def changed_models_alone() -> Iterator[None]:
    """Renders only changed models. All are rendered after a new name, which the keys of other models have to learn."""
    reached, rename_model = State._find_reload_model, State.rename_model

    def rename(state: ProjectState, *arguments: Any) -> None:
        vars(state).pop("apps", None)  # rendered when it is needed next
        rename_model(state, *arguments)

    State._find_reload_model, State.rename_model = only_itself, rename
    try:
        yield
    finally:
        State._find_reload_model, State.rename_model = reached, rename_model


class Command(migrate.Command):
    def handle(self, *args: Any, **options: Any) -> None:
        with changed_models_alone():
            super().handle(*args, **options)
