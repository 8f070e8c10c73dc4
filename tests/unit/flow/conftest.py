from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.support.village import Village


@pytest.fixture
def village(tmp_path: Path) -> Iterator[Village]:
    """On SQLite; the conversations of several phones are played on both databases."""
    village = Village(f"sqlite:///{tmp_path}/village.db")
    yield village
    village.close()
