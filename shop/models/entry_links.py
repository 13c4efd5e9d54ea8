from datetime import timedelta

from django.db import models
from django.db.models import CheckConstraint as Check
from django.db.models import F, Index, Q

from shop.constraints import Refuse, SameShop
from shop.models.people import Member, MemberRole
from shop.rows import ShopKey, ShopRow

INVITATION_LASTS, PASSWORD_LINK_LASTS = timedelta(days=7), timedelta(hours=1)


class EntryLinkKind(models.TextChoices):
    INVITATION = "invitation"
    PASSWORD = "password"
    FORGOTTEN = "forgotten"


class EntryLink(ShopRow):
    """A link by which a person comes in without a password: an invitation, or a new password for a member.

    A manager makes the link of a new password, or a member who has forgotten theirs asks for one by e-mail: that one
    has no author. It works once and until `expires_at`. The secret is shown once or mailed; the row holds its hash.
    """

    Kind = EntryLinkKind

    kind = models.CharField(max_length=10, choices=EntryLinkKind)
    token_hash = models.CharField(max_length=64, unique=True)
    email = models.EmailField(blank=True)  # of the invited person, in lower case
    role = models.CharField(max_length=10, choices=MemberRole, blank=True)  # of the invited person
    member = ShopKey(Member, null=True, blank=True)  # the member who gets a new password
    author = ShopKey(Member, null=True, blank=True)
    made_at = models.DateTimeField()
    expires_at = models.DateTimeField()
    used_at = models.DateTimeField(null=True, blank=True)
    withdrawn_at = models.DateTimeField(null=True, blank=True)

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            SameShop("member", name="entry_link_member_is_of_its_shop"),
            SameShop("author", name="entry_link_author_is_of_its_shop"),
            Check(
                condition=Q(
                    kind="invitation", member__isnull=True, role__in=["advisor", "parts", "technician", "manager"]
                )
                & ~Q(email="")
                | Q(kind__in=["password", "forgotten"], member__isnull=False, role="", email=""),
                name="entry_link_invites_or_belongs_to_a_member",
            ),
            Check(
                condition=Q(kind="forgotten", author__isnull=True)
                | Q(kind__in=["invitation", "password"], author__isnull=False),
                name="entry_link_has_an_author_unless_forgotten",
            ),
            Check(condition=Q(expires_at__gt=F("made_at")), name="entry_link_expires_after_it_was_made"),
            Refuse(
                name="entry_link_is_used_or_withdrawn_once",
                events=("update",),
                when="OLD.used_at IS NOT NULL OR OLD.withdrawn_at IS NOT NULL",
            ),
        ]
        indexes = [
            Index(fields=["shop", "member"], name="entry_link_by_member"),
            Index(fields=["shop", "author"], name="entry_link_by_author"),
            Index(fields=["shop", "kind", "expires_at"], name="entry_link_by_kind"),
        ]

    def __str__(self) -> str:
        return f"{self.kind} until {self.expires_at}"
