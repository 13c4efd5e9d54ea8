from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.utils import timezone

from shop.backups.manifest import BackupError
from shop.backups.take import take_backup


class Command(BaseCommand):
    help = "Backs up the database and the media into a new dated folder inside DIR, while the server runs."
    requires_system_checks: list[str] = []

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("dir", type=Path, metavar="DIR")

    def handle(self, *args: Any, **options: Any) -> None:
        try:
            path = take_backup(options["dir"], timezone.now())
        except BackupError as error:
            raise CommandError(str(error)) from None
        except OSError as error:
            raise CommandError(f"{error.filename or options['dir']}: {error.strerror}.") from None
        self.stdout.write(str(path))
