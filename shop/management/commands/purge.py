from datetime import timedelta
from importlib import import_module
from typing import Any

from django.conf import settings
from django.contrib.sessions.models import Session
from django.core.management.base import BaseCommand
from django.utils import timezone

from shop.services.commands import drop_answers


class Command(BaseCommand):
    help = "Removes what is kept for a while only: old answers to repeated requests, expired sessions. Run it daily."
    requires_system_checks: list[str] = []

    def handle(self, *args: Any, **options: Any) -> None:
        now = timezone.now()
        answers = drop_answers(before=now - timedelta(days=settings.COMMAND_ANSWER_DAYS), now=now)
        expired = Session.objects.filter(expire_date__lt=now).count()
        import_module(settings.SESSION_ENGINE).SessionStore.clear_expired()
        self.stdout.write(f"{answers} old answers dropped, {expired} expired sessions removed")
