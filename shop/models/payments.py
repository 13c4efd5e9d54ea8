from django.db import models
from django.db.models import CheckConstraint as Check
from django.db.models import F, Index, Q
from django.db.models import UniqueConstraint as Unique

from shop.constraints import SameShop, append_only
from shop.models.jobs import Job
from shop.models.people import Member
from shop.rows import ExactDecimalField, ShopKey, ShopRow


class PaymentMeans(models.TextChoices):
    CARD = "card"
    CASH = "cash"
    TRANSFER = "transfer"
    OTHER = "other"


class Payment(ShopRow):
    """Money received for a job; negative for money paid back, and for the opposite row that reverses a mistake.

    No row is changed or deleted: a mistake is the `reversed_payment` of one opposite row, which has a reason.
    """

    Means = PaymentMeans

    job = ShopKey(Job, related_name="payments")
    amount = ExactDecimalField(scale=3)
    received_on = models.DateField()
    means = models.CharField(max_length=8, choices=PaymentMeans)
    reference = models.CharField(max_length=80, blank=True)
    reason = models.CharField(max_length=200, blank=True)
    reversed_payment = ShopKey("self", null=True, blank=True)
    recorded_at = models.DateTimeField()
    recorded_by = ShopKey(Member)

    typed = ("reference", "reason")

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            SameShop("job", name="payment_is_of_its_shop"),
            SameShop("recorded_by", name="payment_recorder_is_of_its_shop"),
            Unique(fields=["shop", "job", "id"], name="payment_is_of_one_job"),
            SameShop("job", "reversed_payment", to_fields=("job", "id"), name="reversed_payment_is_of_the_same_job"),
            Unique(fields=["shop", "reversed_payment"], name="payment_is_reversed_once"),
            Check(condition=Q(means__in=["card", "cash", "transfer", "other"]), name="payment_means_is_known"),
            Check(condition=~Q(amount=0), name="payment_is_of_an_amount"),
            Check(
                condition=Q(amount__gt=0, reversed_payment__isnull=True) | ~Q(reason=""),
                name="payment_back_has_a_reason",
            ),
            Check(
                condition=Q(reversed_payment__isnull=True) | ~Q(reversed_payment=F("id")),
                name="payment_reverses_another",
            ),
            append_only("payment_never_changes"),
        ]
        indexes = [
            Index(fields=["shop", "job", "recorded_at"], name="payment_by_job"),
            Index(fields=["shop", "received_on", "id"], name="payment_by_day"),
            Index(fields=["shop", "recorded_by"], name="payment_by_recorder"),
        ]

    def __str__(self) -> str:
        return f"{self.amount} on {self.received_on}"


class CoreReturn(ShopRow):
    """A core deposit that the customer gets back because the old part came back; negative for an opposite row.

    `amount` is with tax. As with payments, no row is changed or deleted.
    """

    job = ShopKey(Job, related_name="core_returns")
    title = models.CharField(max_length=200)
    amount = ExactDecimalField(scale=3)
    returned_on = models.DateField()
    reason = models.CharField(max_length=200, blank=True)
    reversed_core = ShopKey("self", null=True, blank=True)
    recorded_at = models.DateTimeField()
    recorded_by = ShopKey(Member)

    typed = ("title", "reason")

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            SameShop("job", name="core_return_is_of_its_shop"),
            SameShop("recorded_by", name="core_return_recorder_is_of_its_shop"),
            Unique(fields=["shop", "job", "id"], name="core_return_is_of_one_job"),
            SameShop("job", "reversed_core", to_fields=("job", "id"), name="reversed_core_is_of_the_same_job"),
            Unique(fields=["shop", "reversed_core"], name="core_return_is_reversed_once"),
            Check(
                condition=Q(amount__gt=0, reversed_core__isnull=True)
                | Q(amount__lt=0, reversed_core__isnull=False) & ~Q(reason=""),
                name="core_return_or_its_opposite_with_a_reason",
            ),
            append_only("core_return_never_changes"),
        ]
        indexes = [
            Index(fields=["shop", "job", "recorded_at"], name="core_return_by_job"),
            Index(fields=["shop", "returned_on", "id"], name="core_return_by_day"),
            Index(fields=["shop", "recorded_by"], name="core_return_by_recorder"),
        ]

    def __str__(self) -> str:
        return self.title
