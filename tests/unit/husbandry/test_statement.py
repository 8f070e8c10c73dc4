"""A month worked out by hand, figure by figure, and the trade sheet's own month."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest

from service.husbandry.centre_pay import OFFICE
from service.husbandry.forms import Entry
from service.husbandry.kinds.calving import Calving
from service.husbandry.kinds.herd_book import AnimalSale, NewAnimal
from service.husbandry.kinds.one_day import DryingOff
from service.husbandry.kinds.service import Service
from service.husbandry.kinds.trade import Delivery, Feeding, MilkSale, OtherIncome, Payment
from service.husbandry.statement import Statement, month, year
from service.husbandry.statement_figures import Figures
from service.husbandry.units import Money
from tests.unit.husbandry.ledger_page import MARCH, books, march, milk, paid, spent, told, tzs

D = Decimal
FEBRUARY = date(2026, 2, 1)

THE_MONTH: tuple[Entry, ...] = (
    milk("Neema", "6", march(2), "morning"),
    milk("Neema", "4", march(2), "evening"),
    milk("Zawadi", "8", march(2)),
    # In one sum and by name: the morning is 12, not 18; the evening 5.
    milk("*", "12", march(3), "morning"),
    milk("Neema", "6", march(3), "morning"),
    milk("Neema", "5", march(3), "evening"),
    # The day in one sum holds Neema's.
    milk("*", "20", march(4)),
    milk("Neema", "9", march(4)),
    MilkSale(litres=D(10), price=tzs(1200), buyer="Juma", credit=True, on=march(2)),
    MilkSale(litres=D(5), buyer="Juma", on=march(3)),
    Payment(buyer="Juma", amount=tzs(5000), on=march(3)),
    Delivery(litres=D(10), on=march(3)),
    Delivery(kg=D("10.3"), on=march(4)),
    Delivery(litres=D(2), rejected=True, on=march(4)),
    paid(FEBRUARY, 10500, "10", march(3)),
    OtherIncome(what="mbolea", amount=tzs(15000), on=march(5)),
    OtherIncome(what="mkopo", amount=tzs(200000), on=march(5)),
    spent("pumba", 35000, march(2), kg="70"),
    spent("mfanyakazi", 10000, march(31)),
    spent("dawa ya kupe", 8000, march(6)),
    spent("mkopo", 20000, march(7)),
    Service(animal="Neema", on=march(8), method="ai", cost=tzs(25000)),
    AnimalSale(animal="Zawadi calf", amount=tzs(150000), on=march(9)),
    NewAnimal(name="Tausi", sex="female", price=tzs(900000), on=march(9)),
    Feeding(animals=("Neema",), feed="pumba", kg=D(6), on=march(2)),
    Feeding(animals=("Neema", "Zawadi"), feed="pumba", kg=D(4), on=march(3)),
    Feeding(animals=("*",), feed="pumba", kg=D(9), on=march(4)),
    Feeding(animals=("Zawadi calf",), feed="maziwa", kg=D("2.06"), on=march(3)),
)
THE_PAY = paid(MARCH, 22000, "20", date(2026, 4, 4), chakula=4000, mkopo=5000)


def of_march(*entries: Entry, today: date = date(2026, 4, 5)) -> Statement:
    return month(books(told(entries), today, begun=march(2)), MARCH)


def test_milk_is_counted_once_however_it_was_told() -> None:
    figures = of_march(*THE_MONTH, THE_PAY).figures
    assert figures.made == D(10 + 8) + D(12 + 5) + D(20)
    assert {cow: one.litres for cow, one in figures.cows.items()} == {1: D(30), 2: D(8)}
    assert (figures.days, figures.missing) == (3, 27)  # the 5th to the 31st
    assert figures.sold == 15
    assert (figures.delivered, figures.turned_back) == (D(20), D(2))  # 10.3 kg are 10 l
    assert figures.calves == 2
    assert figures.unsold == 55 - 15 - 20 - 2
    assert figures.not_written == 0


def test_a_month_whose_pay_is_told_comes_out_as_worked_by_hand() -> None:
    found = of_march(*THE_MONTH, THE_PAY)
    figures = found.figures
    assert (figures.sales, figures.sales_at_last, figures.pay, figures.awaited) == (12000, 6000, 22000, 0)
    assert figures.milk_income == 40000
    assert figures.other_income == 15000
    assert list(figures.costs.items()) == [
        ("feed", 39000), ("service", 25000), ("wages", 10000), ("drugs", 8000),
    ]  # fmt: skip
    assert (figures.cost, figures.kept_back, figures.put_aside) == (82000, 9000, 25000)
    assert figures.left == 40000 + 15000 - 82000 - 25000
    assert figures.over_feed == 1000
    assert found.money(figures.average_price or D(0)) == tzs("1142.86")  # 40,000 for 35 l
    assert found.money(figures.litre_cost or D(0)) == tzs("1490.91")  # 82,000 for 55 l
    assert (figures.income["animal"], figures.spent["animal"]) == (150000, 900000)


def test_what_is_owed_and_left_of_a_loan_is_of_today() -> None:
    found = of_march(*THE_MONTH, THE_PAY)
    assert [(debt.buyer, debt.owed) for debt in found.owed.debts] == [("Juma", tzs(7000))]
    assert found.loan_left == 200000 - 20000 - 5000


def test_a_cow_earns_by_the_average_price_and_eats_by_the_price_of_a_kilogram() -> None:
    found = of_march(*THE_MONTH, THE_PAY)
    neema, zawadi = found.figures.cows[1], found.figures.cows[2]
    assert found.money(neema.earned) == tzs("34285.71")  # 30 l x 40,000/35
    assert neema.fed == 8 * 500
    assert found.money(neema.margin / neema.days) == tzs("10095.24")
    assert found.money(zawadi.earned) == tzs("9142.86")
    assert zawadi.fed == 2 * 500
    assert found.figures.unshared_feed == 39000 - 5000


def test_before_the_pay_is_told_deliveries_count_at_the_centres_last_price() -> None:
    figures = of_march(*THE_MONTH).figures
    assert (figures.pay, figures.awaited, figures.awaited_litres) == (0, 20 * 1050, 20)
    assert figures.milk_income == 12000 + 6000 + 21000
    assert figures.costs["feed"] == 35000


def test_without_any_pay_deliveries_count_at_the_last_price_of_a_sale() -> None:
    entries = [one for one in THE_MONTH if one.KIND != "milk_pay"]
    assert of_march(*entries).figures.awaited == 20 * 1200


def test_milk_of_which_no_price_is_known_is_in_no_sum() -> None:
    figures = of_march(MilkSale(litres=D(4), on=march(2)), Delivery(litres=D(6), on=march(3))).figures
    assert (figures.milk_income, figures.unpriced, figures.average_price) == (0, 10, None)


def test_the_centres_list_goes_over_what_the_farm_told() -> None:
    own = told((*THE_MONTH, THE_PAY))
    listed = told((paid(MARCH, 21000, "19", date(2026, 4, 3)),), by=OFFICE, first_id=99)
    figures = month(books((*own, *listed), date(2026, 4, 5), march(2)), MARCH).figures
    assert (figures.pay, figures.awaited, figures.kept_back) == (21000, 0, 0)
    assert figures.delivered == 20  # handed in, whatever was paid for


def test_a_pay_that_names_no_month_is_for_the_month_before() -> None:
    unnamed = replace(THE_PAY, month=None)
    assert of_march(*THE_MONTH, unnamed).figures == of_march(*THE_MONTH, THE_PAY).figures


def test_a_month_under_way_counts_its_days_up_to_yesterday() -> None:
    found = of_march(*THE_MONTH[:3], today=march(10))
    assert (found.until, found.is_over) == (march(10), False)
    assert found.figures.missing == 7  # the 3rd to the 9th


def test_days_on_which_every_cow_was_dry_are_not_missing() -> None:
    dried = [DryingOff(animal="Neema", on=march(5)), DryingOff(animal="Zawadi", on=march(10))]
    milked = [milk("Neema", "6", march(2)), milk("Zawadi", "8", march(3))]
    assert of_march(*milked, *dried).figures.missing == 6  # the 4th to the 9th
    assert of_march(*milked, dried[0]).figures.missing == 28  # Zawadi could still be milked
    calved = Calving(animal="Neema", calves=(), on=march(30))
    assert of_march(*milked, *dried, calved).figures.missing == 8  # ... and the 30th and 31st
    sold = AnimalSale(animal="Zawadi", amount=tzs(500000), on=march(7))
    assert of_march(*milked, dried[0], sold).figures.missing == 3  # the 4th to the 6th


def test_sums_in_another_currency_stand_beside() -> None:
    dollars = Money.of(20, "USD")
    found = of_march(OtherIncome(what="mbolea", amount=dollars, on=march(2)), *THE_MONTH, THE_PAY)
    assert found.figures == of_march(*THE_MONTH, THE_PAY).figures
    assert found.elsewhere == (dollars,)


def test_nothing_told_is_an_empty_statement() -> None:
    assert of_march().figures == Figures()
    assert of_march().figures.is_empty
    assert not year(books((), date(2026, 1, 20)), 2026).figures.cows


def test_a_year_under_way_ends_today() -> None:
    found = year(books(told(THE_MONTH), date(2026, 1, 20)), 2026)
    assert (found.first, found.last, found.until) == (date(2026, 1, 1), date(2026, 12, 31), date(2026, 1, 20))
    assert found.is_year


@pytest.mark.parametrize(
    ("figure", "expected"),
    [("milk_income", 13500), ("cost", 7900), ("left", 5600), ("over_feed", 7600)],
)
def test_the_worked_month_of_the_trade_sheet(figure: str, expected: int) -> None:
    """One cow, 300 l at 45, invented there; variable costs 7,900, gross margin 5,600, over all feed 7,600."""
    entries = (
        *(milk("Neema", "10", march(day)) for day in range(2, 32)),
        MilkSale(litres=D(300), price=tzs(45), on=march(31)),
        spent("dairy meal", 3600, march(2)),
        spent("majani", 2000, march(3)),
        spent("madini", 300, march(4)),
        spent("vet", 800, march(5)),
        spent("dawa ya kupe", 200, march(6)),
        spent("kibarua", 1000, march(7)),
    )
    figures = of_march(*entries).figures
    assert getattr(figures, figure) == expected
    assert round(figures.litre_cost or D(0), 2) == D("26.33")
    assert round(figures.over_feed / figures.made, 2) == D("25.33")
    assert round(figures.over_feed / figures.days, 2) == D("253.33")
