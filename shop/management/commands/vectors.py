"""`manage.py vectors FILE...`: do our calculations still answer the worked cases, cent for cent?"""

from argparse import ArgumentParser
from pathlib import Path
from typing import Any

from django.apps import apps
from django.core.management.base import BaseCommand

from shop.vectors.registry import calculations_of
from shop.vectors.runner import run_file


class Command(BaseCommand):
    help = "Run vector files; a line a failing case, exit status 1 if any failed."
    requires_system_checks = []
    requires_migrations_checks = False

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("files", nargs="+", type=Path, metavar="FILE")

    def handle(self, *args: Any, files: list[Path], **options: Any) -> None:
        calculations = calculations_of(app.name for app in apps.get_app_configs())
        passed = failed = 0
        for file in files:
            for outcome in run_file(file, calculations):
                passed += outcome.passed
                failed += not outcome.passed
                if not outcome.passed:
                    self.stdout.write(str(outcome))
        self.stdout.write(f"{passed} passed, {failed} failed")
        if failed:
            raise SystemExit(1)
