"""
Alarms about falls of milk: how many are false, how many falls are found, on simulated lactations.

Run ``python -m tests.bench.falls``: the curves of docs/trade/milk.md, two minutes. Everything about the
simulated cows is below; the thresholds were chosen on cows of seeds 1 to 3, the curves are of cows of seed 4.
"""

from __future__ import annotations

import random
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from decimal import Decimal
from math import exp, inf, log, sqrt

from service.husbandry.daily_milk import DayMilk, daily
from service.husbandry.herd_falls import Milked, herd_falls
from service.husbandry.kinds.milk import Milk
from service.husbandry.milk_falls import DAILY, WEEKLY, Rule, falls
from service.husbandry.yield_expected import FIRST_DAY, Course

CALVED = date(2026, 1, 1)
LAST_DAY = 305
COWS = 300
FALL = 0.25
TAILS = 3  # degrees of freedom of Student's t: fat tails
SLOW = 0.97  # of her slow ups and downs, what is left a day later
SLOW_SD = 0.05
MORNING, MORNING_SD = 0.61, 0.051
MILKING_MISSED, DAY_MISSED = 0.03, 0.03


@dataclass(frozen=True)
class Cow:
    """A lactation as it is given: litres of each day after calving, and how it is milked."""

    litres: tuple[float, ...]
    once: bool


def student(rng: random.Random) -> float:
    """A draw of Student's t, brought to a standard deviation of one."""
    chi = sum(rng.gauss(0, 1) ** 2 for _ in range(TAILS))
    return rng.gauss(0, 1) / sqrt(chi / TAILS) / sqrt(TAILS / (TAILS - 2))


def cow(rng: random.Random) -> Cow:
    """
    A lactation of 5-20 l at its best: two in three by Wood's curve, one in three level from the start.

    Her day-to-day SD has the median 6.6 % and the quartiles 5.1 and 8.4 % of real cows (Friggens et al. 2007,
    open data; computed).
    """
    best, level = rng.uniform(5, 20), rng.random() < 1 / 3
    b, c = (0.0, rng.uniform(0, 0.0017)) if level else (rng.uniform(0.08, 0.25), rng.uniform(0.0025, 0.0045))
    top = max(t**b * exp(-c * t) for t in range(1, LAST_DAY + 1))
    spread = min(exp(rng.gauss(log(0.066), 0.37)), 0.144)
    slow, litres = rng.gauss(0, SLOW_SD), []
    for t in range(1, LAST_DAY + 1):
        slow = SLOW * slow + rng.gauss(0, SLOW_SD * sqrt(1 - SLOW**2))
        litres.append(best * t**b * exp(-c * t) / top * exp(slow) * max(1 + spread * student(rng), 0.02))
    return Cow(tuple(litres), once=rng.random() < 0.15)


def told(one: Cow, rng: random.Random, *, every: int = 1, fall_from: int | None = None) -> Iterator[Milk]:
    """What her farmer tells: each milking to the half litre, some forgotten, one day in *every*."""
    for t, litres in enumerate(one.litres, start=1):
        given = litres * (1 - FALL) if fall_from is not None and t >= fall_from else litres
        morning = 1.0 if one.once else rng.gauss(MORNING, MORNING_SD)
        parts = {"morning": morning} if one.once else {"morning": morning, "evening": 1 - morning}
        missed = rng.random() < DAY_MISSED or (t - 3) % every
        for session, part in parts.items():
            if rng.random() >= MILKING_MISSED and not missed:
                halves = Decimal(round(2 * given * part)) / 2
                yield Milk(animal="A", litres=halves, session=session, on=CALVED + timedelta(days=t))


@dataclass(frozen=True)
class Outcome:
    """False alarms a cow-year, and the part of the falls found by the first, second ... record."""

    false_a_year: float
    found_by: tuple[float, ...]


@dataclass(frozen=True)
class Trial:
    """One cow without a fall, and the same with one from ``fall_from`` on."""

    sound: tuple[DayMilk, ...]
    fallen: tuple[DayMilk, ...]
    fall_from: date


def trials(cows: int, every: int, seed: int = 4) -> list[Trial]:
    rng = random.Random(seed)
    found = []
    for _ in range(cows):
        one, fall_from, same = cow(rng), rng.randint(60, LAST_DAY - 24), rng.random()
        sound = daily(told(one, random.Random(same), every=every))
        fallen = daily(told(one, random.Random(same), every=every, fall_from=fall_from))
        found.append(Trial(sound, fallen, CALVED + timedelta(days=fall_from)))
    return found


COURSE = Course(calved_on=(CALVED,))
WINDOW = timedelta(days=60)


