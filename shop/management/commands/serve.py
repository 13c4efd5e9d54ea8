from typing import Any

from django.core.management.base import BaseCommand, CommandParser
from django.db import DatabaseError
from django.urls import get_resolver

from shop.services.opening import new_opening_code
from shop.serving.server import Server
from shop.wsgi import application


class Command(BaseCommand):
    help = "Serves the workshop until SIGTERM or Ctrl-C, and answers what has begun before it stops."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("--listen", default="127.0.0.1:8000", help="address and port; port 0 takes a free one")

    def handle(self, *args: Any, **options: Any) -> None:
        get_resolver().url_patterns  # noqa: B018  imports every view now, so that nobody waits for it later
        server = Server(application, options["listen"])
        self.stdout.write(f"Listening on http://{server.effective_host}:{server.effective_port}")
        if code := _opening_code():
            self.stdout.write(f"There is no workshop yet. Open yours on that page, with the code {code}")
        self.stdout.flush()
        server.run()


def _opening_code() -> str | None:
    """The code that opens the first workshop; None also where the database lacks its table, as before a migration."""
    try:
        return new_opening_code()
    except DatabaseError:
        return None
