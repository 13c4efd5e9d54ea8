"""Rules of imports: quotes -> kitting -> shop, no layer imports a higher one, and `calc/` imports no Django.

Folders and modules at the top of an app are its rooms, which import each other without a circle.
"""

import ast
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from graphlib import CycleError, TopologicalSorter
from pathlib import Path

ABOVE = {"shop": {"kitting", "quotes"}, "kitting": {"quotes"}, "quotes": set()}
# What a folder may not import, in any app. Reading, in their order: rows, words, paper, writes, HTTP.
BEYOND = {
    "models": {"api", "answers", "queries", "presenters", "documents", "services", "serializers", "views", "pages"},
    "answers": {"api", "queries", "presenters", "documents", "services", "serializers", "views", "pages"},
    "queries": {"api", "answers", "presenters", "documents", "services", "serializers", "views", "pages"},
    "presenters": {"api", "documents", "services", "serializers", "views", "pages"},
    "documents": {"api", "services", "serializers", "views", "pages"},
    "tables": {"models", "api", "answers", "imports", "queries", "presenters", "documents", "services", "serializers"},
    "imports": {"api", "answers", "presenters", "documents", "serializers", "views", "pages"},
    "services": {"api", "answers", "imports", "presenters", "serializers", "views", "pages"},
    "api": {"views", "pages"},
    "views": {"pages"},
    "pages": {"views", "serializers"},
}
FRAMEWORKS = {"django", "rest_framework", "drf_spectacular", "weasyprint", "openpyxl", "orjson", "msgspec", "environ"}


def imports(source: str) -> Iterator[str]:
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom) and node.module:
            yield from (f"{node.module}.{alias.name}" for alias in node.names)


def faults(path: Path, source: str) -> list[str]:
    """The forbidden imports of a module of the project. `path` is relative to the project."""
    app, taken = path.parts[0], []
    for name in imports(source):
        head = name.split(".")[0]
        if head in ABOVE[app]:
            taken.append(f"{path}: {name} is above {app}")
        if (target := folder(name)) in BEYOND.get(folder(".".join(path.with_suffix("").parts)), ()):
            taken.append(f"{path}: {name} is in {target}")
        if "services" in path.parts and name == "shop.words.say":
            taken.append(f"{path}: a service gives codes and facts")
        if "calc" in path.parts and (head in FRAMEWORKS or head in ABOVE and ".calc" not in name):
            taken.append(f"{path}: {name} is no pure calculation")
    return taken


def folder(module: str) -> str:
    """The layer of a module of the project: its first folder with rules of its own; empty for none."""
    app, *rest = module.split(".")
    return next((part for part in rest if part in BEYOND), "") if app in ABOVE else ""


def project_faults(root: Path, apps: Iterable[str] = ABOVE) -> list[str]:
    return [fault for app in apps for path, source in project_modules(root, app) for fault in faults(path, source)]


def rooms(modules: Iterable[tuple[Path, str]], app: str) -> dict[str, set[str]]:
    """Maps each room of an app to the rooms that it imports, from (path inside the project, source) of its modules."""
    arrows: dict[str, set[str]] = defaultdict(set)
    for path, source in modules:
        room = path.with_suffix("").parts[1]
        targets = (name.split(".") for name in imports(source))
        arrows[room] |= {parts[1] for parts in targets if parts[0] == app and len(parts) > 1} - {room}
    return arrows


def circle(arrows: Mapping[str, set[str]]) -> list[str]:
    """The rooms of one circle, the first one again at its end; empty if there is none."""
    try:
        TopologicalSorter(arrows).prepare()
    except CycleError as error:
        return list(error.args[1])
    return []


def project_modules(root: Path, app: str) -> Iterator[tuple[Path, str]]:
    for path in sorted((root / app).rglob("*.py")):
        if "migrations" not in path.parts:
            yield path.relative_to(root), path.read_text("utf-8")
