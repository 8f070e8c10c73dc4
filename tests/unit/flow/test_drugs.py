"""Drugs told by text: the vet's list, the label told later, and a hold that is lifted."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from decimal import Decimal

import pytest
import sqlalchemy as sa

from service.bootstrap import Runtime, build
from service.husbandry.kinds.health import Treatment
from service.messages import InboundText, Kept
from service.records import ledger, products, tables
from service.settings import Settings
from tests.support.clocks import SetClock

PHONE = "+255621234567"
NOW = datetime(2026, 3, 2, 6, 0, tzinfo=UTC)


class Farm:
    """One farm with two cows in milk, and what its phone is answered."""

    def __init__(self, url: str) -> None:
        self.clock = SetClock(NOW)
        self.runtime: Runtime = build(Settings.from_env({"BYRELINE_DATABASE_URL": url}), clock=self.clock)
        self.runtime.register_farm(PHONE, "Rehema", "en")
        self.number = 0
        self.tell("New cow Neema, milking. New cow Tausi, milking")

    def tell(self, text: str) -> str:
        """The reply to *text*."""
        self.number += 1
        self.clock.move(timedelta(seconds=1))
        sent = InboundText(
            id=f"t{self.number}", sender=PHONE, recipient="15000", text=text, sent_at=self.clock.now()
        )
        assert self.runtime.sms(sent) is Kept.KEPT
        replies = sa.select(tables.TextOut.text).where(
            tables.TextOut.in_reply_to == sent.id, tables.TextOut.purpose == "reply"
        )
        return str(self.runtime.store.read(lambda conn: conn.execute(replies).scalar_one()))

    def lists(self, name: str, milk: int | None, meat: int | None = None, *, dry_cow: bool = False) -> None:
        row = {"cooperative_id": 1, "name": name, "milk_days": milk, "meat_days": meat, "dry_cow": dry_cow,
               "updated_at": NOW}  # fmt: skip
        self.runtime.store.write(lambda conn: conn.execute(sa.insert(tables.Product), row))

    @property
    def drugs(self) -> list[Treatment]:
        """The treatments that stand."""
        told = self.runtime.store.read(lambda conn: ledger.recent(conn, 1, limit=20))
        return [one.entry for one in told if isinstance(one.entry, Treatment)]

    @property
    def days(self) -> list[tuple[Decimal | None, Decimal | None]]:
        return [(drug.milk_hold_days, drug.meat_hold_days) for drug in self.drugs]

    def why(self) -> list[str | None]:
        rows = sa.select(tables.Entry.undone_why).where(
            tables.Entry.undone_at.is_not(None), tables.Entry.kind == "treatment"
        )
        return list(self.runtime.store.read(lambda conn: conn.execute(rows).scalars()))


@pytest.fixture
def farm(database_url: str) -> Iterator[Farm]:
    made = Farm(database_url)
    yield made
    made.runtime.close()


# --- the vet's list ----------------------------------------------------------------------------------


def test_a_drug_of_the_list_gets_the_days_of_its_label(farm: Farm) -> None:
    farm.lists("penicillin", 4, 28)
    reply = farm.tell("Neema treated with Penicillin")
    assert "7 Mar morning" in reply
    assert "vet's list" in reply
    assert farm.days == [(Decimal(4), Decimal(28))]


def test_what_she_reads_out_goes_over_the_list_where_it_is_longer(farm: Farm) -> None:
    farm.lists("penicillin", 4)
    reply = farm.tell("Neema treated with penicillin, no milk for 6 days")
    assert "9 Mar morning" in reply
    assert "vet's list" not in reply
    assert farm.days == [(Decimal(6), None)]


def test_where_she_reads_out_less_the_list_stands_until_she_confirms(farm: Farm) -> None:
    farm.lists("penicillin", 7)
    reply = farm.tell("Neema treated with penicillin, no milk for 4 days")
    assert "says 7 days, you say 4" in reply
    assert farm.days == [(Decimal(7), None)]
    assert "7 Mar morning" in farm.tell("yes")
    assert farm.days == [(Decimal(4), None)]


def test_a_shorter_hold_taken_back_leaves_the_list(farm: Farm) -> None:
    farm.lists("penicillin", 7)
    farm.tell("Neema treated with penicillin, no milk for 4 days")
    assert "vet's list stand" in farm.tell("no")
    assert farm.days == [(Decimal(7), None)]


def test_a_label_of_the_list_that_says_none_is_none(farm: Farm) -> None:
    farm.lists("penicillin", 0, 0)
    assert "no milk is held" in farm.tell("Neema treated with penicillin")
    assert farm.days == [(Decimal(0), Decimal(0))]


def test_a_list_that_does_not_say_leaves_the_question(farm: Farm) -> None:
    farm.lists("penicillin", None)
    assert "how many days" in farm.tell("Neema treated with penicillin")


@pytest.mark.parametrize(
    ("told", "found"),
    [
        ("oxy 20", "oxy 20"),
        ("Oxytet", "oxytetra"),
        ("oxytetra la", "oxytetra"),
        ("oxy", None),
        ("pen", None),
        ("peni", "penicillin"),
        ("penistrep", None),
        ("amoxi", None),
    ],
)
def test_a_drug_is_found_by_its_name_or_the_only_one_that_begins_so(
    farm: Farm, told: str, found: str | None
) -> None:
    for name in ("oxy 20", "oxytetra", "penicillin", "amoxi 15", "amoxi 50"):
        farm.lists(name, 4)
    product = farm.runtime.store.read(lambda conn: products.find(conn, 1, told))
    assert (None if product is None else product.name) == found
    assert farm.runtime.store.read(lambda conn: products.find(conn, 2, told)) is None


def test_a_dry_cow_drug_of_the_list_is_one(farm: Farm) -> None:
    farm.lists("cloxacillin", 4, dry_cow=True)
    assert "After calving" in farm.tell("Neema treated with cloxacillin")
    assert farm.drugs[0].dry_cow


# --- the label told later ----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("answer", "days"),
    [
        ("4", (Decimal(4), None)),
        ("4 days", (Decimal(4), None)),
        ("72 hours", (Decimal(3), None)),
        ("4 and meat 28", (Decimal(4), Decimal(28))),
        ("none", (Decimal(0), None)),
        ("don't know", (None, None)),
        ("no", (None, None)),
        ("6 litres", (None, None)),
    ],
)
def test_the_label_is_asked_for_and_its_answer_is_told_in_place(
    farm: Farm, answer: str, days: tuple[Decimal | None, Decimal | None]
) -> None:
    asked = farm.tell("Neema treated with penicillin")
    assert "DON'T sell or drink" in asked
    assert "how many days" in asked
    farm.tell(answer)
    assert farm.days == [days]


def test_meat_told_alone_leaves_the_question_for_the_milk(farm: Farm) -> None:
    farm.tell("Neema treated with penicillin")
    assert "how many days" in farm.tell("meat 28")
    farm.tell("4")
    assert farm.days == [(Decimal(4), Decimal(28))]


def test_a_number_no_label_can_have_is_asked_about_and_told_in_place(farm: Farm) -> None:
    farm.tell("Neema treated with penicillin")
    farm.tell("400")
    assert farm.days == [(None, None)]
    farm.tell("40")
    assert farm.days == [(Decimal(40), None)]


def test_the_drug_told_again_with_its_label_is_no_second_dose(farm: Farm) -> None:
    farm.tell("Neema treated with penicillin")
    assert "7 Mar morning" in farm.tell("Neema treated with penicillin, no milk for 4 days")
    assert farm.days == [(Decimal(4), None)]
    assert farm.drugs[0].product == "penicillin"


def test_a_label_that_says_none_completes_too(farm: Farm) -> None:
    farm.tell("Neema treated with penicillin")
    farm.tell("no milk from Neema for 0 days")
    assert farm.days == [(Decimal(0), None)]


def test_another_drug_the_same_day_is_asked_about(farm: Farm) -> None:
    farm.tell("Neema treated with penicillin")
    farm.tell("Tausi treated with penicillin, no milk for 4 days")
    assert sorted(str(milk) for milk, _ in farm.days) == ["4", "None"]


# --- lifting a hold ----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("answer", "why"),
    [
        ("1", "mistake"),
        ("2", "no drug given"),
        ("3.", "another animal"),
        ("it was the neighbours cow", "it was the neighbours cow"),
    ],
)
def test_why_a_hold_is_lifted_is_kept(farm: Farm, answer: str, why: str) -> None:
    farm.tell("Neema treated with penicillin, no milk for 4 days")
    assert "Why" in farm.tell("UNDO")
    assert farm.days == [(Decimal(4), None)]
    assert "Taken out" in farm.tell(answer)
    assert farm.days == []
    assert farm.why() == [why]


@pytest.mark.parametrize("answer", ["no", "thanks", "4"])
def test_what_is_no_reason_lifts_nothing(farm: Farm, answer: str) -> None:
    farm.tell("Neema treated with penicillin, no milk for 4 days")
    farm.tell("UNDO")
    farm.tell(answer)
    assert farm.days == [(Decimal(4), None)]


def test_a_drug_without_a_hold_and_other_tellings_are_taken_out_at_once(farm: Farm) -> None:
    farm.tell("Neema treated with penicillin, no milk for 4 days")
    farm.tell("Neema 6")
    assert "Taken out: Neema, 6 l" in farm.tell("UNDO")
    farm.tell("Tausi treated with penicillin, no milk for 0 days")
    assert "Taken out" in farm.tell("UNDO")
    assert farm.days == [(Decimal(4), None)]


def test_a_correction_that_shortens_a_hold_is_asked_about(farm: Farm) -> None:
    farm.tell("Neema treated with penicillin, no milk for 4 days")
    assert "sooner" in farm.tell("FIX Neema treated with penicillin, no milk for 2 days")
    assert farm.days == [(Decimal(4), None)]
    assert "5 Mar morning" in farm.tell("yes")
    assert farm.days == [(Decimal(2), None)]
    assert "sooner" not in farm.tell("FIX Neema treated with penicillin, no milk for 6 days")
    assert farm.days == [(Decimal(6), None)]


def test_a_drug_taken_out_takes_its_question_with_it(farm: Farm) -> None:
    farm.tell("Neema treated with penicillin")
    farm.tell("UNDO")
    farm.tell("1")
    farm.tell("4")
    assert farm.days == []
