"""The surcharge for corroded fasteners is named to the customer where its hours and price stand."""

import pytest

from quotes.models import Revision
from quotes.presenters.customer import presented
from quotes.presenters.sections import Section
from quotes.queries import frozen
from shop.models import RuleSet
from tests.quotes.dated import change, send
from tests.quotes.phone import Phone
from tests.quotes.stage import RULES, Stage

pytestmark = pytest.mark.once

SAID = "1 operation takes 25 % longer because of corroded fasteners. Its hours and price include that."
RATED = RULES | {"condition_factors": {"none": "1", "heavy": "1.25"}}


def labour(stage: Stage, condition: str) -> tuple[Section, str]:
    """The section of labour that page and paper share, and the page."""
    RuleSet.objects.update(rules=RATED)
    phone = Phone(send(stage, change(stage, stage.quote().json(), condition=condition))["link"]["url"])
    revision = Revision.objects.get()
    sections = presented(frozen.read(revision), revision.digest).sections
    return next(section for section in sections if section.name == "labour"), phone.html


def test_the_work_with_exposed_fasteners_says_its_surcharge(stage: Stage) -> None:
    section, page = labour(stage, "heavy")
    raised = [line.title for line in section.lines if "includes 25 % for corroded fasteners" in line.why]
    assert raised == ["Front bumper off and on"] and section.why[-1] == SAID
    assert SAID in page and page.count("includes 25 % for corroded fasteners") == 1


def test_without_corrosion_nobody_speaks_of_it(stage: Stage) -> None:
    section, page = labour(stage, "none")
    assert section.lines and "corroded" not in str(section) + page
