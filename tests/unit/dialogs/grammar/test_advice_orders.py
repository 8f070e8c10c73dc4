"""Advice asked for by its topic, and the wish to have none unasked."""

from __future__ import annotations

from datetime import datetime
from zoneinfo import ZoneInfo

import pytest

from dialogs.grammar.place import Place
from dialogs.grammar.read import read
from dialogs.reading import Reading
from service.husbandry.herd import Herd, Known, Sex, Status
from service.husbandry.kinds.farm import Setting
from service.husbandry.kinds.instructions import Ask

NOW = datetime(2026, 3, 2, 10, 0, tzinfo=ZoneInfo("Africa/Dar_es_Salaam"))
HERD = Herd((Known(name="Neema", names=("Neema",), sex=Sex.FEMALE, status=Status.MILKING),))


def reading(text: str) -> Reading:
    return read(text, HERD, now=NOW, language="sw", place=Place())


@pytest.mark.parametrize(
    ("text", "about"),
    [
        ("MSAADA KUPE", "KUPE"),
        ("msaada wa kuzaa", "kuzaa"),
        ("HELP CALVING", "CALVING"),
        ("help me with calving", "calving"),
        ("please help me with first milk", "first milk"),
        ("naomba ushauri kuhusu kupuliza dawa ya kupe", "kupuliza dawa ya kupe"),
        ("Ushauri: banda?", "banda"),
        ("MSAADA DANG\u2019A", "DANG\u2019A"),
        ("advice on drying off", "drying off"),
        ("HELP VACINATION", "VACINATION"),
        ("MSAADA TUMA KUZAA", "TUMA KUZAA"),
        ("MSAADA MAZIWA YA DAWA", "MAZIWA YA DAWA"),
    ],
)
def test_a_word_for_help_and_a_topic_ask_for_it(text, about):
    found = reading(text)
    assert found.problems == ()
    (entry,) = found.entries
    assert isinstance(entry, Ask)
    assert (entry.topic, entry.about) == ("help", about)


@pytest.mark.parametrize("text", ["KIMYA", "Quiet.", "USHAURI ZIMA", "advice off please", "sitaki ushauri"])
def test_quiet_is_a_setting(text):
    (entry,) = reading(text).entries
    assert isinstance(entry, Setting)
    assert (entry.task, entry.off) == ("advice", True)


@pytest.mark.parametrize("text", ["USHAURI NDIYO", "ADVICE YES", "washa ushauri"])
def test_advice_can_be_asked_to_come_again(text):
    (entry,) = reading(text).entries
    assert isinstance(entry, Setting)
    assert (entry.task, entry.off) == ("advice", False)


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("msaada Neema amezaa", "calving"),
        ("Neema amezaa kwa msaada wa daktari", "calving"),
        ("help Neema is down", "illness"),
        ("msaada, Neema ana kiwele kigumu", "illness"),
        ("help Neema calved", "calving"),
        ("Neema joto", "heat"),
    ],
)
def test_what_a_cry_for_help_tells_is_told(text, kind):
    found = reading(text)
    told = [entry.KIND for entry in found.entries] + [p.draft.kind.KIND for p in found.problems if p.draft]
    assert kind in told
    assert "ask" not in told


@pytest.mark.parametrize("text", ["Neema yuko kimya", "Neema is quiet and off feed"])
def test_a_quiet_cow_is_no_setting(text):
    assert not any(isinstance(entry, Setting) for entry in reading(text).entries)
