"""Operations as answers."""

from msgspec.structs import asdict

from shop.access import Actor
from shop.answers.operations import OperationOut, OperationRowOut
from shop.models import Operation
from shop.queries.entries import read_entry
from shop.queries.operations import operation_texts, templates_with
from shop.tables.wording import at_a_field


def operation_row(row: Operation) -> OperationRowOut:
    return OperationRowOut(
        id=row.pk,
        code=row.code,
        title=row.title,
        skill=row.skill,
        hours=f"{row.book_hours:f}",
        archived=row.archived,
        version=row.version,
    )


def operation_answer(row: Operation, actor: Actor) -> OperationOut:
    texts = operation_texts(row)
    entry = read_entry(actor=actor, kind="labour", table="operations", texts=texts)
    return OperationOut(
        **asdict(operation_row(row)),
        sharing="each" if row.sharing == Operation.Sharing.EACH else "once",
        exposed=row.exposed,
        no_return=row.no_return,
        mobile_again=row.mobile_again,
        hold_point=row.hold_point,
        wheels_off=row.wheels_off,
        wait_after=texts["wait_after"],
        includes=texts["includes"],
        overlaps=texts["overlaps"],
        cautions=texts["cautions"],
        torques=texts["torques"],
        others=texts["others"],
        templates=templates_with(actor, row),
        notices=[at_a_field(finding) for finding in entry.to_check if finding.code != "operation_comes_back"],
    )
