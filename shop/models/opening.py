from django.db import models
from django.db.models import CheckConstraint as Check
from django.db.models import Q


class OpeningCode(models.Model):
    """The code that opens the first shop, as a keyed digest. There is at most one, and none once a shop exists.

    Its row is the lock of opening: the transaction that opens the first shop locks it and deletes it.
    """

    id = models.PositiveSmallIntegerField(primary_key=True, default=1, editable=False)
    digest = models.CharField(max_length=64)

    class Meta:
        constraints = [Check(condition=Q(id=1), name="opening_code_is_the_only_one")]

    def __str__(self) -> str:
        return "opening code"
