from datetime import datetime

from shop.answers.api_tokens import TokenOut
from shop.answers.base import utc, utc_or_none
from shop.models import ApiToken
from shop.models.api_tokens import TokenArea
from shop.models.people import MemberRole


def token_answer(row: ApiToken, now: datetime) -> TokenOut:
    return TokenOut(
        id=row.pk,
        title=row.title,
        person=row.member.user.name,
        role=MemberRole(row.member.role),
        areas=[TokenArea(area) for area in row.areas],
        may_write=row.may_write,
        by=row.author.user.name,
        made_at=utc(row.made_at),
        expires_at=utc(row.expires_at),
        expired=row.expires_at <= now,
        used_at=utc_or_none(row.used_at),
    )
