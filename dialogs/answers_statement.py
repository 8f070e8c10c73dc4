"""The month's or the year's statement, and what one cow earned, in at most three segments."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from decimal import ROUND_HALF_UP, Decimal

from dialogs import texts
from dialogs.answers import ROOM
from dialogs.answers_money import parts_of
from service.husbandry.herd import Animal
from service.husbandry.statement import Statement
from service.husbandry.statement_figures import ANIMAL, APART, FEED, CowFigures, Figures
from service.husbandry.units import Money
from service.messages import Say, say

SORTS_NAMED = 3
"""Sorts of cost and of income, and cows, named one by one; the rest are one sum."""

LEFT_OUT = frozenset({"statement.kept_back", "statement.unpriced", "statement.put_aside"})
"""What a text with no room for all does without: the printed page has it."""

SHILLING = Decimal(1)

Lines = Iterator[Say]

# --- the farm's -------------------------------------------------------------------------------------


def answer_statement(
    found: Statement,
    before: Statement | None,
    names: Mapping[int, str],
    language: str,
    *,
    offered: bool = False,
) -> str:
    """
    A month or year: milk, income, costs, what is left and what is not in it; then as much more as fits.

    Args:
        found: The statement.
        before: The month before it, to compare with; None for a year.
        names: Of the cows, by id.
        language: sw, en.
        offered: Whether to say how it comes to be offered each month.
    """
    if found.figures.is_empty:
        return texts.render(say("statement.nothing", when=when(found)), language)
    says = _account(found, language)
    more = (*_days(found.figures), *_notes(found), *_rates(found), *_compared(found, before))
    for line in (*more, *_cows(found, names), *_end(found, offered=offered)):
        if _fits([*says, line], language):
            says.append(line)
    return texts.compose(*says, language=language, room=ROOM)


def _account(found: Statement, language: str) -> list[Say]:
    """Milk, income, costs and what is left: by fewer sorts where long sums leave no room for three."""
    says: list[Say] = []
    for named in (SORTS_NAMED, 1, 0):
        lines = (*_milk(found), *_income(found, named), *_spent(found, named), *_left(found))
        says = [say("statement.head", when=when(found)), *lines]
        if _fits(says, language):
            return says
    return [one for one in says if one.key not in LEFT_OUT]


def _fits(says: Sequence[Say], language: str) -> bool:
    return texts.fits(texts.join(tuple(says), language, 0), ROOM)


def when(found: Statement) -> Say:
    """``Machi 2026``, ``1 hadi 20 Machi``, ``Mwaka 2026 hadi 20 Machi``."""
    if found.is_year:
        key = "statement.year" if found.is_over else "statement.year_to"
        return say(key, year=str(found.first.year), on=found.until)
    if found.is_over:
        return say("statement.month", month=found.first, year=str(found.first.year))
    return say("statement.month_to", window=(found.first, found.until))


def whole(found: Statement, amount: Decimal) -> Money:
    """*amount* in whole shillings, as it is said in a text."""
    return found.money(amount.quantize(SHILLING, ROUND_HALF_UP))


def _milk(found: Statement) -> Lines:
    figures = found.figures
    yield say("statement.made", litres=figures.made) if figures.made else say("statement.made_none")
    if figures.sold:
        yield say("statement.sold", litres=figures.sold, amount=whole(found, _sales(figures)))
    if figures.sales_at_last:
        yield say("statement.at_last", amount=whole(found, figures.sales_at_last))
    if figures.delivered:
        yield from _centre(found)
    if figures.unpriced:
        yield say("statement.unpriced", litres=figures.unpriced)


def _sales(figures: Figures) -> Decimal:
    return figures.sales + figures.sales_at_last


def _centre(found: Statement) -> Lines:
    """What the centre took and paid; what it has not paid for is counted at the last price, and so said."""
    figures = found.figures
    yield say("statement.delivered", litres=figures.delivered)
    if figures.pay:
        yield say("statement.paid", amount=whole(found, figures.pay))
    if figures.awaited:
        yield say("statement.awaited", litres=figures.awaited_litres, amount=whole(found, figures.awaited))


def _income(found: Statement, named: int) -> Lines:
    """Other income, each sort by its name."""
    sorts = {sort: sum_ for sort, sum_ in found.figures.income.items() if sort not in APART and sum_}
    if sorts and named:
        yield say("statement.income", what=_named(sorts, _income_sort, found, named))
    elif sorts:
        yield say("statement.income_sum", amount=whole(found, found.figures.other_income))


def _income_sort(sort: str, amount: Money) -> Say:
    return say(f"income.{sort}", amount=amount)


def _cost_sort(sort: str, amount: Money) -> Say:
    return say(f"cost.{sort}", amount=amount)


def _named(
    sorts: Mapping[str, Decimal], words: Callable[[str, Money], Say], found: Statement, count: int
) -> Say:
    """The *count* largest by name, the rest in one sum."""
    shown = sorted(sorts.items(), key=lambda one: (-one[1], one[0]))
    says = [words(sort, whole(found, sum_)) for sort, sum_ in shown[:count]]
    rest = sum((sum_ for _, sum_ in shown[count:]), Decimal(0))
    return parts_of([*says, *([say("statement.rest", amount=whole(found, rest))] if rest else [])])


def _spent(found: Statement, named: int) -> Lines:
    figures = found.figures
    yield _costs(found, named)
    if figures.put_aside:
        yield say("statement.put_aside", amount=whole(found, figures.put_aside))
    if figures.kept_back:
        yield say("statement.kept_back", amount=whole(found, figures.kept_back))


def _costs(found: Statement, named: int) -> Say:
    figures, sorts = found.figures, found.figures.costs
    if not sorts:
        return say("statement.no_costs")
    if not named:
        return say("statement.cost_sum", amount=whole(found, figures.cost))
    what = _named(sorts, _cost_sort, found, named)
    if len(sorts) == 1:
        return say("statement.one_cost", what=what)
    return say("statement.costs", amount=whole(found, figures.cost), what=what)


def _left(found: Statement) -> Lines:
    left = found.figures.left
    key = "statement.left" if left >= 0 else "statement.short"
    yield say(key, amount=whole(found, abs(left)))


def _days(figures: Figures) -> Lines:
    if figures.missing:
        key = "statement.missing_day" if figures.missing == 1 else "statement.missing"
        yield say(key, days=figures.missing)


def _notes(found: Statement) -> Lines:
    """What is owed and lent, milk not sold, animals: what stands beside the sum."""
    figures = found.figures
    sums = (debt.owed for debt in found.owed.debts)
    owed = sum((sum_.amount for sum_ in sums if sum_.currency == found.currency), Decimal(0))
    if owed:
        yield say("statement.owed", amount=whole(found, owed))
    if found.loan_left is not None:
        yield say("statement.loan_left", amount=whole(found, found.loan_left))
    sold, bought = figures.income.get(ANIMAL, Decimal(0)), figures.spent.get(ANIMAL, Decimal(0))
    if sold:
        yield say("statement.animals_sold", amount=whole(found, sold))
    if bought:
        yield say("statement.animals_bought", amount=whole(found, bought))


def _rates(found: Statement) -> Lines:
    figures = found.figures
    if figures.average_price is not None:
        yield say("statement.price", price=whole(found, figures.average_price))
    if figures.spent.get(FEED) and figures.over_feed > 0:
        yield say("statement.over_feed", amount=whole(found, figures.over_feed))
    if figures.litre_cost is not None and figures.cost:
        yield say("statement.litre_cost", price=whole(found, figures.litre_cost))
    if figures.calves:
        yield say("statement.calves", litres=figures.calves)
    if figures.made and figures.unsold:
        yield say("statement.unsold", litres=figures.unsold)
    if figures.made and figures.not_written:
        yield say("statement.not_written", litres=figures.not_written)
    if figures.turned_back:
        yield say("statement.turned_back", litres=figures.turned_back)


def _compared(found: Statement, before: Statement | None) -> Lines:
    if before is None or before.figures.is_empty:
        return
    left = before.figures.left
    key = "statement.before" if left >= 0 else "statement.before_short"
    yield say(key, month=before.first, litres=before.figures.made, amount=whole(found, abs(left)))


def _cows(found: Statement, names: Mapping[int, str]) -> Lines:
    """The best cows first, by what their milk brought over the feed told for them."""
    cows = [(one, cow) for one, cow in found.figures.cows.items() if cow.earned and one in names]
    if len(cows) < 2:
        return
    shown = sorted(cows, key=lambda one: (-one[1].margin, names[one[0]]))[:SORTS_NAMED]
    says = [say("statement.cow", name=names[one], amount=whole(found, cow.margin)) for one, cow in shown]
    yield say("statement.cows", what=parts_of(says))


def _end(found: Statement, *, offered: bool) -> Lines:
    if offered:
        yield say("statement.each_month")
    if not found.is_year:
        yield say("statement.ask_year", year=str(found.first.year))


# --- one cow's --------------------------------------------------------------------------------------


def answer_cow(found: Statement, animal: Animal | None, language: str) -> str:
    """What one cow's milk was worth and what she ate of it, as far as it was told for her."""
    cow = None if animal is None else found.figures.cows.get(animal.id)
    if animal is None or cow is None:
        name = "" if animal is None else animal.name
        return texts.render(say("statement.cow_nothing", name=name, when=when(found)), language)
    head = say("statement.cow_head", name=animal.name, when=when(found))
    says = [head, *_cow_lines(cow, found)]
    while not _fits(says, language):
        says.pop()
    return texts.compose(*says, language=language, room=ROOM)


def _cow_lines(cow: CowFigures, found: Statement) -> Lines:
    yield say("statement.cow_milk", litres=cow.litres, days=cow.days)
    if not cow.earned and cow.litres:
        yield say("statement.cow_no_price")
    elif cow.litres:
        price = whole(found, cow.earned / cow.litres)
        yield say("statement.cow_earned", amount=whole(found, cow.earned), price=price)
    if cow.fed:
        yield say("statement.cow_fed", amount=whole(found, cow.fed))
    if cow.unpriced_kg:
        yield say("statement.cow_unpriced", kg=cow.unpriced_kg)
    if cow.fed and cow.earned:
        yield say("statement.cow_left", amount=whole(found, cow.margin))
    if cow.earned and cow.days:
        yield say("statement.cow_each_day", amount=whole(found, cow.margin / cow.days))
    unshared = found.figures.unshared_feed
    if unshared:
        yield say("statement.cow_not_in", amount=whole(found, unshared))
    else:
        yield say("statement.cow_no_feed")
