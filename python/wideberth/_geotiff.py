"""Surveyed heights from GeoTIFF files, read by rasterio."""

from __future__ import annotations

import importlib
import warnings
from os import PathLike
from typing import Any

import numpy as np
from numpy.typing import NDArray

from wideberth import _wideberth as core
from wideberth._given import shown

_Heights = NDArray[np.float64]
_Pair = tuple[float, float]

# What coordinates are in, by the names that rasterio gives to linear units.
_UNITS = {"metre": "metres", "meter": "metres", "foot": "feet", "us survey foot": "feet"}


def read(path: str | PathLike[str], plan: str, most: int) -> tuple[_Pair, _Pair, _Heights]:
    """Read one band of heights.

    Args:
        path: the file.
        plan: what its coordinates are meant to be in: "metres", "feet" or "degrees".
        most: the most heights that are taken.

    Returns:
        The coordinates of the lower left height, the steps to the next to the right and upwards, and the heights in
        rows from the top.

    Raises:
        InputError: a file that cannot be read, of several bands, turned, without a place or with gaps, or one whose
            coordinates are in something else than ``plan``.
        ImportError: rasterio is not installed.

    """
    try:
        rasterio: Any = importlib.import_module("rasterio")
    except ImportError as error:
        raise ImportError("reading a GeoTIFF needs rasterio: pip install 'wideberth[survey]'") from error
    try:
        with warnings.catch_warnings():
            # That it has no place is said below, in words.
            warnings.simplefilter("ignore", rasterio.errors.NotGeoreferencedWarning)
            with rasterio.open(path) as file:
                return _heights(file, str(path), plan, most)
    except (core.InputError, MemoryError):
        raise
    except Exception as error:
        # A file that is broken inside fails in many ways, each with an error of its own.
        raise core.InputError(f"{shown(str(path))} cannot be read as a GeoTIFF: {error}") from error


def _heights(file: Any, path: str, plan: str, most: int) -> tuple[_Pair, _Pair, _Heights]:
    def refuse(field: str, value: object, allowed: str) -> core.InputError:
        return core.InputError(f"{path}: {field} is {value}; it must be {allowed}")

    if file.count != 1:
        raise refuse("the number of bands", file.count, "1, of heights")
    if file.width * file.height > most:
        raise refuse("columns by rows", f"{file.width} by {file.height}", f"at most {most} heights: cut it first")
    place = file.transform
    if place.is_identity:
        raise refuse("its place", "not told", "told by the file (a world of its own has no origin)")
    if not (place.b == 0 and place.d == 0 and place.a > 0 and place.e < 0):
        raise refuse("its transform", tuple(place)[:6], "north up, neither turned nor mirrored")
    units = _units(file.crs)
    if units is not None and units != plan:
        raise core.InputError(f"plan is {plan!r}; it must be {units!r}, which the coordinates of {path} are in")
    band = file.read(1, masked=True)
    rows, columns = np.nonzero(np.ma.getmaskarray(band) | ~np.isfinite(band.filled(0)))
    if rows.size:
        first = f"row {rows[0] + 1}, column {columns[0] + 1} (from the top left)"
        raise refuse("the number of gaps", f"{rows.size}, the first in {first}", "0: fill them first")
    heights = band.filled(0).astype(np.float64) * file.scales[0] + file.offsets[0]
    # The transform tells the corner of a cell; its height is at the middle.
    lowest = (place.c + 0.5 * place.a, place.f + (file.height - 0.5) * place.e)
    return lowest, (place.a, -place.e), heights


def _units(crs: Any) -> str | None:
    """What coordinates are in by the file's own word, or None if it has none that is known."""
    if crs is None:
        return None
    if crs.is_geographic:
        return "degrees"
    return _UNITS.get(str(crs.linear_units).lower())
