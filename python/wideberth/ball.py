"""The ball itself: how it flies, bounces, runs and rolls, and when the hole takes it.

Flights and runs are yards, heights and putts feet, breaks and offsets inches; the unit is in the name or the docstring.
A shot is told in its own frame: to the right of the aim, along it, up. A slope is a pair of per cent by which the
ground falls to the right and ahead.

Example:
    >>> import wideberth as wb
    >>> from wideberth import ball
    >>> iron = wb.Club("7-iron", carry=132, carry_sd=10, lateral_sd=12)
    >>> round(iron.flight.carry, 2), 30 < iron.height_ft(at=60) < iron.flight.apex_ft
    (132.0, True)
    >>> 0 < ball.run(iron.flight, firmness="firm").distance < 25
    True
    >>> putt = ball.putt(length_ft=10, slope_percent=(2, 0), green_speed=10, past_ft=1)
    >>> print(putt)
    Putt of 10.0 ft: breaks 11.8 in to the right, starts at 6.30 ft/s
"""

from wideberth._wideberth import Flight, Putt, Run, captured, fly, putt, run

__all__ = ["Flight", "Putt", "Run", "captured", "fly", "putt", "run"]
