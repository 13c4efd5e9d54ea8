from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.utils import timezone

from shop.backups.manifest import BackupError
from shop.backups.take import take_backup
from shop.backups.thinning import thin_out


class Command(BaseCommand):
    help = "Backs up the database and the media into a new dated folder inside DIR, while the server runs."
    requires_system_checks: list[str] = []

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("dir", type=Path, metavar="DIR")
        parser.add_argument("--keep", type=int, metavar="N", help="then delete all but the N newest backups in DIR")

    def handle(self, *args: Any, **options: Any) -> None:
        keep, thinned = options["keep"], None
        if keep is not None and keep < 1:
            raise CommandError("--keep: at least 1 backup is kept.")
        try:
            path = take_backup(options["dir"], timezone.now())
            thinned = thin_out(options["dir"], keep) if keep else None
        except BackupError as error:
            raise CommandError(str(error)) from None
        except OSError as error:
            raise CommandError(f"{error.filename or options['dir']}: {error.strerror}.") from None
        self.stdout.write(str(path))
        if thinned:
            for damaged in thinned.left:
                self.stderr.write(f"{damaged} is damaged, so it was not deleted. Look at it, then remove it yourself.")
            if thinned.deleted:
                self.stdout.write(f"deleted {len(thinned.deleted)} older, {keep} stay")
