"""A hole on another day."""

from __future__ import annotations

from typing import Any

from wideberth import _wideberth as core


def on_the_day(hole: core.Hole, wind: tuple[float, float] | None, firmness: Any) -> core.Hole:
    """The hole in a wind (miles an hour, bearing it blows from) and on ground so firm; None leaves either as it is."""
    if wind is None and firmness is None:
        return hole
    day: Any = hole.conditions
    return hole.under(
        core.Conditions(
            wind=day.wind if wind is None else core.Wind(*wind),
            firmness=day.firmness if firmness is None else firmness,
            green_speed=day.green_speed,
            temperature_f=day.temperature_f,
            altitude_ft=day.altitude_ft,
            hole_diameter_in=day.hole_diameter_in,
        )
    )
