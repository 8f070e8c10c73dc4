"""
The farm's secret number: four to six digits before money and people, set, changed and taken away by text.

It is kept hashed and stands readable nowhere: texts that hold it are kept masked (``dialogs.secret``).
"""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

from werkzeug.security import check_password_hash, generate_password_hash

from dialogs import secret
from dialogs.turn import Turn
from service.flow.people import guarded, name_of, tell_owner
from service.flow.telling import Telling
from service.husbandry.kinds.instructions import Pin
from service.messages import say
from service.records import people
from service.records.conversations import Talk
from service.records.people import Lock

TRIES = 5
"""Wrong numbers in a row after which none is taken for a while."""

LOCKED_FOR = timedelta(hours=1)
"""Ten thousand numbers are not tried out at five an hour; common practice, no source."""


def opened(telling: Telling, turn: Turn) -> Turn | None:
    """
    *turn* as it may be carried out now, without a number that was given; None: not now.

    What is behind the number and was not opened with it is asked for: all of the text waits for the answer.
    """
    given = next((one for one in turn.instructions if isinstance(one, Pin) and one.act == "give"), None)
    bare = replace(turn, instructions=tuple(one for one in turn.instructions if one is not given))
    rest = (*bare.entries, *bare.instructions)
    if given is not None and not rest:
        telling.say("pin.nothing_asked")
        return None
    if not telling.caller.guarded or not any(map(guarded, rest)):
        return bare
    lock = people.lock(telling.conn, telling.book.farm_id)
    if _is_locked(telling, lock) or (given is not None and not _right(telling, lock, given.code)):
        left = TRIES - lock.misses - 1
        if not telling.answers:
            telling.asked.append(secret.question(rest, left=left))
        return None
    if given is None:
        telling.asked.append(secret.question(rest))
        return None
    return bare


def is_asked(talk: Talk) -> bool:
    """Whether a secret number is asked for: digits alone are then taken for one."""
    return any(question.get("kind") == Pin.KIND for question in talk.questions)


def order(telling: Telling, pin: Pin) -> None:
    """Set, change or take away the number; what was there before must be given."""
    code, old = (pin.code, pin.old) if pin.act == "set" else (None, pin.code)
    if pin.act == "set" and not secret.is_code(code):
        telling.say("pin.form")
        return
    lock = people.lock(telling.conn, telling.book.farm_id)
    if lock.hash is not None and not _may_change(telling, lock, old, pin.act):
        return
    hashed = None if code is None else generate_password_hash(code)
    people.set_lock(telling.conn, telling.book.farm_id, Lock(hash=hashed, misses=0, locked_until=None))
    telling.say("pin.set" if hashed is not None else "pin.none")


def _may_change(telling: Telling, lock: Lock, old: str | None, act: str) -> bool:
    """Whether the number that is set was given rightly; else it is said what to send."""
    if _is_locked(telling, lock):
        return False
    if old is None:
        telling.say(f"pin.give_old.{act}")
        return False
    right = _right(telling, lock, old)
    if not right and not telling.answers:
        telling.say("pin.wrong", count=TRIES - lock.misses - 1)
    return right


def _is_locked(telling: Telling, lock: Lock) -> bool:
    locked = lock.locked_until is not None and telling.now < lock.locked_until
    if locked and lock.locked_until is not None:
        telling.say("pin.locked", at=telling.house.local(lock.locked_until))
    return locked


def _right(telling: Telling, lock: Lock, code: str | None) -> bool:
    """Whether *code* is the number; a wrong one is counted, and the last that may be tried locks."""
    farm_id = telling.book.farm_id
    if lock.hash is not None and code is not None and check_password_hash(lock.hash, code):
        if lock.misses:
            people.set_lock(telling.conn, farm_id, replace(lock, misses=0, locked_until=None))
        return True
    if lock.misses + 1 < TRIES:
        people.set_lock(telling.conn, farm_id, replace(lock, misses=lock.misses + 1))
        return False
    until = telling.now + LOCKED_FOR
    people.set_lock(telling.conn, farm_id, replace(lock, misses=0, locked_until=until))
    at = telling.house.local(until)
    telling.say("pin.locked", at=at)
    tell_owner(telling, say("pin.locked_owner", by=name_of(telling, telling.caller.phone), at=at))
    return False
