from typing import Any, ClassVar

from django.contrib.auth.models import AbstractBaseUser, BaseUserManager
from django.db import models
from django.db.models import CheckConstraint as Check
from django.db.models import Q
from django.db.models import UniqueConstraint as Unique

from shop.language_tags import LanguageField
from shop.rows import ShopRow, TypedRow, uuid7


class User(TypedRow, AbstractBaseUser):
    """A person who signs in. One person may be a member of several shops."""

    id = models.UUIDField(primary_key=True, default=uuid7, editable=False)
    email = models.EmailField(unique=True)  # lower case, by the service
    name = models.CharField(max_length=120)
    is_active = models.BooleanField(default=True)
    second_factor_since = models.DateTimeField(null=True, blank=True)  # none: the password alone signs in

    typed = ("name",)
    USERNAME_FIELD = "email"
    objects: ClassVar[Any] = BaseUserManager()

    def __str__(self) -> str:
        return self.name


class Shop(TypedRow):
    """The tenant. The numbers of jobs and quotes are given under this row's lock."""

    class Market(models.TextChoices):
        """The market of its vehicles: the check digit of a VIN is mandatory in North America only."""

        NORTH_AMERICA = "north_america"
        ELSEWHERE = "elsewhere"

    class SecondFactor(models.TextChoices):
        """The members of whom the shop requires a second factor."""

        NOBODY = "nobody"
        MANAGERS = "managers"
        ALL = "all"

    id = models.UUIDField(primary_key=True, default=uuid7, editable=False)
    slug = models.SlugField(max_length=40, unique=True)
    name = models.CharField(max_length=120)
    currency = models.CharField(max_length=3)  # ISO 4217
    exponent = models.PositiveSmallIntegerField(default=2)  # decimals of the currency
    zone = models.CharField(max_length=64)  # IANA
    language = LanguageField(default="en-GB")
    units = models.CharField(max_length=8, default="metric")
    market = models.CharField(max_length=20, choices=Market, blank=True)  # of its vehicles; empty: not recorded
    phone = models.CharField(max_length=40, blank=True)  # shown on a customer's page when a link no longer works
    address = models.CharField(max_length=200, blank=True)
    email = models.EmailField(blank=True)
    registration = models.CharField(max_length=120, blank=True)  # the register's name and the number in it
    tax_number = models.CharField(max_length=60, blank=True)
    next_quote = models.PositiveIntegerField(default=1)
    next_job = models.PositiveIntegerField(default=1)
    later_steps: Any = models.JSONField(default=list, blank=True)  # of the guided start, left for later
    second_factor = models.CharField(max_length=8, choices=SecondFactor, default=SecondFactor.NOBODY)
    log_epoch = models.PositiveIntegerField(default=1)  # raised when a backup is put back

    typed = ("name", "phone", "address", "email", "registration", "tax_number")

    class Meta:
        constraints = [
            Check(condition=Q(exponent__lte=3), name="shop_exponent_is_at_most_three"),
            Check(condition=~Q(language=""), name="shop_has_a_language"),
            Check(condition=Q(second_factor__in=["nobody", "managers", "all"]), name="shop_second_factor_is_known"),
        ]

    def __str__(self) -> str:
        return self.name


class MemberRole(models.TextChoices):
    ADVISOR = "advisor"
    PARTS = "parts"
    TECHNICIAN = "technician"
    MANAGER = "manager"


class Member(ShopRow):
    Role = MemberRole

    user = models.ForeignKey(User, models.PROTECT, related_name="memberships")
    role = models.CharField(max_length=10, choices=Role)
    language = LanguageField(blank=True)  # that this person reads the screens in; empty: the shop's
    active = models.BooleanField(default=True)

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            Unique(fields=["shop", "user"], name="member_is_once_in_a_shop"),
            Check(
                condition=Q(role__in=["advisor", "parts", "technician", "manager"]),
                name="member_role_is_known",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.role} {self.id}"

    @property
    def needs_second_factor(self) -> bool:
        """Whether the shop asks this member for a second factor."""
        policy = Shop.SecondFactor(self.shop.second_factor)
        return policy == Shop.SecondFactor.ALL or (
            policy == Shop.SecondFactor.MANAGERS and self.role == MemberRole.MANAGER
        )
