"""Rows -> inputs of the calculations, one query for each kind of row whatever their number."""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import Any
from uuid import UUID

from django.db.models import Count, Q

from kitting.calc.circuits import Circuit, circuit_from, with_capacity
from kitting.calc.contents import KitContents, PartFacts, Place, Reused
from kitting.calc.counting import KNOWN_VERSION, Event, Tally, fold
from kitting.calc.explosion import Condition, Contents, Kit, Node, Step, flatten
from kitting.calc.observed import Said
from kitting.models import CountEvent, KitLine, KitRevision, Offer, Part, PullList, ReusedPart
from shop.models import Job, Shop

ROOT = "kit"
FOLDED = ("id", "line", "kind", "total", "damaged", "target", "device", "n", "seen", "author", "seq", "late", "v")
NOTHING = Contents(parts={}, paths={}, decide=(), other={}, lines=(), other_lines=())


def kit_contents(
    shop: Shop, revisions: Iterable[UUID], vehicle: Mapping[str, str | None], reused: bool = False
) -> dict[UUID, KitContents]:
    """{revision: what it holds for the vehicle}, under the last number of each part. Refuses as `flatten` does."""
    ids = set(revisions)
    rows = KitRevision.objects.filter(shop=shop, pk__in=ids).select_related("kit", "kit__part")
    lines = _lines_by_revision(shop, ids)
    newer = superseded_by(shop)
    replacements = _replacements(shop, lines, newer)
    back = _reused_by_revision(shop, ids) if reused else {}
    return {
        row.pk: _contents(row, lines.get(row.pk, []), vehicle, newer, replacements, back.get(row.pk, ()))
        for row in rows
    }


def superseded_by(shop: Shop) -> dict[str, str]:
    """{number: the number that replaced it}, of the whole shop."""
    found = Part.objects.filter(shop=shop, superseded_by__isnull=False)
    return dict(found.values_list("number", "superseded_by__number"))


def calc_kit(lines: Sequence[KitLine], vehicle: Mapping[str, str | None], superseded_by: Mapping[str, str]) -> Kit:
    """The lines of one revision (with their parts, in reading order) as the explosion takes them."""
    children: dict[str, list[Step]] = defaultdict(list)
    for line in lines:
        above = str(line.parent_id) if line.parent_id else ROOT
        children[above].append(Step(str(line.pk), line.quantity, conditions(line.when), _ships(line)))
    nodes = {ROOT: Node(children=tuple(children[ROOT]))}
    for line in lines:
        number = line.part.number if line.part else None
        nodes[str(line.pk)] = Node(part=number, children=tuple(children[str(line.pk)]))
    return Kit(ROOT, nodes, vehicle, superseded_by)


def conditions(when: Iterable[Mapping[str, Any]]) -> tuple[Condition, ...]:
    """The stored [{"attribute", "in"}] as the explosion takes it."""
    return tuple(Condition(each["attribute"], tuple(each["in"])) for each in when)


def _ships(line: KitLine) -> Any:
    return str(line.ships)


def _lines_by_revision(shop: Shop, ids: set[UUID]) -> dict[UUID, list[KitLine]]:
    found: dict[UUID, list[KitLine]] = defaultdict(list)
    rows = KitLine.objects.filter(shop=shop, revision__in=ids).select_related("part", "operation")
    for line in rows.order_by("position"):
        found[line.revision_id].append(line)
    return found


def _replacements(
    shop: Shop, lines: Mapping[UUID, Sequence[KitLine]], newer: Mapping[str, str]
) -> dict[str, PartFacts]:
    """The parts that stand in for a replaced one: asked only when there is one."""
    replaced = {line.part.number for rows in lines.values() for line in rows if line.part} & set(newer)
    if not replaced:
        return {}
    rows = Part.objects.filter(shop=shop, number__in=set(newer.values()))
    return {row.number: part_facts(row) for row in rows}


def part_facts(part: Part) -> PartFacts:
    return PartFacts(part.pk, part.number, part.title, part.unit)


def _reused_by_revision(shop: Shop, ids: set[UUID]) -> dict[UUID, tuple[Reused, ...]]:
    found: dict[UUID, list[Reused]] = defaultdict(list)
    rows = ReusedPart.objects.filter(shop=shop, revision__in=ids).select_related("off_at", "back_at")
    for row in rows.order_by("position"):
        found[row.revision_id].append(
            Reused(
                title=row.title,
                quantity=row.quantity,
                off_at=row.off_at.code if row.off_at else "",
                back_at=row.back_at.code if row.back_at else "",
            )
        )
    return {revision: tuple(each) for revision, each in found.items()}


