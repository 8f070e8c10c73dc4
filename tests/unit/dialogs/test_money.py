"""Replies and answers about money and the centre: one segment, three at most, with the longest names."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Any

import pytest

from dialogs import replies, texts
from dialogs.answers_money import answer_owed, answer_pay, answer_price, is_feed
from dialogs.confirm.trade import REASONS, reason_of, reconciled
from dialogs.engine import step
from dialogs.grammar.place import Place
from dialogs.questions import dump_questions, load_questions
from dialogs.reading import Problem
from dialogs.texts import compose
from dialogs.turn import Scene
from service import sms
from service.flow.kept import kept
from service.husbandry.dairy_accounts import accounts
from service.husbandry.forms import Deduction, Entry
from service.husbandry.herd import Herd
from service.husbandry.kinds.trade import Delivery, Expense, MilkPay, MilkSale, Payment
from service.husbandry.reconcile import reconcile
from service.husbandry.units import Money
from tests.unit.dialogs.farmhouse import LONG, Farmhouse
from tests.unit.husbandry.book import at, day

BOTH = pytest.mark.parametrize("language", ["sw", "en"])
MARCH = date(2026, 3, 1)
SEPTEMBER = date(2025, 9, 1)
BIG = Money.of("1234567.50", "TZS")
BUYER = "Mama Asha wa Sokoni Kuu la Mbeya"


def tzs(amount: int) -> Money:
    return Money.of(amount, "TZS")


def loads(*days: int, month: date = MARCH, litres: int = 12) -> dict[date, Decimal]:
    return {month.replace(day=number): Decimal(litres) for number in days}


def said(found: Any, language: str) -> str:
    return compose(*reconciled(found), language=language)


# --- the centre ------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("words", "reason"),
    [
        ("yamechacha", "sour"), ("YAMEGANDA", "sour"), ("sour", "sour"), ("failed the alcohol test", "sour"),
        ("yametiwa maji", "water"), ("low density", "water"), ("added water", "water"),
        ("mabonge", "clots"), ("CMT", "clots"), ("blood in it", "clots"), ("damu", "clots"),
        ("yananuka", "smell"), ("bad smell", "smell"), ("uchafu", "dirt"), ("dirty", "dirt"), ("nzi", "dirt"),
        ("antibiotic", "drug"), ("yana dawa", "drug"), ("too late", None), (None, None),
    ],
)  # fmt: skip
def test_what_a_centre_says_has_a_reason(words: str | None, reason: str | None) -> None:
    assert reason_of(words) == reason


@BOTH
@pytest.mark.parametrize("reason", [*(words[0] for words in REASONS.values()), "other", None])
def test_milk_turned_back_is_answered_with_care_in_one_segment(reason: str | None, language: str) -> None:
    farm = Farmhouse(*LONG, now="2026-09-28 19:00")
    load = Delivery(
        on=day("2026-08-28"), litres=Decimal("1234.75"), session="evening", rejected=True, reason=reason
    )
    text = replies.reply(farm.tell(load), None, language)
    care = texts.at_level(texts_care(reason, farm), language, texts.LAST_LEVEL)
    assert care.strip() in text
    assert sms.septets(text) <= texts.SEGMENT


def texts_care(reason: str | None, farm: Farmhouse) -> Any:
    key = reason_of(reason) or "other"
    return replies.say(f"rejected.{key}", name=LONG[0])


@BOTH
def test_days_missing_from_the_list_are_named(language: str) -> None:
    delivered = loads(8, 9, 10, 17, 23)
    found = reconcile(delivered, loads(8, 10), Decimal(24))
    assert (
        said(found, language)
        == {
            "sw": "Umepeleka lita 60, umelipwa lita 24. Orodha ya kituo haina 9, 17, 23 Machi.",
            "en": "Delivered 60 l, paid for 24 l. Missing from the centre's list: 9, 17, 23 March.",
        }[language]
    )


@BOTH
@pytest.mark.parametrize("listed", [(), (1, 2), (1,), tuple(range(1, 31))])
@pytest.mark.parametrize("paid", ["1234.75", "360", "0", None])
def test_a_pay_and_its_comparison_fit_one_segment(
    listed: tuple[int, ...], paid: str | None, language: str
) -> None:
    delivered = loads(*range(1, 31), month=SEPTEMBER)
    found = reconcile(delivered, loads(*listed, month=SEPTEMBER), None if paid is None else Decimal(paid))
    farm = Farmhouse(*LONG)
    outcome = farm.tell(MilkPay(month=SEPTEMBER, amount=BIG, on=farm.now.date()))
    told = outcome.recorded[0]
    more = farm.outcome(recorded=(told,), follows={told.id: reconciled(found)})
    text = replies.reply(more, None, language)
    assert sms.septets(text) <= texts.SEGMENT
    assert all(compose(one, language=language, last=0) in text for one in reconciled(found))


@BOTH
def test_a_month_at_the_centre_has_every_figure(language: str) -> None:
    kept_back = (Deduction("pumba", tzs(20000)), Deduction("dawa", tzs(5000)))
    pay = MilkPay(
        month=MARCH, litres=Decimal(352), amount=tzs(387200), deductions=kept_back, on=day("2026-04-02")
    )
    found = reconcile(loads(*range(1, 31)) | loads(31, litres=6), {}, Decimal(352))
    text = answer_pay(MARCH, [pay], [], found, language)
    for figure in ("366", "352", "14", "387,200/=", "1,100/=", "20,000/=", "5,000/=", "362,200/="):
        assert figure in text
    assert "pumba" in text


@BOTH
def test_the_fullest_month_takes_three_segments_at_most(language: str) -> None:
    kept_back = tuple(Deduction("makato ya ushirika wa wafugaji", BIG) for _ in range(12))
    pay = MilkPay(
        month=SEPTEMBER, kg=Decimal("1234.75"), amount=BIG, deductions=kept_back, on=day("2026-04-02")
    )
    found = reconcile(
        loads(*range(1, 31), month=SEPTEMBER),
        loads(*range(1, 9), month=SEPTEMBER, litres=5),
        Decimal("9.75"),
        unit="kg",
        converted=True,
    )
    text = answer_pay(SEPTEMBER, [pay], [pay], found, language)
    assert sms.septets(text) <= texts.THREE_SEGMENTS
    assert "1,234,567.5/=" in text


# --- who owes, prices ------------------------------------------------------------------------------


@BOTH
def test_who_owes_names_each_with_sum_and_day(language: str) -> None:
    told = [
        MilkSale(on=day("2026-03-03"), buyer="Mama Asha", amount=tzs(24000), credit=True),
        MilkSale(on=day("2026-03-05"), litres=Decimal(3), credit=True),
        Payment(on=day("2026-03-09"), amount=tzs(1000)),
    ]
    assert (
        answer_owed(accounts(told, day("2026-03-31")), language)
        == {
            "sw": "Unawadai: Mama Asha 24,000/= tangu 3 Machi; mnunuzi bila jina lita 3 bila bei "
            "tangu 5 Machi; jumla 24,000/=; 1,000/= ya 9 Machi: aliyelipa hajulikani. "
            "Akilipa tuma mfano: MAMA ASHA AMELIPA 5000",
            "en": "They owe you: Mama Asha 24,000/= since 3 Mar; a buyer without a name 3 l without a price "
            "since 5 Mar; in all 24,000/=; 1,000/= of 9 Mar: not known who paid. "
            "When paid send for example: MAMA ASHA PAID 5000",
        }[language]
    )


@BOTH
def test_many_debtors_take_three_segments_at_most(language: str) -> None:
    told = [
        MilkSale(on=day("2026-03-03"), buyer=f"{BUYER} {number}", amount=BIG, credit=True)
        for number in range(40)
    ]
    text = answer_owed(accounts(told, day("2026-03-31")), language)
    assert sms.septets(text) <= texts.THREE_SEGMENTS


@BOTH
def test_prices_are_told_by_buyer_and_by_feed(language: str) -> None:
    sold = [MilkSale(on=day("2026-03-03"), buyer="Juma", litres=Decimal(5), price=tzs(1200))]
    bought = [
        Expense(on=day("2026-03-04"), what="pumba", amount=tzs(20000)),
        Expense(on=day("2026-03-05"), what="chanjo", amount=tzs(5000)),
    ]
    text = answer_price(sold, bought, language)
    assert "1,200/=" in text
    assert "pumba 20,000/=" in text
    assert "chanjo" not in text
    assert sms.septets(answer_price([], [], language)) <= texts.SEGMENT


def test_feed_is_known_by_its_name() -> None:
    assert [is_feed(what) for what in ("pumba ya mahindi", "hay", "dawa ya minyoo", "mshahara")] == [
        True, True, False, False,
    ]  # fmt: skip


# --- what may be answered --------------------------------------------------------------------------

SCENE = Scene(herd=Herd(()), now=at("2026-03-02 07:00"), language="en", place=Place())
SALE = MilkSale(on=day("2026-03-02"), litres=Decimal(10), buyer="Juma")


def answered(question: Problem, text: str) -> tuple[Entry, ...]:
    """What *text* tells in answer to *question*, kept and read back as between two texts."""
    asked = load_questions(dump_questions([question]), asked_at=SCENE.now, now=SCENE.now)
    turn = step(text, asked, SCENE)
    assert turn.amends == (7 if turn.entries else None)
    return turn.entries


def price(text: str, **more: Any) -> Money | None:
    entries = answered(kept(SALE, field="price", amends=7, **more), text)
    return entries[0].price if entries and isinstance(entries[0], MilkSale) else None


@pytest.mark.parametrize(
    ("text", "sum_"),
    [
        ("yes", 1200), ("NDIYO", 1200), ("sawa", 1200), ("1300", 1300), ("ndiyo 1300", 1300), ("13000", 1300),
        ("elfu moja na mia tatu", 1300), ("6", None), ("hapana", None), ("asante", None),
    ],
)  # fmt: skip
def test_a_price_is_told_by_yes_or_by_a_sum(text: str, sum_: int | None) -> None:
    offer = {"price": tzs(1200), "amount": tzs(12000)}
    assert price(text, offer=offer) == (None if sum_ is None else tzs(sum_))


def test_yes_is_no_price_where_none_is_offered() -> None:
    assert price("yes") is None


@pytest.mark.parametrize(
    ("text", "buyer"),
    [("1", "Mama Asha"), ("juma", "Juma"), ("Baba Kito", "Baba Kito"), ("thanks", None), ("sijui", None)],
)
def test_a_payer_is_chosen_by_number_or_named(text: str, buyer: str | None) -> None:
    payment = Payment(on=day("2026-03-02"), amount=tzs(5000))
    entries = answered(kept(payment, field="buyer", amends=7, options=("Mama Asha", "Juma")), text)
    assert [getattr(entry, "buyer", None) for entry in entries] == ([] if buyer is None else [buyer])


@pytest.mark.parametrize(
    ("text", "month"), [("yes", date(2026, 2, 1)), ("JANUARI", date(2026, 1, 1)), ("6", None)]
)
def test_a_month_is_told_by_yes_or_by_its_name(text: str, month: date | None) -> None:
    pay = MilkPay(on=day("2026-03-02"), amount=tzs(5000))
    entries = answered(kept(pay, field="month", amends=7, offer={"month": date(2026, 2, 1)}), text)
    assert [getattr(entry, "month", None) for entry in entries] == ([] if month is None else [month])
