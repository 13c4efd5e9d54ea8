"""Opening hours in whole minutes (the calculation of promise).

Minutes count from 1970 in UTC, so that a clock change passes as real minutes. Local dates and times only serve to tell
whether the shop is open.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

from shop.calc.errors import CalculationError

DAY = 24 * 60
HORIZON_YEARS = 20  # a date further ahead is a typing error, and counting up to it would take too long
HORIZON = HORIZON_YEARS * 366 * DAY
_EPOCH = datetime(1970, 1, 1, tzinfo=UTC)
_MINUTE = timedelta(minutes=1)

Span = tuple[int, int]
"""(first minute, minute after the last)."""

Week = tuple[tuple[Span, ...], ...]
"""The spans of Monday to Sunday."""


@dataclass(frozen=True, slots=True)
class WorkCalendar:
    """The opening hours: `week` has the spans of Monday to Sunday in minutes of the day, up to 1440.

    Spans may touch or overlap. The shop is closed all day on a `closed` date. Each of the `later` weeks, which stand in
    the order of their days, replaces the one before it from its day on.
    """

    zone: ZoneInfo
    week: Week
    closed: frozenset[date] = frozenset()
    later: tuple[tuple[date, Week], ...] = ()

    def week_on(self, day: date) -> Week:
        """The week that applies on a local date."""
        return next((week for since, week in reversed(self.later) if since <= day), self.week)

    @property
    def opens(self) -> bool:
        """Whether the week that stays in the end has a span of positive length."""
        last = self.later[-1][1] if self.later else self.week
        return any(begin < end for spans in last for begin, end in spans)


def minute_of(instant: datetime) -> int:
    """The instant in whole minutes, rounded up."""
    return -((_EPOCH - instant) // _MINUTE)


def instant_of(minute: int, zone: ZoneInfo) -> datetime:
    """The minute as an instant in the zone."""
    return (_EPOCH + minute * _MINUTE).astimezone(zone)


def too_far() -> CalculationError:
    """The error for a minute beyond the horizon."""
    return CalculationError("too_far", str(HORIZON_YEARS))


class OpeningHours:
    """The open minutes of a calendar. Days are added as far as questions reach.

    Refuses `never_open` when no span has a length, and `too_far` (years) beyond the horizon, counted from the minute
    asked.
    """

    def __init__(self, calendar: WorkCalendar) -> None:
        if not calendar.opens:
            raise CalculationError("never_open", calendar.zone.key)
        self.calendar = calendar
        self._days: dict[date, tuple[Span, ...]] = {}
        self._begin_at(None)

    def first_open(self, minute: int) -> int:
        """The first open minute at or after `minute`."""
        at = self._span_after(minute)
        return self._in_time(max(self._begins[at], minute), minute)

    def after_work(self, minute: int, minutes: int) -> int:
        """The end of the last minute of work that takes `minutes` and starts in the open `minute`."""
        if not minutes:
            return minute
        last = self._worked_before(minute) + minutes
        while self._worked[-1] < last:
            self._lay_next_day(minute)
        at = bisect_left(self._worked, last)
        return self._in_time(self._ends[at] - (self._worked[at] - last), minute)

    def open_minutes(self, since: int, until: int) -> int:
        """The number of open minutes from `since`, included, to a later `until`, not included."""
        before = self._worked_before(since)  # first, because it may rebuild the spans from an earlier day
        return self._worked_before(until) - before

    def closing_after(self, minute: int, days: int) -> int:
        """Closing time on the open date that is the `days`-th after the local date of `minute`."""
        day, horizon = self.date_of(minute), self.date_of(minute + HORIZON)
        while days:
            day += timedelta(days=1)
            if day > horizon:
                raise too_far()
            days -= bool(self.open_on(day))
        return self.open_on(day)[-1][1]

    def opening(self, day: date) -> int:
        """The first open minute on or after a local date."""
        return self.first_open(minute_of(datetime.combine(day, datetime.min.time(), self.calendar.zone)))

    def date_of(self, minute: int) -> date:
        """The local date of a minute."""
        return instant_of(minute, self.calendar.zone).date()

    def _begin_at(self, day: date | None) -> None:
        self._first = self._next = day
        self._begins: list[int] = []
        self._ends: list[int] = []
        self._worked: list[int] = []  # cumulative open minutes at the end of each span

    def _span_after(self, minute: int) -> int:
        """The index of the first span that ends after `minute`."""
        if not self._begins or minute < self._begins[0]:
            day = self.date_of(minute)
            if self._first is None or day < self._first:
                self._begin_at(day)
        while not self._ends or self._ends[-1] <= minute:
            self._lay_next_day(minute)
        return bisect_right(self._ends, minute)

    def _worked_before(self, minute: int) -> int:
        """The open minutes from the first span to `minute`."""
        at = self._span_after(minute)
        return self._worked[at] - (self._ends[at] - max(self._begins[at], minute))

    def _lay_next_day(self, minute: int) -> None:
        assert self._next is not None, "the first day asked for begins the row"
        if self._next > self.date_of(minute + HORIZON):
            raise too_far()
        for begin, end in self.open_on(self._next):
            self._begins.append(begin)
            self._ends.append(end)
            self._worked.append((self._worked[-1] if self._worked else 0) + end - begin)
        self._next += timedelta(days=1)

    def _in_time(self, answer: int, minute: int) -> int:
        """Returns `answer`, or refuses it beyond the horizon.

        A later question may already have added days that far ahead, so adding days is not the only check.
        """
        if answer - minute > HORIZON + DAY:
            raise too_far()
        return answer

    def open_on(self, day: date) -> tuple[Span, ...]:
        """The open spans of a local date, in order; none if the shop is closed."""
        if day not in self._days:
            self._days[day] = () if day in self.calendar.closed else self._spans(day)
        return self._days[day]

    def _spans(self, day: date) -> tuple[Span, ...]:
        """The open spans of a local date, merged and in order, as minutes from 1970."""
        midnight = minute_of(datetime.combine(day, datetime.min.time(), UTC))
        open_spans = sorted(
            (max(midnight + begin - offset, since), min(midnight + end - offset, until))
            for since, until, offset in self._offsets(midnight)
            for begin, end in self.calendar.week_on(day)[day.weekday()]
        )
        return _merged(span for span in open_spans if span[0] < span[1])

    def _offsets(self, midnight: int) -> tuple[tuple[int, int, int], ...]:
        """(since, until, minutes east of UTC) around the date, in two parts if the clock changes."""
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
