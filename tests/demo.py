"""The demonstration's files, imported by the same commands that a workshop uses."""

from collections.abc import Iterable
from pathlib import Path

from django.conf import settings
from django.core.management import call_command

DEMO = Path(settings.BASE_DIR) / "fixtures" / "demo"
KITS = {
    "turbo": DEMO / "suppliers" / "brightwater-BI-TC35-A-contents-v4.xlsx",
    "brakes": DEMO / "suppliers" / "ferrous-vane-FV-BB356.csv",
    "towing": DEMO / "suppliers" / "quillfen-QF-ATC45-packing-list.xlsx",
}


def saltmarsh_files() -> list[tuple[str, Path]]:
    """(kind, file) in the order of their dependencies, without kits."""
    own = DEMO / "saltmarsh"
    return [
        ("rules", own / "rules.xlsx"),
        ("customers", own / "customers.csv"),
        ("vehicles", own / "vehicles.xlsx"),
        ("labour", own / "labour.xlsx"),
        ("consumables", own / "consumables.xlsx"),
    ]


def take_in(slug: str, files: Iterable[tuple[str, Path]]) -> None:
    for kind, path in files:
        call_command("import", kind, path, "--shop", slug, verbosity=0, stdout=_Silent())


class _Silent:
    """A stream that drops the output of commands."""

    def write(self, text: str, *args: object, **kw: object) -> None: ...

    def flush(self) -> None: ...
