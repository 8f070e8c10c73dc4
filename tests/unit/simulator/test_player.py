"""Playing scripts from end to end: what is printed and logged, and with which code it ends."""

from __future__ import annotations

import io
import json
from pathlib import Path
from typing import Any

import pytest

from simulator.player import FAILED, GOOD, WRONG, play

HEAD = "clock 2026-03-02 06:10\nphone rehema +255621234567\nfarm rehema sw\n"
COW = "rehema> Ng'ombe mpya Neema anakamuliwa\nrehema< *\n"


def script(folder: Path, steps: str, name: str = "a.talk") -> Path:
    path = folder / name
    path.write_text(HEAD + steps, encoding="utf-8")
    return path


def played(*paths: Path, **how: Any) -> tuple[int, str]:
    said = io.StringIO()
    return play(paths, out=said, **how), said.getvalue()


def events(log: Path) -> list[dict[str, Any]]:
    return [json.loads(line) for line in log.read_text(encoding="utf-8").splitlines()]


def test_what_was_said_is_printed_with_its_time(tmp_path: Path) -> None:
    code, said = played(script(tmp_path, COW + "clock +12h\nrehema> Neema 6\nrehema< /Neema.*6/\n"))
    assert code == GOOD
    assert "Mon 2026-03-02 18:10\n  rehema> Neema 6\n  rehema< " in said


def test_an_expectation_that_does_not_hold_is_told_and_the_script_goes_on(tmp_path: Path) -> None:
    path = script(tmp_path, "rehema< *\n" + COW + "rehema> Neema 6\nrehema< /Tausi/\nrehema< -\n")
    code, said = played(path)
    assert code == FAILED
    assert f"{path}:4: expected anything; came nothing" in said
    assert f"{path}:8: expected something that matches /Tausi/; came '" in said
    assert "2 expectation(s) did not hold" in said


def test_silence_that_was_expected_leaves_the_text_waiting(tmp_path: Path) -> None:
    code, said = played(
        script(tmp_path, "rehema> Ng'ombe mpya Neema anakamuliwa\nrehema< -\nrehema< /Neema/\n")
    )
    assert code == FAILED
    assert said.count("(FAILED") == 1


def test_a_screen_can_be_looked_at_twice_and_then_none_is_new(tmp_path: Path) -> None:
    steps = COW + "rehema# dial\nrehema= /1 /\nrehema= /2 /\nrehema= -\nrehema# hang up\nrehema= -\n"
    assert played(script(tmp_path, steps))[0] == GOOD


def test_a_new_screen_is_no_silence(tmp_path: Path) -> None:
    assert played(script(tmp_path, COW + "rehema# dial\nrehema= -\n"))[0] == FAILED


def test_typing_without_a_menu_is_a_failure_of_the_script(tmp_path: Path) -> None:
    code, said = played(script(tmp_path, "rehema# 1\n"))
    assert code == FAILED
    assert "no menu is open" in said


def test_dialling_while_the_service_is_down_brings_no_screen(tmp_path: Path) -> None:
    assert played(script(tmp_path, "service down\nrehema# dial\nrehema= -\nservice up\n"))[0] == GOOD


def test_each_script_has_a_service_of_its_own(tmp_path: Path) -> None:
    first, second = (script(tmp_path, COW, name) for name in ("a.talk", "b.talk"))
    code, said = played(first, second)
    assert code == GOOD
    assert said.count("== ") == 2


@pytest.mark.parametrize("steps", ["rehema> hi\nrehema< /(/\n", "sleep 3\n"])
def test_a_script_that_cannot_be_read_is_told_in_one_line(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], steps: str
) -> None:
    code, said = played(script(tmp_path, ""), script(tmp_path, steps, "b.talk"))
    assert (code, said) == (WRONG, "")
    error = capsys.readouterr().err
    assert error.startswith(str(tmp_path / "b.talk"))
    assert error.count("\n") == 1


def test_a_missing_script_is_told_in_one_line(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert played(tmp_path / "none.talk")[0] == WRONG
    assert capsys.readouterr().err.count("\n") == 1


def test_a_log_that_cannot_be_written_is_told(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert played(script(tmp_path, COW), log=tmp_path / "none" / "log.jsonl")[0] == WRONG
    assert "cannot be written" in capsys.readouterr().err


def test_the_log_tells_everything_in_order(tmp_path: Path) -> None:
    log = tmp_path / "log.jsonl"
    played(script(tmp_path, COW + "rehema> Neema ana joto\nrehema> FUTA\nrehema# dial\nrehema# 1\n"), log=log)
    told = [event["event"] for event in events(log)]
    assert told[:3] == ["received", "recorded", "sent"]
    assert {"planned", "dropped", "undone"} <= set(told)
    assert told[-2:] == ["received", "screen"]
    assert all(event["at"].startswith("2026-03-02T06:10+03:00") for event in events(log))


def test_the_log_holds_the_keys_of_the_contract(tmp_path: Path) -> None:
    log = tmp_path / "log.jsonl"
    played(script(tmp_path, COW + "rehema> Neema ana joto\nrehema# dial\nclock +1d\n"), log=log)
    keys = {
        "received": {"phone", "text", "channel"},
        "recorded": {"farm", "entry"},
        "planned": {"farm", "task", "animal", "due", "until", "task_id"},
        "dropped": {"task_id", "why"},
        "sent": {"phone", "text", "purpose", "encoding", "segments", "task_ids"},
        "screen": {"phone", "text", "more"},
    }
    for event in events(log):
        assert keys[event["event"]] | {"at", "event"} <= set(event)
    assert {event["event"] for event in events(log)} == set(keys)


def test_the_log_is_complete_though_expectations_fail(tmp_path: Path) -> None:
    log = tmp_path / "log.jsonl"
    code, _ = played(script(tmp_path, COW + "rehema< /x/\nrehema> Neema 6\n"), log=log)
    assert code == FAILED
    assert [event["text"] for event in events(log) if event["event"] == "received"][-1] == "Neema 6"


def test_a_database_of_ones_own_keeps_the_farm_and_is_played_on_once(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    url = f"sqlite:///{tmp_path}/mine.db"
    path = script(tmp_path, COW)
    assert played(path, database=url)[0] == GOOD
    assert played(path, database=url)[0] == WRONG
    assert "holds a farm already" in capsys.readouterr().err


def test_a_database_of_ones_own_takes_one_script(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = script(tmp_path, COW)
    assert played(path, path, database=f"sqlite:///{tmp_path}/mine.db")[0] == WRONG
    assert "one script" in capsys.readouterr().err


@pytest.mark.parametrize("url", ["nonsense", "sqlite:////no/such/folder/mine.db", "mysql://somewhere/x"])
def test_a_database_that_cannot_be_used_is_told_in_one_line(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], url: str
) -> None:
    assert played(script(tmp_path, COW), database=url)[0] == WRONG
    assert capsys.readouterr().err.count("\n") == 1


def test_the_zone_of_the_farms_is_a_setting(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("BYRELINE_ZONE", "Africa/Kigali")
    log = tmp_path / "log.jsonl"
    played(script(tmp_path, COW), log=log)
    assert {event["at"] for event in events(log)} == {"2026-03-02T06:10+02:00"}


def test_a_short_code_is_never_answered(tmp_path: Path) -> None:
    assert played(script(tmp_path, "phone bank 15000\nbank> Umelipwa\nbank< -\n"))[0] == GOOD


def test_a_phone_may_be_named_as_people_write_it(tmp_path: Path) -> None:
    assert played(script(tmp_path, "phone asha 0621 234 568\nasha> Habari\nasha< /NDIYO/\n"))[0] == GOOD
