import sys
from pathlib import Path
from typing import Any

from django.conf import settings
from django.core.management.base import BaseCommand, CommandError, CommandParser

from shop.installing.site import Site, SiteError, files


class Command(BaseCommand):
    help = (
        "Prints the files that make this checkout a server of HOST: systemd services and timers, the settings, a "
        "command, and the configuration of nginx. With --into they are written into a folder, under their own names."
    )
    requires_system_checks: list[str] = []

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("host", metavar="HOST", help="the name in customers' links, such as shop.example")
        parser.add_argument("--backup", type=Path, metavar="DIR", help="back up every night into this folder")
        parser.add_argument("--keep", type=int, default=30, metavar="N", help="how many backups stay there (30)")
        parser.add_argument("--user", default="kitwright", help="whom the server runs as (kitwright)")
        parser.add_argument("--data", type=Path, default=Path("/var/lib/kitwright"), metavar="DIR")
        parser.add_argument(
            "--env-file", type=Path, default=Path("/etc/kitwright/settings"), metavar="FILE", help="the settings file"
        )
        parser.add_argument("--listen", default="127.0.0.1:8000", help="address and port behind the proxy")
        parser.add_argument("--certificate", type=Path, metavar="FILE", help="of the host, with its chain")
        parser.add_argument("--key", type=Path, metavar="FILE", help="of the certificate")
        parser.add_argument("--into", type=Path, metavar="DIR", help="write the files into this new folder")

    def handle(self, *args: Any, **options: Any) -> None:
        host = options["host"].lower()
        try:
            contents = files(
                Site(
                    host=host,
                    checkout=Path(settings.BASE_DIR),
                    python=Path(sys.executable),
                    user=options["user"],
                    data=options["data"],
                    settings=options["env_file"],
                    listen=options["listen"],
                    certificate=options["certificate"] or Path(f"/etc/ssl/kitwright/{host}.pem"),
                    key=options["key"] or Path(f"/etc/ssl/kitwright/{host}.key"),
                    backups=options["backup"],
                    keep=options["keep"],
                )
            )
        except SiteError as error:
            raise CommandError(str(error)) from None
        if options["into"] is None:
            for place, content in contents.items():
                self.stdout.write(f"# {place}\n{content}")
            return
        try:
            self._write(options["into"], contents)
        except OSError as error:
            raise CommandError(f"{error.filename}: {error.strerror}.") from None

    def _write(self, folder: Path, contents: dict[Path, str]) -> None:
        folder.mkdir(parents=True)
        for place, content in contents.items():
            file = folder / place.relative_to("/")
            file.parent.mkdir(parents=True, exist_ok=True)
            file.touch(mode=0o755 if content.startswith("#!") else 0o644)
            file.write_text(content, "utf-8")
            self.stdout.write(f"{place}")
        self.stdout.write(f"Look at them in {folder}, then copy them to their places: cp -r {folder}/. /")