def outcome(tried: Sequence[Trial], rule: Rule) -> Outcome:
    """What *rule* does on the cows *tried*."""
    alarms = sum(len(falls(trial.sound, COURSE, rule, rule)) for trial in tried)
    days = sum((trial.sound[-1].on - CALVED).days - FIRST_DAY for trial in tried)
    places = [_found_on(trial, rule) for trial in tried]
    return Outcome(alarms / days * 365, tuple(sum(p <= n for p in places) / len(tried) for n in range(1, 4)))


def _found_on(trial: Trial, rule: Rule) -> float:
    """On which record of the fall it is told of, from 1; an alarm that began before it is none."""
    records = [day.on for day in trial.fallen if day.on >= trial.fall_from]
    days = [day for day in trial.fallen if trial.fall_from - WINDOW <= day.on <= records[2]]
    found = [fall.found_on for fall in falls(days, COURSE, rule, rule) if fall.found_on >= trial.fall_from]
    return records.index(found[0]) + 1 if found else inf


def shares_of_days(tried: Sequence[Trial]) -> dict[float, tuple[float, float]]:
    """Of sound days, the part so far under the mean of the seven before; and the part in pairs of such."""
    short = [one for trial in tried for one in _shortfalls(trial.sound)]
    return {
        drop: (
            sum(now >= drop for now, _ in short) / len(short),
            sum(min(pair) >= drop for pair in short) / len(short),
        )
        for drop in (0.10, 0.15, 0.20, 0.25, 0.30)
    }


def _shortfalls(days: Sequence[DayMilk]) -> Iterator[tuple[float, float]]:
    """Of each day and the one before it, both against the mean of the seven days before that one."""
    litres = [float(day.litres) for day in days if len(day.milkings) == max(len(d.milkings) for d in days)]
    for place in range(8, len(litres)):
        mean = sum(litres[place - 8 : place - 1]) / 7
        week = sum(litres[place - 7 : place]) / 7
        yield 1 - litres[place] / week, min(1 - litres[place - 1] / mean, 1 - litres[place] / mean)


THRESHOLDS = (0.12, 0.14, 0.16, 0.18, 0.20, 0.22, 0.25, 0.30)


def curve(tried: Sequence[Trial], rule: Rule) -> Iterator[str]:
    """The lines of a table: the threshold of two records, and what it costs and finds."""
    yield "| two records, % | each, % | false alarms a cow-year | found on 1st | by 2nd | by 3rd |"
    yield "| --- | --- | --- | --- | --- | --- |"
    for two in sorted({*THRESHOLDS, rule.two}):
        each = two * rule.each / rule.two
        got = outcome(tried, replace(rule, two=two, each=each))
        found = " | ".join(f"{100 * part:.1f} %" for part in got.found_by)
        mark = " (in force)" if two == rule.two else ""
        yield f"| {100 * two:.0f}{mark} | {100 * each:.1f} | {got.false_a_year:.2f} | {found} |"


def herds(cows: int, count: int, seed: int = 11) -> tuple[float, float]:
    """Of *count* herds of so many *cows*: false alarms a year, and the part of falls found by day two."""
    rng = random.Random(seed)
    fall_from = 150
    began, false, found = CALVED + timedelta(days=fall_from), 0, 0
    for _ in range(count):
        stable = [(f"Cow {n}", cow(rng), rng.random()) for n in range(cows)]
        sound = {name: Milked(daily(told(one, random.Random(s))), COURSE) for name, one, s in stable}
        fallen = {
            name: Milked(daily(told(one, random.Random(s), fall_from=fall_from)), COURSE)
            for name, one, s in stable
        }
        false += len(herd_falls(sound))
        found += any((fall.found_on - began).days in (0, 1) for fall in herd_falls(fallen))
    return false / (count * (LAST_DAY - FIRST_DAY) / 365), found / count


def main() -> None:
    for every, rule in ((1, DAILY), (7, WEEKLY)):
        tried = trials(COWS, every)
        print(f"\nOne record in {every} days, {COWS} lactations, falls by {100 * FALL:.0f} %:\n")
        print(*curve(tried, rule), sep="\n")
        if every == 1:
            for drop, parts in shares_of_days(tried).items():
                print(f"days {drop:.0%} short: {parts[0]:.2%}, both of two: {parts[1]:.3%}")
    for cows, count in ((2, 60), (3, 40), (5, 24)):
        false, found = herds(cows, count)
        print(f"herds of {cows}: {false:.2f} false alarms a year, {found:.0%} found by the second day")


if __name__ == "__main__":
    main()
