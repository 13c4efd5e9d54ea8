"""Shelves of eight packs that are hard to choose from, made from a seed: kinds of sizes by ways of pricing."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from decimal import Decimal
from random import Random

from kitting.calc.packs import Pack
from shop.calc.money import rounded

PACKS = 8
MOST = 200
"""A need of so many of the smallest pack."""

Sizes = Callable[[Random], list[Decimal]]
Price = Callable[[Random, Decimal], Decimal]


@dataclass(frozen=True, slots=True)
class Shelf:
    title: str
    need: Decimal
    packs: tuple[Pack, ...]


def _between(low: str, high: str, places: int) -> Sizes:
    step = Decimal(1).scaleb(-places)
    steps = range(int(Decimal(low) / step), int(Decimal(high) / step) + 1)
    return lambda random: [step * count for count in random.sample(steps, PACKS)]


def _close(random: Random) -> list[Decimal]:
    first = random.choice([Decimal("0.473"), Decimal("0.946"), Decimal(1), Decimal("3.785"), Decimal("18.927")])
    return [first + Decimal(at) / 1000 for at in range(PACKS)]


def _close_but_one(random: Random) -> list[Decimal]:
    return [*_close(random)[1:], Decimal(random.randrange(20_000, 40_000)) / 1000]


def _primes(random: Random) -> list[Decimal]:
    primes = [883, 887, 907, 911, 919, 929, 937, 941, 947, 953, 967, 971, 977, 983, 991, 997]
    return [Decimal(size) / 1000 for size in random.sample(primes, PACKS)]


def _two_clusters(random: Random) -> list[Decimal]:
    small, large = random.sample(range(970, 1031), 4), random.sample(range(4850, 5151), 4)
    return [Decimal(size) / 1000 for size in (*small, *large)]


SIZES: dict[str, Sizes] = {
    "whole": _between("1", "60", 0),
    "two decimals, 0.1 to 20": _between("0.1", "20", 2),
    "three decimals, 0.1 to 20": _between("0.1", "20", 3),
    "three decimals, 1 to 5": _between("1", "5", 3),
    "three decimals, 5 to 60": _between("5", "60", 3),
    "three decimals, 0.9 to 1.1": _between("0.9", "1.1", 3),
    "three decimals, 16 to 20": _between("16", "20", 3),
    "0.001 apart": _close,
    "0.001 apart, but one": _close_but_one,
    "prime to one another": _primes,
    "two clusters": _two_clusters,
}


def _cents(random: Random, least: int, most: int) -> Decimal:
    return Decimal(random.randint(least, most)) / 100


PRICES: dict[str, Price] = {
    "by size alone": lambda random, size: size * Decimal("8.4"),
    "by size, to the cent": lambda random, size: rounded(size * Decimal("8.4"), 2),
    "by size within two cents": lambda random, size: (
        rounded(size * Decimal("8.4"), 2) + Decimal(random.randrange(3)) / 100
    ),
    "by size and a fee": lambda random, size: rounded(size * Decimal("8.4") + Decimal("2.5"), 2),
    "falling by the unit": lambda random, size: rounded(Decimal("9.4") * size - size * size / 50, 2),
    "nothing": lambda random, size: Decimal(0),
    "one price": lambda random, size: Decimal("7.5"),
    "two prices": lambda random, size: random.choice([Decimal(8), Decimal("8.1")]),
    "seven prices": lambda random, size: 8 + _cents(random, 0, 6),
    "any price": lambda random, size: _cents(random, 50, 10_000),
}


def shelves(seeds: int) -> Iterator[Shelf]:
    for sizes_title, sizes in SIZES.items():
        for price_title, price in PRICES.items():
            for seed in range(seeds):
                random = Random(f"{sizes_title}, {price_title}, {seed}")
                chosen = sizes(random)
                names = random.sample("abcdefgh", PACKS)
                packs = tuple(Pack(name, size, price(random, size)) for name, size in zip(names, chosen, strict=True))
                times = MOST if seed == 0 else Decimal(random.randrange(1500, 2001)) / 10
                yield Shelf(f"{sizes_title}; {price_title}; seed {seed}", times * min(chosen), packs)
