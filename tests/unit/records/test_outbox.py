"""The outbox gives each text to one holder at a time, a phone's in order, and forgets none."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import sqlalchemy as sa

from service.messages import OutboundText, Purpose
from service.records import outbox
from service.records.base import Store
from service.records.outbox import LEASE, Waiting
from tests.support.outbox import ASHA, REHEMA, alert, column, keep, put, reminder, reply, states

NOON = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)
SECOND = timedelta(seconds=1)
MINUTE = timedelta(minutes=1)


def lease(store: Store, now: datetime = NOON, limit: int = 10) -> list[Waiting]:
    return store.write(lambda connection: outbox.lease(connection, now=now, limit=limit))


def said(waiting: list[Waiting]) -> list[str]:
    return [text.text for text in waiting]


def accept(store: Store, *texts: Waiting, now: datetime = NOON) -> None:
    for text in texts:
        store.write(lambda connection, text=text: outbox.accepted(connection, text, now=now))


def fail(store: Store, text: Waiting, next_try: datetime) -> None:
    store.write(lambda connection: outbox.failed_attempt(connection, text, next_try=next_try))


def receive(store: Store, id: str, state: str) -> None:
    store.write(lambda connection: outbox.receipt(connection, id, state))


def next_try(store: Store) -> datetime | None:
    return store.read(outbox.next_try)


def test_a_text_comes_back_from_the_outbox_as_it_went_in(store: Store) -> None:
    answered = keep(store, "in-1", NOON)
    text = OutboundText(
        phone=REHEMA, text="Habari", purpose=Purpose.REMINDER, task_ids=(3, 4), items=((3,), (4,)),
        not_after=NOON + MINUTE, in_reply_to=answered,
    )  # fmt: skip
    [name] = put(store, NOON, text)
    [waiting] = lease(store)
    assert waiting == Waiting(
        seq=waiting.seq, id=name, phone=REHEMA, text="Habari", purpose=Purpose.REMINDER, farm=None,
        task_ids=(3, 4), items=((3,), (4,)), in_reply_to=answered, created_at=NOON,
        attempts=0, not_after=NOON + MINUTE,
    )  # fmt: skip


def test_every_text_has_an_id_of_its_own(store: Store) -> None:
    ids = put(store, NOON, *[reply("Habari")] * 20)
    assert len(set(ids)) == 20


def test_texts_of_many_phones_are_leased_oldest_first(store: Store) -> None:
    phones = [f"+2556200000{n:02}" for n in range(12)]
    put(store, NOON, *[reply(phone, phone) for phone in phones])
    assert said(lease(store, limit=5)) == phones[:5]
    assert said(lease(store, limit=5)) == phones[5:10]
    assert said(lease(store, limit=5)) == phones[10:]


def test_a_leased_text_is_nobody_elses_until_the_lease_runs_out(store: Store) -> None:
    ids = put(store, NOON, reply("Habari"))
    assert [text.id for text in lease(store)] == ids
    assert lease(store) == []
    assert lease(store, NOON + LEASE - SECOND) == []
    assert [text.id for text in lease(store, NOON + LEASE)] == ids


def test_a_phones_answers_go_one_after_the_other(store: Store) -> None:
    put(store, NOON, reply("1"), reply("2"), reply("1 of Asha", ASHA), reply("3"))
    first = lease(store)
    assert said(first) == ["1", "1 of Asha"]
    assert lease(store) == []
    accept(store, first[0])
    assert said(lease(store)) == ["2"]


def test_after_a_failure_the_phones_later_answers_wait_with_the_first(store: Store) -> None:
    put(store, NOON, reply("1"), reply("2"))
    fail(store, lease(store)[0], NOON + MINUTE)
    assert lease(store, NOON + MINUTE - SECOND) == []
    assert next_try(store) == NOON + MINUTE
    assert said(lease(store, NOON + MINUTE)) == ["1"]


def test_a_new_answer_takes_the_older_ones_with_it(store: Store) -> None:
    put(store, NOON, reply("1"))
    fail(store, lease(store)[0], NOON + 30 * MINUTE)
    put(store, NOON + MINUTE, reply("2"))
    [first] = lease(store, NOON + MINUTE)
    assert (first.text, first.attempts) == ("1", 1)


def test_unasked_texts_hold_up_no_answer_and_are_not_held_up(store: Store) -> None:
    put(store, NOON, reminder("asubuhi"), reply("1"), alert("hatari"))
    both = lease(store)
    assert said(both) == ["asubuhi", "1"]
    store.write(lambda connection: outbox.postpone(connection, both[0], until=NOON + 60 * MINUTE))
    assert said(lease(store)) == ["hatari"]


def test_an_alert_that_answers_a_text_counts_as_an_answer(store: Store) -> None:
    answered = keep(store, "in-1", NOON)
    put(store, NOON, reply("1", in_reply_to=answered), alert("hatari", in_reply_to=answered))
    first = lease(store)
    assert said(first) == ["1"]
    accept(store, *first)
    [second] = lease(store)
    assert (second.text, second.asked) == ("hatari", True)


def test_when_a_text_that_had_failed_is_accepted_the_others_that_failed_are_due(store: Store) -> None:
    put(store, NOON, reply("1"), reply("1 of Asha", ASHA), reply("parked", "+255600000001"))
    first, second, parked = lease(store)
    fail(store, first, NOON + MINUTE)
    fail(store, second, NOON + 30 * MINUTE)
    store.write(lambda connection: outbox.postpone(connection, parked, until=NOON + 60 * MINUTE))
    [again] = lease(store, NOON + MINUTE)
    accept(store, again, now=NOON + MINUTE)
    assert said(lease(store, NOON + MINUTE)) == ["1 of Asha"]


def test_the_next_try_is_the_earliest_of_all_and_none_when_nothing_waits(store: Store) -> None:
    assert next_try(store) is None
    put(store, NOON + MINUTE, reply("later"))
    put(store, NOON, reply("now", ASHA))
    assert next_try(store) == NOON
    [now] = lease(store)
    assert next_try(store) == NOON + MINUTE
    accept(store, now, *lease(store, NOON + MINUTE))
    assert next_try(store) is None


def test_a_text_that_no_sender_takes_is_overdue(store: Store) -> None:
    def overdue(now: datetime) -> datetime | None:
        return store.read(lambda connection: outbox.overdue(connection, now=now))

    assert overdue(NOON) is None
    put(store, NOON, reply("1"))
    assert overdue(NOON + 3 * MINUTE) is None
    assert overdue(NOON + 4 * MINUTE) == NOON
    fail(store, *lease(store, NOON + 4 * MINUTE), NOON + 30 * MINUTE)
    assert overdue(NOON + 29 * MINUTE) is None


def test_each_outcome_is_final(store: Store) -> None:
    put(store, NOON, *[reply(text, f"+25562000000{n}") for n, text in enumerate(("a", "b", "c"))])
    first, second, third = lease(store)
    accept(store, first)
    store.write(lambda connection: outbox.refused(connection, second))
    store.write(lambda connection: outbox.expire(connection, third))
    assert states(store) == {"a": "accepted", "b": "failed", "c": "expired"}
    for late in (first, second, third):
        fail(store, late, NOON)
        store.write(lambda connection, late=late: outbox.expire(connection, late))
    assert states(store) == {"a": "accepted", "b": "failed", "c": "expired"}
    assert column(store, "a", "accepted_at") == NOON
    assert lease(store, NOON + timedelta(days=9)) == []


def test_a_receipt_tells_what_became_of_an_accepted_text(store: Store) -> None:
    for state in ("delivered", "failed", "expired"):
        [name] = put(store, NOON, reply(state))
        accept(store, *lease(store))
        receive(store, name, state)
        assert states(store)[state] == state


def test_delivered_is_the_last_word_of_receipts(store: Store) -> None:
    [name] = put(store, NOON, reply("a"))
    accept(store, *lease(store))
    told = [("failed", "failed"), ("expired", "failed"), ("delivered", "delivered"), ("failed", "delivered")]
    for state, then in told:
        receive(store, name, state)
        assert states(store) == {"a": then}


def test_a_receipt_that_comes_before_the_gateways_answer_ends_the_trying(store: Store) -> None:
    [name] = put(store, NOON, reply("a"))
    [leased] = lease(store)
    receive(store, name, "delivered")
    fail(store, leased, NOON)
    accept(store, leased)
    assert states(store) == {"a": "delivered"}
    assert next_try(store) is None
    assert lease(store, NOON + timedelta(days=1)) == []


def test_a_receipt_for_an_unknown_id_changes_nothing(store: Store) -> None:
    put(store, NOON, reply("a"))
    receive(store, "nobody's", "delivered")
    assert states(store) == {"a": "waiting"}


def test_who_leaves_gets_the_answers_that_wait_and_nothing_unasked(store: Store) -> None:
    put(store, NOON, reminder("asubuhi"), reply("kwaheri"), alert("hatari"), reminder("Asha's", ASHA))
    store.write(lambda connection: outbox.withdraw_unasked(connection, REHEMA))
    assert states(store) == {
        "asubuhi": "expired", "kwaheri": "waiting", "hatari": "expired", "Asha's": "waiting",
    }  # fmt: skip


def test_the_due_are_found_by_an_index_among_many_that_are_done(store: Store) -> None:
    """With 20,000 texts of the past, neither question about what is due walks through them."""
    done = [
        {"id": f"old-{n}", "phone": REHEMA, "text": "x", "purpose": "reply", "task_ids": [], "items": [],
         "created_at": NOON, "state": "delivered", "attempts": 1}
        for n in range(20_000)
    ]  # fmt: skip
    store.write(lambda connection: connection.execute(sa.insert(outbox.TextOut), done))
    put(store, NOON, reply("a"))
    if store.engine.dialect.name == "postgresql":
        store.write(lambda connection: connection.exec_driver_sql("ANALYZE texts_out"))
    for question in (outbox.select_first(), outbox.select_due(NOON, 10)):
        plan = store.read(lambda connection, question=question: explain(connection, question))
        assert "seq scan" not in plan, plan
        assert "scan texts_out\n" not in plan + "\n", plan


def explain(connection: sa.Connection, question: sa.Select[tuple[object]]) -> str:
    sqlite = connection.dialect.name == "sqlite"
    compiled = question.compile(connection, compile_kwargs={"literal_binds": True})
    rows = connection.exec_driver_sql(f"EXPLAIN {'QUERY PLAN ' if sqlite else ''}{compiled}").all()
    return "\n".join(str(row[-1]) for row in rows).lower()
