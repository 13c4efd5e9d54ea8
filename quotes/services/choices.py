"""The choices of a draft, their options, and which lines belong to an option."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from django.db import transaction
from django.db.models import Max

from quotes.models import Choice, Line, Option, Quote, Revision
from quotes.services.drafts import changed_draft, open_draft
from shop.access import Actor
from shop.errors import RequestError, field_error

MOST_OPTIONS = 40  # of a quote: choices that make more prices than are worked out have to be split anyway


@dataclass(frozen=True, slots=True)
class NewOption:
    """An option to be added. `lines` of the draft become part of it."""

    title: str
    preselected: bool = False
    lines: tuple[Line, ...] = ()


@transaction.atomic
def add_choice(*, actor: Actor, quote: Quote, title: str, take: str, options: Sequence[NewOption] = ()) -> Revision:
    """Add a choice with these options at the end."""
    revision = open_draft(quote=quote)
    choice = _add_choice(revision, title, take)
    for option in options:
        _add_option(revision, choice, option)
    return changed_draft(actor, revision, "choice added", {"choice": ["", choice.title]}, choice.title)


def _add_choice(revision: Revision, title: str, take: str) -> Choice:
    rows = Choice.objects.filter(shop=revision.shop, revision=revision)
    choice = Choice(shop=revision.shop, revision=revision, title=title, take=take, position=_next(rows))
    choice.clean_fields()
    choice.save(force_insert=True)
    return choice


@transaction.atomic
def change_choice(*, actor: Actor, quote: Quote, choice: Choice, seen: int, changes: Mapping[str, Any]) -> Revision:
    """Set the given ones of title, take and position, which counts from 1 among the choices."""
    revision = open_draft(quote=quote, seen=seen)
    fields = _set(choice, changes)
    if changes.get("take") == Choice.Take.ONE:
        _propose_one(choice)
    return changed_draft(actor, revision, "choice changed", fields, choice.title)


@transaction.atomic
def remove_choice(*, actor: Actor, quote: Quote, choice: Choice, seen: int) -> Revision:
    """Remove a choice with its options. Their lines stay on the quote, as lines that everybody gets."""
    revision = open_draft(quote=quote, seen=seen)
    Line.objects.filter(shop=revision.shop, revision=revision, option__in=_options(choice)).update(option=None)
    title = choice.title
    choice.delete()
    return changed_draft(actor, revision, "choice removed", {"choice": [title, ""]}, title)


@transaction.atomic
def add_option(*, actor: Actor, quote: Quote, choice: Choice, option: NewOption) -> Revision:
    """Add an option at the end of a choice."""
    revision = open_draft(quote=quote)
    row = _add_option(revision, choice, option)
    return changed_draft(actor, revision, "option added", {"option": ["", f"{choice.title}: {row.title}"]}, row.title)


def _add_option(revision: Revision, choice: Choice, option: NewOption) -> Option:
    """The option. Of a choice of one exactly one option is preselected: the newest that is to be, else the first."""
    if Option.objects.filter(shop=revision.shop, revision=revision).count() >= MOST_OPTIONS:
        raise RequestError(409, "too-many-options", n=MOST_OPTIONS)
    if choice.take == Choice.Take.ONE and option.preselected:
        _options(choice).update(preselected=False)
    row = insert_option(revision, choice, option.title, preselected=option.preselected)
    for line in option.lines:
        line.option = row
        line.save(update_fields=["option"])
    if choice.take == Choice.Take.ONE:
        _propose_one(choice)
    return row


def insert_option(revision: Revision, choice: Choice, title: str, *, preselected: bool) -> Option:
    option = Option(
        shop=revision.shop,
        revision=revision,
        choice=choice,
        title=title,
        position=_next(_options(choice)),
        preselected=preselected,
    )
    option.clean_fields()
    option.save(force_insert=True)
    return option


@transaction.atomic
def change_option(*, actor: Actor, quote: Quote, option: Option, seen: int, changes: Mapping[str, Any]) -> Revision:
    """Set the given ones of title, preselected and position, which counts from 1 among the options of its choice.

    Of a choice of one exactly one option is preselected: another is put in its place, and none is left without.
    """
    revision = open_draft(quote=quote, seen=seen)
    single = option.choice.take == Choice.Take.ONE
    if single and changes.get("preselected") is False and option.preselected:
        raise field_error("/preselected", "one_is_proposed")
    if single and changes.get("preselected"):
        _options(option.choice).update(preselected=False)
    fields = _set(option, changes)
    return changed_draft(actor, revision, "option changed", fields, option.title)


@transaction.atomic
def remove_option(*, actor: Actor, quote: Quote, option: Option, seen: int) -> Revision:
    """Remove an option. Its lines stay on the quote, as lines that everybody gets."""
    revision = open_draft(quote=quote, seen=seen)
    Line.objects.filter(shop=revision.shop, revision=revision, option=option).update(option=None)
    choice, title = option.choice, option.title
    option.delete()
    if choice.take == Choice.Take.ONE:
        _propose_one(choice)
    return changed_draft(actor, revision, "option removed", {"option": [f"{choice.title}: {title}", ""]}, title)


def copy_choices(old: Revision, new: Revision) -> dict[Any, Option]:
    """The same choices on another revision; maps the id of each option to its copy."""
    copies: dict[Any, Option] = {}
    for choice in Choice.objects.filter(shop=old.shop, revision=old).order_by("position"):
        copy = _add_choice(new, choice.title, choice.take)
        for option in _options(choice):
            copies[option.pk] = insert_option(new, copy, option.title, preselected=option.preselected)
    return copies


def _options(choice: Choice) -> Any:
    return Option.objects.filter(shop=choice.shop_id, choice=choice).order_by("position")


def _next(rows: Any) -> int:
    return int(rows.aggregate(last=Max("position"))["last"] or 0) + 1


def _propose_one(choice: Choice) -> None:
    """Leave the first preselected option of a choice of one, or preselect its first."""
    options = list(_options(choice))
    first = next((option for option in options if option.preselected), options[0] if options else None)
    for option in options:
        if option.preselected != (option is first):
            option.preselected = option is first
            option.save(update_fields=["preselected"])


def _set(row: Choice | Option, changes: Mapping[str, Any]) -> dict[str, list[Any]]:
    fields = {name: [str(getattr(row, name)), str(value)] for name, value in changes.items()}
    own = [name for name in changes if name != "position"]
    for name in own:
        setattr(row, name, changes[name])
    row.clean_fields()
    row.save(update_fields=own)
    if "position" in changes:
        _move(row, changes["position"])
    return fields


def _move(row: Choice | Option, place: int) -> None:
    """Put the row at a place among its neighbours. All get numbers above the old ones, for each is there once."""
    rows: Any = _options(row.choice) if isinstance(row, Option) else _beside(row)
    others = [other for other in rows if other.pk != row.pk]
    ordered = [*others[: place - 1], row, *others[place - 1 :]]
    for number, moved in enumerate(ordered, start=_next(rows)):
        moved.position = number
        moved.save(update_fields=["position"])


def _beside(choice: Choice) -> Any:
    return Choice.objects.filter(shop=choice.shop_id, revision=choice.revision_id).order_by("position")
