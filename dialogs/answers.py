"""Answers to questions that list something: at most three segments, no item cut in half."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from datetime import date, datetime
from decimal import Decimal

from dialogs import texts
from dialogs.confirm.herd import described, work_name
from dialogs.holding import half_day, milking
from dialogs.outcome import EXAMPLE, due_on
from dialogs.phrases import summary, who
from dialogs.values import day
from dialogs.work import Item, line
from service.husbandry.fertility import Fertility
from service.husbandry.forms import EVERY_ANIMAL, Entry
from service.husbandry.herd import Animal, Farm, Person
from service.husbandry.holds import drug_hold, meat_hold
from service.husbandry.lactation_so_far import Lactation
from service.husbandry.life import gives_milk, status
from service.husbandry.task import Task, day_of
from service.husbandry.wood import Peak
from service.messages import Say, say

ROOM = texts.THREE_SEGMENTS


def listed(head: Say, lines: Sequence[str], language: str, *, tail: Say | None = None) -> str:
    """*head*, as many of *lines* as fit, how many more there are, and *tail* where there is room."""
    first = texts.render(head, language)
    for count in range(len(lines), -1, -1):
        shown = [*lines[:count]]
        if count < len(lines):
            shown.append(texts.render(say("answer.more", count=len(lines) - count), language))
        text = f"{first} {'; '.join(shown)}."
        if texts.fits(text, ROOM):
            return _with_tail(text, tail, language)
    return first


def _with_tail(text: str, tail: Say | None, language: str) -> str:
    if tail is None:
        return text
    longer = f"{text} {texts.at_level(tail, language, 0)}"
    return longer if texts.fits(longer, ROOM) else text


def _state(animal: Animal, today: date) -> Say:
    sex = None if animal.sex is None else animal.sex.value
    return described(sex, status(animal, today).value)


def answer_herd(farm: Farm, today: date, language: str) -> str:
    """The animals present, in the order of entering, each with what it is."""
    present = farm.present
    if not present:
        return texts.render(say("answer.herd_empty"), language)
    lines = [f"{animal.name} {_herd_words(animal, today, language)}" for animal in present]
    return listed(say("answer.herd", count=len(present)), lines, language)


def _herd_words(animal: Animal, today: date, language: str) -> str:
    says = [_state(animal, today)]
    due = due_on(animal)
    if animal.in_calf:
        says.append(say("answer.animal.in_calf"))
        if due is not None:
            says.append(say("answer.animal.due", on=due))
    if gives_milk(animal) and drug_hold(animal, today) is not None:
        says.append(say("answer.herd.held"))
    return ", ".join(texts.render(one, language) for one in says)


def answer_tasks(items: Sequence[Item], now: datetime, language: str) -> str:
    """The open work, numbered as in *items*."""
    if not items:
        return texts.render(say("answer.tasks_none"), language)
    lines = [
        f"{number} {texts.at_level(line(item, now, weekday=False), language, 0)}"
        for number, item in enumerate(items, 1)
    ]
    return listed(say("answer.tasks"), lines, language, tail=say("answer.tasks_end"))


def answer_animal(
    animal: Animal,
    tasks: Sequence[Task],
    farm: Farm,
    now: datetime,
    language: str,
    *,
    breeding: Fertility | None = None,
) -> str:
    """What is known of one animal, how she breeds, and the work open for it."""
    known = [*_known(animal, now.date()), *_breeds(animal, breeding, now.date())]
    lines = [texts.render(one, language) for one in known]
    head = say("plain", words=f"{animal.name}:")
    return listed(head, lines, language, tail=_next_work(animal, tasks, language))


def _known(animal: Animal, today: date) -> list[Say]:
    says = [_state(animal, today)]
    if animal.left_on is not None:
        return [*says, say("answer.animal.gone", on=animal.left_on)]
    if animal.born is not None:
        says.append(say("answer.animal.born", on=animal.born))
    if animal.calved_on is not None:
        says.append(say("answer.animal.calved", on=animal.calved_on))
    says += _pregnancy(animal)
    return [*says, *_held(animal, today)]


def _breeds(animal: Animal, breeding: Fertility | None, today: date) -> list[Say]:
    """Days open, services, from calf to calf."""
    if breeding is None or not animal.present:
        return []
    says = _open(animal, breeding, today)
    if breeding.repeats:
        says.append(say("answer.animal.repeats", count=breeding.services))
    elif breeding.services > 1:
        says.append(say("answer.animal.services", count=breeding.services))
    between = breeding.next_interval or breeding.interval
    return [*says, say("answer.animal.interval", days=between)] if between is not None else says


def _open(animal: Animal, breeding: Fertility, today: date) -> list[Say]:
    days, by = breeding.open_days, breeding.conceive_by
    if days is None:
        return []
    if animal.in_calf:
        return [say("answer.animal.held_after", days=days)]
    if by is not None and by >= today:
        return [say("answer.animal.open_by", days=days, on=by)]
    return [say("answer.animal.open", days=days)]


def _held(animal: Animal, today: date) -> list[Say]:
    says = []
    milk, meat = drug_hold(animal, today) if gives_milk(animal) else None, meat_hold(animal, today)
    if milk is not None:
        known = milk.first is not None
        first = milking(milk.first) if milk.first is not None else None
        says.append(say("answer.animal.held" if known else "answer.animal.held_unknown", milking=first))
    if meat is not None and meat.first is not None:
        says.append(say("answer.animal.meat_held", milking=half_day(meat.first)))
    elif meat is not None:
        says.append(say("answer.animal.meat_unknown"))
    return says


def _pregnancy(animal: Animal) -> list[Say]:
    says = []
    if animal.served is not None:
        says.append(say("answer.animal.served", on=animal.served.on))
    if animal.in_calf:
        says.append(say("answer.animal.in_calf"))
    elif animal.served is not None:
        says.append(say("answer.animal.unchecked"))
    elif animal.check is not None and animal.check.result == "empty":
        says.append(say("answer.animal.empty"))
    due = due_on(animal) if animal.in_calf else None
    if due is not None:
        says.append(say("answer.animal.due", on=due))
    if animal.dried_on is not None:
        says.append(say("answer.animal.dry", on=animal.dried_on))
    return says


def _next_work(animal: Animal, tasks: Sequence[Task], language: str) -> Say | None:
    """The next three things to do for it, with their days."""
    mine = sorted((t for t in tasks if t.key.animal == animal.id), key=lambda task: day_of(task.due))
    phrases = [
        f"{texts.render(work_name(task.key.task, task.key.disease), language)} "
        f"{day(day_of(task.due), language)}"
        for task in mine[:3]
    ]
    return say("answer.animal.next", what=", ".join(phrases)) if phrases else None


def answer_call(people: Mapping[str, Person], language: str) -> str:
    """Whom to call, by what they are."""
    known = [role for role in ("vet", "technician", "other", "office") if role in people]
    if not known:
        return texts.render(say("answer.call_none"), language)
    lines = [
        texts.render(say(f"answer.call_{role}", who=_name_and_number(people[role])), language)
        for role in known
    ]
    return listed(say("answer.call"), lines, language)


def _name_and_number(person: Person) -> Say:
    if person.name is None and person.phone is not None:
        return say("number", phone=person.phone)
    return who({person.role: person}, person.role)


def answer_milk(
    name: str | None,
    rows: Sequence[tuple[date, str, Decimal]],
    language: str,
    *,
    lactation: Lactation | None = None,
) -> str:
    """Milk by day, latest first, with the sum; *name* None: the herd's. Then her *lactation*."""
    whose = (name or EVERY_ANIMAL,)
    if not rows:
        return texts.render(say("answer.milk_none", names=whose, name=name or EXAMPLE), language)
    by_day: dict[date, Decimal] = {}
    for on, _, litres in rows:
        by_day[on] = by_day.get(on, Decimal(0)) + litres
    lines = [
        texts.render(say("answer.milk_row", when=on, litres=by_day[on]), language)
        for on in sorted(by_day, reverse=True)
    ]
    total = say("answer.milk_total", litres=sum(by_day.values(), Decimal(0)))
    text = listed(say("answer.milk", names=whose), lines, language, tail=total)
    for more in () if lactation is None else _lactation(lactation):
        text = _with_tail(text, more, language)
    return text


