"""What a farm's phone said, from its turn to the reply that goes out."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from dialogs import milk_fall, replies
from dialogs.phrases import who
from dialogs.questions import dump_questions
from dialogs.reading import Problem
from dialogs.texts import render
from dialogs.turn import Turn
from service.flow import details, done, doubts, falls, fix, holds, orders, people, pin
from service.flow.after import AFTER
from service.flow.telling import Telling
from service.husbandry.forms import Entry
from service.husbandry.kinds.farm import Done
from service.husbandry.kinds.milk import Milk
from service.messages import OutboundText, Purpose, Say
from service.records import conversations, farms, outbox


def tell(telling: Telling, turn: Turn) -> str:
    """
    Record, plan and carry out what *turn* holds, keep what is still to be asked, and word the reply.

    Returns:
        One segment, or up to three where the text was a question.
    """
    before = telling.talk
    _take_in(telling, turn)
    reply = _reply(telling, turn)
    telling.alerts += falls.alerts(telling)
    _keep_talk(telling, turn, before)
    return reply


def _take_in(telling: Telling, turn: Turn) -> None:
    """Everything the turn holds, if its sender may do that and has given the number that it wants."""
    allowed = None if people.refused(telling, turn) else pin.opened(telling, turn)
    if allowed is None:
        telling.questions = tuple(telling.asked)
        return
    if fix.is_fix(allowed) and allowed.amends is None:
        telling.questions = fix.put_right(telling, allowed)
    else:
        _carry_out(telling, allowed)
    if telling.recorded or telling.undone:
        for follow in AFTER:
            follow(telling)


def _carry_out(telling: Telling, turn: Turn) -> None:
    """In the order: records, orders, what is to be asked."""
    entries, asked = list(turn.entries), []
    for order in turn.instructions:
        if isinstance(order, Done):
            records, missing = done.finish(telling, order)
            entries += records
            asked += missing
    # What was just confirmed is not doubted a second time.
    settled = turn.confirmed or turn.amends is not None
    sure, doubtful = (entries, []) if settled else doubts.sift(telling, entries)
    if turn.amends is not None and sure:
        _amend(telling, turn, turn.amends, sure)
    elif sure:
        _record(telling, holds.filled(telling, sure))
    for order in turn.instructions:
        if not isinstance(order, Done):
            orders.ORDERS[type(order)](telling, order)
    questions = (*doubtful, *asked, *telling.asked, *_standing(telling, turn.questions))
    telling.questions = questions or tuple(details.wanted(telling))


def _standing(telling: Telling, questions: Iterable[Problem]) -> tuple[Problem, ...]:
    """*questions* without those about an entry that was just taken back."""
    gone = {told.id for told in telling.undone}
    return tuple(q for q in questions if q.amends not in gone and not milk_fall.rests_on(q) & gone)


def _amend(telling: Telling, turn: Turn, entry_id: int, instead: Sequence[Entry]) -> None:
    """Keep *instead* in the place of an entry that the menu puts right, or that an answer completes."""
    if fix.is_fix(turn):
        telling.amend(entry_id, holds.filled(telling, instead))
        holds.note(telling)
    else:
        telling.amend(entry_id, instead)
        telling.completed.add(entry_id)


def _record(telling: Telling, entries: Sequence[Entry]) -> None:
    """Keep *entries*, each in the place of the one it completes, if of one."""
    whole = [(entry, holds.completed(telling, entry)) for entry in entries]
    for before, entry in (found for _, found in whole if found is not None):
        telling.completed.add(before.id)
        telling.amend(before.id, [entry])
    new = [entry for entry, found in whole if found is None]
    if new:
        telling.record(new)
    holds.note(telling)


def _reply(telling: Telling, turn: Turn) -> str:
    question = telling.questions[0] if telling.questions else None
    if telling.answers and not telling.recorded:
        return telling.answers[0]
    if turn.say is not None and question is None:
        values = {"who": who(telling.people(), "vet"), **turn.say.values}
        return render(Say(turn.say.key, values), telling.language)
    outcome = replies.Outcome(
        recorded=telling.recorded,
        undone=tuple(told for told in telling.undone if told.id not in telling.completed),
        farm=telling.book.farm,
        tasks=tuple(kept.task for kept in telling.open),
        people=telling.people() if _names_people(telling, question) else {},
        follows=telling.follows,
        shaky=turn.shaky,
        unread=turn.unread,
        now=telling.local,
    )
    telling.alerts = replies.alerts(outcome, question, telling.language)
    if telling.answers and question is None:
        return replies.answered(outcome, telling.answers[0], telling.language)
    text = replies.reply(outcome, question, telling.language)
    named = replies.called(" ".join((text, *telling.alerts)), outcome.people)
    if named:
        telling.talk = replace(telling.talk, called=named)
    return text


def send_alerts(telling: Telling) -> None:
    """Lay the warnings of a telling in the outbox; the reply they go with is there already."""
    for text in telling.alerts:
        alert = OutboundText(
            phone=telling.caller.phone,
            text=text,
            purpose=Purpose.ALERT,
            farm=telling.caller.farm_id,
            in_reply_to=telling.text_id,
        )
        outbox.add(telling.conn, alert, now=telling.now)


def _names_people(telling: Telling, question: Problem | None) -> bool:
    """Whether the reply may say whom to call: not for milkings, which come twice a day."""
    return question is not None or any(not isinstance(told.entry, Milk) for told in telling.recorded)


def _each_once(raised: Sequence[Problem], waiting: Sequence[Problem]) -> tuple[Problem, ...]:
    """The questions just raised, the one that the phone shows last first, in the place of older ones."""
    whose = [question.draft for question in raised]
    older = (q for q in waiting if not milk_fall.is_asked(q) or q.draft not in whose)
    return (*reversed(raised), *older)


def _keep_talk(telling: Telling, turn: Turn, before: conversations.Talk) -> None:
    """Keep the state of the talk, if it changed."""
    raised = _each_once(telling.raised, _standing(telling, turn.waiting))
    questions = dump_questions((*telling.questions, *raised))
    if telling.caller.role == farms.REPORTER:  # of which farm his answer will be
        questions = tuple({**question, "farm": telling.book.farm_id} for question in questions)
    talk = replace(telling.talk, questions=questions)
    if questions != before.questions:
        talk = replace(talk, asked_at=telling.now if questions else None)
    if talk != before:
        conversations.keep(telling.conn, telling.caller.phone, talk)
