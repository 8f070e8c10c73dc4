"""A vaccination that the cooperative announces: who is told, in what words, and what is answered."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date, datetime, timedelta
from decimal import Decimal
from itertools import count

import pytest
import sqlalchemy as sa

from dialogs.campaigns import PLACE_ROOM, Announced, announcement, noted
from dialogs.grammar.place import Place
from dialogs.grammar.read import read
from dialogs.texts import render
from service import sms
from service.bootstrap import Runtime, build
from service.flow.campaigns import drafted, lay
from service.gateways.none import NoGateway
from service.husbandry.kinds.instructions import Willing
from service.husbandry.signs import DISEASES
from service.husbandry.vaccines import CALENDAR
from service.messages import InboundText, OutboundText, say
from service.records import campaigns, plan, tables
from service.records.campaigns import Campaign
from service.settings import Settings
from tests.support.clocks import SetClock
from tests.unit.husbandry.book import ZONE, at

REHEMA, ASHA, JUMA = "+255621234567", "+255621234568", "+255621234569"
NOW = at("2026-03-02 12:00")
DAY = Campaign(
    disease="fmd", cooperative_id=1, ward="Ilembo", on=date(2026, 3, 20), hour=8, place="Kituo cha Ilembo"
)
GATHER = Campaign(disease="ecf", cooperative_id=1, ward=None)


class Line:
    """The service on a fresh database, with farms in two wards."""

    def __init__(self, runtime: Runtime, clock: SetClock) -> None:
        self.runtime, self.clock = runtime, clock
        self.ids = count(1)
        for phone, ward in ((REHEMA, "Ilembo"), (ASHA, "Ilembo"), (JUMA, "Santilya")):
            runtime.register_farm(phone, f"Farm {phone[-1]}", "en" if phone == ASHA else "sw")
            runtime.store.write(lambda conn, p=phone, w=ward: conn.execute(
                sa.update(tables.Farm).where(tables.Farm.name == f"Farm {p[-1]}").values(ward=w)
            ))  # fmt: skip

    def text(self, phone: str, text: str) -> str:
        """The reply to *text*."""
        id = f"in-{next(self.ids)}"  # noqa: A001
        now = self.clock.now()
        self.runtime.sms(InboundText(id=id, sender=phone, recipient="", text=text, sent_at=now))
        out = tables.TextOut
        reply = sa.select(out.text).where(out.in_reply_to == id).order_by(out.seq).limit(1)
        return str(self.runtime.store.read(lambda conn: conn.execute(reply).scalar_one()))

    def announce(self, campaign: Campaign, *, of: int | None = None) -> tuple[int, tuple[OutboundText, ...]]:
        now, store = self.clock.now(), self.runtime.store
        laid = store.read(lambda conn: drafted(conn, campaign, ZONE, now, of=of))
        return store.write(lambda conn: lay(conn, campaign, laid, now)), laid.texts

    def notices(self) -> list[tuple[str, datetime | None]]:
        out = tables.TextOut
        rows = sa.select(out.phone, out.not_after).where(out.purpose == "notice").order_by(out.seq)
        return [tuple(row) for row in self.runtime.store.read(lambda conn: conn.execute(rows).all())]  # type: ignore[misc]

    def reminders(self, phone: str) -> dict[str, datetime | None]:
        """Of the open vaccinations of a farm: disease -> when it is reminded."""

        def find(conn: sa.Connection) -> dict[str, datetime | None]:
            farm_id = next(one.farm_id for one in campaigns.owners(conn, ALL) if one.phone == phone)
            kept = plan.open_tasks(conn, farm_id)
            return {str(k.task.key.disease): k.remind_at for k in kept if k.task.key.task == "vaccinate"}

        return self.runtime.store.read(find)


ALL = Campaign(disease="fmd", cooperative_id=1, ward=None)


@pytest.fixture
def line(database_url: str, clock: SetClock) -> Iterator[Line]:
    settings = Settings.from_env({"BYRELINE_DATABASE_URL": database_url})
    runtime = build(settings, clock=clock, gateway=NoGateway())
    yield Line(runtime, clock)
    runtime.close()


def test_the_owners_of_the_ward_are_told_day_hour_place_and_how_to_answer(line: Line) -> None:
    line.text(REHEMA, "ng'ombe mpya Neema jike anakamuliwa")
    line.text(ASHA, "new cow Tausi milking")
    _, texts = line.announce(DAY)
    assert [(text.phone, text.text) for text in texts] == [
        (REHEMA, "Chanjo ya midomo na miguu: Ijumaa 20 Machi, saa 2 asubuhi, Kituo cha Ilembo. "
                 "Walete: Neema. Mgonjwa asije. Jibu: CHANJO NDIYO 1 au CHANJO HAPANA"),
        (ASHA, "Vaccination against foot and mouth: Friday 20 Mar, 8 am, Kituo cha Ilembo. "
               "Bring: Tausi. No sick ones. Reply: YES FMD 1 or NO FMD"),
    ]  # fmt: skip
    assert line.notices() == [(phone, at("2026-03-20 08:00")) for phone in (REHEMA, ASHA)]


def test_the_same_announcement_twice_sends_nothing_twice(line: Line) -> None:
    first, texts = line.announce(DAY)
    again, none = line.announce(DAY)
    assert (first, len(texts), len(none)) == (again, 2, 0)
    assert len(line.notices()) == 2


def test_two_that_announce_at_once_send_it_once(line: Line) -> None:
    store, now = line.runtime.store, line.clock.now()
    laid = [store.read(lambda conn: drafted(conn, DAY, ZONE, now)) for _ in range(2)]
    ids = [store.write(lambda conn, one=one: lay(conn, DAY, one, now)) for one in laid]
    assert ids[0] == ids[1]
    assert len(line.notices()) == 2


def test_who_has_left_the_service_is_not_told(line: Line) -> None:
    line.text(REHEMA, "ACHA")
    assert [text.phone for text in line.announce(DAY)[1]] == [ASHA]


def test_announced_in_the_night_it_goes_out_in_the_morning(line: Line) -> None:
    line.clock.set(at("2026-03-02 21:00"))
    line.announce(DAY)
    line.runtime.heartbeat()
    out = tables.TextOut
    rows = sa.select(out.next_try_at, out.attempts).where(out.purpose == "notice")
    found = line.runtime.store.read(lambda conn: conn.execute(rows).all())
    assert [tuple(row) for row in found] == [(at("2026-03-03 05:00"), 0)] * 2


def test_a_cooperatives_own_intervals_decide_who_is_meant(line: Line) -> None:
    line.text(REHEMA, "ng'ombe mpya Neema jike anakamuliwa")
    line.text(REHEMA, "Neema amechanjwa ndigana kali leo")
    assert "Neema" not in line.announce(replace(GATHER, ward="Ilembo"))[1][0].text
    yearly = {"ecf_months": 12}
    line.runtime.store.write(
        lambda conn: conn.execute(sa.update(tables.Cooperative).values(intervals=yearly))
    )
    assert "Wanaofaa: Neema." in line.announce(GATHER)[1][0].text


def test_a_yes_replaces_a_no_and_a_later_yes_the_earlier(line: Line) -> None:
    campaign_id, _ = line.announce(DAY)
    assert line.text(REHEMA, "CHANJO HAPANA").startswith("Sawa, chanjo ya midomo na miguu: hatukuhesabu.")
    assert line.text(REHEMA, "CHANJO NDIYO 3") == (
        "Tumeandika: utaleta ng'ombe 3, chanjo ya midomo na miguu: Ijumaa 20 Machi, saa 2 asubuhi, "
        "Kituo cha Ilembo. Huwezi? Jibu: CHANJO HAPANA"
    )
    line.text(REHEMA, "CHANJO NDIYO 2")
    line.text(ASHA, "YES FMD 4")
    answers = line.runtime.store.read(lambda conn: campaigns.answers(conn, campaign_id))
    assert [(a.farm, a.phone, a.animals) for a in answers] == [("Farm 7", REHEMA, 2), ("Farm 8", ASHA, 4)]


def test_a_farm_that_nothing_was_announced_to_is_told_so(line: Line) -> None:
    line.announce(DAY)
    assert line.text(JUMA, "CHANJO NDIYO 3").startswith("Sasa hakuna chanjo iliyotangazwa kwenu.")
    assert line.text(REHEMA, "YES ECF 3").startswith("Sasa hakuna chanjo iliyotangazwa kwenu.")
    line.clock.set(at("2026-03-21 06:00"))
    assert line.text(REHEMA, "CHANJO NDIYO 3").startswith("Sasa hakuna chanjo iliyotangazwa kwenu.")


def test_a_vaccine_of_many_doses_gathers_first_and_tells_its_day_to_the_willing(line: Line) -> None:
    line.text(REHEMA, "ng'ombe mpya Neema jike anakamuliwa")
    campaign_id, texts = line.announce(GATHER)
    assert [text.phone for text in texts] == [REHEMA, ASHA, JUMA]
    assert texts[0].text == (
        "Chanjo ya ndigana kali hutolewa kwa wengi pamoja, siku tutakuambia. Walio wazima tu, wa mwezi mmoja "
        "na zaidi. Wanaofaa: Neema. Jibu: CHANJO NDIYO 1"
    )
    assert line.announce(GATHER) == (campaign_id, ())
    assert line.text(REHEMA, "CHANJO NDIYO 1").startswith(
        "Tumeandika: utaleta ng'ombe 1, chanjo ya ndigana kali. Siku na mahali tutakuambia."
    )
    line.text(ASHA, "NO ECF")
    dated = replace(GATHER, on=date(2026, 4, 2), hour=9, place="Zahanati")
    same_id, told = line.announce(dated, of=campaign_id)
    assert same_id == campaign_id
    assert [(text.phone, text.text) for text in told] == [
        (REHEMA, "Chanjo ya ndigana kali: Alhamisi 2 Aprili, saa 3 asubuhi, Zahanati. Walete: Neema. "
                 "Mgonjwa asije. Huwezi? Jibu: CHANJO HAPANA"),
    ]  # fmt: skip
    assert line.announce(dated, of=campaign_id) == (campaign_id, ())


def test_a_gathering_is_asked_about_anew_after_three_months(line: Line) -> None:
    first, _ = line.announce(GATHER)
    line.clock.move(timedelta(days=91))
    assert line.text(JUMA, "CHANJO NDIYO 3").startswith("Sasa hakuna chanjo")
    again, texts = line.announce(GATHER)
    assert again != first
    assert len(texts) == 3


def test_who_comes_to_the_day_is_not_reminded_besides_and_who_does_not_is(line: Line) -> None:
    line.text(REHEMA, "ng'ombe mpya Neema jike anakamuliwa")
    line.text(REHEMA, "Neema amechanjwa FMD tarehe 10/9/2025")
    before = line.reminders(REHEMA)
    assert before["fmd"] is not None
    line.announce(DAY)
    line.text(REHEMA, "CHANJO NDIYO 1")
    assert line.reminders(REHEMA) == {"fmd": None}
    line.text(REHEMA, "CHANJO HAPANA")
    assert line.reminders(REHEMA) == before
    line.text(REHEMA, "CHANJO NDIYO 1")
    line.clock.set(at("2026-03-20 15:00"))
    assert "20 Sep 2026" in line.text(REHEMA, "Neema amechanjwa FMD")


# --- the words ------------------------------------------------------------------------------------

LONG = tuple("WMQXYZABCD"[n] * 12 for n in range(10))


@pytest.mark.parametrize("language", ["sw", "en"])
@pytest.mark.parametrize("disease", DISEASES)
@pytest.mark.parametrize("animals", [(), LONG[:1], LONG[:3], LONG, LONG * 12])
@pytest.mark.parametrize("willing", [False, True])
def test_an_announcement_is_one_segment(
    language: str, disease: str, animals: tuple[str, ...], willing: bool
) -> None:
    start = at("2026-09-30 05:00")  # a Wednesday, Jumatano; saa 11 alfajiri
    for what in (
        Announced(disease=disease, start=start, place="W" * PLACE_ROOM),
        Announced(disease=disease, start=None, place=None),
    ):
        text = announcement(what, animals, language, willing=willing)
        assert sms.septets(text) <= sms.ONE["gsm7"], text
        assert str(max(len(animals), 1)) in text or willing or "Jibu: CHANJO NDIYO" in text
        if what.start is not None and CALENDAR[disease].infects_people:
            assert "wajawazito" in text or "pregnant women" in text
        for number in (0, 365):
            assert sms.septets(noted(what, number, language)) <= sms.ONE["gsm7"]


def test_as_many_names_are_told_as_fit() -> None:
    what = Announced(disease="fmd", start=at("2026-03-20 08:00"), place="Ilembo")
    few = announcement(what, ("Neema", "Zawadi", "Tausi", "Pendo"), "sw")
    assert "Walete: Neema, Zawadi, Tausi na Pendo." in few
    many = announcement(what, ("Neema", "Zawadi", "Tausi", "Pendo", "Baraka", "Malaika", "Furaha"), "sw")
    assert "Walete: Neema, Zawadi, Tausi, Pendo, Baraka na 2 wengine." in many
    assert "CHANJO NDIYO 7" in many


def test_the_word_of_each_answer_is_of_its_language() -> None:
    words = [say(f"campaign.word.{disease}") for disease in DISEASES]
    assert {render(word, "sw") for word in words} == {"CHANJO"}
    for disease, word in zip(DISEASES, words, strict=True):
        asked = f"YES {render(word, 'en')} 3"
        entries = read(asked, None, now=NOW, language="en", place=Place()).entries
        assert entries == (Willing(disease=disease, count=Decimal(3)),)
