"""The statement asked for by text: whatever the order of telling, after an undo, and by whom it is seen."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

import pytest

from tests.support.village import HELPER, OWNER, Village

TOLD = (
    "NEEMA 6 on 2 March",
    "sold 10 litres at 1200 to Juma on credit on 2 March",
    "bought 70 kg of bran for 35000 on 1 March",
    "gave Neema 6 kg of bran on 2 March",
    "took 10 litres to the centre on 1 March",
    "sold manure 15000 on 1 March",
    "Juma paid 5000",
)


@pytest.fixture
def village(sqlite_url: str) -> Iterator[Village]:
    made = Village(sqlite_url)
    made.clock.set(datetime(2026, 3, 2, 6, 0, tzinfo=UTC))
    yield made
    made.close()


def told(village: Village, texts: tuple[str, ...] = TOLD) -> Village:
    for text in texts:
        village.tell(OWNER, text)
    return village


def test_the_order_of_telling_does_not_matter(village: Village, tmp_path: Path) -> None:
    other = Village(f"sqlite:///{tmp_path / 'other.db'}")
    other.clock.set(datetime(2026, 3, 2, 6, 0, tzinfo=UTC))
    # A payment told before its sale would be asked about: those two stay in their order.
    told(other, (*reversed(TOLD[2:-1]), *TOLD[:2], TOLD[-1]))
    assert told(village).tell(OWNER, "MONEY MARCH") == other.tell(OWNER, "MONEY MARCH")
    assert village.tell(OWNER, "MONEY NEEMA") == other.tell(OWNER, "MONEY NEEMA")
    other.close()


def test_undo_takes_it_out(village: Village) -> None:
    before = told(village).tell(OWNER, "MONEY")
    village.tell(OWNER, "paid vet 8000")
    assert "vet 8,000/=" in village.tell(OWNER, "MONEY")
    village.tell(OWNER, "UNDO")
    assert village.tell(OWNER, "MONEY") == before


def test_asking_records_and_plans_nothing(village: Village) -> None:
    def kept() -> list[dict[str, object]]:
        return [one for one in village.exported() if not str(one["what"]).startswith("text")]

    before = kept() if told(village) else []
    for asked in ("MONEY", "MONEY NEEMA", "MONEY 2026"):
        village.tell(OWNER, asked)
    assert kept() == before


def test_a_helper_sees_it_only_where_the_owner_allows_money(village: Village) -> None:
    told(village).with_helper()
    for asked in ("MONEY", "MONEY NEEMA", "MONEY 2026"):
        assert "/=" not in village.tell(HELPER, asked)
    village.tell(OWNER, "ALLOW JUMA MONEY")
    assert "12,000/=" in village.tell(HELPER, "MONEY")


def test_a_pin_is_asked_for_first(village: Village) -> None:
    told(village).tell(OWNER, "SET PIN 4821")
    for asked in ("MONEY", "MONEY NEEMA", "MONEY 2026"):
        assert "/=" not in village.tell(OWNER, asked)
        assert "/=" in village.tell(OWNER, "PIN 4821")


def test_in_the_first_days_of_a_month_the_month_before_is_meant(village: Village) -> None:
    told(village)
    village.clock.set(datetime(2026, 4, 10, 6, 0, tzinfo=UTC))
    assert village.tell(OWNER, "MONEY").startswith("March 2026:")
    village.clock.set(datetime(2026, 4, 11, 6, 0, tzinfo=UTC))
    assert village.tell(OWNER, "MONEY").startswith("1-11 Apr:")
