"""A state machine of several phones and one list. The fold is judged by the content of the screens at the time."""

from collections.abc import Callable
from itertools import combinations
from random import Random
from typing import Any

from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, rule

from kitting.calc.counting import Event, Tally, digest, fold, knows
from tests.calc.floor import Begun, Floor, Phone
from tests.examples import many

LINES = ("pin", "clamp")
PHONES = ("bench", "shelf", "office")
PEOPLE = ("ines", "oda")

phones, lines = st.sampled_from(PHONES), st.sampled_from((*LINES, LINES[0]))
people = st.sampled_from((*PEOPLE, PEOPLE[0], PEOPLE[0]))
counted = st.sampled_from([(2, 0), (2, 0), (2, 1), (3, 1), (0, 0)])
found = st.sampled_from([(1, 0), (1, 0), (2, 1), (-1, 0), (0, 1), (1, -1)])
places = st.sampled_from([0, 0, 0, 1, 2, 3, 5, 8])
somewhat = st.sampled_from([1, 2, 500, 500])

counts = st.tuples(st.just("count"), phones, people, lines, counted)
openings = st.tuples(st.just("open_pad"), phones)
answers = st.tuples(st.just("answer_from_the_pad"), phones, people, lines, counted, st.booleans())
more_answers = st.tuples(st.just("find_from_the_pad"), phones, people, lines, found, st.booleans())
behind = st.tuples(phones, phones, lines, counted, counted)
finds = st.tuples(st.just("find"), phones, people, lines, found)
undos = st.tuples(st.just("take_back"), phones, st.sampled_from([None, None, *PEOPLE]), places)
notes = st.tuples(st.just("note"), phones, lines, st.sampled_from(["note", "halve"]))
sendings = st.tuples(st.just("send"), phones, somewhat)
pulls = st.tuples(st.just("pull"), phones, somewhat, st.booleans())
tidyings = st.tuples(st.just("tidy"), phones)
closings = st.tuples(st.just("close_or_open"), st.booleans())
mishaps = st.one_of(st.tuples(st.just("wipe"), phones), st.sampled_from([("back_up",), ("back_up",), ("restore",)]))
anything = st.one_of(
    *(counts, counts, finds, finds, undos, undos, notes, openings, openings, answers, answers, more_answers),
    *(sendings, sendings, sendings, pulls, pulls, pulls, tidyings, closings, mishaps),
    behind.map(lambda how: ("a_colleague_counts_behind_the_pad", *how)),
)

Step = tuple[Any, ...]
Numbers = tuple[int, int]
Saw = Callable[[str, str], bool]


def still_said(view: list[Event]) -> list[Event]:
    """The sets and adds of a view that count: distinct, not late, not undone by their author."""
    late = {event.id for event in view if event.late}
    timely = {event.id: event for event in view if event.id not in late and event.v == 1}
    gone = {(event.target, event.author) for event in timely.values() if event.kind == "undo"}
    return [e for e in timely.values() if e.kind in ("set", "add") and (e.id, e.author) not in gone]


def outcomes(events: list[Event], saw: Saw) -> set[Numbers]:
    """The results of a single person doing everything, for each order that all screens allow."""
    ends: dict[frozenset[str], set[Numbers]] = {frozenset(): {(0, 0)}}
    for _ in events:
        longer: dict[frozenset[str], set[Numbers]] = {}
        for done, totals in ends.items():
            for event in events:
                if event.id not in done and all(o.id in done for o in events if o is not event and saw(event.id, o.id)):
                    longer.setdefault(done | {event.id}, set()).update(after(event, total) for total in totals)
        ends = longer
    (totals,) = ends.values()
    return totals


def after(event: Event, before: Numbers) -> Numbers:
    total, damaged = event.total or 0, event.damaged or 0
    return (total, damaged) if event.kind == "set" else (before[0] + total, before[1] + damaged)


def standing_adds(events: list[Event], saw: Saw) -> list[Event]:
    """The adds that nobody has counted over."""
    sets = [event for event in events if event.kind == "set"]
    return [add for add in events if add.kind == "add" and not any(saw(top.id, add.id) for top in sets)]


def strangers(adds: list[Event], saw: Saw) -> bool:
    return any(not saw(first.id, second.id) and not saw(second.id, first.id) for first, second in combinations(adds, 2))


