from shop.answers.base import utc
from shop.answers.calendar_feeds import CalendarFeedOut
from shop.models import CalendarFeed


def feed_answer(row: CalendarFeed) -> CalendarFeedOut:
    return CalendarFeedOut(id=row.pk, title=row.title, by=row.author.user.name, made_at=utc(row.made_at))
