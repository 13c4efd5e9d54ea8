"""The change of a draft that undo would take back, and the one that redo would repeat, in words."""

from quotes.answers.figures import ShownOut
from quotes.answers.undo import DraftStepOut
from quotes.models import DraftStep, Revision
from quotes.queries.draft_state import next_steps
from shop.words import say

WORDS = {
    "kit added": "undo.added",
    "part added": "undo.added",
    "parts added": "undo.parts_added",
    "line added": "undo.added",
    "contingency added": "undo.added",
    "line changed": "undo.changed",
    "line removed": "undo.removed",
    "outside work added": "undo.added",
    "outside work changed": "undo.changed",
    "figure set": "undo.figure_set",
    "figure worked out again": "undo.figure_dropped",
    "charge chosen": "undo.charge_chosen",
    "discount given": "undo.discount_given",
    "discount removed": "undo.discount_removed",
    "choice added": "undo.choice_added",
    "choice changed": "undo.changed",
    "choice removed": "undo.choice_removed",
    "option added": "undo.option_added",
    "option changed": "undo.changed",
    "option removed": "undo.option_removed",
    "taken off": "undo.taken_off",
    "photograph added": "undo.photograph_added",
    "photograph changed": "undo.photograph_changed",
    "photograph removed": "undo.photograph_removed",
}
FIELDS = {
    "customer": "undo.customer",
    "vehicle": "undo.vehicle",
    "note": "undo.note",
    "customer_note": "undo.customer_note",
    "condition": "undo.condition",
    "here": "undo.here",
    "here_from": "undo.here",
    "rules": "undo.rules",
    "rules_declined": "undo.rules",
}


def undo_answers(revision: Revision, content: ShownOut) -> tuple[DraftStepOut | None, DraftStepOut | None]:
    """(the change to undo, the change to redo); None where there is none."""
    done, undone = next_steps(revision)
    titles = _titles(content)
    return _words(done, titles), _words(undone, titles)


def _words(step: DraftStep | None, titles: dict[str, str]) -> DraftStepOut | None:
    if step is None:
        return None
    if step.verb == "changed":
        return DraftStepOut(say(FIELDS.get(step.about, "undo.other")))
    key = WORDS.get(step.verb, "undo.other")
    return DraftStepOut(say(key, title=titles.get(step.about) or step.about))


def _titles(content: ShownOut) -> dict[str, str]:
    """Maps the key of a figure that a person may replace to the title of its line."""
    return {
        **{kit.key: kit.title for kit in content.kits},
        **{operation.key: operation.title for operation in content.labour.operations},
        **{need.key: need.title for need in content.needs},
        **{work.key: work.title for work in content.outside},
    }
