from importlib import import_module
from typing import Any

from django.conf import settings
from django.contrib.sessions.base_session import AbstractBaseSession
from django.db import models
from django.db.models import Index

from shop.models.people import User
from shop.rows import uuid7


class PersonSession(AbstractBaseSession):
    """A sign-in on one device. It ends at `expire_date`, which changes by the person extend up to a maximum age."""

    user = models.ForeignKey(User, models.CASCADE, null=True, related_name="+")
    started_at = models.DateTimeField()

    class Meta(AbstractBaseSession.Meta):
        abstract = False

    def __str__(self) -> str:
        return f"{self.user_id} since {self.started_at}"

    @classmethod
    def get_session_store_class(cls) -> Any:
        return import_module(settings.SESSION_ENGINE).SessionStore


class SignInTry(models.Model):
    """A pending or failed try to sign in. `person` is a keyed digest of the e-mail."""

    id = models.UUIDField(primary_key=True, default=uuid7, editable=False)
    person = models.CharField(max_length=64)
    address = models.CharField(max_length=45)  # of an IPv6 address its network of 64 bits
    tried_at = models.DateTimeField()

    class Meta:
        indexes = [
            Index(fields=["address", "tried_at"], name="try_by_address"),
            Index(fields=["tried_at"], name="try_by_time"),
        ]

    def __str__(self) -> str:
        return f"{self.address} {self.tried_at}"


class PasswordRequest(models.Model):
    """A request for a new password, by somebody who typed this e-mail. The account is looked up later.

    So the answer and its time are the same for every e-mail.
    """

    id = models.UUIDField(primary_key=True, default=uuid7, editable=False)
    email = models.EmailField()
    site = models.CharField(max_length=200)  # what the address of the link begins with
    asked_at = models.DateTimeField()

    def __str__(self) -> str:
        return f"asked {self.asked_at}"
