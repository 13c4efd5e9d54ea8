from django.db import models
from django.db.models import Index
from django.db.models import UniqueConstraint as Unique

from shop.models.people import User
from shop.rows import uuid7

TRIES = 5


class PhonePin(models.Model):
    """A PIN that lets one person in on one device. The device is known by a cookie, of which the row has the hash.

    `wrong_tries` counts tries since the last right one; a try is counted before its PIN is checked.
    """

    id = models.UUIDField(primary_key=True, default=uuid7, editable=False)
    user = models.ForeignKey(User, models.CASCADE, related_name="+", db_index=False)
    device_hash = models.CharField(max_length=64)
    pin_hash = models.CharField(max_length=128)
    wrong_tries = models.PositiveSmallIntegerField(default=0)
    agent = models.CharField(max_length=300, blank=True)  # of the browser that set it
    set_at = models.DateTimeField()
    expires_at = models.DateTimeField()

    class Meta:
        constraints = [Unique(fields=["user", "device_hash"], name="pin_is_once_a_person_s_on_a_device")]
        indexes = [Index(fields=["device_hash"], name="pin_by_device")]

    def __str__(self) -> str:
        return f"PIN of {self.user_id}"

    @property
    def tries_left(self) -> int:
        return max(0, TRIES - self.wrong_tries)
