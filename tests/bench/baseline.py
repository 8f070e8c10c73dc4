"""
The yardstick *B*: what a text costs when nothing is done with it but keeping it.

Flask on waitress, and one durable transaction of four statements a request: the incoming text, an entry,
an outgoing text, the animal. On SQLite one writer thread commits all that has gathered; on PostgreSQL
each request is a transaction of its own. Statements go through SQLAlchemy Core, built once; ``driver``
in place of ``core`` sends them through the bare driver (SQLite only), which is as lean as Python gets.

Run as a program it serves: ``python -m tests.bench.baseline core|driver URL PORT THREADS``.
"""

from __future__ import annotations

import json
import logging
import queue
import sqlite3
import sys
import threading
from collections.abc import Callable, Sequence
from concurrent.futures import Future
from datetime import UTC, datetime
from typing import Any

import sqlalchemy as sa
from flask import Flask, request
from waitress import serve

from service.records.base import open_engine

ANIMALS = 1000
THE = sa.MetaData()
TEXTS_IN = sa.Table(
    "texts_in",
    THE,
    sa.Column("id", sa.Text, primary_key=True),
    *(sa.Column(name, sa.Text) for name in ("sender", "text", "at")),
)
ENTRIES = sa.Table(
    "entries",
    THE,
    sa.Column("id", sa.Integer, primary_key=True),
    *(sa.Column(name, sa.Text) for name in ("text_id", "kind", "payload", "at")),
)
TEXTS_OUT = sa.Table(
    "texts_out",
    THE,
    sa.Column("id", sa.Integer, primary_key=True),
    *(sa.Column(name, sa.Text) for name in ("phone", "text", "at")),
)
HERD = sa.Table(
    "animals", THE, sa.Column("id", sa.Integer, primary_key=True), sa.Column("milked_at", sa.Text)
)
CORE = (
    sa.insert(TEXTS_IN).inline(),
    sa.insert(ENTRIES).inline(),
    sa.insert(TEXTS_OUT).inline(),
    sa.update(HERD).where(HERD.c.id == sa.bindparam("animal")).values(milked_at=sa.bindparam("at")),
)
DRIVER = (
    "INSERT INTO texts_in (id, sender, text, at) VALUES (:id, :sender, :text, :at)",
    "INSERT INTO entries (text_id, kind, payload, at) VALUES (:text_id, :kind, :payload, :at)",
    "INSERT INTO texts_out (phone, text, at) VALUES (:phone, :text, :at)",
    "UPDATE animals SET milked_at = :at WHERE id = :animal",
)

Text = dict[str, Any]
Keep = Callable[[Text], None]
Commit = Callable[[Sequence[Text]], None]


def _values(text: Text) -> tuple[dict[str, Any], ...]:
    at = datetime.now(UTC).isoformat()  # noqa: TID251 - the yardstick has no clock of its own
    return (
        {"id": text["id"], "sender": text["from"], "text": text["text"], "at": at},
        {"text_id": text["id"], "kind": "milk", "payload": json.dumps({"litres": 6}), "at": at},
        {"phone": text["from"], "text": f"Asante: {text['text']}", "at": at},
        {"at": at, "animal": hash(text["id"]) % ANIMALS + 1},
    )


def _made(url: str) -> sa.Engine:
    """A durable database at *url* with its tables and animals."""
    engine = open_engine(url)
    with engine.begin() as connection:
        THE.create_all(connection)
        connection.execute(sa.insert(HERD), [{"id": number + 1} for number in range(ANIMALS)])
    return engine


def through_core(engine: sa.Engine) -> Commit:
    """A transaction for any number of texts, through SQLAlchemy Core."""

    def commit(texts: Sequence[Text]) -> None:
        with engine.begin() as connection:
            for text in texts:
                for statement, values in zip(CORE, _values(text), strict=True):
                    connection.execute(statement, values)

    return commit


def through_driver(engine: sa.Engine) -> Commit:
    """The same through sqlite3."""
    database = sqlite3.connect(engine.url.database or "", isolation_level=None, check_same_thread=False)
    database.execute("PRAGMA synchronous=FULL")

    def commit(texts: Sequence[Text]) -> None:
        database.execute("BEGIN IMMEDIATE")
        for text in texts:
            for statement, values in zip(DRIVER, _values(text), strict=True):
                database.execute(statement, values)
        database.execute("COMMIT")

    return commit


class OneWriter:
    """Keeps texts through one thread; a commit holds all that waited for it."""

    def __init__(self, commit: Commit) -> None:
        self.commit = commit
        self.waiting: queue.SimpleQueue[tuple[Text, Future[None]]] = queue.SimpleQueue()
        threading.Thread(target=self._write, daemon=True).start()

    def keep(self, text: Text) -> None:
        """Returns once *text* is on disk."""
        kept: Future[None] = Future()
        self.waiting.put((text, kept))
        kept.result()

    def _write(self) -> None:
        while True:
            gathered = [self.waiting.get()]
            while not self.waiting.empty():
                gathered.append(self.waiting.get())
            self.commit([text for text, _ in gathered])
            for _, kept in gathered:
                kept.set_result(None)


def keeper(way: str, url: str) -> Keep:
    """How texts are kept at *url*."""
    engine = _made(url)
    commit = through_driver(engine) if way == "driver" else through_core(engine)
    if engine.dialect.name == "sqlite":
        return OneWriter(commit).keep
    return lambda text: commit([text])


def app(keep: Keep) -> Flask:
    """B as a web application."""
    flask = Flask(__name__)

    @flask.post("/gateway/sms")
    def sms() -> Text:
        text: Text = request.get_json()
        keep(text)
        return {"id": text["id"], "status": "kept"}

    @flask.get("/health")
    def health() -> Text:
        return {"status": "ok"}

    return flask


if __name__ == "__main__":
    way, url, port, threads = sys.argv[1:]
    logging.getLogger("waitress.queue").setLevel(logging.ERROR)  # it warns of each request that waits
    serve(app(keeper(way, url)), host="127.0.0.1", port=int(port), threads=int(threads), _quiet=True)
