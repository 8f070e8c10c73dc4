"""
Every table, declared once.

``entries`` is the truth and append-only: an undo marks. ``animals`` and ``animal_names`` give animals an
identity that outlives renaming and undoing; ``tasks`` is what the plan derived from the entries;
``texts_in`` and ``texts_out`` are every word that came and went; ``conversations`` and ``menu_sessions``
are what is being talked of. What a cooperative keeps for its farms (people to call, drugs with their
label's holding times, local words, campaigns, the centre's lists) and what its staff should look at
(``concerns``) have tables of their own. All moments are UTC.
"""

from __future__ import annotations

from datetime import date, datetime
from decimal import Decimal
from typing import Any

import sqlalchemy as sa
from sqlalchemy.orm import Mapped, mapped_column

from service.records.base import Base, Exact, UtcDateTime


def _key() -> Any:
    return mapped_column(sa.Integer, primary_key=True, autoincrement=True)


def _farm(*, needed: bool = True) -> Any:
    return mapped_column(sa.ForeignKey("farms.id"), nullable=not needed)


class Cooperative(Base):
    """
    Who runs the line. ``number``: the number texts come to; null takes every other number.

    ``words_version`` counts the changes of its local words.
    """

    __tablename__ = "cooperatives"

    id: Mapped[int] = _key()
    name: Mapped[str]
    number: Mapped[str | None] = mapped_column(unique=True)
    intervals: Mapped[dict[str, int]] = mapped_column(sa.JSON, default=dict)
    words_version: Mapped[int] = mapped_column(default=0, server_default="0")


class PersonToCall(Base):
    """A person of the cooperative whom its farms can call, in the order of ``rank``."""

    __tablename__ = "people_to_call"

    id: Mapped[int] = _key()
    cooperative_id: Mapped[int] = mapped_column(sa.ForeignKey("cooperatives.id"), index=True)
    ward: Mapped[str | None]  # null: every ward
    role: Mapped[str]  # vet, technician, office
    name: Mapped[str | None]
    phone: Mapped[str]
    rank: Mapped[int] = mapped_column(default=0)


class Farm(Base):
    """
    ``version`` counts what was told or undone; ``replan_at``: when its plan next changes by time alone;
    ``reminded_on``: the farm-local day of its latest day-level reminders; ``advise_at``: when a topic of
    advice may next come by itself.
    """

    __tablename__ = "farms"

    id: Mapped[int] = _key()
    cooperative_id: Mapped[int] = mapped_column(sa.ForeignKey("cooperatives.id"), index=True)
    name: Mapped[str]
    ward: Mapped[str | None]
    version: Mapped[int] = mapped_column(default=0)
    pin: Mapped[str | None]  # hashed; null: none is asked for
    pin_misses: Mapped[int] = mapped_column(default=0, server_default="0")  # wrong ones in a row
    pin_locked_until: Mapped[datetime | None] = mapped_column(UtcDateTime)
    replan_at: Mapped[datetime | None] = mapped_column(UtcDateTime)
    reminded_on: Mapped[date | None]
    advise_at: Mapped[datetime | None] = mapped_column(UtcDateTime)
    created_at: Mapped[datetime] = mapped_column(UtcDateTime)

    __table_args__ = (
        sa.Index(
            "ix_farms_replan_at",
            "replan_at",
            sqlite_where=sa.text("replan_at IS NOT NULL"),
            postgresql_where=sa.text("replan_at IS NOT NULL"),
        ),
        sa.Index(
            "ix_farms_advise_at",
            "advise_at",
            sqlite_where=sa.text("advise_at IS NOT NULL"),
            postgresql_where=sa.text("advise_at IS NOT NULL"),
        ),
    )


class Person(Base):
    """
    A phone and whom it speaks for: several phones a farm, one farm a phone.

    ``may``: what the owner allows a helper beyond recording (money, remove, people). ``earlier``: numbers
    that staff have moved to this one; what they told is this phone's.
    """

    __tablename__ = "people"

    phone: Mapped[str] = mapped_column(primary_key=True)  # E.164
    farm_id: Mapped[int] = _farm()
    role: Mapped[str]  # owner, helper
    name: Mapped[str | None]
    may: Mapped[list[str]] = mapped_column(sa.JSON, default=list, server_default=sa.text("'[]'"))
    earlier: Mapped[list[str]] = mapped_column(sa.JSON, default=list, server_default=sa.text("'[]'"))
    language: Mapped[str]  # sw, en
    state: Mapped[str]  # active, stopped
    joined_at: Mapped[datetime] = mapped_column(UtcDateTime)

    __table_args__ = (sa.Index("ix_people_farm_id", "farm_id"),)


