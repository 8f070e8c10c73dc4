"""A farm's statement as a page of plain text, to be printed at the office."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from decimal import ROUND_HALF_UP, Decimal

from dialogs import texts
from dialogs.answers_statement import when
from dialogs.values import money as written
from dialogs.values import number
from service.husbandry.statement import Statement
from service.husbandry.statement_figures import ANIMAL, APART, LOAN, SAVINGS
from service.messages import Say, say

WIDTH = 62
"""Characters of a line: a page of a common printer in its common type."""

Row = tuple[str, str]


def page(
    found: Statement, before: Statement | None, farm: str, names: Mapping[int, str], language: str
) -> str:
    """
    All of a statement, one figure a line.

    Args:
        found: The statement.
        before: The month before, shown beside; None for a year.
        farm: Whose it is.
        names: Of the cows, by id.
        language: sw, en.
    """
    lines = [farm, _said(say("page.title", when=when(found)), language), ""]
    for key, rows in _sections(found, names, language):
        shown = [row for row in rows if row[1]]
        if shown:
            lines += [_said(say(key), language), *(f"  {_row(*row)}" for row in shown), ""]
    if before is not None and not before.figures.is_empty:
        lines += [_said(say("page.before"), language)]
        lines += [f"  {_row(*row)}" for row in _in_short(before, language)] + [""]
    return "\n".join([*lines, _said(say("page.not_in"), language)])


def _said(words: Say, language: str) -> str:
    return texts.at_level(words, language, 0)


def _row(what: str, value: str) -> str:
    return f"{what} {'.' * max(WIDTH - len(what) - len(value) - 4, 2)} {value}"


def _sections(
    found: Statement, names: Mapping[int, str], language: str
) -> Iterator[tuple[str, Iterator[Row]]]:
    yield "page.milk", _milk(found, language)
    yield "page.income", _income(found, language)
    yield "page.costs", _costs(found, language)
    yield "page.outcome", _outcome(found, language)
    yield "page.apart", _apart(found, language)
    yield "page.cows", _cows(found, names, language)


def _label(key: str, language: str) -> str:
    return _said(say(f"page.{key}"), language)


def _litres(litres: Decimal) -> str:
    return f"{number(litres.quantize(Decimal('0.01'), ROUND_HALF_UP))} l" if litres else ""


def _sum(found: Statement, amount: Decimal | None) -> str:
    return written(found.money(amount)) if amount else ""


def _milk(found: Statement, language: str) -> Iterator[Row]:
    figures = found.figures
    for key in ("made", "sold", "delivered", "calves", "unsold", "not_written", "turned_back", "unpriced"):
        yield _label(key, language), _litres(getattr(figures, key))
    yield _label("days", language), str(figures.days or "")
    yield _label("missing", language), str(figures.missing or "")


def _income(found: Statement, language: str) -> Iterator[Row]:
    figures = found.figures
    for key in ("sales", "sales_at_last", "pay", "awaited"):
        yield _label(key, language), _sum(found, getattr(figures, key))
    for sort, amount in sorted(figures.income.items()):
        if sort not in APART:
            yield _label(f"income_{sort}", language), _sum(found, amount)
    yield _label("all", language), _sum(found, figures.milk_income + figures.other_income)


def _costs(found: Statement, language: str) -> Iterator[Row]:
    for sort, amount in found.figures.costs.items():
        yield _label(f"cost_{sort}", language), _sum(found, amount)
    yield _label("all", language), _sum(found, found.figures.cost)
    yield _label("kept_back", language), _sum(found, found.figures.kept_back)


def _outcome(found: Statement, language: str) -> Iterator[Row]:
    figures = found.figures
    yield _label("left", language), _sum(found, figures.left)
    yield _label("over_feed", language), _sum(found, figures.over_feed)
    yield _label("price", language), _sum(found, figures.average_price)
    yield _label("litre_cost", language), _sum(found, figures.litre_cost)


def _apart(found: Statement, language: str) -> Iterator[Row]:
    """What is in no sum above, save what was paid back and saved, which is not in the hand."""
    income, spent = found.figures.income, found.figures.spent
    yield _label("animals_sold", language), _sum(found, income.get(ANIMAL))
    yield _label("animals_bought", language), _sum(found, spent.get(ANIMAL))
    yield _label("loan_taken", language), _sum(found, income.get(LOAN))
    yield _label("loan_repaid", language), _sum(found, spent.get(LOAN))
    yield _label("saved", language), _sum(found, spent.get(SAVINGS))
    if found.loan_left is not None:
        yield _label("loan_left", language), written(found.money(found.loan_left))
    for debt in found.owed.debts:
        yield f"{_label('owed', language)} {debt.buyer or ''}".rstrip(), written(debt.owed)
    for elsewhere in found.elsewhere:
        yield _label("elsewhere", language), written(elsewhere)


def _cows(found: Statement, names: Mapping[int, str], language: str) -> Iterator[Row]:
    cows = [(names[one], cow) for one, cow in found.figures.cows.items() if one in names]
    for name, cow in sorted(cows, key=lambda one: (-one[1].margin, one[0])):
        yield name, _said(say("page.cow", litres=cow.litres, amount=found.money(cow.margin)), language)
    yield _label("unshared", language), _sum(found, found.figures.unshared_feed)


def _in_short(before: Statement, language: str) -> Iterator[Row]:
    yield _label("made", language), _litres(before.figures.made) or "0 l"
    yield _label("left", language), written(before.money(before.figures.left))
