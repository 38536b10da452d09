"""Values over a hole, place by place."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray


@dataclass(frozen=True, eq=False)
class ValueMap:
    """Values over a hole: ``values[row, column]`` is at ``(x[column], y[row])``, yards.

    NaN where no ball is played from: off the hole, out of bounds, in a penalty area.
    """

    #: float64 of shape (len(y), len(x)).
    values: NDArray[np.float64]
    #: Yards to the right of the plan's origin.
    x: NDArray[np.float64]
    #: Yards up from the plan's origin.
    y: NDArray[np.float64]

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, ValueMap):
            return NotImplemented
        pairs = ((self.values, other.values), (self.x, other.x), (self.y, other.y))
        return all(np.array_equal(a, b, equal_nan=True) for a, b in pairs)

    __hash__ = None  # type: ignore[assignment]

    def __repr__(self) -> str:
        low, high = np.nanmin(self.values), np.nanmax(self.values)
        return f"ValueMap({len(self.x)} by {len(self.y)} places, {low:.2f} to {high:.2f})"
