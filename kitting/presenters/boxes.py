"""Names of kits, cartons, bags and quantities in a PDF, as in the app (frontend/src/lib/text/boxNames.ts)."""

import re
from collections.abc import Mapping, Sequence
from decimal import Decimal
from string import ascii_uppercase

from kitting.calc.contents import COUNTED_IN
from shop.words import say
from shop.words.figures import number

_WORDS = re.compile(r"[^\W\d_]{3}")  # "Bag A: seals" says itself what it is, "1-02" does not


def carton_name(label: str) -> str:
    if not label:
        return say("box.loose")
    return label if _WORDS.match(label) else say("box.carton", label=label)


def bag_name(label: str, carton: str) -> str:
    if label:
        return label if _WORDS.match(label) else say("box.bag", label=label)
    return say("box.loose_in", label=carton) if carton else say("box.loose")


def place_inside(carton: str, bag: str) -> str:
    """Inside a sentence: 'carton 1, bag 1-02'. A label that is a name of its own is called by what it begins with."""
    if not carton or not bag:
        return bag_inside(bag, carton)
    outer = _short(carton) if _WORDS.match(carton) else say("box.inside.carton", label=carton)
    return say("box.place", carton=outer, bag=bag_inside(bag, carton))


def bag_inside(label: str, carton: str = "") -> str:
    if label:
        return _short(label) if _WORDS.match(label) else say("box.inside.bag", label=label)
    return say("box.inside.loose_in", label=carton) if carton else say("box.inside.loose")


def _short(label: str) -> str:
    """'Bag A' of the label 'Bag A: cross-member'."""
    return label.partition(":")[0]


def place_name(carton: str, bag: str) -> str:
    """The names of the carton and the bag; of the carton alone for loose parts."""
    if not carton:
        return bag_name(bag, "")
    return say("box.place", carton=carton_name(carton), bag=bag_name(bag, "")) if bag else bag_name("", carton)


def kit_names(copies: Sequence[tuple[str, int]], titles: Mapping[str, str]) -> dict[tuple[str, int], str]:
    """{(code, copy): "A. Front big-brake kit"}: lettered in the list's order, copies of the same kit numbered."""
    names = {}
    for at, (code, copy) in enumerate(copies):
        same = [copy_of for copy_of in copies if copy_of[0] == code]
        title = titles.get(code) or code
        if len(same) > 1:
            title = say("box.copy", kit=title, n=same.index((code, copy)) + 1, of=len(same))
        names[code, copy] = say("box.kit", letter=letter(at), kit=title)
    return names


def letter(at: int) -> str:
    return ascii_uppercase[at % 26] * (at // 26 + 1)


def amount(quantity: Decimal, unit: str) -> str:
    """The quantity as a person counts it: "4", "2 sets"; cut goods by the piece: "1 piece of 1.5 m"."""
    if unit == "pc":
        return number(quantity)
    if unit in COUNTED_IN:
        return say(f"box.{unit}", n=number(quantity))
    return say("box.measured", quantity=number(quantity), unit=unit)
