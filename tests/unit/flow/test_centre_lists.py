"""The centre's lists: right lines are written once, wrong ones are named, corrected ones replace."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest
import sqlalchemy as sa

from dialogs.grammar.place import Place
from service.flow.centre import month_of
from service.flow.centre_lists import Row, Wrong, load_centre, load_pay
from service.husbandry.centre_pay import OFFICE
from service.husbandry.herd import Farm
from service.husbandry.kinds.trade import Delivery, MilkPay
from service.husbandry.units import Money
from service.records import farms, ledger, tables, texts
from service.records.base import Store
from service.records.ledger import Book
from tests.unit.husbandry.book import PHONE, at

NOW = at("2026-04-02 10:00")
MARCH = date(2026, 3, 1)
PAY = {
    "phone": "0621234567",
    "month": "2026-03",
    "litres": "352",
    "amount": "387,200",
    "deductions": "pumba:20000",
}


@pytest.fixture
def farm_id(store: Store) -> int:
    def begin(conn: sa.Connection) -> int:
        farms.ensure_cooperative(conn)
        cooperative = farms.cooperative_of(conn, "")
        return farms.join(
            conn, phone=PHONE, name="Rehema", language="sw", cooperative_id=cooperative, now=NOW
        )

    return store.write(begin)


def days(store: Store, *rows: Row) -> list[Wrong]:
    return store.write(lambda conn: load_centre(conn, farms.cooperative_of(conn, ""), rows, Place(), NOW))


def pay(store: Store, *rows: Row) -> list[Wrong]:
    return store.write(lambda conn: load_pay(conn, farms.cooperative_of(conn, ""), rows, Place(), NOW))


def day(on: str, litres: str, **more: str) -> Row:
    return {"phone": PHONE, "date": on, "session": "", "litres": litres, **more}


def entries(store: Store) -> int:
    return store.read(lambda conn: conn.execute(sa.select(sa.func.count(tables.Entry.id))).scalar_one())


def deliver(store: Store, farm_id: int, **litres: int) -> None:
    """Deliveries told by the farm: ``d9=12`` on 9 March."""

    def tell(conn: sa.Connection) -> None:
        texts.take(
            conn, id="told", sender=PHONE, recipient="", text="", sent_at=NOW, arrived_at=NOW, channel="sms"
        )
        told = [
            Delivery(on=MARCH.replace(day=int(on[1:])), litres=Decimal(amount))
            for on, amount in litres.items()
        ]
        told.append(Delivery(on=MARCH, litres=Decimal(99), rejected=True))
        ledger.append(conn, Book(farm_id, 0, (), Farm()), told, text_id="told", told_by=PHONE, told_at=NOW)

    store.write(tell)


def test_days_missing_from_the_list_are_found(store: Store, farm_id: int) -> None:
    deliver(store, farm_id, d8=12, d9=13, d10=11)
    assert days(store, day("2026-03-08", "12"), day("2026-03-10", "11")) == []
    assert pay(store, {**PAY, "litres": "23"}) == []
    found = store.read(lambda conn: month_of(conn, farm_id, MARCH))
    assert found.compared.delivered == 36
    assert found.compared.missing == (date(2026, 3, 9),)
    assert found.compared.short == 13


def test_two_sessions_of_a_day_are_its_sum_and_a_later_list_replaces_them(store: Store, farm_id: int) -> None:
    deliver(store, farm_id, d8=20)
    morning, evening = (
        day("2026-03-08", amount, session=s) for amount, s in (("12", "morning"), ("7", "EVENING"))
    )
    assert days(store, morning, evening) == []
    assert store.read(lambda conn: month_of(conn, farm_id, MARCH)).compared.less == {
        date(2026, 3, 8): Decimal(1)
    }
    assert days(store, {**evening, "litres": "8"}) == []
    assert store.read(lambda conn: month_of(conn, farm_id, MARCH)).compared.less == {}


def test_pay_is_kept_as_a_record_of_the_farm_told_by_the_office(store: Store, farm_id: int) -> None:
    assert pay(store, PAY) == []
    (paid,) = store.read(lambda conn: month_of(conn, farm_id, MARCH)).pays
    assert (paid.amount, paid.litres) == (Money.of(387200, "TZS"), Decimal(352))
    assert [(one.what, one.amount) for one in paid.deductions] == [("pumba", Money.of(20000, "TZS"))]
    (row,) = store.read(lambda conn: conn.execute(sa.select(tables.Entry.told_by, tables.TextIn.channel).join(
        tables.TextIn, tables.TextIn.id == tables.Entry.text_id)).all())  # fmt: skip
    assert tuple(row) == (OFFICE, "list")


def test_the_same_list_twice_changes_nothing(store: Store, farm_id: int) -> None:
    pay(store, PAY)
    pay(store, PAY)
    assert entries(store) == 1


def test_a_corrected_line_goes_in_the_place_of_the_first_and_back_again(store: Store, farm_id: int) -> None:
    for litres in ("352", "366", "352"):
        assert pay(store, {**PAY, "litres": litres}) == []
        (paid,) = store.read(lambda conn: month_of(conn, farm_id, MARCH)).pays
        assert paid.litres == Decimal(litres)
    assert entries(store) == 3


def test_the_list_goes_over_what_the_farm_told_and_both_stay(store: Store, farm_id: int) -> None:
    deliver(store, farm_id, d8=20)
    told = MilkPay(month=MARCH, litres=Decimal(360), amount=Money.of(396000, "TZS"), on=NOW.date())
    book = Book(farm_id, 0, (), Farm())
    store.write(lambda conn: ledger.append(conn, book, [told], text_id="told", told_by=PHONE, told_at=NOW))
    pay(store, PAY)
    found = store.read(lambda conn: month_of(conn, farm_id, MARCH))
    assert [paid.litres for paid in found.pays] == [Decimal(352)]
    assert [paid.litres for paid in found.told] == [Decimal(360)]


@pytest.mark.parametrize(
    ("row", "wrong"),
    [
        (day("9.3.2026", "12"), "date is not written as 2026-03-09"),
        (day("2026-04-03", "12"), "2026-04-03 is still to come"),
        (day("2026-03-09", "twelve"), "litres twelve is no number from 0 to 100000"),
        (day("2026-03-09", "NaN"), "litres NaN is no number from 0 to 100000"),
        (day("2026-03-09", "12,5"), "litres 12,5 is no number from 0 to 100000"),
        (day("2026-03-09", ""), "neither litres nor kg are given"),
        (day("2026-03-09", "12", kg="12.4"), "litres and kg are both given: one is the other converted"),
        (day("2026-03-09", "12", session="noon"), "session noon is none of morning, midday, evening, day"),
        (
            {**day("2026-03-09", "12"), "phone": "0699999999"},
            "0699999999 is no farm's phone of this cooperative",
        ),
        ({**day("2026-03-09", "12"), "phone": ""}, "an empty phone is no farm's phone of this cooperative"),
    ],
)
def test_a_wrong_line_of_days_is_named_and_the_others_are_written(
    store: Store, farm_id: int, row: Row, wrong: str
) -> None:
    assert days(store, row, day("2026-03-08", "12")) == [(2, wrong)]
    assert store.read(lambda conn: month_of(conn, farm_id, MARCH)).compared.has_list


@pytest.mark.parametrize(
    ("change", "wrong"),
    [
        ({"month": "March"}, "month is not written as 2026-03"),
        ({"month": "2026-05"}, "2026-05 is still to come"),
        ({"amount": ""}, "amount left empty is no sum"),
        ({"amount": "-5"}, "amount -5 is no sum"),
        ({"deductions": "pumba"}, "deduction pumba is not written as feed:20000"),
        ({"deductions": "pumba:x"}, "deduction pumba x is no sum"),
    ],
)
def test_a_wrong_line_of_pay_is_named_and_not_written(
    store: Store, farm_id: int, change: Row, wrong: str
) -> None:
    assert pay(store, {**PAY, **change}) == [(2, wrong)]
    assert entries(store) == 0


def test_a_second_line_about_the_same_is_wrong(store: Store, farm_id: int) -> None:
    assert pay(store, PAY, {**PAY, "litres": "366"}) == [(3, "2026-03 of this farm is in line 2 already")]
    assert days(store, day("2026-03-08", "12"), day("2026-03-08", "13")) == [
        (3, "2026-03-08 day of this farm is in line 2 already"),
    ]  # fmt: skip


def test_a_blank_line_is_passed_over(store: Store, farm_id: int) -> None:
    assert days(store, {}, {"phone": " "}, day("2026-03-08", "12")) == []
