"""The steps of a draft, by which a change can be undone and redone."""

from quotes.calc.forms import FrozenContent
from quotes.models import DraftStep, Revision

KEPT = 50  # steps of a draft; older ones can no longer be undone
LONGEST = 200  # characters of a step's subject


def add_step(revision: Revision, state: FrozenContent, verb: str, about: str) -> None:
    """Adds a step with the state before it. Changes that were undone can then not be redone."""
    steps = DraftStep.objects.filter(shop=revision.shop, revision=revision)
    steps.filter(undone=True).delete()
    newest = steps.order_by("-number").values_list("number", flat=True).first() or 0
    DraftStep.objects.create(
        shop=revision.shop, revision=revision, number=newest + 1, verb=verb, about=about[:LONGEST], state=state
    )
    steps.filter(number__lte=newest + 1 - KEPT).delete()
