"""Scripts as they are read: every form of step, and every way a script can be wrong."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest

from simulator.steps import (
    Dial,
    Expected,
    ExpectScreen,
    ExpectText,
    Form,
    HangUp,
    MoveClock,
    NamePhone,
    Network,
    RegisterFarm,
    SendText,
    SetNetwork,
    Step,
    SwitchService,
    TypeAnswer,
)
from simulator.transcript import ScriptError, parse, read_script

ZONE = ZoneInfo("Africa/Dar_es_Salaam")
HEAD = "clock 2026-03-02 06:10\nphone rehema +255621234567\n"


def local(written: str) -> datetime:
    return datetime.fromisoformat(written).replace(tzinfo=ZONE)


def steps(source: str) -> tuple[Step, ...]:
    return parse(source, "a.talk", ZONE).steps


def step(line: str) -> Step:
    """The one step that *line* is, in a script that has a clock and a phone."""
    read = steps(HEAD + line)
    assert len(read) == 3
    return read[2]


def why(source: str) -> str:
    with pytest.raises(ScriptError) as raised:
        steps(source)
    return str(raised.value)


def test_blank_lines_and_comments_are_skipped_and_lines_are_counted() -> None:
    read = steps("# a comment\n\nclock 2026-03-02 06:10\n  # another\nphone rehema +255621234567\n")
    assert read == (
        MoveClock(line=3, to=local("2026-03-02T06:10")),
        NamePhone(line=5, name="rehema", number="+255621234567"),
    )


def test_times_are_the_farms_local_time() -> None:
    assert steps("clock 2026-03-02 06:10")[0].to.isoformat() == "2026-03-02T06:10:00+03:00"  # type: ignore[attr-defined]


@pytest.mark.parametrize(
    ("written", "to"),
    [
        ("2026-03-02 18:00", "2026-03-02T18:00"),
        ("2026-03-02 06:10", "2026-03-02T06:10"),
        ("+12h", "2026-03-02T18:10"),
        ("+30h", "2026-03-03T12:10"),
        ("+3d", "2026-03-05T06:10"),
        ("+3d 07:00", "2026-03-05T07:00"),
        ("+3d   7:00", "2026-03-05T07:00"),
        ("+0d 07:00", "2026-03-02T07:00"),
        ("+365d", "2027-03-02T06:10"),
    ],
)
def test_the_clock_moves_to_a_moment_by_hours_or_by_days(written: str, to: str) -> None:
    assert step(f"clock {written}") == MoveClock(line=3, to=local(to))


def test_moves_of_the_clock_add_up() -> None:
    read = steps("clock 2026-02-27 22:00\nclock +12h\nclock +2d 05:00\n")
    assert [move.to for move in read] == [  # type: ignore[attr-defined]
        local("2026-02-27T22:00"),
        local("2026-02-28T10:00"),
        local("2026-03-02T05:00"),
    ]


def test_hours_are_hours_where_the_clocks_are_changed() -> None:
    read = parse("clock 2026-03-29 01:30\nclock +1h\n", "a.talk", ZoneInfo("Europe/Berlin")).steps
    assert read[1].to.isoformat() == "2026-03-29T03:30:00+02:00"  # type: ignore[attr-defined]


@pytest.mark.parametrize(
    ("line", "expected"),
    [
        ("farm rehema sw", RegisterFarm(line=3, phone="rehema", language="sw")),
        ("farm  rehema\ten", RegisterFarm(line=3, phone="rehema", language="en")),
        ("rehema> MAZIWA NEEMA 6", SendText(line=3, phone="rehema", text="MAZIWA NEEMA 6")),
        ("  rehema>   NEEMA 6  ", SendText(line=3, phone="rehema", text="NEEMA 6")),
        ("rehema> # 6 < 7 > 5 = 1", SendText(line=3, phone="rehema", text="# 6 < 7 > 5 = 1")),
        ("rehema> ng’ombe\n| wawili", SendText(line=3, phone="rehema", text="ng’ombe\nwawili")),
        ("rehema> a\n|\n|b", SendText(line=3, phone="rehema", text="a\n\nb")),
        ("rehema>", SendText(line=3, phone="rehema", text="")),
        ("rehema# dial", Dial(line=3, phone="rehema")),
        ("rehema# 1", TypeAnswer(line=3, phone="rehema", typed="1")),
        ("rehema# Neema Mpya", TypeAnswer(line=3, phone="rehema", typed="Neema Mpya")),
        ("rehema# hang up", HangUp(line=3, phone="rehema")),
        ("service down", SwitchService(line=3, up=False)),
        ("service up", SwitchService(line=3, up=True)),
        ("network repeats", SetNetwork(line=3, network=Network.REPEATS)),
        ("network loses", SetNetwork(line=3, network=Network.LOSES)),
        ("network fine", SetNetwork(line=3, network=Network.FINE)),
    ],
)
def test_each_step_is_read(line: str, expected: Step) -> None:
    assert step(line) == expected


@pytest.mark.parametrize(
    ("written", "expected"),
    [
        ("Neema: lita 6 ...", Expected(Form.EXACTLY, "Neema: lita 6 ...")),
        ("/Neema.*6/", Expected(Form.MATCHES, "Neema.*6")),
        ("/a/b/", Expected(Form.MATCHES, "a/b")),
        ("*", Expected(Form.ANYTHING)),
        ("-", Expected(Form.NOTHING)),
        ("- no", Expected(Form.EXACTLY, "- no")),
        ("one\n| two", Expected(Form.EXACTLY, "one\ntwo")),
    ],
)
def test_texts_and_screens_are_expected_in_the_same_forms(written: str, expected: Expected) -> None:
    assert step(f"rehema< {written}") == ExpectText(line=3, phone="rehema", expected=expected)
    assert step(f"rehema= {written}") == ExpectScreen(line=3, phone="rehema", expected=expected)


@pytest.mark.parametrize(
    ("expected", "met", "unmet"),
    [
        (Expected(Form.EXACTLY, "Neema 6"), "Neema 6", "Neema 6."),
        (Expected(Form.MATCHES, "a.*6"), "Neema: lita 6 leo", "Neema: lita 7"),
        (Expected(Form.ANYTHING), "x", None),
        (Expected(Form.NOTHING), None, "x"),
    ],
)
def test_an_expectation_is_met_or_not(expected: Expected, met: str | None, unmet: str | None) -> None:
    assert expected.met_by(met)
    assert not expected.met_by(unmet)


def test_silence_meets_neither_a_text_nor_a_pattern() -> None:
    assert not Expected(Form.EXACTLY, "").met_by(None)
    assert not Expected(Form.MATCHES, ".*").met_by(None)


@pytest.mark.parametrize(
    ("source", "line", "reason"),
    [
        ("", 1, "there is no step"),
        ("phone rehema +255621234567", 1, "first step must be a clock"),
        ("rehema> hi", 1, "first step must be a clock"),
        ("clock +3d", 1, "must give a date"),
        ("clock", 1, "must give a date"),
        ("clock 2026-02-29 06:10", 1, "no such date"),
        ("clock 2026-03-02 24:10", 1, "no such date or time"),
        (HEAD + "clock 2026-03-02 06:09", 3, "backwards"),
        (HEAD + "clock +0d 05:00", 3, "backwards"),
        (HEAD + "clock tomorrow", 3, "not a date and time"),
        (HEAD + "clock -3d", 3, "not a date and time"),
        (HEAD + "phone asha", 3, "a name and a number"),
        (HEAD + "phone rehema +255621234568", 3, "another number already"),
        (HEAD + "farm rehema", 3, "sw or en"),
        (HEAD + "farm rehema fr", 3, "sw or en"),
        (HEAD + "farm asha sw", 3, "no phone is called asha"),
        (HEAD + "phone bank MALIPO\nfarm bank sw", 4, "not a number that a farm can have"),
        (HEAD + "service down\nfarm rehema sw", 4, "while the service is down"),
        (HEAD + "asha> hi", 3, "no phone is called asha"),
        (HEAD + "asha< *", 3, "no phone is called asha"),
        (HEAD + "rehema<", 3, "what is expected"),
        (HEAD + "rehema< /Neema", 3, "not closed"),
        (HEAD + "rehema< /", 3, "not closed"),
        (HEAD + "rehema< /(Neema/", 3, "not a regular expression"),
        (HEAD + "rehema= /[/", 3, "not a regular expression"),
        (HEAD + "rehema#", 3, "a menu step"),
        (HEAD + "service off", 3, "down or up"),
        (HEAD + "network slow", 3, "one of fine, repeats, loses"),
        (HEAD + "sleep 3", 3, "no such step"),
        (HEAD + "rehema MAZIWA", 3, "no such step"),
        (HEAD + "service down\n| more", 3, "only what is said"),
        ("| more", 1, "no line above"),
    ],
)
def test_a_script_that_cannot_be_read_says_where_and_why(source: str, line: int, reason: str) -> None:
    said = why(source)
    assert said.startswith(f"a.talk:{line}: ")
    assert reason in said


def test_a_script_is_utf8_with_or_without_a_mark_and_any_line_ends(tmp_path: Path) -> None:
    path = tmp_path / "a.talk"
    path.write_bytes(b"\xef\xbb\xbfclock 2026-03-02 06:10\r\nphone a +255621234567\r\na> x\r\n| y\r\n")
    script = read_script(path, ZONE)
    assert script.begins_at == local("2026-03-02T06:10")
    assert script.steps[2] == SendText(line=3, phone="a", text="x\ny")


def test_a_file_that_is_missing_or_no_text_cannot_be_read(tmp_path: Path) -> None:
    broken = tmp_path / "b.talk"
    broken.write_bytes(b"clock 2026-03-02 06:10\n\xff\xfe\n")
    for path in (tmp_path / "none.talk", tmp_path, broken):
        with pytest.raises(ScriptError, match=path.name):
            read_script(path, ZONE)