class Invitation(Base):
    """A phone that an owner has asked to help; gone once it is answered."""

    __tablename__ = "invitations"

    phone: Mapped[str] = mapped_column(primary_key=True)  # E.164
    farm_id: Mapped[int] = _farm()
    name: Mapped[str | None]
    invited_at: Mapped[datetime] = mapped_column(UtcDateTime)


class Reporter(Base):
    """A technician's phone that a farm has named as its own: it may report services for that farm."""

    __tablename__ = "reporters"

    phone: Mapped[str] = mapped_column(primary_key=True)  # E.164
    farm_id: Mapped[int] = mapped_column(sa.ForeignKey("farms.id"), primary_key=True)


class Animal(Base):
    """An identity, no more: what is known of the animal is in its entries."""

    __tablename__ = "animals"

    id: Mapped[int] = _key()
    farm_id: Mapped[int] = _farm()

    __table_args__ = (sa.Index("ix_animals_farm_id", "farm_id"),)


class AnimalName(Base):
    """A name an animal has gone by; told again after an undo, the name finds its animal."""

    __tablename__ = "animal_names"

    animal_id: Mapped[int] = mapped_column(sa.ForeignKey("animals.id"), primary_key=True)
    name: Mapped[str] = mapped_column(primary_key=True)


class Entry(Base):
    """One thing told. ``payload`` is the contract's JSON object; ``animals`` whom it is about."""

    __tablename__ = "entries"

    id: Mapped[int] = _key()
    farm_id: Mapped[int] = _farm()
    kind: Mapped[str]
    happened_on: Mapped[date]
    payload: Mapped[dict[str, Any]] = mapped_column(sa.JSON)
    animals: Mapped[list[int]] = mapped_column(sa.JSON)
    calves: Mapped[list[int]] = mapped_column(sa.JSON)
    text_id: Mapped[str] = mapped_column(sa.ForeignKey("texts_in.id"), index=True)
    told_by: Mapped[str]
    told_at: Mapped[datetime] = mapped_column(UtcDateTime)
    undone_at: Mapped[datetime | None] = mapped_column(UtcDateTime)
    undone_by: Mapped[str | None] = mapped_column(sa.ForeignKey("texts_in.id"))
    undone_why: Mapped[str | None]  # as the farmer gave it, where it was asked for

    __table_args__ = (
        sa.Index("ix_entries_farm_id_kind_happened_on", "farm_id", "kind", "happened_on"),
        sa.Index("ix_entries_told_by_id", "told_by", "id"),
    )


class Task(Base):
    """``due`` and ``until``: ISO days or moments; ``remind_at``: when it wants to be told of, if it does."""

    __tablename__ = "tasks"

    id: Mapped[int] = _key()
    farm_id: Mapped[int] = _farm()
    task: Mapped[str]
    animal_id: Mapped[int | None] = mapped_column(sa.ForeignKey("animals.id"))
    disease: Mapped[str | None]
    due: Mapped[str]
    until: Mapped[str | None]
    since: Mapped[date]
    about: Mapped[bool]
    state: Mapped[str]  # open, dropped
    why: Mapped[str | None]
    planned_at: Mapped[datetime] = mapped_column(UtcDateTime)
    dropped_at: Mapped[datetime | None] = mapped_column(UtcDateTime)
    remind_at: Mapped[datetime | None] = mapped_column(UtcDateTime)
    reminders: Mapped[int] = mapped_column(default=0)  # how often it was told of

    __table_args__ = (
        sa.Index(
            "ix_tasks_farm_id",
            "farm_id",
            sqlite_where=sa.text("state = 'open'"),
            postgresql_where=sa.text("state = 'open'"),
        ),
        sa.Index(
            "ix_tasks_remind_at",
            "remind_at",
            sqlite_where=sa.text("state = 'open' AND remind_at IS NOT NULL"),
            postgresql_where=sa.text("state = 'open' AND remind_at IS NOT NULL"),
        ),
    )


