"""The words by which rows are found: those that are stored, and those that should be."""

from typing import Any

from kitting.models import Kit, KitWord, Part, PartWord
from quotes.models import OutsideWork, OutsideWorkWord
from shop.calc.keys import search_words
from shop.models import Customer, CustomerWord, Vehicle, VehicleWord

WORDS: dict[Any, Any] = {
    Customer: CustomerWord,
    Vehicle: VehicleWord,
    Kit: KitWord,
    Part: PartWord,
    OutsideWork: OutsideWorkWord,
}


def stored_words() -> dict[Any, set[tuple[Any, str]]]:
    return {model: set(words.objects.values_list("target", "word")) for model, words in WORDS.items()}


def right_words() -> dict[Any, set[tuple[Any, str]]]:
    return {
        model: {(row.pk, word) for row in model.objects.all() for word in search_words(*row.search_texts)}
        for model in WORDS
    }
