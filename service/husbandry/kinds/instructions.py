"""What a sender wants done, as against what happened: carried out, never kept."""

from dataclasses import dataclass
from datetime import date
from typing import ClassVar

from service.husbandry import forms

TOPICS = (
    "help", "herd", "tasks", "animal", "statement", "milk", "entries", "price", "call", "dose", "mix",
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Instruction(forms.Entry):
    INSTRUCTION: ClassVar[bool] = True
    PLANS: ClassVar[bool] = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Later(Instruction):
    """Tell these again tomorrow; the tasks stay."""

    KIND: ClassVar[str] = "later"

    numbers: tuple[int, ...] = forms.numbers()


@dataclass(frozen=True, slots=True, kw_only=True)
class NoAnswer(Instruction):
    """The person to call did not answer."""

    KIND: ClassVar[str] = "no_answer"


@dataclass(frozen=True, slots=True, kw_only=True)
class Undo(Instruction):
    """Take back the sender's last telling."""

    KIND: ClassVar[str] = "undo"


@dataclass(frozen=True, slots=True, kw_only=True)
class Ask(Instruction):
    """A question; the fields beside ``topic`` belong to one topic each."""

    KIND: ClassVar[str] = "ask"

    topic: str = forms.choice(*TOPICS, needed=True)
    about: str | None = forms.words()
    animal: str | None = forms.words()
    period: str | None = forms.choice("today", "week", "month")
    month: date | None = forms.month()


@dataclass(frozen=True, slots=True, kw_only=True)
class Language(Instruction):
    """Write to this phone in another language."""

    KIND: ClassVar[str] = "language"

    to: str = forms.choice("sw", "en", needed=True)


@dataclass(frozen=True, slots=True, kw_only=True)
class Stop(Instruction):
    """Send nothing unasked to this phone."""

    KIND: ClassVar[str] = "stop"


@dataclass(frozen=True, slots=True, kw_only=True)
class Start(Instruction):
    """Send again."""

    KIND: ClassVar[str] = "start"
