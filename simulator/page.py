"""The demo's page: phones side by side, a clock to move, and a look behind every text."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Callable, Mapping
from datetime import date, datetime
from importlib.resources import files
from typing import Any

from babel.dates import format_date, format_datetime
from flask import Blueprint, Response, redirect, render_template, request

from service.messages import Event
from simulator.doors import DoorFailed
from simulator.gateway import NoSession
from simulator.steps import Network
from simulator.village import Village

PREFIX = "/demo/"
"""Under which every address of the page but its own lies."""

LABELS: Mapping[str, Mapping[str, Any]] = tomllib.loads(
    (files("simulator") / "labels.toml").read_text(encoding="utf-8")
)
"""Language -> key -> words; the tasks' words under ``tasks``."""

LANGUAGE_COOKIE = "labels"
SHOWN = 40  # texts of a thread: some days' worth
COMING = 8

Act = Callable[[Mapping[str, str]], None]


class Refused(Exception):
    """What was asked for cannot be done; the message is the key of the label that says why."""


def page(village: Village) -> Blueprint:
    """The page of *village* and what can be done on it, each by a form of its own."""
    blueprint = Blueprint(
        "demo", __name__, template_folder="templates", static_folder="static", static_url_path="/demo/static"
    )

    @blueprint.get("/")
    def show() -> Response:
        return _page(village, str(request.args.get("labels") or request.cookies.get(LANGUAGE_COOKIE)))

    @blueprint.post("/demo/<action>")
    def act(action: str) -> Any:
        do = _actions(village).get(action)
        if do is None:
            return "No such action.", 404
        try:
            do(request.form)
        except DoorFailed:
            return redirect("/?problem=failed", 303)
        except NoSession:
            return redirect("/?problem=no_session", 303)
        except Refused as refused:
            return redirect(f"/?problem={refused}", 303)
        return redirect("/", 303)

    return blueprint


def _actions(village: Village) -> dict[str, Act]:
    """What each form does with its fields."""
    return {
        "text": lambda form: village.text(form["phone"], form["text"]),
        "dial": lambda form: village.dial(form["phone"]),
        "type": lambda form: village.type(form["phone"], form["typed"]),
        "hang-up": lambda form: village.hang_up(form["phone"]),
        "clock": lambda form: _move(village, form["move"]),
        "network": lambda form: village.set_network(Network(form["network"])),
        "service": lambda form: (
            village.stage.switch_on() if form["service"] == "up" else village.stage.switch_off()
        ),
        "phone": lambda form: _add(village, form["number"]),
    }


def _move(village: Village, by: str) -> None:
    moves: dict[str, Callable[[], None]] = {
        "hour": lambda: village.move(hours=1),
        "hours": lambda: village.move(hours=6),
        "day": lambda: village.move(days=1),
        "week": lambda: village.move(days=7),
        "next": village.move_to_next_text,
    }
    if by not in moves:
        raise Refused("no_such_move")
    moves[by]()


def _add(village: Village, number: str) -> None:
    if not re.fullmatch(r"\+?[0-9 ]{9,20}", number.strip()):
        raise Refused("wrong_number")
    village.add_phone(number.strip())


def _page(village: Village, language: str) -> Response:
    language = language if language in LABELS else "en"
    words = _Words(language)
    problem = request.args.get("problem", "")
    response = Response(
        render_template(
            "village.html",
            village=village,
            words=words,
            label=LABELS[language],
            language=language,
            languages={code: labels["language"] for code, labels in LABELS.items()},
            problem=LABELS[language].get(problem) if problem else None,
            networks=list(Network),
            now=village.stage.local_now(),
            next_due=village.stage.next_due(),
            coming=village.diary.coming(village.stage.local_now().date(), COMING),
            names={phone.number: phone.name for phone in village.phones},
            shown=SHOWN,
        )
    )
    response.set_cookie(LANGUAGE_COOKIE, language, samesite="Strict")
    return response


class _Words:
    """Moments, tasks and entries in the words of one language."""

    def __init__(self, language: str) -> None:
        self._locale = language
        self._tasks: Mapping[str, str] = LABELS[language]["tasks"]
        self._until = LABELS[language]["until"]
        self._herd = LABELS[language]["herd"]

    def moment(self, moment: datetime) -> str:
        """``Thu 12 Mar 2026, 06:10``"""
        return format_datetime(moment, "EEE d MMM yyyy, HH:mm", locale=self._locale)

    def day(self, at: str) -> str:
        """The day of an event's moment."""
        return format_date(datetime.fromisoformat(at).date(), "EEEE d MMMM", locale=self._locale)

    def task(self, event: Event) -> str:
        """What a ``planned`` event (or one that knows its task) asks for, and of whom."""
        what = self._tasks.get(event.get("task", ""), event.get("task", ""))
        disease = f" ({event['disease']})" if event.get("disease") else ""
        return f"{event.get('animal') or self._herd}: {what}{disease}"

    def window(self, event: Event) -> str:
        """From when to when, as short as it can be said."""
        due, until = event["due"], event.get("until")
        if until is None or until == due:
            return self._point(due)
        if "T" in until and until[:10] == due[:10]:
            return f"{self._point(due)} {self._until} {until[11:16]}"
        return f"{self._point(due)} {self._until} {self._point(until)}"

    def entry(self, entry: Mapping[str, Any]) -> str:
        """The fields of a recorded entry that hold something."""
        told = {key: value for key, value in entry.items() if key not in ("id", "kind") and value}
        return ", ".join(f"{key} {_short(value)}" for key, value in told.items())

    def _point(self, point: str) -> str:
        if "T" in point:
            return format_datetime(datetime.fromisoformat(point), "d MMM HH:mm", locale=self._locale)
        return format_date(date.fromisoformat(point), "d MMM", locale=self._locale)


def _short(value: Any) -> str:
    match value:
        case {"amount": amount, "currency": currency}:
            return f"{amount} {currency}"
        case dict():
            return " ".join(_short(part) for part in value.values() if part)
        case list():
            return " + ".join(_short(part) for part in value)
        case bool():
            return "yes" if value else "no"
    return str(value)
