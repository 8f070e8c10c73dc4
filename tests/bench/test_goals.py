"""Every goal is met: ``pytest -m bench``. Left out of a usual run, for it takes minutes."""

from __future__ import annotations

import pytest

from tests.bench import report
from tests.bench.__main__ import MEASUREMENTS


@pytest.mark.bench
@pytest.mark.parametrize("name", MEASUREMENTS)
def test_the_goals_are_met(name: str) -> None:
    figures = MEASUREMENTS[name]()
    assert all(figure.met is not False for figure in figures), report.as_table(figures)