def _contents(
    revision: KitRevision,
    lines: Sequence[KitLine],
    vehicle: Mapping[str, str | None],
    newer: Mapping[str, str],
    replacements: Mapping[str, PartFacts],
    reused: tuple[Reused, ...],
) -> KitContents:
    return KitContents(
        kit=revision.kit.code,
        whole=part_facts(revision.kit.part),
        contents=flatten(calc_kit(lines, vehicle, newer)) if lines else NOTHING,
        places={str(line.pk): _place(line) for line in lines},
        parts={**replacements, **{line.part.number: part_facts(line.part) for line in lines if line.part}},
        reused=reused,
    )


def _place(line: KitLine) -> Place:
    operation = line.operation.code if line.operation else ""
    return Place(str(line.kind), line.label, line.position, str(line.role) if line.part else "", operation)


def newest_offers(shop: Shop, parts: Iterable[Part], day: date) -> dict[UUID, Offer]:
    """Part -> the newest offer, as of `day`, of its preferred supplier; of any, where none is preferred."""
    preferred = {part.pk: part.preferred_id for part in parts}
    newest: dict[UUID, Offer] = {}
    rows = Offer.objects.filter(shop=shop, part__in=preferred, valid_from__lte=day).select_related("supplier")
    for offer in rows.order_by("part", "valid_from"):
        if preferred[offer.part_id] in (None, offer.supplier_id):
            newest[offer.part_id] = offer
    return newest


def count_log(shop: Shop, pull_list: UUID, upto: int) -> list[Said]:
    """The list's log up to that seq, as the fold takes it and with what is only shown."""
    rows = CountEvent.objects.filter(shop=shop, list=pull_list, seq__lte=upto).order_by("seq")
    return [Said(_event(row), extra) for *row, extra in rows.values_list(*FOLDED, "extra")]


def tallied(shop: Shop, pull_list: UUID, upto: int) -> dict[str, Tally]:
    """{line: its tally} of the list's log up to that seq."""
    rows = CountEvent.objects.filter(shop=shop, list=pull_list, seq__lte=upto)
    return fold(_event(row) for row in rows.values_list(*FOLDED))


def _event(row: Sequence[Any]) -> Event:
    id, line, kind, total, damaged, target, device, n, seen, author, seq, late, v = row
    return Event(
        id=str(id),
        line=str(line),
        kind=kind,
        total=total,
        damaged=damaged,
        target=str(target) if target else None,
        device=str(device),
        n=n,
        seen=seen,
        author=str(author),
        seq=seq,
        late=late,
        v=v,
    )


def lines_counted(shop: Shop, lists: Iterable[UUID]) -> dict[UUID, int]:
    """{list: lines that were counted or accepted sealed}, as `line_figures` says it, without folding.

    Neither re-used parts nor retired lines are among them.
    """
    live = CountEvent.objects.filter(shop=shop, list__in=list(lists), late=False, v=KNOWN_VERSION)
    undos = set(live.filter(kind="undo").values_list("target", "author"))
    named = CountEvent.objects.filter(shop=shop, pk__in={target for target, _ in undos}).values_list("pk", "author")
    undone = [pk for pk, author in named if (pk, author) in undos]
    sealed = Q(kind="note") & (Q(extra__how="sealed") | Q(extra__note__what="sealed"))
    counts = live.filter(Q(kind__in=("set", "add")) | sealed).exclude(pk__in=undone)
    counts = counts.filter(line__retired_at__isnull=True).exclude(line__kind="reused")
    return dict(counts.values_list("list").annotate(n=Count("line", distinct=True)).values_list("list", "n"))


@dataclass(frozen=True, slots=True)
class JobCircuit:
    """A circuit to mix by. `stated`: its capacity is recorded on the vehicle today; `sold` is the quote's."""

    circuit: Circuit
    stated: bool
    sold: Decimal | None

    @property
    def of(self) -> str:
        return self.circuit.of


def job_circuits(job: Job) -> list[JobCircuit]:
    """The coolant circuits that the job was sold with; none where its quote is from before they were kept.

    A capacity that was corrected on the vehicle since then counts.
    """
    kept = PullList.objects.filter(shop=job.shop_id, job=job).order_by("opened_at").values_list("facts", flat=True)
    sold: list[Any] = next((facts["circuits"] for facts in kept if facts.get("circuits")), [])
    return [_job_circuit(circuit_from(each), job.vehicle.capacities) for each in sold]


def _job_circuit(circuit: Circuit, capacities: Mapping[str, str]) -> JobCircuit:
    litres = Decimal(capacities.get(circuit.of) or 0)
    stated = litres > 0
    return JobCircuit(with_capacity(circuit, litres if stated else None), stated, circuit.capacity)