def may_be_true(events: list[Event], saw: Saw) -> set[Numbers]:
    """Every full count that nobody has counted over, with each add of unclear order both included and not.

    Knowledge is not transitive: somebody who counts from an open pad knows her own phone's later add, but not the
    colleague's count that it was added to.
    """
    sets = [event for event in events if event.kind == "set"]
    tops = [top for top in sets if not any(saw(other.id, top.id) for other in sets if other is not top)]
    ends: set[Numbers] = set()
    for top in tops or [None]:
        totals = {after(top, (0, 0)) if top else (0, 0)}
        for add in standing_adds(events, saw):
            more = {after(add, total) for total in totals}
            totals = more if top is None or saw(add.id, top.id) else totals | more
        ends |= totals
    return ends


def possible(numbers: Numbers) -> bool:
    return 0 <= numbers[1] <= numbers[0]


class Counting(RuleBasedStateMachine):
    """Random actions of an hour on the floor."""

    def __init__(self) -> None:
        super().__init__()
        self.floor = Floor(*PHONES)
        self.chance = Random(7)
        self.pads: dict[str, Begun] = {}

    @initialize(steps=st.lists(st.one_of(counts, finds, pulls, sendings), min_size=4, max_size=8), behind=behind)
    def the_day_begins(self, steps: list[Step], behind: Step) -> None:
        self.some_minutes_pass(steps)
        self.a_colleague_counts_behind_the_pad(*behind)

    @rule(steps=st.lists(anything, min_size=2, max_size=6))
    def some_minutes_pass(self, steps: list[Step]) -> None:
        for what, *how in steps:
            getattr(self, what)(*how)

    def count(self, phone: str, actor: str, line: str, numbers: Numbers) -> None:
        self.floor.act(phone, actor, "set", line, numbers)
        assert self.screen(phone)[line] == Tally(*numbers, numbers[0], False), "one's own count is one's own screen"

    def find(self, phone: str, actor: str, line: str, more: Numbers) -> None:
        before = self.screen(phone).get(line, Tally(0, 0, 0, False))
        self.floor.act(phone, actor, "add", line, more)
        sums = before.total + more[0], before.damaged + more[1]
        if not before.confirm:
            assert self.screen(phone)[line] == Tally(*sums, sums[0], not possible(sums))

    def open_pad(self, phone: str) -> None:
        """The pad stays open while others count, send and pull."""
        self.pads[phone] = self.floor.begin(phone)

    def answer_from_the_pad(self, phone: str, actor: str, line: str, numbers: Numbers, chosen: bool) -> None:
        """`chosen`: the count replaces those that came since the pad opened.

        Otherwise both stand and may need another count.
        """
        if chosen or not self.is_open(phone):
            self.count(phone, actor, line, numbers)
        else:
            self.floor.act(phone, actor, "set", line, numbers, begun=self.pads[phone])

    def find_from_the_pad(self, phone: str, actor: str, line: str, more: Numbers, chosen: bool) -> None:
        if chosen or not self.is_open(phone):
            self.find(phone, actor, line, more)
        else:
            self.floor.act(phone, actor, "add", line, more, begun=self.pads[phone])

    def a_colleague_counts_behind_the_pad(self, phone: str, other: str, line: str, hers: Numbers, his: Numbers) -> None:
        """A colleague's count reaches the phone while its pad is open and is not chosen over.

        This is too rare at random.
        """
        self.open_pad(phone)
        self.count(other, PEOPLE[1], line, hers)
        self.send(other, 500)
        self.pull(phone, 500, True)
        self.answer_from_the_pad(phone, PEOPLE[0], line, his, False)
        self.send(phone, 500)

    def is_open(self, phone: str) -> bool:
        """True for a pad of a phone that was not wiped."""
        return phone in self.pads and self.pads[phone].device == self.floor.phones[phone].device

    def take_back(self, phone: str, actor: str | None, at: int) -> None:
        screen = self.floor.phones[phone].screen
        if screen:
            target = screen[-1 - at % len(screen)]
            self.floor.act(phone, actor or target.author, "undo", target.line, target=target.id)

    def note(self, phone: str, line: str, kind: str) -> None:
        before = self.screen(phone)
        self.floor.act(phone, PEOPLE[0], kind, line)
        assert self.screen(phone) == before

    def send(self, phone: str, most: int) -> None:
        """Sends again what was sent before: a response may be lost, and no response deletes anything."""
        self.floor.send(phone, most)

    def pull(self, phone: str, most: int, tidy: bool) -> None:
        """Another tab may pull: for a while the returned events are still in the queue."""
        self.floor.phones[phone].pull(self.floor.server, most)
        if tidy:
            self.tidy(phone)

    def tidy(self, phone: str) -> None:
        tallies = self.screen(phone)
        self.floor.phones[phone].tidy()
        assert self.screen(phone) == tallies

    def close_or_open(self, closed: bool) -> None:
        self.floor.server.closed = closed

    def wipe(self, phone: str) -> None:
        self.floor.wipe(phone)

    def back_up(self) -> None:
        self.floor.server.backup = tuple(self.floor.server.log)

    def restore(self) -> None:
        self.floor.server.restore()

    def teardown(self) -> None:
        """Everyone sends and pulls, and one person counts again."""
        self.floor.server.closed = False
        self.floor.settle()
        for name in PHONES:
            assert self.screen(name) == fold(self.floor.server.log), "all screens are equal"
            assert self.floor.phones[name].queue == []
        self.knowing_is_what_was_on_the_screen()
        self.floor.act(self.chance.choice(PHONES), PEOPLE[1], "set", LINES[0], (7, 2))
        self.floor.settle()
        tallies = {name: self.screen(name)[LINES[0]] for name in PHONES}
        assert tallies == dict.fromkeys(PHONES, Tally(7, 2, 7, False))

    def screen(self, phone: str) -> dict[str, Tally]:
        return fold(self.floor.phones[phone].screen)

    @invariant()
    def knowing_is_what_was_on_the_screen(self) -> None:
        log = self.floor.server.log
        for event in log:
            for other in log:
                if event is not other:
                    assert knows(event, other) == self.floor.vouched(event.id, other.id), (event, other)

    @invariant()
    def what_is_not_to_be_counted_again_has_one_total_in_every_order(self) -> None:
        for view in self.views():
            for line, tally in fold(view).items():
                if not tally.confirm:
                    events = [event for event in still_said(view) if event.line == line]
                    assert outcomes(events, self.saw) == {(tally.total, tally.damaged)}
                    assert tally.low == tally.total and possible((tally.total, tally.damaged))
                    assert not strangers(standing_adds(events, self.saw), self.saw)

    @invariant()
    def what_is_to_be_counted_again_has_a_reason_and_two_numbers_that_may_be_true(self) -> None:
        for view in self.views_without_old_counts():
            events = still_said(view)
            folded = fold(view)
            assert folded.keys() == {event.line for event in events}
            for line, tally in folded.items():
                self.judge([event for event in events if event.line == line], tally)

    def judge(self, events: list[Event], tally: Tally) -> None:
        ends, adds = may_be_true(events, self.floor.vouched), standing_adds(events, self.floor.vouched)
        in_doubt = len(ends) > 1 or not possible(min(ends)) or strangers(adds, self.floor.vouched)
        assert tally.confirm == in_doubt
        assert (tally.total, tally.damaged) in ends
        assert tally.low in {total for total, _ in ends}
        if all((add.total or 0) >= 0 for add in adds):
            assert (tally.total, tally.low) == (max(ends)[0], min(ends)[0])

    @invariant()
    def order_and_repetition_do_not_matter(self) -> None:
        for view in self.views():
            again = [*view, *self.chance.choices(view, k=3)] if view else []
            self.chance.shuffle(again)
            assert fold(again) == fold(view)
            assert digest(fold(again)) == digest(fold(view))

    def saw(self, event: str, other: str) -> bool:
        return other in self.floor.saw[event]

    def views(self) -> list[list[Event]]:
        return [*self.views_in_doubt(), *self.views_without_old_counts()]

    def views_in_doubt(self) -> list[list[Event]]:
        """Phones that do not know of a restore, or still have counts from before it, may doubt more than necessary."""
        return [phone.screen for phone in self.floor.phones.values() if not self.current(phone)]

    def views_without_old_counts(self) -> list[list[Event]]:
        """The log, the screens, and the log once everything has been sent."""
        log, current = self.floor.server.log, [phone for phone in self.floor.phones.values() if self.current(phone)]
        waiting = [queued.event for phone in current for queued in phone.queue]
        return [log, [*log, *waiting], *(phone.screen for phone in current)]

    def current(self, phone: Phone) -> bool:
        epoch = self.floor.server.epoch
        return phone.epoch == epoch and all(queued.epoch == epoch for queued in phone.queue)


TestCounting = Counting.TestCase
TestCounting.settings = settings(max_examples=many(200), stateful_step_count=8, deadline=None)