def _lactation(lactation: Lactation) -> Iterator[Say]:
    """What she gave and will give since she calved, and when most."""
    told = {"on": lactation.calved_on, "litres": lactation.litres, "count": lactation.days}
    ended = lactation.whole == lactation.litres
    if ended:
        yield Say("answer.milk_ended", told)
    else:
        yield Say("answer.milk_so_far", {**told, "litres_high": lactation.whole, "error": lactation.error})
    if isinstance(lactation.shape, Peak):
        gave, day = lactation.shape.milk, round(lactation.shape.t)
        yield say("answer.milk_peak", gave=_tenth(gave), days=day)
    elif lactation.shape is not None:
        yield say("answer.milk_level", gave=_tenth(lactation.shape.milk))


def _tenth(litres: float) -> Decimal:
    return Decimal(litres).quantize(Decimal("0.1"))


def answer_entries(
    entries: Sequence[Entry], language: str, tellers: Sequence[str | None] | None = None
) -> str:
    """The latest tellings, each with its day; *tellers*: of each, who told it if not the one who asks."""
    if not entries:
        return texts.render(say("answer.nothing"), language)
    told = zip(entries, tellers or [None] * len(entries), strict=True)
    lines = [f"{summary(entry, language)} ({by})" if by else summary(entry, language) for entry, by in told]
    return listed(say("answer.entries"), lines, language)
