from pathlib import Path
from typing import Any

import orjson
from django.conf import settings
from django.core.management.base import BaseCommand, CommandError, CommandParser
from drf_spectacular.generators import SchemaGenerator

TARGET = Path(settings.BASE_DIR) / "frontend" / "openapi.json"


class Command(BaseCommand):
    help = "Writes frontend/openapi.json from the endpoints; --check compares instead."
    requires_system_checks: list[str] = []

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("--check", action="store_true")

    def handle(self, *args: Any, **options: Any) -> None:
        document = SchemaGenerator().get_schema(request=None, public=True)
        text = orjson.dumps(document, option=orjson.OPT_INDENT_2 | orjson.OPT_SORT_KEYS) + b"\n"
        if not options["check"]:
            TARGET.write_bytes(text)
            self.stdout.write(f"wrote {TARGET.relative_to(settings.BASE_DIR)}")
        elif not TARGET.exists() or TARGET.read_bytes() != text:
            raise CommandError("frontend/openapi.json is not what the endpoints say: run `make openapi` and commit it.")
        else:
            self.stdout.write("openapi.json is as the endpoints say")
