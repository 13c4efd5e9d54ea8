"""The changes between a version of a quote and the one before, for the counter and for the customer's page."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal
from zoneinfo import ZoneInfo

from msgspec import to_builtins

from quotes import access
from quotes.answers.difference import ChangeCause, ChangedLineOut, ChangeGroupOut, VersionDifferenceOut
from quotes.calc.difference import PriceChange, PricedLine, changed_lines, largest_first, priced_lines, unpacked_lines
from quotes.calc.forms import FrozenContent
from quotes.models import Revision
from quotes.presenters.figures import figures_answer
from quotes.presenters.possible_prices import DifferingLine
from quotes.queries import frozen
from quotes.queries.pricing import figures, shop_day
from shop.answers.base import utc
from shop.calc.quantity import money
from shop.presenters.dates import date_only
from shop.words import say
from shop.words.figures import figure


@dataclass(frozen=True, slots=True)
class VersionChanges:
    """The sentences on the version before, for the customer."""

    title: str
    words: str
    lines: Sequence[DifferingLine]
    rest: Sequence[DifferingLine]  # smaller ones, where there are many

    @property
    def n(self) -> int:
        return len(self.lines) + len(self.rest)


@dataclass(frozen=True, slots=True)
class _Priced:
    """A total with the lines that make it."""

    gross: str
    lines: Sequence[PricedLine]


def difference_answer(revision: Revision, now: datetime) -> VersionDifferenceOut | None:
    """A version compared with the version before; None for the first. A draft is priced now."""
    earlier = access.version_before(revision)
    if earlier is None or earlier.sent_at is None:
        return None
    shop, e = revision.shop, revision.shop.exponent
    draft = revision.state == Revision.State.DRAFT
    content = to_builtins(figures_answer(figures(revision, now))) if draft else frozen.read(revision)["shown"]
    old, new = _priced(frozen.read(earlier)["shown"]), _priced(content)
    groups = list(_groups(revision, earlier, old, new, now))
    day = date_only(earlier.sent_at.astimezone(ZoneInfo(shop.zone)).date(), shop_day(shop, now))
    return VersionDifferenceOut(
        revision=earlier.number,
        sent_at=utc(earlier.sent_at),
        title=say("difference.title", revision=earlier.number, day=day),
        words=_total(old.gross, new.gross, e),
        before=old.gross,
        after=new.gross,
        more=_more(old.gross, new.gross, e),
        groups=[group for group in groups if group.lines or group.words or Decimal(group.more)],
    )


def changes_since_version(revision: Revision, document: FrozenContent, now: datetime) -> VersionChanges | None:
    """The changes since the version before as the customer reads them; None for the first version.

    `document` is the frozen text of the revision, of a draft the one that sending it would freeze.
    """
    earlier = access.version_before(revision)
    if earlier is None or earlier.sent_at is None:
        return None
    zone = ZoneInfo(document["shop"]["zone"])
    old, new = _priced(frozen.read(earlier)["shown"]), _priced(document["shown"])
    day = date_only(earlier.sent_at.astimezone(zone).date(), now.astimezone(zone).date())
    lines, rest = largest_first(changed_lines(old.lines, new.lines))
    return VersionChanges(
        title=say("customer.since_version", day=day),
        words=_total(old.gross, new.gross, document["shop"]["exponent"]),
        lines=[_line(change) for change in lines],
        rest=[_line(change) for change in rest],
    )


def _line(change: PriceChange) -> DifferingLine:
    before, after = (figure(price) if price else say("customer.not_there") for price in (change.before, change.after))
    return DifferingLine(title=change.title, before=before, after=after)


def _priced(content: FrozenContent) -> _Priced:
    return _Priced(content["totals"]["gross"], priced_lines(content))


def _groups(
    revision: Revision, earlier: Revision, old: _Priced, new: _Priced, now: datetime
) -> Iterable[ChangeGroupOut]:
    """Changes by the day's prices and rules, and changes that people made; one group if not recorded."""
    e, begun = revision.shop.exponent, revision.begun
    rules = _rules(revision, earlier, now)
    if not begun:
        yield _group("all", old, new, e, rules)
        return
    middle = _Priced(begun["gross"], unpacked_lines(begun["lines"]))
    kits = [say("difference.kit", **kit) for kit in begun["kits"]]
    yield _group("begun", old, middle, e, [*rules, *kits])
    yield _group("since", middle, new, e, [])


def _rules(revision: Revision, earlier: Revision, now: datetime) -> list[str]:
    if revision.rules_id == earlier.rules_id:
        return []
    today = shop_day(revision.shop, now)
    days = {"day": date_only(revision.rules.valid_from, today), "before": date_only(earlier.rules.valid_from, today)}
    return [say("difference.rules", **days)]


def _group(cause: ChangeCause, old: _Priced, new: _Priced, e: int, words: list[str]) -> ChangeGroupOut:
    lines, rest = largest_first(changed_lines(old.lines, new.lines))
    return ChangeGroupOut(
        cause=cause,
        title=say(f"difference.{cause}"),
        more=_more(old.gross, new.gross, e),
        words=words,
        lines=[_changed_line(change, e) for change in lines],
        rest=[_changed_line(change, e) for change in rest],
    )


def _changed_line(change: PriceChange, e: int) -> ChangedLineOut:
    return ChangedLineOut(
        title=change.title,
        before=change.before,
        after=change.after,
        more=_more(change.before or "0", change.after or "0", e),
        why=_quantities(change),
    )


def _quantities(change: PriceChange) -> str:
    """'1.8 h → 2.4 h'; empty where both are the same."""
    if change.before is None or change.after is None or change.quantity_before == change.quantity_after:
        return ""
    return say("difference.moved", before=_quantity(change.quantity_before), after=_quantity(change.quantity_after))


def _quantity(text: str) -> str:
    amount, _, unit = text.partition(" ")
    return f"{figure(amount)} {unit}".strip()


def _more(before: str, after: str, e: int) -> str:
    return money(Decimal(after) - Decimal(before), e)


def _total(before: str, after: str, e: int) -> str:
    """'Total 5,569.56 → 5,812.10, +242.54'."""
    if before == after:
        return say("difference.same", total=figure(after))
    more = _more(before, after, e)
    signed = figure(more) if more.startswith("-") else f"+{figure(more)}"
    return say("difference.total", before=figure(before), after=figure(after), more=signed)
