"""
A cooperative's lists, taken in from a table (CSV) as its office keeps them in a spreadsheet.

Every line is looked at before anything of a list counts: where one is wrong, all wrong ones are named and
nothing is changed. A list is a row of ``LISTS``.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from functools import partial
from pathlib import Path
from typing import Any

import sqlalchemy as sa

from dialogs.grammar.place import Place
from dialogs.grammar.words import has_meaning
from service import sms
from service.flow import advice_list, semen_list
from service.flow.centre_lists import Row, Wrong, WrongLine, load_centre, load_pay
from service.phones import phone_of
from service.records import advice, farms, lists, semen

ROLES = ("vet", "technician", "office")

LONGEST = 60
"""Characters of a name, ward or word in a list: more is a column out of its place."""

MOST_DAYS = 365
"""Days that a label can ask milk or meat to be held (as of a treatment told by text)."""

YES, NO = frozenset({"yes", "ndiyo", "1", "true", "x"}), frozenset({"", "no", "hapana", "0", "false"})

Load = Callable[[sa.Connection, int, Sequence[Row], Place, datetime], list[Wrong]]


class Unreadable(Exception):
    """A file is no list at all; the message says why."""


class WrongLines(Exception):
    """Lines of a list are wrong, and nothing of it was taken in. ``sentences``: each with its line."""

    def __init__(self, sentences: Sequence[str]) -> None:
        super().__init__("\n".join(sentences))
        self.sentences = tuple(sentences)


class UnknownCooperative(Exception):
    """No cooperative has that name."""


@dataclass(frozen=True, slots=True)
class List:
    """One list: the columns it must have, those it may have, and how its rows are taken in."""

    needed: tuple[str, ...]
    more: tuple[str, ...]
    load: Load


@dataclass(frozen=True, slots=True, kw_only=True)
class Office:
    """Who loads a list. *cooperative* None: the one that takes every other number. *now*: farm-local."""

    cooperative: str | None
    place: Place
    now: datetime


def load(conn: sa.Connection, name: str, path: Path, office: Office) -> int:
    """
    Take in a list, in the caller's transaction: where it raises, nothing of it may be committed.

    Args:
        name: A key of ``LISTS``.
        path: A CSV file, UTF-8, commas or semicolons, its first line the names of the columns.

    Returns:
        How many lines were taken in.

    Raises:
        Unreadable: The file is not there, is no table, or lacks a column.
        UnknownCooperative: None has that name.
        WrongLines: Some lines are wrong; nothing has changed.
    """
    rows = read_table(path, LISTS[name])
    cooperative_id = _cooperative(conn, office.cooperative)
    wrong = LISTS[name].load(conn, cooperative_id, rows, office.place, office.now)
    if wrong:
        raise WrongLines([f"{path.name}:{line}: {why}" for line, why in sorted(wrong)])
    return sum(not _is_blank(row) for row in rows)


def _cooperative(conn: sa.Connection, name: str | None) -> int:
    if name is None:
        return farms.cooperative_of(conn, "")
    known = farms.cooperatives(conn)
    if name not in known:
        raise UnknownCooperative(f"there is no cooperative {name}: {', '.join(known)}")
    return known[name]


def read_table(path: Path, of: List) -> list[Row]:
    """
    The rows of a file by column name, blank lines as empty rows.

    Raises:
        Unreadable: It cannot be read as a table with the columns of the list.
    """
    try:
        text = path.read_text(encoding="utf-8-sig")
    except OSError as error:
        raise Unreadable(f"{path} cannot be opened: {error.strerror}") from None
    except UnicodeDecodeError:
        raise Unreadable(f"{path} is not UTF-8 text") from None
    head = text.partition("\n")[0]
    delimiter = ";" if head.count(";") > head.count(",") else ","
    table = list(csv.reader(io.StringIO(text, newline=""), delimiter=delimiter))
    columns = [cell.strip().casefold() for cell in table[0]] if table else []
    _check_columns(path, columns, of)
    rows: list[Row] = [dict(zip(columns, line, strict=False)) for line in table[1:]]
    while rows and _is_blank(rows[-1]):
        rows.pop()
    return rows


def _is_blank(row: Row) -> bool:
    return not any(cell.strip() for cell in row.values())


def _check_columns(path: Path, columns: Sequence[str], of: List) -> None:
    missing = [name for name in of.needed if name not in columns]
    if missing:
        raise Unreadable(f"{path} has no column {', '.join(missing)} in its first line")
    strange = [name for name in columns if name not in (*of.needed, *of.more)]
    if strange:
        raise Unreadable(f"{path} has a column that this list has not: {', '.join(strange)}")


# --- line by line ----------------------------------------------------------------------------------


@dataclass(slots=True)
class _Lines:
    """The lines of a list read one by one: what stands, what is wrong, and that nothing comes twice."""

    rows: Sequence[Row]
    wrong: list[Wrong]

    def read(self, one: Callable[[Row], tuple[str, Mapping[str, Any]]]) -> list[Mapping[str, Any]]:
        """What *one* makes of each row; its first part is what a list has once."""
        read: list[Mapping[str, Any]] = []
        seen: dict[str, int] = {}
        for line, row in enumerate(self.rows, 2):
            if _is_blank(row):
                continue
            try:
                what, values = one(row)
                before = seen.setdefault(what, line)
                if before != line:
                    raise WrongLine(f"{what} is in line {before} already")
            except WrongLine as error:
                self.wrong.append((line, str(error)))
            else:
                read.append(values)
        return read


def _cell(row: Row, name: str) -> str | None:
    """A cell, its spaces tidied; None where it is empty."""
    told = " ".join((row.get(name) or "").split())
    if len(told) > LONGEST:
        raise WrongLine(f"{name} has more than {LONGEST} characters")
    return told or None


def _needed(row: Row, name: str) -> str:
    told = _cell(row, name)
    if told is None:
        raise WrongLine(f"{name} is empty")
    return told


def _phone(row: Row, place: Place) -> str:
    told = _needed(row, "phone")
    phone = phone_of(told, place.region)
    if phone is None:
        raise WrongLine(f"{told} is no phone number")
    return phone


def _number(row: Row, name: str, most: int) -> int | None:
    told = _cell(row, name)
    if told is None:
        return None
    if not (told.isascii() and told.isdigit()) or int(told) > most:
        raise WrongLine(f"{name} {told} is no whole number from 0 to {most}")
    return int(told)


# --- the lists -------------------------------------------------------------------------------------


def _people(
    conn: sa.Connection, cooperative_id: int, rows: Sequence[Row], place: Place, now: datetime
) -> list[Wrong]:
    """Whom the farms can call: a line without a ward is for every ward, one without a rank comes first."""

    def one(row: Row) -> tuple[str, Mapping[str, Any]]:
        role, phone, ward = _needed(row, "role").casefold(), _phone(row, place), _cell(row, "ward")
        if role not in ROLES:
            raise WrongLine(f"role {role} is none of {', '.join(ROLES)}")
        name, rank = _cell(row, "name"), _number(row, "rank", 1000)
        values = {"ward": ward, "role": role, "name": name and sms.plain(name), "phone": phone}
        return f"{role} {phone} of {ward or 'every ward'}", {**values, "rank": rank or 0}

    lines = _Lines(rows, [])
    lists.replace_people(conn, cooperative_id, lines.read(one))
    return lines.wrong


def _products(
    conn: sa.Connection, cooperative_id: int, rows: Sequence[Row], place: Place, now: datetime
) -> list[Wrong]:
    """The drugs of the region: 0 days where the label says none, empty where it does not say."""

    def one(row: Row) -> tuple[str, Mapping[str, Any]]:
        name, dry = _needed(row, "name").casefold(), (_cell(row, "dry_cow") or "").casefold()
        if dry not in YES | NO:
            raise WrongLine(f"dry_cow {dry} is neither yes nor no")
        days = {key: _number(row, key, MOST_DAYS) for key in ("milk_days", "meat_days")}
        return name, {"name": name, **days, "dry_cow": dry in YES}

    lines = _Lines(rows, [])
    lists.replace_products(conn, cooperative_id, lines.read(one), now)
    return lines.wrong


def _words(
    conn: sa.Connection, cooperative_id: int, rows: Sequence[Row], place: Place, now: datetime
) -> list[Wrong]:
    """Words of the region, under the groups and meanings of the shipped word lists."""

    def one(row: Row) -> tuple[str, Mapping[str, Any]]:
        told = {name: _needed(row, name).casefold() for name in ("group", "meaning", "word")}
        if not has_meaning(told["group"], told["meaning"]):
            raise WrongLine(f"there is no meaning {told['meaning']} in the group {told['group']}")
        return " ".join(told.values()), told

    lines = _Lines(rows, [])
    lists.replace_words(conn, cooperative_id, lines.read(one))
    return lines.wrong


def _wards(
    conn: sa.Connection, cooperative_id: int, rows: Sequence[Row], place: Place, now: datetime
) -> list[Wrong]:
    """Where farms lie; farms that are not listed stay where they are."""

    def one(row: Row) -> tuple[str, Mapping[str, Any]]:
        phone, ward = _phone(row, place), _needed(row, "ward")
        if not lists.put_in_ward(conn, cooperative_id, phone, ward):
            raise WrongLine(f"no farm of this cooperative has the phone {_cell(row, 'phone')}")
        return phone, {}

    lines = _Lines(rows, [])
    lines.read(one)
    return lines.wrong


def _semen(
    conn: sa.Connection, cooperative_id: int, rows: Sequence[Row], place: Place, now: datetime
) -> list[Wrong]:
    """The semen in stock; a bull with no straws left stays listed, so that his kin are known by him."""

    def one(row: Row) -> tuple[str, Mapping[str, Any]]:
        bull = semen_list.bull_of(partial(_cell, row), place.currency)
        return bull.code.casefold(), semen.row(bull)

    lines = _Lines(rows, [])
    lists.replace_semen(conn, cooperative_id, lines.read(one))
    return lines.wrong


def _advice(
    conn: sa.Connection, cooperative_id: int, rows: Sequence[Row], place: Place, now: datetime
) -> list[Wrong]:
    """Topics of advice in the cooperative's own words; each keeps the caution that was shipped."""

    def one(row: Row) -> tuple[str, Mapping[str, Any]]:
        told = advice_list.worded(row)
        return f"{told['topic']} {told['language']}", told

    lines = _Lines(rows, [])
    advice.put_own(conn, cooperative_id, lines.read(one))
    return lines.wrong


LISTS: Mapping[str, List] = {
    "people": List(("role", "phone"), ("ward", "name", "rank"), _people),
    "products": List(("name",), ("milk_days", "meat_days", "dry_cow"), _products),
    "words": List(("group", "meaning", "word"), (), _words),
    "wards": List(("phone", "ward"), (), _wards),
    "semen": List(semen_list.NEEDED, semen_list.MORE, _semen),
    "advice": List(advice_list.NEEDED, (), _advice),
    "centre": List(("phone", "date"), ("session", "litres", "kg"), load_centre),
    "pay": List(("phone", "month", "amount"), ("litres", "kg", "deductions"), load_pay),
}
