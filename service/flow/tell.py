"""What a farm's phone said, from its turn to the reply that goes out."""

from __future__ import annotations

from dataclasses import replace

from dialogs import replies
from dialogs.engine import Turn, dump_questions
from dialogs.reading import Problem
from dialogs.texts import render
from service.flow import details, done, doubts, orders
from service.flow.telling import Telling
from service.husbandry.kinds.farm import Done
from service.husbandry.kinds.milk import Milk
from service.messages import OutboundText, Purpose
from service.records import conversations, outbox


def tell(telling: Telling, turn: Turn) -> str:
    """
    Record, plan and carry out what *turn* holds, keep what is still to be asked, and word the reply.

    Returns:
        One segment, or up to three where the text was a question.
    """
    before = telling.talk
    _take_in(telling, turn)
    reply = _reply(telling, turn)
    _keep_talk(telling, turn, before)
    return reply


def _take_in(telling: Telling, turn: Turn) -> None:
    """Everything the turn holds, in the order: records, orders, what is to be asked."""
    entries, asked = list(turn.entries), []
    for order in turn.instructions:
        if isinstance(order, Done):
            records, missing = done.finish(telling, order)
            entries += records
            asked += missing
    # What was just confirmed is not doubted a second time.
    sure, doubtful = (entries, []) if turn.answered else doubts.sift(telling, entries)
    if sure:
        telling.record(sure)
    for order in turn.instructions:
        if not isinstance(order, Done):
            orders.ORDERS[type(order)](telling, order)
    telling.questions = (*doubtful, *asked, *turn.questions) or tuple(details.wanted(telling))


def _reply(telling: Telling, turn: Turn) -> str:
    question = telling.questions[0] if telling.questions else None
    if telling.answers and not telling.recorded:
        return telling.answers[0]
    if turn.say is not None and question is None:
        return render(turn.say, telling.language)
    outcome = replies.Outcome(
        recorded=telling.recorded,
        undone=telling.undone,
        farm=telling.book.farm,
        tasks=tuple(kept.task for kept in telling.open),
        people=telling.people() if _names_people(telling, question) else {},
        now=telling.local,
    )
    telling.alerts = replies.alerts(outcome, question, telling.language)
    text = replies.reply(outcome, question, telling.language)
    named = replies.called(text, outcome.people)
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


def _keep_talk(telling: Telling, turn: Turn, before: conversations.Talk) -> None:
    """Keep the state of the talk, if it changed."""
    questions = dump_questions((*telling.questions, *turn.waiting))
    talk = replace(telling.talk, questions=questions)
    if questions != before.questions:
        talk = replace(talk, asked_at=telling.now if questions else None)
    if talk != before:
        conversations.keep(telling.conn, telling.caller.phone, talk)
