"""
What a question offers for an answer: a likely value that "yes" accepts, or names to choose from by number.

Also which bare answers to a question about a record that stands can be meant for it: that question may
wait for a day, and whatever is texted meanwhile must not end in the record.
"""

from __future__ import annotations

from typing import Any

from dialogs.grammar.answers import read_choice, read_yes_no
from dialogs.reading import Problem
from service.husbandry import forms
from service.husbandry.dairy_accounts import as_price
from service.husbandry.forms import Field, Sort
from service.husbandry.kinds.trade import MilkSale

LONGEST_NAME = 4
"""Words of an answer that can still be a person's name."""

CAN_BE_LEFT = {Sort.MONEY, Sort.WORDS, Sort.MONTH, Sort.DAY}
"""What "no" is no value of: said to a question that needs no answer, it ends it."""

NO_NAME = {"asante", "ahsante", "thanks", "thank", "sijui", "habari", "hello", "salamu", "shikamoo", "know"}
"""Words of thanks, greeting and not knowing: no buyer's name."""


def is_kept(question: Problem) -> bool:
    """Whether *question* is about a record that stands without the answer."""
    return bool(question.ask.values.get("kept"))


def offered(question: Problem) -> dict[str, Any]:
    """The values that *question* offers, by field; {} where it offers none."""
    stored = question.ask.values.get("offer")
    if not stored or question.draft is None:
        return {}
    return forms.load_values(question.draft.kind, stored)


def accepted(text: str, question: Problem, field: Field) -> Any:
    """The offered value, where *text* is a plain yes; else None."""
    if any(character.isdigit() for character in text) or not read_yes_no(text):
        return None
    return offered(question).get(field.name)


def declined(text: str, question: Problem, field: Field) -> bool:
    """Whether *text* says no to a question that needs no answer."""
    return is_kept(question) and field.sort in CAN_BE_LEFT and read_yes_no(text) is False


def chosen(text: str, question: Problem, field: Field) -> str:
    """*text*, or the name that it chooses from those listed."""
    if field.sort is not Sort.WORDS or not question.options:
        return text
    choice = read_choice(text, question.options)
    return text if choice is None else question.options[choice]


def likely(value: Any, text: str, question: Problem, field: Field) -> Any:
    """*value* as it is meant, where the bare *text* can be meant for *question*; else None."""
    if value is None or not is_kept(question):
        return value
    match field.sort:
        case Sort.MONEY if field.name == "price" and _of_milk(question):
            return as_price(value, question.draft.values.get("litres")) if question.draft else None
        case Sort.MONTH:
            return None if text.strip().isdigit() else value
        case Sort.WORDS:
            return value if value in question.options or _is_name(value) else None
    return value


def _of_milk(question: Problem) -> bool:
    return question.draft is not None and question.draft.kind is MilkSale


def _is_name(told: str) -> bool:
    words = told.casefold().replace(",", " ").split()
    plain = told.replace("'", "").replace(".", "").replace(" ", "").isalpha()
    return plain and len(words) <= LONGEST_NAME and not NO_NAME & set(words) and read_yes_no(told) is None