class TextIn(Base):
    """
    A text that came, or an input to the menu.

    States: handled; failed (kept, apologised for, for staff to see); stranger (of an unknown phone, wiped
    after 30 days); unanswerable (of a short code or a name, for staff to see).
    """

    __tablename__ = "texts_in"

    id: Mapped[str] = mapped_column(primary_key=True)  # the gateway's
    sender: Mapped[str]
    recipient: Mapped[str]
    text: Mapped[str]
    sent_at: Mapped[datetime] = mapped_column(UtcDateTime)
    arrived_at: Mapped[datetime] = mapped_column(UtcDateTime)
    channel: Mapped[str]  # sms, menu, list (a line of a list that the cooperative loaded)
    farm_id: Mapped[int | None] = _farm(needed=False)
    state: Mapped[str]

    __table_args__ = (
        sa.Index("ix_texts_in_farm_id", "farm_id"),
        sa.Index(
            "ix_texts_in_arrived_at",
            "arrived_at",
            sqlite_where=sa.text("state <> 'handled'"),
            postgresql_where=sa.text("state <> 'handled'"),
        ),
    )


class TextOut(Base):
    """
    A text to go out, in the order of ``seq``.

    States: waiting; accepted (by the gateway); delivered; failed (refused for good, or the network said
    so); expired (its window passed, or the network gave up). A lease keeps two senders from one text.
    """

    __tablename__ = "texts_out"

    seq: Mapped[int] = _key()
    id: Mapped[str] = mapped_column(unique=True)  # ours, told to the gateway
    phone: Mapped[str]
    text: Mapped[str]
    purpose: Mapped[str]
    farm_id: Mapped[int | None] = _farm(needed=False)
    task_ids: Mapped[list[int]] = mapped_column(sa.JSON)
    items: Mapped[list[list[int]]] = mapped_column(sa.JSON)
    in_reply_to: Mapped[str | None] = mapped_column(sa.ForeignKey("texts_in.id"))
    created_at: Mapped[datetime] = mapped_column(UtcDateTime)
    state: Mapped[str]
    attempts: Mapped[int] = mapped_column(default=0)
    next_try_at: Mapped[datetime | None] = mapped_column(UtcDateTime)
    leased_until: Mapped[datetime | None] = mapped_column(UtcDateTime)
    not_after: Mapped[datetime | None] = mapped_column(UtcDateTime)
    accepted_at: Mapped[datetime | None] = mapped_column(UtcDateTime)

    __table_args__ = (
        sa.Index("ix_texts_out_farm_id", "farm_id"),
        sa.Index(
            "ix_texts_out_phone",
            "phone",
            sqlite_where=sa.text("state = 'waiting'"),
            postgresql_where=sa.text("state = 'waiting'"),
        ),
        sa.Index(
            "ix_texts_out_next_try_at",
            "next_try_at",
            sqlite_where=sa.text("state = 'waiting'"),
            postgresql_where=sa.text("state = 'waiting'"),
        ),
    )


class Conversation(Base):
    """
    What a phone is being talked to about.

    ``questions``: what was asked and waits for an answer, oldest first, as ``dialogs`` stores it;
    ``listed``: the task ids under each number of the latest numbered list it was shown.
    """

    __tablename__ = "conversations"

    phone: Mapped[str] = mapped_column(primary_key=True)
    questions: Mapped[list[Any]] = mapped_column(sa.JSON)
    asked_at: Mapped[datetime | None] = mapped_column(UtcDateTime)
    listed: Mapped[list[list[int]]] = mapped_column(sa.JSON)
    listed_at: Mapped[datetime | None] = mapped_column(UtcDateTime)
    called: Mapped[list[str]] = mapped_column(sa.JSON)  # roles and phones named in the last text, in order


class MenuSession(Base):
    """One menu session; the last step's screen is kept, so that a repeated step gets it again."""

    __tablename__ = "menu_sessions"

    session: Mapped[str] = mapped_column(primary_key=True)
    phone: Mapped[str]
    step: Mapped[int]
    typed: Mapped[str | None]
    screen: Mapped[str]
    more: Mapped[bool]
    state: Mapped[dict[str, Any]] = mapped_column(sa.JSON)
    updated_at: Mapped[datetime] = mapped_column(UtcDateTime)


class Product(Base):
    """
    A drug as its label has it, on the list that the cooperative's vet keeps.

    ``milk_days`` and ``meat_days``: holding times in days (hours rounded up); 0 is a label that says none,
    null one that does not say. ``dry_cow``: put in at drying off; its milk days count from calving too.
    """

    __tablename__ = "products"

    cooperative_id: Mapped[int] = mapped_column(sa.ForeignKey("cooperatives.id"), primary_key=True)
    name: Mapped[str] = mapped_column(primary_key=True)  # case folded, as farmers write it
    milk_days: Mapped[int | None]
    meat_days: Mapped[int | None]
    dry_cow: Mapped[bool] = mapped_column(default=False)
    updated_at: Mapped[datetime] = mapped_column(UtcDateTime)


