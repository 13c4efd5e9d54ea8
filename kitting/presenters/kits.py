"""Kits as answers. The caller has loaded the rows."""

from collections.abc import Iterable, Mapping, Sequence
from uuid import UUID

from msgspec.structs import asdict

from kitting.answers.kits import (
    Fit,
    KitAttributeOut,
    KitFileOut,
    KitLineOut,
    KitNeedOut,
    KitOut,
    KitOutsideOut,
    KitRowOut,
    ReusedOut,
)
from kitting.calc.contents import MINOR_ROLES
from kitting.models import Kit, KitLine, KitOutside, KitRevision, Need, Part, ReusedPart
from kitting.models.kits import KitLineKind, KitLineShips, NeedCharge, NeedRule
from kitting.queries.kit_versions import VersionContents
from shop.calc import when
from shop.calc.quantity import at_least, fixed, plain
from shop.presenters.vehicles import attribute_words
from shop.queries.templates import conditions_text
from shop.words import say
from shop.words.figures import listed

MODEL = "model"  # the attribute of a vehicle


def kit_row(kit: Kit, revision: KitRevision | None, attributes: Mapping[str, str] | None) -> KitRowOut:
    """A kit in a list. `revision` is the newest one, with `part_lines`, `carton_lines` and `asking`.

    These and `asking_steps` of its labour template come from `kits_with_newest_revision`.
    """
    line_conditions = [condition for line in getattr(revision, "asking", ()) for condition in line.conditions]
    steps = getattr(revision.labour, "asking_steps", ()) if revision else ()
    values = when.values_to_record(
        [*kit.fits, *line_conditions, *(condition for step in steps for condition in step.conditions)]
    )
    fits, why = _fit(kit.fits, line_conditions, attributes)
    return KitRowOut(
        id=kit.pk,
        code=kit.code,
        title=kit.title,
        supplier=kit.part.preferred.name if kit.part.preferred else None,
        revision=revision.number if revision else None,
        parts=getattr(revision, "part_lines", 0),
        cartons=getattr(revision, "carton_lines", 0),
        fits=fits,
        why=why,
        models=[model for condition in kit.fits if condition["attribute"] == MODEL for model in condition["in"]],
        attributes=[KitAttributeOut(attribute=name, values=list(values_of)) for name, values_of in values.items()],
    )


def kit_answer(
    row: KitRowOut,
    kit: Kit,
    revision: KitRevision | None,
    contents: VersionContents,
    *,
    priced: bool,
    files: Sequence[KitRevision],
) -> KitOut:
    """A kit with its contents and the files its versions come from; with its selling price if `priced`."""
    price, hours = (revision.price, revision.hours) if revision else (None, None)
    template = revision.labour if revision else None
    return KitOut(
        **asdict(row),
        archived=kit.archived,
        number=kit.part.number,
        supplier_id=kit.part.preferred_id,
        price=None if price is None or not priced else at_least(price, kit.shop.exponent),
        hours=None if hours is None else fixed(hours, 2),
        lead_days=revision.lead_days if revision else None,
        conditions=conditions_text(kit.fits),
        labour=template.code if template else None,
        labour_id=template.pk if template else None,
        labour_number=template.number if template else None,
        returnable=kit.part.returnable,
        fitted_before=kit.fitted_before,
        file=next((_file(row) for row in files if revision and row.number == revision.number), None),
        earlier_files=[_file(row) for row in files if revision and row.number != revision.number],
        lines=_lines(contents.lines),
        needs=[_need(need) for need in contents.needs],
        reused=[_reused(part) for part in contents.reused],
        outside=[_outside(work) for work in contents.outside],
    )


def _file(revision: KitRevision) -> KitFileOut:
    file = revision.file
    assert file is not None, "the caller has chosen versions with a file"
    return KitFileOut(id=file.pk, name=file.file_name, revision=revision.number, is_kept=file.dropped_at is None)


def conditions_in_words(conditions: Iterable[when.Condition]) -> str:
    """'gearbox: manual or dual-clutch; drive: rear'; empty without conditions."""
    return "; ".join(map(_condition_words, conditions))


def _condition_words(condition: when.Condition) -> str:
    values = listed(condition["in"], choice=True)
    return say("kit.condition", attribute=attribute_words(condition["attribute"]), values=values)


def _fit(
    fits: Sequence[when.Condition],
    line_conditions: Iterable[when.Condition],
    attributes: Mapping[str, str] | None,
) -> tuple[Fit | None, str]:
    if attributes is None:
        return None, conditions_in_words(fits)
    if when.fit(fits, attributes) == "no":
        failing = [
            condition
            for condition in fits
            if attributes.get(condition["attribute"]) and not when.holds([condition], attributes)
        ]
        return "no", say("kit.no", conditions=conditions_in_words(failing))
    unstated = when.undecided([*fits, *line_conditions], attributes)
    ask = say("kit.ask", attributes=listed([*map(attribute_words, unstated)])) if unstated else ""
    if not fits:
        return "open", " ".join(filter(None, [say("kit.open"), ask]))
    return ("ask", ask) if unstated else ("yes", "")


def _lines(lines: Sequence[KitLine]) -> list[KitLineOut]:
    depths: dict[UUID | None, int] = {None: -1}
    answers = []
    for line in lines:
        depths[line.pk] = depths[line.parent_id] + 1
        answers.append(_line(line, depths[line.pk]))
    return answers


def _line(line: KitLine, depth: int) -> KitLineOut:
    return KitLineOut(
        kind=KitLineKind(line.kind),
        depth=depth,
        label=line.label,
        number=line.part.number if line.part else "",
        title=line.part.title if line.part else "",
        quantity=plain(line.quantity),
        unit=line.part.unit if line.part else "pc",
        when=conditions_in_words(line.conditions),
        ships=KitLineShips(line.ships),
        operation=line.operation.code if line.operation else "",
        fitted=line.kind == KitLineKind.PART and line.role not in MINOR_ROLES,
    )


def _need(need: Need) -> KitNeedOut:
    what = need.consumable or need.part
    assert what is not None, "the database keeps one of the two"
    return KitNeedOut(
        title=what.title if isinstance(what, Part) else str(what),
        number=need.part.number if need.part else "",
        rule=NeedRule(need.rule),
        quantity=plain(need.quantity),
        unit=what.unit,
        of=need.basis,
        charge=NeedCharge(need.charge),
        operation=need.operation.code if need.operation else "",
    )


def _reused(row: ReusedPart) -> ReusedOut:
    return ReusedOut(
        title=row.title,
        quantity=plain(row.quantity),
        off_at=row.off_at.code if row.off_at else "",
        back_at=row.back_at.code if row.back_at else "",
    )


def _outside(row: KitOutside) -> KitOutsideOut:
    return KitOutsideOut(
        title=row.title,
        firm=row.firm.name,
        days=row.days,
        starts_after=row.starts_after.code if row.starts_after else "",
        needed_by=row.needed_by.code if row.needed_by else "",
        they_do=row.they_do,
        they_need=row.they_need,
        rounds=row.rounds,
    )
