"""
What follows outside the herd book once a telling is recorded or taken back, in the same transaction.

One function each, listed in ``AFTER``: who else is told, what staff should look at. What follows for the
herd and its tasks follows from the entries alone and is no business of this module.
"""

from __future__ import annotations

from collections.abc import Callable

from service.flow import centre, concerns, credit, falls, prices, reports, trouble
from service.flow.telling import Telling

AFTER: tuple[Callable[[Telling], None], ...] = (
    reports.keep_reporter,
    reports.tell_of_report,
    prices.at_last_price,
    credit.after_payment,
    centre.after_pay,
    concerns.illness_near,
    falls.after_milk,
    trouble.milk_rejected,
    trouble.calves_die,
)