class LocalWord(Base):
    """A word of the region: under which group and meaning of the word lists it is read."""

    __tablename__ = "local_words"

    cooperative_id: Mapped[int] = mapped_column(sa.ForeignKey("cooperatives.id"), primary_key=True)
    group: Mapped[str] = mapped_column(primary_key=True)
    meaning: Mapped[str] = mapped_column(primary_key=True)
    word: Mapped[str] = mapped_column(primary_key=True)


class Concern(Base):
    """
    Something that staff should look at.

    ``about``: what there is to know of it, JSON. ``mark`` keeps one thing from being raised twice.
    """

    __tablename__ = "concerns"

    id: Mapped[int] = _key()
    cooperative_id: Mapped[int] = mapped_column(sa.ForeignKey("cooperatives.id"))
    farm_id: Mapped[int | None] = _farm(needed=False)
    kind: Mapped[str]
    about: Mapped[dict[str, Any]] = mapped_column(sa.JSON)
    mark: Mapped[str]
    raised_at: Mapped[datetime] = mapped_column(UtcDateTime)
    settled_at: Mapped[datetime | None] = mapped_column(UtcDateTime)

    __table_args__ = (
        sa.UniqueConstraint("cooperative_id", "kind", "mark"),
        sa.Index("ix_concerns_cooperative_id_raised_at", "cooperative_id", "raised_at"),
    )


class Campaign(Base):
    """
    A vaccination that the cooperative plans. ``on`` null: willing farms are still gathered for a day.

    ``ward`` null: every ward.
    """

    __tablename__ = "campaigns"

    id: Mapped[int] = _key()
    cooperative_id: Mapped[int] = mapped_column(sa.ForeignKey("cooperatives.id"), index=True)
    disease: Mapped[str]
    ward: Mapped[str | None]
    on: Mapped[date | None]
    hour: Mapped[int | None]
    place: Mapped[str | None]
    announced_at: Mapped[datetime] = mapped_column(UtcDateTime)


class Willing(Base):
    """A farm's answer to a campaign. ``animals``: how many it would bring; 0 is a no."""

    __tablename__ = "willing"

    campaign_id: Mapped[int] = mapped_column(sa.ForeignKey("campaigns.id"), primary_key=True)
    farm_id: Mapped[int] = mapped_column(sa.ForeignKey("farms.id"), primary_key=True)
    animals: Mapped[int]
    answered_at: Mapped[datetime] = mapped_column(UtcDateTime)


class CentreDay(Base):
    """Milk of a farm that the centre's list has for a day, in litres or kilograms as listed."""

    __tablename__ = "centre_days"

    farm_id: Mapped[int] = mapped_column(sa.ForeignKey("farms.id"), primary_key=True)
    on: Mapped[date] = mapped_column(primary_key=True)
    session: Mapped[str] = mapped_column(primary_key=True)  # day, where the list has one sum
    litres: Mapped[Decimal | None] = mapped_column(Exact)
    kg: Mapped[Decimal | None] = mapped_column(Exact)


class Semen(Base):
    """
    A bull of the cooperative's catalogue, with the straws in its stock.

    ``values``: trait -> standardised breeding value as a decimal string; a trait not published is left out.
    """

    __tablename__ = "semen"

    cooperative_id: Mapped[int] = mapped_column(sa.ForeignKey("cooperatives.id"), primary_key=True)
    code: Mapped[str] = mapped_column(primary_key=True)
    bull: Mapped[str]
    breed: Mapped[str]
    values: Mapped[dict[str, str]] = mapped_column(sa.JSON)
    reliability: Mapped[int]  # percent
    price: Mapped[Decimal] = mapped_column(Exact)  # of a straw
    currency: Mapped[str]
    straws: Mapped[int]
    sire: Mapped[str | None]
    dam: Mapped[str | None]
    maternal_grandsire: Mapped[str | None]


class Advice(Base):
    """A cooperative's own wording of a topic of advice, without its caution, which stays."""

    __tablename__ = "advice"

    cooperative_id: Mapped[int] = mapped_column(sa.ForeignKey("cooperatives.id"), primary_key=True)
    topic: Mapped[str] = mapped_column(primary_key=True)
    language: Mapped[str] = mapped_column(primary_key=True)
    text: Mapped[str]


class AdviceSent(Base):
    """A topic of advice that has come to a farm by itself, which happens once; ``on``: farm-local."""

    __tablename__ = "advice_sent"

    farm_id: Mapped[int] = mapped_column(sa.ForeignKey("farms.id"), primary_key=True)
    topic: Mapped[str] = mapped_column(primary_key=True)
    on: Mapped[date]
