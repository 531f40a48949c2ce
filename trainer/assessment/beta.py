"""The beta distribution in plain Python: the chance to be above a level, and quantiles.

Continued fraction for the regularised incomplete beta function, evaluated by the modified method of Lentz; see
DLMF (NIST Digital Library of Mathematical Functions) 8.17.22.
"""

from functools import lru_cache
from math import exp, lgamma, log, log1p

STEPS = 400
CLOSE = 1e-15
TINY = 1e-300


def cdf(x: float, a: float, b: float) -> float:
    """Return the chance that a Beta(a, b) value is at most ``x``."""
    return _cdf(x, a, b, _log_beta(a, b))


def above(x: float, a: float, b: float) -> float:
    """Return the chance that a Beta(a, b) value is more than ``x``."""
    return cdf(1 - x, b, a)


@lru_cache(maxsize=1024)  # most competencies of a person have the same evidence: none
def quantile(p: float, a: float, b: float) -> float:
    """Return the value that a Beta(a, b) variable stays below with chance ``p``; Newton steps kept inside a bracket."""
    low, high, x, scale = 0.0, 1.0, a / (a + b), _log_beta(a, b)
    for _ in range(100):
        error = _cdf(x, a, b, scale) - p
        low, high = (low, x) if error > 0 else (x, high)
        slope = _density(x, a, b, scale)
        stepped = x - error / slope if slope > 0 else low
        new = stepped if low < stepped < high else (low + high) / 2
        if abs(new - x) < 1e-12:
            return new
        x = new
    return x


def _cdf(x: float, a: float, b: float, scale: float) -> float:
    if x <= 0:
        return 0.0
    if x >= 1:
        return 1.0
    front = exp(a * log(x) + b * log1p(-x) - scale)
    if x < (a + 1) / (a + b + 2):  # the side on which the fraction converges fast
        return front * _fraction(x, a, b) / a
    return 1.0 - front * _fraction(1 - x, b, a) / b


def _log_beta(a: float, b: float) -> float:
    return lgamma(a) + lgamma(b) - lgamma(a + b)


def _density(x: float, a: float, b: float, scale: float) -> float:
    return exp((a - 1) * log(x) + (b - 1) * log1p(-x) - scale)


def _fraction(x: float, a: float, b: float) -> float:
    """Return the continued fraction; written out, for it is most of what judging many people takes."""
    c, d = 1.0, 1.0 / _not_nought(1 - (a + b) * x / (a + 1))
    value = d
    for m in range(1, STEPS):
        twice = a + 2 * m
        even = m * (b - m) * x / ((twice - 1) * twice)
        d, c = 1 + even * d, 1 + even / c
        d, c = 1.0 / (d if abs(d) > TINY else TINY), c if abs(c) > TINY else TINY
        value *= c * d
        odd = -(a + m) * (a + b + m) * x / (twice * (twice + 1))
        d, c = 1 + odd * d, 1 + odd / c
        d, c = 1.0 / (d if abs(d) > TINY else TINY), c if abs(c) > TINY else TINY
        value *= c * d
        if abs(c * d - 1) < CLOSE:
            break
    return value


def _not_nought(value: float) -> float:
    return value if abs(value) > TINY else TINY
