"""Two phones of one farm at the same moment: what both tell is asked about, not counted twice."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor

import sqlalchemy as sa

from service.messages import InboundText
from service.records import tables
from tests.support.village import HELPER, OWNER, Village

ROUNDS = 5


def test_a_milking_told_by_both_at_once_is_one_milking(database_url: str) -> None:
    village = Village(database_url).with_helper()
    try:
        now = village.clock.now()
        for cow, number in ((cow, n) for n in range(ROUNDS) for cow in ("Neema", "Tausi")):
            told = f"{cow} 6, {number + 1} February"
            texts = [
                InboundText(id=phone + told, sender=phone, recipient="15000", text=told, sent_at=now)
                for phone in (OWNER, HELPER)
            ]
            with ThreadPoolExecutor(2) as pool:
                list(pool.map(village.runtime.sms, texts))
        count = sa.select(sa.func.count()).select_from(tables.Entry).where(tables.Entry.kind == "milk")
        assert village.rows(count)[0][0] == 2 * ROUNDS
    finally:
        village.close()
