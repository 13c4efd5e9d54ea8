from pathlib import Path
from typing import Any

from django.core.management import call_command
from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.utils import timezone

from shop.backups.manifest import BackupError, Manifest
from shop.backups.restore import restore_backup, restore_into


class Command(BaseCommand):
    help = (
        "Puts a backup back: DIR is one dated folder. It refuses a damaged one, and a database that has shops unless "
        "--yes is given. Stop the server first. Everybody has to sign in again."
    )
    requires_system_checks: list[str] = []

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("dir", type=Path, metavar="DIR")
        parser.add_argument("--yes", action="store_true", help="replace the database that is there")
        parser.add_argument("--into", type=Path, metavar="NEW", help="put it into this new folder (SQLite)")

    def handle(self, *args: Any, **options: Any) -> None:
        try:
            self._restore(options["dir"], options["into"], options["yes"], options["verbosity"])
        except BackupError as error:
            raise CommandError(str(error)) from None
        except OSError as error:
            raise CommandError(f"{error.filename or options['dir']}: {error.strerror}.") from None

    def _restore(self, folder: Path, into: Path | None, overwrite: bool, verbosity: int) -> None:
        now = timezone.now()
        if into:
            manifest = restore_into(folder, into, now)
            self.stdout.write(
                f"{_restored(manifest)}\nServe it with VAR_DIR={into.absolute()}, after manage.py migrate."
            )
            return
        manifest = restore_backup(folder, now, overwrite=overwrite)
        call_command("migrate", interactive=False, verbosity=0)
        self.stdout.write(_restored(manifest))


def _restored(manifest: Manifest) -> str:
    rows, files = sum(manifest.counts.values()), len(manifest.parts) - 1
    return f"restored the backup of {manifest.made_at}: {len(manifest.shops)} shops, {rows} rows, {files} files"
