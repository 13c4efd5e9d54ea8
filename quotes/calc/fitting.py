"""Checks that the kits of a quote are for its vehicle, by its recorded attributes."""

from collections.abc import Iterable, Iterator, Mapping

from quotes.calc.quote_input import ChosenKit, QuoteInput
from shop.calc.reason import Reason
from shop.calc.when import fit


def fit_notices(quote: QuoteInput) -> Iterator[Reason]:
    """`kit_not_for_vehicle` for each attribute that rules a kit out, then `kit_fit_unknown` for each undecided one.

    Kits that do not fit come first, whatever the order of the kits. Without a vehicle there are no notices.
    """
    if quote.attributes is None:
        return
    judged = [(kit, fit(_conditions(kit), quote.attributes)) for kit in quote.kits]
    for kit in (kit for kit, verdict in judged if verdict == "no"):
        yield from _against(kit, quote.attributes)
    for kit in (kit for kit, verdict in judged if verdict == "ask"):
        yield from _unstated(kit, quote.attributes)


def _conditions(kit: ChosenKit) -> tuple[dict[str, object], ...]:
    return tuple({"attribute": attribute, "in": values} for attribute, values in kit.fits)


def _against(kit: ChosenKit, attributes: Mapping[str, str]) -> Iterator[Reason]:
    for attribute, values in kit.fits:
        stated = attributes.get(attribute)
        if stated and stated not in values:
            yield Reason.of(
                "kit_not_for_vehicle",
                line=kit.line,
                title=kit.title,
                attribute=attribute,
                values=values,
                stated=stated,
            )


def _unstated(kit: ChosenKit, attributes: Mapping[str, str]) -> Iterator[Reason]:
    for attribute, values in kit.fits:
        if not attributes.get(attribute):
            yield Reason.of("kit_fit_unknown", line=kit.line, title=kit.title, attribute=attribute, values=values)


def unfit_kits(kits: Iterable[ChosenKit], attributes: Mapping[str, str]) -> tuple[str, ...]:
    """The lines of the kits that are not for a vehicle with these attributes."""
    return tuple(kit.line for kit in kits if fit(_conditions(kit), attributes) == "no")
