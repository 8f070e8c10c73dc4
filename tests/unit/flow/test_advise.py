"""Advice asked for, in the cooperative's own words, and advice that comes by itself."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

import pytest
import sqlalchemy as sa

from dialogs.grammar.place import Place
from service import sms
from service.flow.lists import Office, WrongLines, load
from service.records import tables
from tests.support.village import OWNER, Village


def run(village: Village, days: int) -> None:
    """Let *days* pass, every due moment at its own time."""
    end = village.clock.now() + timedelta(days=days)
    while (due := village.runtime.next_due()) is not None and due <= end:
        village.clock.move(max(due - village.clock.now(), timedelta(0)))
        village.runtime.heartbeat()
        if (again := village.runtime.next_due()) is not None and again <= village.clock.now():
            village.clock.move(timedelta(seconds=1))
    village.clock.move(end - village.clock.now())


def load_advice(village: Village, tmp_path: Path, text: str) -> int:
    file = tmp_path / "advice.csv"
    file.write_text(text, encoding="utf-8")
    office = Office(cooperative=None, place=Place(), now=village.clock.now())
    return village.runtime.store.write(lambda conn: load(conn, "advice", file, office))


def sent(village: Village) -> list[str]:
    return [row.topic for row in village.rows(sa.select(tables.AdviceSent.topic))]


def test_a_topic_comes_once_when_it_first_matters(village):
    run(village, 30)
    village.tell(OWNER, "Neema was dewormed")
    run(village, 3)
    (text,) = village.notices(OWNER)
    assert "HELP WORMS" in text
    assert sms.measure(text).segments == 1
    village.tell(OWNER, "Tausi was dewormed")
    run(village, 20)
    assert village.notices(OWNER) == [text]
    assert sent(village) == ["worms"]


def test_it_comes_at_the_farms_hour(village):
    run(village, 30)
    village.tell(OWNER, "Neema was dewormed")
    run(village, 3)
    out = tables.TextOut
    at = village.rows(sa.select(out.created_at).where(out.purpose == "notice"))[0].created_at
    assert village.runtime.settings.zone.utcoffset(at) is not None
    assert at.astimezone(village.runtime.settings.zone).strftime("%H:%M") == "06:00"


@pytest.mark.parametrize("text", ["QUIET", "STOP"])
def test_nothing_comes_to_who_wants_quiet(village, text):
    run(village, 30)
    village.tell(OWNER, text)
    village.tell(OWNER, "Neema was dewormed")
    run(village, 20)
    assert village.notices(OWNER) == []


def test_quiet_can_be_taken_back(village):
    run(village, 30)
    village.tell(OWNER, "QUIET")
    assert "advice" in village.tell(OWNER, "ADVICE YES").casefold()
    village.tell(OWNER, "Neema was dewormed")
    run(village, 3)
    assert len(village.notices(OWNER)) == 1


def test_a_farm_that_has_just_joined_is_left_in_peace(village):
    village.tell(OWNER, "Neema was dewormed")
    run(village, 20)
    assert village.notices(OWNER) == []


def test_nothing_comes_on_a_day_with_another_unasked_text(village):
    run(village, 30)
    village.tell(OWNER, "Neema was dewormed. Sprayed all")
    run(village, 25)
    out = tables.TextOut
    rows = village.rows(
        sa.select(out.created_at, out.purpose).where(out.phone == OWNER, out.in_reply_to.is_(None))
    )
    zone = village.runtime.settings.zone
    noticed = [row.created_at.astimezone(zone).date() for row in rows if row.purpose == "notice"]
    others = {row.created_at.astimezone(zone).date() for row in rows if row.purpose != "notice"}
    assert len(noticed) == 2
    assert others
    assert others.isdisjoint(noticed)
    assert noticed[1] - noticed[0] >= timedelta(3)


def test_a_calving_is_told_of_before_its_watch_begins_on_a_new_farm_too(village):
    village.tell(OWNER, "Neema is 8 months in calf")
    run(village, 40)
    texts = village.notices(OWNER)
    assert len(texts) == 1
    assert "Neema may calve soon" in texts[0]


def test_after_an_outage_advice_waits_for_another_morning(village):
    run(village, 30)
    village.tell(OWNER, "Neema was dewormed")
    village.clock.move(timedelta(days=1, hours=4))
    village.runtime.heartbeat()
    assert village.notices(OWNER) == []
    run(village, 2)
    assert len(village.notices(OWNER)) == 1


def test_who_nobody_answered_is_the_one_that_the_advice_named(village):
    village.tell(OWNER, "VET SANGA 0621000001")
    run(village, 30)
    village.tell(OWNER, "Neema was vaccinated fmd")
    run(village, 2)
    (text,) = village.notices(OWNER)
    assert "0621000001" in text
    talk = village.rows(sa.select(tables.Conversation.called).where(tables.Conversation.phone == OWNER))
    assert talk[0].called


def test_own_wording_is_told_with_the_caution_that_was_shipped(village, tmp_path):
    head = "topic,language,text\n"
    assert load_advice(village, tmp_path, f"{head}udder,en,Come and see our dark cups on Saturday.\n") == 1
    assert village.tell(OWNER, "HELP UDDER").startswith(
        "Come and see our dark cups on Saturday. DON'T sell or drink her milk"
    )
    assert load_advice(village, tmp_path, head) == 0
    assert village.tell(OWNER, "HELP UDDER").startswith("Look every day")


@pytest.mark.parametrize(
    ("line", "why"),
    [
        ("cows,en,Words", "there is no topic cows"),
        ("udder,fr,Mots", "language fr is none of sw, en"),
        ("udder,en,", "text is empty"),
        ("udder,en,Look \U0001f404", "characters that a plain text message cannot carry"),
        (f"udder,en,{'x' * 400}", "too long for three segments"),
    ],
)
def test_a_wrong_line_is_named_and_nothing_changes(village, tmp_path, line, why):
    with pytest.raises(WrongLines) as caught:
        load_advice(village, tmp_path, f"topic,language,text\nticks,en,Good words\n{line}\n")
    assert why in caught.value.sentences[0]
    assert caught.value.sentences[0].startswith("advice.csv:3: ")
    assert village.rows(sa.select(tables.Advice.topic)) == []


def test_the_farms_own_interval_is_in_the_advice(village):
    village.tell(OWNER, "SPRAY EVERY 14")
    assert "Every 14 days" in village.tell(OWNER, "HELP TICKS")


def test_the_vet_that_the_farm_has_told_is_named(village):
    village.tell(OWNER, "VET SANGA 0621000001")
    assert "0621000001" in village.tell(OWNER, "HELP CALVING")
    talk = village.rows(sa.select(tables.Conversation.called).where(tables.Conversation.phone == OWNER))
    assert talk[0].called == ["+255621000001"]
