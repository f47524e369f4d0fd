"""Find where a function of one number crosses zero."""

from collections.abc import Callable

_STEPS = 200


def bracketed_root(
    function: Callable[[float], float], a: float, b: float, *, tolerance: float = 1e-9
) -> float:
    """Return a zero of a function between two points where it has opposite signs.

    Chandrupatla's method: inverse quadratic interpolation where it is trustworthy, else
    bisection (Chandrupatla, Advances in Engineering Software 1997;28:145-149, from memory).

    Parameters
    ----------
    function : callable
        Continuous function of one float.
    a, b : float
        Two points; the function has opposite signs there, or is zero at one.
    tolerance : float
        Width, absolute and relative to the root, at which the search stops.

    Raises
    ------
    ValueError
        If both ends have the same sign.
    """
    f_a, f_b = function(a), function(b)
    if f_a == 0:
        return a
    if f_a * f_b > 0:
        raise ValueError("the function has the same sign at both ends")
    c, f_c = a, f_a
    share = 0.5
    for _ in range(_STEPS):
        x = a + share * (b - a)
        f_x = function(x)
        if (f_x > 0) == (f_a > 0):
            c, f_c = a, f_a
        else:
            c, b, f_c, f_b = b, a, f_b, f_a
        a, f_a = x, f_x
        best, f_best = (a, f_a) if abs(f_a) < abs(f_b) else (b, f_b)
        smallest = tolerance * (1 + abs(best)) / (2 * abs(b - a)) if b != a else 1.0
        if smallest > 0.5 or f_best == 0:
            return best
        xi, phi = (a - b) / (c - b), (f_a - f_b) / (f_c - f_b)
        if phi**2 < xi and (1 - phi) ** 2 < 1 - xi:
            share = f_a / (f_b - f_a) * f_c / (f_b - f_c)
            share += (c - a) / (b - a) * f_a / (f_c - f_a) * f_b / (f_c - f_b)
        else:
            share = 0.5
        share = min(1 - smallest, max(smallest, share))
    return best
