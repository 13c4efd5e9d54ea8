"""A kit's file says what its supplier does not take back, and a quote's line begins with it."""

from typing import Any

import pytest

from kitting.imports.kit import KIND as KIT
from kitting.imports.kit_rows import write_kit
from kitting.models import Kit, Part
from tests.cast import Cast
from tests.imports.files import KIT_HEAD
from tests.imports.test_kinds import planned, wrong
from tests.imports.test_kit_outside import KIT_DAY
from tests.quotes.stage import Stage, make_stage

pytestmark = pytest.mark.once

PARTS = "Part no.;Description;Qty;Can be sent back\nA-1;Bolt;2;\nA-2;Hose, cut to length;1;no\n"


def kit_file(answer: str, parts: str = PARTS) -> str:
    return KIT_HEAD.replace("\n\n", f"\nCan be sent back;{answer}\n\n" if answer else "\n\n") + parts


@pytest.fixture
def stage(cast: Cast) -> Stage:
    return make_stage(cast)


def take_in(stage: Stage, text: str) -> Kit:
    write_kit(stage.cast.acting("manager"), planned(KIT, text).plan, KIT_DAY)
    return Kit.objects.select_related("part").get(shop=stage.shop, code="K-1")


def lines(stage: Stage, kit: Kit) -> dict[str, Any]:
    """Whether the lines of a new quote with the kit, a bolt and a hose can be sent back, by title."""
    parts = [str(part.pk) for part in Part.objects.filter(shop=stage.shop, number__in=["A-1", "A-2"])]
    quote = stage.client.post("quotes", {"kits": [str(kit.pk)], "parts": parts}).json()
    return {line["title"]: line["returnable"] for line in (*quote["kits"], *quote["extras"])}


def test_the_lines_of_a_quote_begin_with_it(stage: Stage) -> None:
    kit = take_in(stage, kit_file("no"))
    assert kit.part.returnable is False
    assert stage.client.get(f"kits/{kit.pk}").json()["returnable"] is False
    assert lines(stage, kit) == {kit.title: False, "Bolt": True, "Hose, cut to length": False}


def test_a_file_that_does_not_say_it_leaves_it_as_it_is(stage: Stage) -> None:
    take_in(stage, kit_file("no"))
    silent = take_in(stage, kit_file("", "Part no.;Description;Qty\nA-1;Bolt;2\nA-2;Hose, cut to length;1\n"))
    assert lines(stage, silent) == {silent.title: False, "Bolt": True, "Hose, cut to length": False}
    kit = take_in(stage, kit_file("yes"))
    assert kit.part.returnable is True and stage.client.get(f"kits/{kit.pk}").json()["returnable"] is True


def test_a_kit_that_is_sold_after_all_is_again_as_its_file_says(stage: Stage) -> None:
    kit = take_in(stage, kit_file("no"))
    quote = stage.client.post("quotes", {"kits": [str(kit.pk)]}).json()
    line = f"quotes/{quote['id']}/lines/{quote['kits'][0]['line']}"
    answers = []
    for supplied in (True, False):
        quote = stage.client.patch(line, {"supplied": supplied}, seen=f'"{quote["version"]}"').json()
        answers.append(quote["kits"][0]["returnable"])
    assert answers == [True, False]


def test_it_is_yes_or_no() -> None:
    assert wrong(planned(KIT, kit_file("perhaps"))) == [("not_yes_or_no", 3)]
