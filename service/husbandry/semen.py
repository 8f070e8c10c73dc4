"""
Which bulls of the cooperative's catalogue suit a cow, by the farmer's aims in her order.

Formulas, sources and a worked example: docs/trade/semen.md. Breeding values are standardised: in genetic
standard deviations from the mean of the bull's breed, more is always better (easier calving, too).
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from enum import StrEnum

from service.husbandry import heifers
from service.husbandry.herd import Animal
from service.husbandry.life import is_cow
from service.husbandry.pedigree import BullNames, Inbreeding, inbreeding, own_id, pedigree_of
from service.husbandry.units import Money

TRAITS = ("milk", "udder", "feet_and_legs", "fertility", "calving_ease", "longevity")
"""What a bull is judged by."""

USUAL_AIMS = ("milk", "udder", "fertility")
"""Taken, and said to be taken, where the farmer names none; Byreline's own choice."""

HIGHEST = Decimal(5)
"""Standard deviations above which a breeding value is no standardised one: one bull in millions."""

CHOSEN = 3
"""Bulls that are proposed at most."""

EASY = Decimal(0)
"""Calving ease from which a bull may serve a heifer or a small cow: his breed's mean; own choice."""

GROWN = Decimal("0.6")
"""Share of her grown weight that a heifer has at first service (60 % rule; docs/trade/weight.md)."""

SMALL_KG = Decimal(350)
"""A cow below this is small: a productive crossbred one weighs about that (common practice, no source)."""

WEIGHT_LASTS_DAYS = 365
"""Days for which a cow's weight tells whether she is small; Byreline's own choice."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bull:
    """
    A row of the catalogue.

    Args:
        values: Standardised breeding value by trait; a trait that is not published is left out.
        reliability: Of those values, 0 to 1.
        straws: In the cooperative's stock.
    """

    code: str
    name: str
    breed: str
    values: Mapping[str, Decimal]
    reliability: Decimal
    price: Money
    straws: int
    sire: str | None = None
    dam: str | None = None
    maternal_grandsire: str | None = None

    @property
    def names(self) -> BullNames:
        return BullNames(
            name=self.name,
            code=self.code,
            sire=self.sire,
            dam=self.dam,
            maternal_grandsire=self.maternal_grandsire,
        )


class Unfit(StrEnum):
    """Why a bull is not proposed for a cow; the first that holds."""

    NO_STRAWS = "no_straws"
    TOO_NEAR = "too_near"  # the calf would be inbred
    HARD_CALVING = "hard_calving"  # for a heifer or a small cow
    TOO_DEAR = "too_dear"


@dataclass(frozen=True, slots=True)
class Choice:
    """
    A bull proposed.

    ``merits``: each aim in her order with his breeding value, shrunk by its reliability; None: none is
    published. ``score``: their weighted sum.
    """

    bull: Bull
    inbreeding: Inbreeding
    merits: tuple[tuple[str, Decimal | None], ...]
    score: Decimal


@dataclass(frozen=True, slots=True)
class Ranking:
    """The best bulls, best first, and how many were left out for each reason."""

    choices: tuple[Choice, ...]
    left_out: Mapping[Unfit, int]
    easy_only: bool  # she is a heifer or small


def weights(count: int) -> tuple[Decimal, ...]:
    """
    Rank-order centroid weights of *count* aims, the first the heaviest; they sum to 1.

    The k-th of n weighs (1/k + ... + 1/n) / n. Source: Barron & Barrett 1996, Management Science 42:1515
    (docs/trade/semen.md).
    """
    shares = [Decimal(1) / place for place in range(1, count + 1)]
    return tuple(sum(shares[place:], Decimal(0)) / count for place in range(count))


def shrunk(value: Decimal, reliability: Decimal) -> Decimal:
    """*value* drawn to its breed's mean by what its *reliability* (0 to 1) lacks."""
    return value * reliability


def merits(bull: Bull, aims: Sequence[str]) -> tuple[tuple[str, Decimal | None], ...]:
    """Each of *aims* with the bull's shrunk value for it; None where he has none."""
    return tuple(
        (aim, shrunk(bull.values[aim], bull.reliability) if aim in bull.values else None) for aim in aims
    )


def score(of: Sequence[tuple[str, Decimal | None]]) -> Decimal:
    """The weighted sum of merits in the order of the aims; what is not published counts as the mean."""
    values = [Decimal(0) if merit is None else merit for _, merit in of]
    return sum((w * v for w, v in zip(weights(len(values)), values, strict=True)), Decimal(0))


def is_small(cow: Animal, today: date) -> bool:
    """Whether she is a small cow: by her weight of the last year, else by what her breed's cows weigh."""
    weighed = cow.weighed_on
    if cow.weight_kg is not None and weighed is not None and (today - weighed).days <= WEIGHT_LASTS_DAYS:
        return cow.weight_kg < SMALL_KG
    return heifers.target(cow.breed).low / GROWN < SMALL_KG


def needs_easy_calving(cow: Animal, today: date) -> bool:
    """Whether a hard-calving bull endangers her: a heifer, or a small cow."""
    return not is_cow(cow) or is_small(cow, today)


def calves_easily(bull: Bull) -> bool:
    """Whether his calves are born at least as easily as his breed's; one not published is not known to."""
    ease = bull.values.get("calving_ease")
    return ease is not None and ease >= EASY


@dataclass(frozen=True, slots=True)
class Wish:
    """What the farmer asks for: her aims in order (at least one), and the most she will pay."""

    aims: tuple[str, ...] = USUAL_AIMS
    price: Money | None = None

    def affords(self, bull: Bull) -> bool:
        """Whether he costs no more; a price in another currency is not known to."""
        price = self.price
        return price is None or (bull.price.currency == price.currency and bull.price.amount <= price.amount)


def rank(
    cow: Animal, herd: Collection[Animal], catalogue: Iterable[Bull], wish: Wish, today: date
) -> Ranking:
    """
    The best bulls for *cow*.

    Args:
        cow: Of the herd, female.
        herd: All animals of the farm, those that have left too: her kin are among them.
        catalogue: Every bull, those out of stock too: kin are known by them.
        wish: Aims and price.
        today: Farm-local, for whether she is small.
    """
    bulls = list(catalogue)
    pedigree, kin = pedigree_of(herd, (bull.names for bull in bulls))
    easy_only = needs_easy_calving(cow, today)
    left_out: dict[Unfit, int] = {}
    choices: list[Choice] = []
    for bull in bulls:
        near = inbreeding(pedigree, kin.bull(bull.name), own_id(cow.id))
        why = unfit(bull, near, wish, easy_only=easy_only)
        if why is not None:
            left_out[why] = left_out.get(why, 0) + 1
            continue
        of = merits(bull, wish.aims)
        choices.append(Choice(bull, near, of, score(of)))
    return Ranking(tuple(sorted(choices, key=_place)[:CHOSEN]), left_out, easy_only)


def _place(choice: Choice) -> tuple[Decimal, Decimal, str]:
    """The better first, of equals the cheaper."""
    return -choice.score, choice.bull.price.amount, choice.bull.code


def unfit(bull: Bull, near: Inbreeding, wish: Wish, *, easy_only: bool) -> Unfit | None:
    """Why *bull* is not proposed; None: he may be."""
    if bull.straws <= 0:
        return Unfit.NO_STRAWS
    if near.on_or_above_line:
        return Unfit.TOO_NEAR
    if easy_only and not calves_easily(bull):
        return Unfit.HARD_CALVING
    return None if wish.affords(bull) else Unfit.TOO_DEAR
