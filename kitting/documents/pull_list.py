"""The pull list on paper. Its lines never change, so the same list is always the same bytes."""

from itertools import groupby
from typing import Any

from django.template.loader import render_to_string

from kitting.models import PullLine, PullList
from kitting.shapes.pull_lists import list_shape
from shop.access import Actor
from shop.calc.snapshot import canonical
from shop.documents.pdf import render
from shop.words import say

FROM_THE_BOX = (PullLine.Kind.BOX.value, PullLine.Kind.BESIDE.value)


def pull_list_paper(who: Actor, pull_list: PullList) -> bytes:
    """PDF/A-3a of what is to be pulled, with the lines as JSON inside. What was counted is not on it."""
    shape = list_shape(who, pull_list) | {
        "customer": pull_list.facts["customer"],
        "vehicle": pull_list.facts["vehicle"],
    }
    title = say("pull_paper.title", job=shape["job"]["number"])
    facts = {
        "house": {"name": who.shop.name, "phone": who.shop.phone},
        "list": shape,
        "opened_at": pull_list.opened_at,
        "zone": who.shop.zone,
        "groups": _groups(shape["lines"]),
        "heading": title,
    }
    kept = {key: shape[key] for key in ("id", "job", "customer", "vehicle")}
    kept["lines"] = [line | {"id": str(line["id"])} for line in shape["lines"]]
    return render(
        render_to_string("kitting/pull_list.html", facts),
        title=title,
        made_at=pull_list.opened_at,
        attachment=canonical(kept).encode(),
        attachment_name="pull-list.json",
    )


def _groups(lines: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """Sheets of the list: each carton of each kit with its bags, then needs, then re-used parts."""
    found = []
    for (kind, kit, carton), of_carton in groupby(lines, key=_sheet):
        bags = [{"bag": bag, "lines": list(rows)} for bag, rows in groupby(of_carton, key=lambda line: line["bag"])]
        found.append({"title": _title(kind, kit, carton), "bags": bags})
    return found


def _sheet(line: dict[str, Any]) -> tuple[str, str, str]:
    return ("box", line["kit"], line["carton"]) if line["kind"] in FROM_THE_BOX else (line["kind"], "", "")


def _title(kind: str, kit: str, carton: str) -> str:
    if kind != "box":
        return say(f"pull_paper.{kind}")
    return say("pull_paper.carton", kit=kit, carton=carton) if carton else say("pull_paper.loose", kit=kit)
