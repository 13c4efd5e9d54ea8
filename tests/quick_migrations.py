"""Makes Django's migrations quick enough for tests: `python -m tests.quick_migrations` migrates the whole database.

A constraint or an index that comes or goes changes no field, yet Django then renders the model and every model related
to it anew: all of them, since every row belongs to a shop. Here only the model's options are exchanged. The statements
that the database gets are the same; the time of a whole migration is a third.
"""

import os
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from functools import wraps
from typing import Any
from unittest.mock import patch

from django.db.migrations.state import ProjectState

CHANGES = ("_append_option", "_remove_option", "_alter_option", "rename_index")


@contextmanager
def quick_migrations() -> Iterator[None]:
    with patch.multiple(ProjectState, **{name: _quick(getattr(ProjectState, name)) for name in CHANGES}):
        yield


def _quick(change: Callable[..., None]) -> Callable[..., None]:
    @wraps(change)
    def changed(self: ProjectState, app_label: str, model_name: str, *arguments: Any) -> None:
        rendered = self.__dict__.pop("apps", None)  # with nothing rendered, Django renders nothing anew
        change(self, app_label, model_name, *arguments)
        if rendered is not None:
            self.__dict__["apps"] = rendered
            options = self.models[app_label, model_name.lower()].options
            meta: Any = rendered.get_model(app_label, model_name)._meta
            meta.indexes, meta.constraints = list(options["indexes"]), list(options["constraints"])
            meta.__dict__.pop("total_unique_constraints", None)

    return changed


if __name__ == "__main__":
    import django
    from django.core.management import call_command

    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "shop.settings")
    django.setup()
    with quick_migrations():
        call_command("migrate", *sys.argv[1:], verbosity=0)
