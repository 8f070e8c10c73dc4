"""
Answers to "which semen?": up to three bulls for a cow with why each, who was left out, what it rests on.

The choice stays hers and the inseminator's; kin is checked by what is written down alone.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from datetime import date
from decimal import Decimal

from dialogs import texts
from dialogs.outcome import example_name
from dialogs.phrases import who
from service.husbandry.herd import Animal, Farm, Person, Sex
from service.husbandry.kinds.instructions import Ask
from service.husbandry.life import is_calf
from service.husbandry.semen import USUAL_AIMS, Bull, Choice, Ranking, Unfit, Wish, rank
from service.messages import Say, say

ROOM = texts.THREE_SEGMENTS

GRADES = ((Decimal(1), "high"), (Decimal("0.3"), "good"), (Decimal("-0.3"), "mean"))
"""From how many standard deviations above the breed's mean a value is called so; Byreline's own choice."""

SIZES = ((3, 3), (3, 2), (3, 1), (2, 2), (2, 1), (1, 2), (1, 1))
"""How many bulls are told, and of each for how many of her aims, the fullest first that fits."""


def answer_semen(
    ask: Ask,
    animal: Animal | None,
    farm: Farm,
    catalogue: Sequence[Bull],
    people: Mapping[str, Person],
    today: date,
    language: str,
) -> str:
    """
    The bulls that suit *animal*, or why none is named, in at most three segments.

    Args:
        ask: Aims in order and the most to pay, as far as told.
        animal: Whom it is for; None: nobody of the herd was named.
        farm: Her kin.
        catalogue: Every bull of the cooperative's list.
        people: Whom to ask where the list does not help.
        today: Farm-local.
        language: sw, en.
    """
    instead = _instead(animal, catalogue, people, today)
    if instead is not None:
        return texts.render(instead, language, room=ROOM)
    if animal is None:
        how = say("semen.how", name=example_name(farm)), say("semen.can_name")
        return texts.compose(*how, language=language, room=ROOM)
    wish = Wish(ask.aims or USUAL_AIMS, ask.price)
    ranking = rank(animal, list(farm.animals.values()), catalogue, wish, today)
    if not ranking.choices:
        says = [say("semen.none", name=animal.name), *_left_out(ranking, every=True)]
        return texts.compose(*says, say("semen.ask", who=_who(people)), language=language, room=ROOM)
    ways = (_ranked(ask, wish, animal, ranking, size, language) for size in SIZES)
    return texts.first_that_fits(*ways, language=language, room=ROOM)


def _who(people: Mapping[str, Person]) -> Say:
    return who(people, "technician")


def _instead(
    animal: Animal | None, catalogue: Sequence[Bull], people: Mapping[str, Person], today: date
) -> Say | None:
    """What is said where no bull can be chosen, whatever is wanted of him."""
    if not catalogue:
        return say("semen.no_list", who=_who(people))
    if animal is not None and animal.sex is Sex.MALE:
        return say("semen.male", name=animal.name)
    if animal is not None and is_calf(animal, today):
        return say("semen.calf", name=animal.name)
    return None


def _ranked(
    ask: Ask, wish: Wish, animal: Animal, ranking: Ranking, size: tuple[int, int], language: str
) -> tuple[Say, ...]:
    """As many of the bulls, each with as many of his merits, as *size* says, and what it rests on."""
    bulls, merits = size
    aims = ", ".join(texts.render(say(f"semen.aim.{aim}"), language) for aim in wish.aims)
    says = [say("semen.in_calf", name=animal.name)] if animal.in_calf else []
    head = "semen.head" if wish.price is None else "semen.head_price"
    says.append(say(head, name=animal.name, aims=aims, price=wish.price))
    listed = enumerate(ranking.choices[:bulls], 1)
    says += [_chosen(number, choice, merits, language) for number, choice in listed]
    says += [*_left_out(ranking), _kin(animal, ranking), say("semen.rests_on")]
    if not ask.aims:
        says.append(say("semen.usual_aims", name=animal.name, aims=aims))
    return (*says, say("semen.yours"))


def _chosen(number: int, choice: Choice, merits: int, language: str) -> Say:
    bull = choice.bull
    told = (texts.render(_merit(aim, value), language) for aim, value in choice.merits[:merits])
    values = {"number": number, "bull": bull.name, "code": bull.code, "breed": bull.breed}
    values |= {"price": bull.price, "merits": ", ".join(told)}
    near = choice.inbreeding.coefficient
    if not near:
        return Say("semen.bull", values)
    percent = (Decimal(100 * near.numerator) / near.denominator).quantize(Decimal("0.1"))
    return Say("semen.bull_kin", {**values, "percent": percent})


def _merit(aim: str, value: Decimal | None) -> Say:
    return say("semen.merit", aim=say(f"semen.aim.{aim}"), grade=say(f"semen.grade.{grade(value)}"))


def grade(value: Decimal | None) -> str:
    """How a shrunk breeding value is called: ``high``, ``good``, ``mean``, ``low``, ``unknown``."""
    if value is None:
        return "unknown"
    return next((name for least, name in GRADES if value >= least), "low")


def _left_out(ranking: Ranking, *, every: bool = False) -> Iterator[Say]:
    """How many bulls were left out for what matters to her; *every* reason where none is left."""
    for why in Unfit:
        count = ranking.left_out.get(why, 0)
        if count and (every or why in (Unfit.TOO_NEAR, Unfit.HARD_CALVING)):
            yield say(f"semen.left_out.{why}", count=count)


def _kin(animal: Animal, ranking: Ranking) -> Say:
    """That kin is checked by the record alone; of a cow whose sire it has not, what to mind."""
    if animal.sire is None:
        return say("semen.sire_unknown", name=animal.name)
    bound = any(choice.inbreeding.lower_bound for choice in ranking.choices)
    return say("semen.kin_lower_bound" if bound else "semen.kin_known")
