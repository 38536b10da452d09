"""The ball itself: what a putt does, and what the hole takes.

Lengths and paths are feet, breaks and offsets inches, speeds feet a second. A slope is a pair of percentages by
which the ground falls to the right and ahead.

Example:
    >>> from wideberth import ball
    >>> putt = ball.putt(length_ft=10, slope_percent=(2, 0), green_speed=10, past_ft=1)
    >>> print(putt)
    putt of 10 ft: breaks 11.8 in to the right, starts at 6.30 ft/s
    >>> putt.path[-1].tolist()
    [0.0, 10.0]
"""

from wideberth._wideberth import Putt, captured, putt

__all__ = ["Putt", "captured", "putt"]
