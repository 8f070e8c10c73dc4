"""
Finds the items of a text that speak of time and puts each group of them together: "tarehe 12 mwezi wa 3",
"siku 3 zilizopita", "saa mbili na nusu asubuhi".
"""

from __future__ import annotations

import re
from datetime import date, datetime, timedelta

from dialogs.grammar.gather_clock import Clocks
from dialogs.grammar.gather_span import MID_YEAR, Spans
from dialogs.grammar.gathering import is_hour, is_year, month_number, split_hour
from dialogs.grammar.items import Item, Text
from dialogs.grammar.when import (
    Clock,
    Day,
    NoDay,
    Part,
    about_month,
    latest_day_of_month,
    latest_weekday,
    written_date,
)


class _Gathering(Clocks, Spans):
    """One pass over the items, replacing those that speak of time."""

    def run(self) -> list[Item]:
        while self.at < len(self.items):
            took = self._take()
            if took is None:
                self.out.append(self.items[self.at])
                self.at += 1
        return self.out

    def _take(self) -> bool | None:
        item = self._peek()
        if item.sort == "date":
            day = written_date(self.today, item.word)
            return self._put_day(None if day is None else day.on, 1, latest=day is not None and day.latest)
        if item.sort == "clock":
            return self._clock(
                1, int(item.word.replace(".", ":").split(":")[0]), int(item.word[-2:]), saa=False
            )
        if item.sort == "number":
            return self._number_first(item)
        if item.sort == "animal" and item.other is not None and item.other.sort == "cue":
            return self._name_as_time(item)
        return self._cue(item) if item.sort == "cue" else None

    def _name_as_time(self, item: Item) -> bool | None:
        """A cow called Mwezi in "mwezi uliopita", "mwezi wa tatu": there it is the month."""
        if item.other is None or item.other.starts("span.") is None:
            return None
        follows = self._peek(1)
        joined = follows.word in ("wa", "ya") and (
            self._peek(2).sort in ("number", "cue") or self._peek(2).word == "kwanza"
        )
        last = follows.has("day.1") and (not self.out or self.out[-1].sort == "mark")
        if last or follows.has("when.this", "when.ago", "when.next") or follows.starts("month.") or joined:
            self.items[self.at] = item.other
            return self._cue(item.other)
        return None

    def _cue(self, item: Item) -> bool | None:
        for prefix, take in (
            ("day.", self._relative), ("weekday.", self._weekday), ("part.", self._part),
        ):  # fmt: skip
            name = item.starts(prefix)
            if name is not None:
                return take(name)
        if item.has("when.last_night"):
            self._put(Day(self.today - timedelta(days=1)), 1)
            item = self.out[-1]
            self.out.append(Item("when", item.start, item.end, item.word, value=Part("night", last=True)))
            return True
        if item.has("when.am", "when.pm"):
            return self._put(Part("morning" if item.has("when.am") else "evening"), 1)
        if item.has("when.saa") and self._peek(1).sort in ("number", "clock"):
            return self._saa()
        if item.has("when.date"):
            return self._tarehe()
        if item.starts("span.") is not None and not item.has("when.saa"):
            found = self._span(item)
            if found:
                return found
        if item.has("when.this", "when.last", "when.next"):
            return self._this_last(item)
        if item.starts("month.") is not None and not self._is_ago(item):
            return self._month_first(item)
        if item.has("when.half", "when.quarter"):
            return self._half_past(item)
        return None

    def _relative(self, name: str) -> bool | None:
        if self._peek().word in ("sasa", "now") and self._peek(1).has("named", "rename"):
            return None
        if self.out and self.out[-1].word in ("kama", "kuliko", "than", "like", "as") and int(name) > 0:
            return None  # "lita 6 kama jana": compared with that day, not told of it
        return self._put_day(self.today - timedelta(days=int(name)), 1)

    def _weekday(self, name: str) -> bool | None:
        if self.out and self.out[-1].has("every"):
            return None
        on = latest_weekday(self.today, int(name))
        count, latest = 1, True
        if self.out and self.out[-1].has("when.last", "when.next", "when.this"):
            latest = not self.out[-1].has("when.last")
            if self.out.pop().has("when.next"):
                on += timedelta(days=14 if on + timedelta(days=7) == self.today else 7)
        elif self._peek(1).has("when.next"):
            on, count = on + timedelta(days=7), 2
        elif self._peek(1).has("when.next_week"):
            on, count = self._monday() + timedelta(days=7 + int(name)), 2
        elif self._peek(1).has("when.ago") or self._peek(1).has("when.this"):
            count, latest = 2, self._peek(1).has("when.this")
        if self._week_before(count):
            on, count = on - timedelta(days=7 if on >= self._monday() else 0), count + 2
            latest = False
        return self._put_day(on, count, latest=latest)

    def _monday(self) -> date:
        return self.today - timedelta(days=self.today.weekday())

    def _week_before(self, ahead: int) -> bool:
        first, second = self._peek(ahead), self._peek(ahead + 1)
        return (first.has("span.week") and second.has("when.ago")) or (
            first.has("when.last") and second.has("span.week")
        )

    def _part(self, name: str) -> bool | None:
        item = self._peek()
        written = self.text.written(item.start, item.end).lower().split()
        if {"this", "hii", "huu", "tonight", "2nite", "2night", "leo"} & set(written):
            self.out.append(Item("when", item.start, item.end, item.word, value=Day(self.today)))
        return self._put(Part(name), 1)

    def _number_first(self, item: Item) -> bool | None:
        follows = self._peek(1)
        if _paid_for_month(self.out, self.text) and item.value == int(item.value) and 1 <= item.value <= 12:
            self.out.pop()  # "malipo ya mwezi wa 1": the month stands in the phrase before
            return self._month(int(item.value), 1)
        if is_year(item) and self.out and _dated_by_year(self.out[-1]):
            while self.out and (self.out[-1].word in ("in", "since") or self.out[-1].has("when.since")):
                self.out.pop()
            return self._put_day(about_month(self.today, MID_YEAR, int(item.value)), 1, about=True)
        if item.hint == "part" and follows.has("when.past", "when.less") and self._peek(2).sort == "number":
            return self._half_past(item)
        hour = item.digits and 0 < item.value < 24 and not _tenths(item)
        if hour and follows.has("when.am", "when.pm", "when.oclock"):
            if self.out and self.out[-1].word in ("am", "pm"):
                return None  # "am 6 pm 4": the mark stands before its litres
            return self._european(item, follows)
        month = follows.starts("month.") if not follows.has("when.ago") else None
        if follows.word in ("of", "wa", "ya") and self._peek(2).starts("month.") is not None:
            return self._day_of_month(item, int(self._peek(2).starts("month.") or 0), 3)
        if month is not None and not (follows.word == "may" and item.hint == "" and item.value > 31):
            return self._day_of_month(item, int(month), 2)
        if follows.has("span.month") and self._peek(2).word in ("wa", "ya") and item.hint in ("", "ordinal"):
            number = month_number(self._peek(3))
            if number is not None and 1 <= item.value <= 31 and self.out and not self.out[-1].starts("unit."):
                return self._day_of_month(item, number, 4)
        if follows.starts("span.") is not None and self._peek(2).has("when.ago"):
            return self._ago(item, follows.starts("span.") or "", 3)
        if (
            item.hint == "ordinal"
            and self.out
            and (self.out[-1].word in ("the", "on") or self.out[-1].has("when.date", "when.on", "when.about"))
        ):
            return self._put_day(latest_day_of_month(self.today, int(item.value)), 1, latest=True)
        if (
            self.out
            and self.out[-1].word == "at"
            and follows.sort != "cue"
            and is_hour(item)
            and self._hour_place(follows)
        ):
            self.out.pop()
            hour, minute = split_hour(item)
            return self._put(Clock(hour, minute, "bare"), 1)
        return None

    def _tarehe(self) -> bool | None:
        follows = self._peek(1)
        if follows.sort == "date":
            self.at += 1
            return self._take()
        if follows.sort != "number" or follows.value != int(follows.value) or follows.hint == "money":
            return None
        if not 1 <= follows.value <= 31:
            return self._put(NoDay(), 2)
        month = self._month_told(2)
        if month is not None:
            self.at += 1
            return self._day_of_month(follows, month[0], month[1] - 1)
        return self._put_day(latest_day_of_month(self.today, int(follows.value)), 2, latest=True)


def _tenths(item: Item) -> bool:
    """Whether a number is told to a tenth, as litres are and no hour is: "5.5 pm"."""
    return re.fullmatch(r"\d+[.,]\d", item.word) is not None


def _paid_for_month(out: list[Item], text: Text) -> bool:
    if len(out) < 2 or out[-1].word not in ("wa", "ya") or not out[-2].has("milk_pay"):
        return False
    return text.tokens[out[-2].end - 1].word in ("mwezi", "month")


def _dated_by_year(before: Item) -> bool:
    """Whether a year can only be when something was: "alizaa 2024", "calved in 2024", "tangu 2024"."""
    return before.word in ("in", "since") or before.has("when.since", "calve", "born", "dry", "abort")


def gather(text: Text, now: datetime) -> list[Item]:
    """The items of *text* with those that speak of time put together as ``when`` items."""
    return _Gathering(text, now).run()
