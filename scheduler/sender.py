"""
The sender: takes due texts from the outbox to the gateway, one pass at a time.

Lease, commit, send, commit: no transaction is open while the gateway is talked to, and whatever is cut
short is sent again with the same id.
"""

from __future__ import annotations

import logging
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from datetime import datetime
from zoneinfo import ZoneInfo

from scheduler.retry import RetryPolicy
from service import sms
from service.clock import Clock, farm_time
from service.gateways.interface import Gateway, GatewayError, GatewayRefused, GatewayUnreachable
from service.messages import Event, Listener
from service.records import outbox
from service.records.base import Store
from service.records.outbox import Waiting

log = logging.getLogger(__name__)

BATCH = 8
"""Texts leased together: few enough that even timeouts end before the lease does."""


def drain(store: Store, gateway: Gateway, clock: Clock, zone: ZoneInfo, listener: Listener) -> int:
    """
    Send what is due, until nothing is or the gateway takes nothing.

    Returns:
        How many texts the gateway accepted.
    """
    return _Pass(store, gateway, clock, zone, listener).run()


class _Pass:
    """One pass and what it works with."""

    def __init__(
        self, store: Store, gateway: Gateway, clock: Clock, zone: ZoneInfo, listener: Listener
    ) -> None:
        self.store, self.gateway, self.clock, self.zone, self.listener = store, gateway, clock, zone, listener
        self.policy = RetryPolicy()

    def run(self) -> int:
        accepted = 0
        while batch := self._lease():
            ready = [text for text in batch if self._may_go(text)]
            errors = []
            for text, error in zip(ready, self._send_all(ready), strict=True):
                self._settle(text, error)
                errors.append(error)
            accepted += errors.count(None)
            if errors and all(isinstance(error, GatewayUnreachable) for error in errors):
                log.warning("the gateway takes nothing now: %s", errors[-1])
                break  # the next pass tries the rest
        return accepted

    def _lease(self) -> list[Waiting]:
        now = self.clock.now()
        first = self.store.read(outbox.next_try)
        if first is None or first > now:  # mostly so: no need to keep the writer busy
            return []
        return self.store.write(lambda connection: outbox.lease(connection, now=now, limit=BATCH))

    def _may_go(self, text: Waiting) -> bool:
        """Whether *text* may go now; else it is put off to its hour, or given up."""
        now = self.clock.now()
        opens = self.policy.when(text, now, self.zone)
        if opens is None:
            self.store.write(lambda connection: outbox.expire(connection, text))
        elif opens > now:
            self.store.write(lambda connection: outbox.postpone(connection, text, until=opens))
        return opens is not None and opens <= now

    def _send_all(self, texts: list[Waiting]) -> Iterator[GatewayError | None]:
        """What became of each of *texts*, in their order, as soon as it is known."""
        if self.gateway.at_once == 1 or len(texts) == 1:
            yield from map(self._send, texts)
            return
        with ThreadPoolExecutor(self.gateway.at_once, "sender") as pool:
            yield from pool.map(self._send, texts)

    def _send(self, text: Waiting) -> GatewayError | None:
        try:
            self.gateway.send(text.id, text.phone, text.text)
        except GatewayError as error:
            return error
        return None

    def _settle(self, text: Waiting, error: GatewayError | None) -> None:
        now = self.clock.now()
        if error is None:
            self.store.write(lambda connection: outbox.accepted(connection, text, now=now))
            self.listener(sent_event(text, now, self.zone))
        elif isinstance(error, GatewayRefused):
            log.warning("text %s is refused for good: %s", text.id, error)
            self.store.write(lambda connection: outbox.refused(connection, text))
        else:
            log.debug("text %s is not accepted now: %s", text.id, error)
            self._try_again(text, now)

    def _try_again(self, text: Waiting, now: datetime) -> None:
        again = self.policy.again(text, now)
        if again is None:
            self.store.write(lambda connection: outbox.expire(connection, text))
        else:
            self.store.write(lambda connection: outbox.failed_attempt(connection, text, next_try=again))


def sent_event(text: Waiting, now: datetime, zone: ZoneInfo) -> Event:
    """The log's line for a text that the gateway has accepted at *now*."""
    size = sms.measure(text.text)
    event: Event = {
        "at": farm_time(now, zone).isoformat(timespec="minutes"),
        "event": "sent",
        "phone": text.phone,
        "text": text.text,
        "purpose": text.purpose.value,
        "encoding": size.encoding,
        "segments": size.segments,
        "task_ids": list(text.task_ids),
    }
    if text.items:
        event["items"] = [list(ids) for ids in text.items]
    return event
