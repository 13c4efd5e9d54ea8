from datetime import timedelta
from typing import Any

from django.conf import settings
from django.core.management.base import BaseCommand
from django.utils import timezone

from shop.services import imports  # noqa: F401  # registers what it throws away
from shop.services.commands import drop_answers
from shop.services.pins import purge_pins
from shop.services.retention import purge_kept
from shop.services.sessions import purge_sessions
from shop.services.sign_in_tries import purge_tries
from shop.services.webhook_messages import drop_messages


class Command(BaseCommand):
    help = (
        "Removes what is kept for a while only: old answers to repeated requests, expired sessions, old messages to "
        "other programs, drafts that were discarded and files that were imported longer ago than the shop's rules "
        "say. Run it daily."
    )
    requires_system_checks: list[str] = []

    def handle(self, *args: Any, **options: Any) -> None:
        now = timezone.now()
        answers = drop_answers(before=now - timedelta(days=settings.COMMAND_ANSWER_DAYS), now=now)
        expired = purge_sessions(now=now)
        purge_tries(now=now)
        purge_pins(now=now)
        drop_messages(before=now - timedelta(days=settings.WEBHOOK_MESSAGE_DAYS))
        thrown = purge_kept(now=now)
        old = f"{thrown} drafts and files past their retention removed"
        self.stdout.write(f"{answers} old answers dropped, {expired} expired sessions removed, {old}")
