"""The life of a customer's link: with a job until 30 days after it ended, else until its own end."""

from datetime import date, datetime, time, timedelta
from zoneinfo import ZoneInfo

AFTER_THE_JOB = timedelta(days=30)


def last_moment(own_end: datetime, *, has_job: bool, ended_on: date | None, zone: str) -> datetime | None:
    """The last moment at which the link works; None while its job is open.

    `own_end` is the end that the link was made with, and counts without a job. `ended_on` is the day on which the job
    was handed over or called off.
    """
    if not has_job:
        return own_end
    if ended_on is None:
        return None
    return datetime.combine(ended_on + AFTER_THE_JOB, time(23, 59, 59), ZoneInfo(zone))
