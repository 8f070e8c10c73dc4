"""What every use case needs, and the account it gives of what happened."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import datetime
from zoneinfo import ZoneInfo

import sqlalchemy as sa

from dialogs.grammar.place import Place
from dialogs.grammar.words import LocalWords
from service.clock import farm_time
from service.husbandry import forms
from service.husbandry.herd import Farm, Person, Told
from service.husbandry.task import Why, iso
from service.messages import Event
from service.records import lists
from service.records.farms import Caller
from service.records.ledger import Books
from service.records.plan import Kept


@dataclass(frozen=True, slots=True)
class House:
    """The farm books and local words kept in memory; the place whose clock, money and numbers are used."""

    books: Books
    place: Place
    zone: ZoneInfo
    words: dict[int, tuple[int, LocalWords]] = field(default_factory=dict)  # cooperative -> as of a version

    def place_of(self, conn: sa.Connection, caller: Caller) -> Place:
        """The place with the words of *caller*'s cooperative."""
        if not caller.words_version:
            return self.place
        version, words = self.words.get(caller.cooperative_id, (0, LocalWords()))
        if version != caller.words_version:
            words = LocalWords(rows=lists.words(conn, caller.cooperative_id))
            self.words[caller.cooperative_id] = caller.words_version, words
        return replace(self.place, local=words)

    def local(self, now: datetime) -> datetime:
        """*now* on the farm's clock."""
        return farm_time(now, self.zone)


@dataclass(slots=True)
class Account:
    """What happened in one transaction, in order, as the contract's log tells it."""

    at: datetime  # farm-local
    events: list[Event] = field(default_factory=list)

    def _add(self, event: str, **keys: object) -> None:
        self.events.append({"at": self.at.isoformat(timespec="minutes"), "event": event, **keys})

    def received(self, phone: str, text: str, channel: str) -> None:
        self._add("received", phone=phone, text=text, channel=channel)

    def recorded(self, farm_id: int, told: Sequence[Told]) -> None:
        for one in told:
            self._add("recorded", farm=farm_id, entry={**forms.dump(one.entry), "id": one.id})

    def undone(self, farm_id: int, told: Sequence[Told]) -> None:
        for one in told:
            self._add("undone", farm=farm_id, entry_id=one.id)

    def planned(self, farm: Farm, kept: Sequence[Kept]) -> None:
        for one in kept:
            key = one.task.key
            disease = {} if key.disease is None else {"disease": key.disease}
            self._add(
                "planned",
                farm=one.farm_id,
                task=key.task,
                animal=None if key.animal is None else farm.animals[key.animal].name,
                due=iso(one.task.due),
                until=None if one.task.until is None else iso(one.task.until),
                task_id=one.id,
                **disease,
            )

    def dropped(self, dropped: Sequence[tuple[int, Why]]) -> None:
        for task_id, why in dropped:
            self._add("dropped", task_id=task_id, why=why.value)


def whom_to_call(farm: Farm, cooperative: Sequence[Person]) -> Mapping[str, Person]:
    """Role -> person: the farm's own, else the first of the cooperative's list."""
    first: dict[str, Person] = {}
    for person in (*farm.people.values(), *cooperative):
        if person.phone is not None:
            first.setdefault(person.role, person)
    return first
