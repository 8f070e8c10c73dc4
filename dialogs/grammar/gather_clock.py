"""Hours: "saa mbili na nusu asubuhi", "half past six", "4 am"."""

from __future__ import annotations

from dialogs.grammar.gathering import NOTHING, Gathering, split_hour
from dialogs.grammar.items import Item
from dialogs.grammar.when import Clock

_HOURS_OF_CLOCK = 12


class Clocks(Gathering):
    """Puts together what tells an hour."""

    def _saa(self) -> bool | None:
        clock = self._peek(1)
        if self._is_length():
            return None
        if clock.sort == "clock":
            hour, minute = (int(piece) for piece in clock.word.replace(".", ":").split(":"))
            return self._clock(2, hour, minute, saa=True)
        hour, minute = split_hour(clock)
        if not 0 <= hour <= 24:
            return None
        count = 2
        if (
            self._peek(2).word == "na"
            and self._peek(3).has("when.minutes")
            and self._peek(4).sort == "number"
        ):
            minute, count = int(self._peek(4).value) % 60, 5
        elif (
            self._peek(2).has("when.less")
            and self._peek(3).has("when.minutes")
            and self._peek(4).sort == "number"
        ):
            hour, minute, count = hour - 1 or 12, 60 - int(self._peek(4).value) % 60, 5
        return self._clock(count, hour, minute % 60, saa=True)

    def _is_length(self) -> bool:
        """ "maziwa masaa 24", "hours 24": a length of time, with no part of the day beside it."""
        number, follows = self._peek(1), self._peek(2)
        if number.sort != "number" or follows.starts("part.") is not None:
            return False
        held = any(item.has("milk", "meat", "hold", "label") for item in [*self.out[-2:], follows])
        return held and (self._peek().word == "masaa" or number.value > _HOURS_OF_CLOCK)

    def _clock(self, count: int, hour: int, minute: int, *, saa: bool) -> bool | None:
        style = "saa" if saa else "exact"
        follows = self._peek(count)
        if follows.has("when.am", "when.pm"):
            style = "am" if follows.has("when.am") else "pm"
            count += 1
        if hour > 24 or minute > 59 or (style in ("am", "pm") and hour > 23):
            return None
        if style == "saa" and (hour > 12 or hour == 0):
            style = "exact"
        if self.out and (self.out[-1].word in ("at", "kwenye") or self.out[-1].has("when.about")):
            self.out.pop()
        return self._put(Clock(hour % 24, minute, style), count)

    def _hour_place(self, follows: Item) -> bool:
        return follows is NOTHING or follows.sort in ("mark", "when") or follows.word in ("in", "na", "and")

    def _european(self, item: Item, follows: Item) -> bool | None:
        hour, minute = split_hour(item)
        style = "am" if follows.has("when.am") else "pm" if follows.has("when.pm") else "bare"
        if self.out and (self.out[-1].word == "at" or self.out[-1].has("when.about", "price_word")):
            self.out.pop()
        return self._put(Clock(hour, minute, style), 2)

    def _half_past(self, item: Item) -> bool | None:
        """ "half past six", "quarter to seven"."""
        if not self._peek(1).has("when.past", "when.less") or self._peek(2).sort != "number":
            return None
        minute = 30 if item.word == "half" else 15
        hour = int(self._peek(2).value)
        if self._peek(1).has("when.less"):
            hour, minute = hour - 1 or 12, 60 - minute
        return self._clock_of_words(hour, minute, 3)

    def _clock_of_words(self, hour: int, minute: int, count: int) -> bool | None:
        if not 0 < hour < 24:
            return None
        style = "bare"
        if self._peek(count).has("when.am", "when.pm"):
            style = "am" if self._peek(count).has("when.am") else "pm"
            count += 1
        if self.out and self.out[-1].word == "at":
            self.out.pop()
        return self._put(Clock(hour, minute, style), count)
