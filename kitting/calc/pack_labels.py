"""Label search through one frame of the search for packs, by increasing loss."""

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field

from kitting.calc.pack_frame import Frame, added
from kitting.calc.pack_shelf import Counts, TwoBest

FULL = 500
"""Above this number of partial sets, meeting in the middle (two lists of half the packs each) is faster."""

MANY = 200
"""From this number of partial sets on, the limit of loss rises more slowly."""

BLOCK = 48
"""Size of a block of partial sets with neighbouring places, sorted by loss."""

Trace = tuple[int, "Trace | None"]
"""A linked list: the pack taken last, and the trace before it."""

Label = tuple[int, int, int, int, Trace | None]
"""A partial set: (loss, size over the base, size under the filler, smallest pack, trace)."""

NOTHING: Label = (0, 0, 0, -1, None)


class _Labels:
    """Partial sets by their residue modulo the step. A label that two others dominate is dropped."""

    def __init__(self, frame: Frame, limit: int) -> None:
        self._frame, self._limit = frame, limit
        terms = frame.terms.values()
        self._over_price = min([frame.rate, *(term.loss // -term.over for term in terms if term.over < 0)])
        larger = [term for term in terms if term.under < 0]
        self._under_price = min((term.loss // -term.under for term in larger), default=0)
        won_back = max((-term.under for term in larger), default=0)
        self._most_under = (frame.slack or 0) + (frame.part.count or 0) * won_back
        self._partial_sets_by_place: dict[int, list[Label]] = {0: [NOTHING]}
        self.count = 1
        self.beyond: int | None = None

    def __iter__(self) -> Iterator[Label]:
        return (label for labels in self._partial_sets_by_place.values() for label in labels)

    def take(self, at: int) -> None:
        """Adds each partial set with any number of the pack at `at`."""
        for label in list(self):
            self._repeat(label, at)

    def _repeat(self, label: Label, at: int) -> None:
        frame, limit, partial_sets = self._frame, self._limit, self._partial_sets_by_place
        term, step, room = frame.terms[at], frame.step, frame.room
        loss, over, under, last, trace = label
        last = max(last, at)
        while over + under < room:
            loss, over, under, trace = loss + term.loss, over + term.over, under + term.under, (at, trace)
            sure = self._sure_loss(loss, over, under)
            if sure is None:
                return
            if sure > limit:
                self.beyond = sure if self.beyond is None else min(self.beyond, sure)
                return
            neighbours = partial_sets.setdefault(over % step, [])
            if over + under < room and _beaten(neighbours, loss, over, under, last):
                return
            neighbours.append((loss, over, under, last, trace))
            self.count += 1

    def _sure_loss(self, loss: int, over: int, under: int) -> int | None:
        """A lower bound of the complete set's loss; None if no set can be completed from here.

        Excess size is left over or compensated by smaller packs, missing size by larger packs, at the loss of these.
        """
        frame = self._frame
        if over > frame.need:
            loss += (over - frame.need) * self._over_price
        if frame.slack is not None and under > frame.slack:
            return None if under > self._most_under else loss + (under - frame.slack) * self._under_price
        return loss


def _beaten(labels: list[Label], loss: int, over: int, under: int, last: int) -> bool:
    beaten = 0
    for label in labels:
        if label[0] <= loss and label[1] <= over and label[2] <= under and label[3] <= last:
            if beaten:
                return True
            beaten = 1
    return False


@dataclass(slots=True)
class Search:
    """The state of the search in one frame: every set with a loss up to `done` has been offered."""

    frame: Frame
    done: int = 0
    _next: int = field(init=False)
    long: bool = False
    _lists: tuple[_Labels, _Labels] | None = None

    def __post_init__(self) -> None:
        self._next = min((term.loss for term in self.frame.terms.values() if term.loss), default=1)

    @property
    def bound(self) -> int:
        return -(-(self.frame.bound + self.done) // self.frame.step)

    def goes_on(self, best: TwoBest) -> bool:
        """Offers every set up to the next limit. Returns False if no set is beyond it."""
        limit = _within(self.frame, self._next, best)
        first, second = self._lists = self._partial_sets(limit)
        _match(self.frame, first, second, limit, best)
        self.done = limit
        beyond = [labels.beyond for labels in (first, second) if labels.beyond is not None]
        self._next = self._after(limit, min(beyond, default=limit), first.count + second.count)
        return bool(beyond) or limit < self._highest(first) + self._highest(second)

    def _highest(self, labels: _Labels) -> int:
        """An upper bound of the loss of these partial sets, including what may be left over."""
        return max(label[0] for label in labels) + self.frame.rate * (
            max(label[1] for label in labels) + self.frame.step
        )

    def _after(self, limit: int, beyond: int, labels: int) -> int:
        """The next limit: twice as far, less with many labels, farther if nothing comes before.

        It never skips a unit left over.
        """
        far = self.frame.rate if self.frame.rate > limit else 16 * limit
        return max(limit * 2 if labels < MANY else limit * 7 // 5 + 1, min(beyond, far))

    def _partial_sets(self, limit: int) -> tuple[_Labels, _Labels]:
        if self._lists is not None and all(labels.beyond is None or labels.beyond > limit for labels in self._lists):
            return self._lists
        return self._halved(limit) if self.long else self._whole(limit)

    def _whole(self, limit: int) -> tuple[_Labels, _Labels]:
        """All packs in one list and an empty second list; two halves once the list gets long."""
        labels = _Labels(self.frame, limit)
        for at in sorted(self.frame.terms):
            labels.take(at)
            if labels.count > FULL:
                self.long = True
                return self._halved(limit)
        return _Labels(self.frame, limit), labels

    def _halved(self, limit: int) -> tuple[_Labels, _Labels]:
        """The packs in two lists of similar length. Packs that can be taken most often come first."""
        lists = (_Labels(self.frame, limit), _Labels(self.frame, limit))
        for at in sorted(self.frame.terms, key=lambda at: -self._ways(at, limit)):
            min(lists, key=lambda labels: labels.count).take(at)
        return lists

    def _ways(self, at: int, limit: int) -> int:
        term = self.frame.terms[at]
        most = self.frame.room // max(term.over + term.under, 1)
        return most if term.loss == 0 else min(most, limit // term.loss)


def _within(frame: Frame, limit: int, best: TwoBest) -> int:
    return limit if best.second is None else min(limit, best.second * frame.step - frame.bound)


def _match(frame: Frame, first: _Labels, second: _Labels, limit: int, best: TwoBest) -> None:
    """Offers every pair of partial sets whose joint loss is at most `limit`, including what they leave over."""
    step, rate, need, slack = frame.step, frame.rate, frame.need, frame.slack
    placed = ByPlace(second, step, rate)
    for label in sorted(first, key=_loss):
        for partner in placed.near((need - label[1]) % step, limit - label[0]):
            loss, excess = label[0] + partner[0], (label[1] + partner[1] - need) % step
            if loss + excess * rate <= limit and (slack is None or label[2] + partner[2] + excess <= slack):
                _offer(frame, label, partner, excess, limit, best)
                limit = _within(frame, limit, best)


class ByPlace:
    """Partial sets by their place in the step.

    Neighbours are also grouped in blocks. Each block is sorted by loss plus the loss of a unit left over per unit of
    place.
    """

    def __init__(self, labels: Iterable[Label], step: int, rate: int) -> None:
        self._step, self._rate = step, rate
        self._labels = sorted(labels, key=lambda label: label[1] % step)
        self._places = [label[1] % step for label in self._labels]
        self._blocks: dict[int, list[tuple[int, Label]]] = {}

    def near(self, first: int, room: int) -> Iterator[Label]:
        """Those that can lose at most `room`, left over from place `first` on, wrapping around the step."""
        farthest = min(room // self._rate, self._step - 1)
        yield from self._between(first, first + farthest, room + first * self._rate)
        if first + farthest >= self._step:
            yield from self._between(0, first + farthest - self._step, room + (first - self._step) * self._rate)

    def _between(self, low: int, high: int, most: int) -> Iterator[Label]:
        start, end = bisect_left(self._places, low), bisect_right(self._places, high)
        if end - start <= BLOCK:
            yield from self._labels[start:end]
            return
        for block in range(start // BLOCK, -(-end // BLOCK)):
            for loss, label in self._block(block):
                if loss > most:
                    break
                yield label

    def _block(self, block: int) -> list[tuple[int, Label]]:
        if block not in self._blocks:
            labels = self._labels[block * BLOCK : (block + 1) * BLOCK]
            keyed = [(label[0] + label[1] % self._step * self._rate, label) for label in labels]
            self._blocks[block] = sorted(keyed, key=_loss)
        return self._blocks[block]


def _loss(label: tuple[int, *tuple[object, ...]]) -> int:
    return label[0]


def _offer(frame: Frame, label: Label, partner: Label, least: int, limit: int, best: TwoBest) -> None:
    loss, over, under = label[0] + partner[0], label[1] + partner[1], label[2] + partner[2]
    least = max(least, over - frame.need)
    # With a fixed number of packs, one exchange more gives another set; otherwise a pack could be removed.
    for excess in (least,) if frame.slack is None else (least, least + frame.step):
        if loss + excess * frame.rate <= limit and (frame.slack is None or under + excess <= frame.slack):
            best.offer(frame.counts(_taken(frame.part.fixed, label[4], partner[4]), over, under, excess))


def _taken(fixed: Counts, *traces: Trace | None) -> Counts:
    for trace in traces:
        while trace is not None:
            fixed = added(fixed, trace[0], 1)
            trace = trace[1]
    return fixed
