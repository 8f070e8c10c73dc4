"""
The lactation curve of Wood (1967, Nature 216:164), y(t) = a t^b exp(-c t), by least squares on logarithms.

t is the day (or week) after calving, y the milk of a day in any one unit; floats, as everything here is
statistics. Many smallholders' cows give a long level yield without a peak: then b is near nothing, b / c
means nothing, and :func:`peak` tells none.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import exp, log, sqrt

FEWEST = 6
"""Records that a fit needs: twice its three parameters; Byreline's own choice."""

SURE = 3.0
"""
Standard errors by which b must exceed nothing before a peak is told of. Three, as the weeks of a cow err
together and the errors are larger than they look: of simulated level yields 3 in 100 get a peak.
"""

FLAT = 0.02
"""A b up to this is level: t^b makes 3 % between day 10 and day 50; Byreline's own choice."""

Matrix = tuple[tuple[float, ...], ...]
Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Wood:
    """A curve that was fitted, with what is known of its error."""

    log_a: float
    b: float
    c: float
    residual: float  # SD of the logarithms about the curve
    r_squared: float
    covariance: Matrix  # of log a, b, c
    first: float  # the first and the last t of the records
    last: float
    records: int

    @property
    def a(self) -> float:
        return exp(self.log_a)

    @property
    def errors(self) -> tuple[float, float, float]:
        """Standard errors of log a, b and c."""
        return (
            sqrt(self.covariance[0][0]),
            sqrt(self.covariance[1][1]),
            sqrt(self.covariance[2][2]),
        )

    def at(self, t: float) -> float:
        """The milk of day *t* (over 0)."""
        return exp(self.log_a + self.b * log(t) - self.c * t)

    def total(self, first: int, last: int) -> float:
        """The sum of the days from *first* to *last*, both counted."""
        return sum(self.at(t) for t in range(first, last + 1))

    @property
    def persistency(self) -> float:
        """Wood's s = -(b + 1) ln c: the higher, the slower the decline. Needs c over 0."""
        return -(self.b + 1) * log(self.c)


@dataclass(frozen=True, slots=True)
class Peak:
    """The top of a curve: day *t*, give or take *t_error* (one standard error), and the milk of that day."""

    t: float
    t_error: float
    milk: float


def fit(points: Iterable[Point]) -> Wood | None:
    """
    The curve through *points* (t, y), those with t and y over 0; None of under six different t.

    Checked against the published fit of Henderson's weekly series.
    """
    used = [(t, y) for t, y in points if t > 0 and y > 0]
    if len({t for t, _ in used}) < FEWEST:
        return None
    rows = [(1.0, log(t), -t) for t, _ in used]
    logs = [log(y) for _, y in used]
    inverse = _inverse(_squares(rows))
    products = [sum(row[i] * value for row, value in zip(rows, logs, strict=True)) for i in range(3)]
    log_a, b, c = (sum(inverse[i][j] * products[j] for j in range(3)) for i in range(3))
    fitted = [log_a + b * row[1] + c * row[2] for row in rows]
    rest = sum((value - one) ** 2 for value, one in zip(logs, fitted, strict=True))
    variance = rest / (len(used) - 3)
    return Wood(
        log_a=log_a,
        b=b,
        c=c,
        residual=sqrt(variance),
        r_squared=_explained(logs, rest),
        covariance=tuple(tuple(variance * value for value in row) for row in inverse),
        first=min(t for t, _ in used),
        last=max(t for t, _ in used),
        records=len(used),
    )


def _squares(rows: Sequence[tuple[float, ...]]) -> Matrix:
    return tuple(tuple(sum(row[i] * row[j] for row in rows) for j in range(3)) for i in range(3))


def _explained(values: Sequence[float], rest: float) -> float:
    """R squared; 1.0 where all values are alike and nothing is left to explain."""
    mean = sum(values) / len(values)
    spread = sum((value - mean) ** 2 for value in values)
    return 1 - rest / spread if spread > 0 else 1.0


def _inverse(m: Matrix) -> Matrix:
    """The inverse of a symmetric 3 x 3 matrix, by cofactors of its scaled form (t runs to 305, ln t to 6)."""
    scale = [sqrt(m[i][i]) for i in range(3)]
    s = [[m[i][j] / (scale[i] * scale[j]) for j in range(3)] for i in range(3)]
    cofactors = [
        [
            s[(i + 1) % 3][(j + 1) % 3] * s[(i + 2) % 3][(j + 2) % 3]
            - s[(i + 1) % 3][(j + 2) % 3] * s[(i + 2) % 3][(j + 1) % 3]
            for j in range(3)
        ]
        for i in range(3)
    ]
    determinant = sum(s[0][j] * cofactors[0][j] for j in range(3))
    return tuple(
        tuple(cofactors[j][i] / (determinant * scale[i] * scale[j]) for j in range(3)) for i in range(3)
    )


def peak(curve: Wood) -> Peak | None:
    """
    The peak of *curve*; None where the yield is level or only falls, so that no peak can be told.

    That is so where b is not surely over nothing, c is not, or the top lies outside the records.
    """
    if curve.c <= 0 or curve.b <= max(FLAT, SURE * curve.errors[1]):
        return None
    t = curve.b / curve.c
    if not curve.first <= t <= curve.last:
        return None
    return Peak(t, _peak_error(curve), curve.at(t))


def _peak_error(curve: Wood) -> float:
    """Standard error of b / c, to the first order."""
    by_b, by_c = 1 / curve.c, -curve.b / curve.c**2
    v = curve.covariance
    return sqrt(by_b**2 * v[1][1] + 2 * by_b * by_c * v[1][2] + by_c**2 * v[2][2])
