"""Opening hours in whole minutes of the wall clock's instants (the calculation of promise).

Minutes are counted from 1970 in UTC, so that a clock change passes as real minutes; a local date and time is
only looked at to see whether the shop is open.
"""

from bisect import bisect_right
from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

from shop.calc.refusal import Refusal

DAY = 24 * 60
HORIZON_YEARS = 20  # nobody promises further: what lies behind is a slip of the pen, and would be counted for ever
HORIZON = HORIZON_YEARS * 366 * DAY
_EPOCH = datetime(1970, 1, 1, tzinfo=UTC)
_MINUTE = timedelta(minutes=1)

Span = tuple[int, int]
"""From a minute, included, to a minute, not included."""


@dataclass(frozen=True, slots=True)
class Calendar:
    """When the shop is open: `week` holds the spans of Monday to Sunday in minutes of the day, up to 1440.

    Spans may touch or overlap; no span of a `closed` date counts.
    """

    zone: ZoneInfo
    week: tuple[tuple[Span, ...], ...]
    closed: frozenset[date] = frozenset()


def minute_of(instant: datetime) -> int:
    """The instant as a whole minute; one with seconds counts as the next minute."""
    return -((_EPOCH - instant) // _MINUTE)


def instant_of(minute: int, zone: ZoneInfo) -> datetime:
    return (_EPOCH + minute * _MINUTE).astimezone(zone)


def too_far() -> Refusal:
    return Refusal("too_far", str(HORIZON_YEARS))


@dataclass(frozen=True, slots=True)
class OpeningHours:
    """The open minutes of a calendar.

    Refuses `never_open` when no span has a length, and `too_far` (years) past the horizon from the minute asked.
    """

    calendar: Calendar
    _days: dict[date, tuple[Span, ...]] = field(default_factory=dict, init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        if not any(begin < end for spans in self.calendar.week for begin, end in spans):
            raise Refusal("never_open", self.calendar.zone.key)

    def first_open(self, minute: int) -> int:
        """The first open minute at or after `minute`."""
        return next(self._open_from(minute))[0]

    def after_work(self, minute: int, minutes: int) -> int:
        """When work of `minutes` that starts in the open `minute` is over: the end of its last minute."""
        left = minutes
        for begin, end in self._open_from(minute):
            if left <= end - begin:
                return begin + left
            left -= end - begin
        raise AssertionError("the days end in a refusal")

    def _open_from(self, minute: int) -> Iterator[Span]:
        day, last = (instant_of(each, self.calendar.zone).date() for each in (minute, minute + HORIZON))
        while day <= last:
            for begin, end in self.open_on(day):
                if end > minute:
                    yield max(begin, minute), end
            day += timedelta(days=1)
        raise too_far()

    def open_on(self, day: date) -> tuple[Span, ...]:
        """The open minutes of a local date, in order; none where the shop is closed."""
        if day not in self._days:
            self._days[day] = () if day in self.calendar.closed else self._spans(day)
        return self._days[day]

    def _spans(self, day: date) -> tuple[Span, ...]:
        """The open spans of a local date, merged and in order, as minutes from 1970."""
        midnight = minute_of(datetime.combine(day, datetime.min.time(), UTC))
        open_spans = sorted(
            (max(midnight + begin - offset, since), min(midnight + end - offset, until))
            for since, until, offset in self._offsets(midnight)
            for begin, end in self.calendar.week[day.weekday()]
        )
        return _merged(span for span in open_spans if span[0] < span[1])

    def _offsets(self, midnight: int) -> tuple[tuple[int, int, int], ...]:
        """(since, until, minutes east of UTC) over the date, cut at a clock change if there is one."""
        since, until = midnight - DAY, midnight + 2 * DAY
        before, after = self._offset(since), self._offset(until)
        if before == after:
            return ((since, until, before),)
        minutes = range(since, until)
        change = minutes[bisect_right(minutes, False, key=lambda minute: self._offset(minute) != before)]
        return ((since, change, before), (change, until, after))

    def _offset(self, minute: int) -> int:
        offset = instant_of(minute, self.calendar.zone).utcoffset() or timedelta()
        return offset // _MINUTE


def _merged(spans: Iterator[Span]) -> tuple[Span, ...]:
    merged: list[Span] = []
    for begin, end in spans:
        if merged and begin <= merged[-1][1]:
            merged[-1] = (merged[-1][0], max(end, merged[-1][1]))
        else:
            merged.append((begin, end))
    return tuple(merged)
