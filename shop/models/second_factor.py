from django.db import models
from django.db.models import Index
from django.db.models import UniqueConstraint as Unique

from shop.models.people import User
from shop.rows import uuid7


class Authenticator(models.Model):
    """The secret that a person's authenticator app shares with us (RFC 6238), sealed with the installation's key.

    It counts once `User.second_factor_since` is set. `last_step` is the step of the last code that was used.
    """

    id = models.UUIDField(primary_key=True, default=uuid7, editable=False)
    user = models.OneToOneField(User, models.CASCADE, related_name="+")
    sealed = models.CharField(max_length=40)  # 20 bytes in hexadecimal digits
    last_step = models.BigIntegerField(default=0)

    def __str__(self) -> str:
        return f"authenticator of {self.user_id}"


class RecoveryCode(models.Model):
    """A code that stands in for the authenticator once. The row holds its hash."""

    id = models.UUIDField(primary_key=True, default=uuid7, editable=False)
    user = models.ForeignKey(User, models.CASCADE, related_name="+", db_index=False)
    digest = models.CharField(max_length=64)
    used_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        constraints = [Unique(fields=["user", "digest"], name="recovery_code_is_once_a_person_s")]
        indexes = [Index(fields=["user", "used_at"], name="recovery_code_by_user")]

    def __str__(self) -> str:
        return f"recovery code of {self.user_id}"
