"""Surveyed heights from GeoTIFF files and other rasters, read by rasterio.

Every raster names the system of its coordinates, or its user does. :func:`around` lays the part around a hole on the
plan by way of longitude and latitude, so that neither the kind of projection nor the way its north points matters.
:func:`read` takes the coordinates as they are, for holes of which nobody knows where on the earth they lie.
"""

from __future__ import annotations

import contextlib
import importlib
import warnings
from collections.abc import Iterator
from os import PathLike
from typing import Any

import numpy as np
from numpy.typing import NDArray

from wideberth import _wideberth as core
from wideberth._given import shown

_Heights = NDArray[np.float64]
_Pair = tuple[float, float]
_Range = tuple[int, int]

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
        rows from the top, with NaN for gaps.

    Raises:
        InputError: a file that cannot be read, of several bands, turned, without a place or one whose
            coordinates are in something else than ``plan``.
        ImportError: rasterio is not installed.

    """
    with _opened(path) as file:
        return _heights(file, str(path), plan, most)


@contextlib.contextmanager
def _opened(path: str | PathLike[str]) -> Iterator[Any]:
    """Open a raster; what its library finds wrong with it is an InputError."""
    try:
        rasterio: Any = importlib.import_module("rasterio")
    except ImportError as error:
        raise ImportError("reading a GeoTIFF needs rasterio: pip install 'wideberth[survey]'") from error
    try:
        with warnings.catch_warnings():
            # That it has no place is said in words of our own.
            warnings.simplefilter("ignore", rasterio.errors.NotGeoreferencedWarning)
            # What the library calls in another one that will change.
            warnings.simplefilter("ignore", PendingDeprecationWarning)
            with rasterio.open(path) as file:
                yield file
    except (core.InputError, MemoryError):
        raise
    except Exception as error:
        # A file that is broken inside fails in many ways, each with an error of its own.
        raise core.InputError(f"{shown(str(path))} cannot be read as a raster of heights: {error}") from error


def around(
    path: str | PathLike[str], crs: str | None, heights: str | None, origin: _Pair, low: _Pair, high: _Pair, most: int
) -> tuple[_Pair, _Pair, _Heights, str]:
    """Read the heights around a hole, laid on a grid in metres east and north of its origin.

    Args:
        path: the file.
        crs: the system of its coordinates; None for the one that it names.
        heights: "metres" or "feet"; None for what the file says, or else metres.
        origin: longitude and latitude of the hole, degrees.
        low: metres east and north of the origin of the lower left corner of what is needed.
        high: the same of the upper right corner.
        most: the most heights that are taken.

    Returns:
        Metres east and north of the lower left height, the steps to the next to the right and upwards, the heights in
        rows
        from the top with NaN for gaps, and what they are in.

    Raises:
        InputError: a file that cannot be read, has several bands, names no system of coordinates, or lies elsewhere.
        ImportError: rasterio is not installed.

    """
    with _opened(path) as file:
        return _around(file, str(path), crs, heights, origin, (*low, *high), most)


def _around(
    file: Any, path: str, crs: str | None, heights: str | None, origin: _Pair, box: tuple[float, ...], most: int
) -> tuple[_Pair, _Pair, _Heights, str]:
    system = _system(file, path, crs)
    _check(file, path)
    warp: Any = importlib.import_module("rasterio.warp")
    windows: Any = importlib.import_module("rasterio.windows")
    longitude, latitude = origin
    plan = f"+proj=tmerc +lat_0={latitude} +lon_0={longitude} +k=1 +datum=WGS84 +units=m"
    try:
        edges = warp.transform_bounds(plan, system, *box, densify_pts=21)
    except Exception as error:  # GDAL has errors of many kinds for places that a projection does not reach.
        raise core.InputError(f"{path}: the hole lies outside what its coordinates can tell ({error})") from error
    rows, columns = _cells(file, edges)
    rows, columns = (max(0, rows[0]), min(file.height, rows[1])), (max(0, columns[0]), min(file.width, columns[1]))
    if rows[1] - rows[0] < 2 or columns[1] - columns[0] < 2:
        place = warp.transform_bounds(system, "EPSG:4326", *file.bounds)
        told = ", ".join(f"{degrees:.4f}" for degrees in place)
        raise core.InputError(
            f"{path}: it reaches over longitudes and latitudes {told}; it must reach over the hole at "
            f"{longitude:.4f}, {latitude:.4f}"
        )
    if (rows[1] - rows[0]) * (columns[1] - columns[0]) > most:
        raise core.InputError(f"{path}: it has more than {most} heights around the hole: thin it out first")
    window = windows.Window.from_slices(rows, columns)
    raw = _band(file, window)
    place = file.window_transform(window)
    source = windows.bounds(windows.Window(0, 0, raw.shape[1], raw.shape[0]), place)
    cell = warp.calculate_default_transform(system, plan, raw.shape[1], raw.shape[0], *source)[0].a
    step = _least_step(raw)
    if step is not None and step * _IN_METRES[heights or _told_unit(file)] > _FINEST_STEP:
        # Heights that were rounded do not tell greens, however close together they are.
        cell = max(cell, _COARSE)
    left, lower, right, upper = box
    wide, high = (int(np.ceil((b - a) / cell)) + 1 for a, b in ((left, right), (lower, upper)))
    if wide * high > most:
        raise core.InputError(f"{path}: it has more than {most} heights around the hole: thin it out first")
    laid = np.full((high, wide), np.nan)
    affine = importlib.import_module("affine").Affine
    warp.reproject(
        raw,
        laid,
        src_transform=place,
        src_crs=system,
        src_nodata=np.nan,
        dst_transform=affine(cell, 0, left - 0.5 * cell, 0, -cell, lower + (high - 0.5) * cell),
        dst_crs=plan,
        dst_nodata=np.nan,
        resampling=importlib.import_module("rasterio.enums").Resampling.bilinear,
    )
    return (left, lower), (cell, cell), laid, heights or _told_unit(file)


#: Metres in a unit of heights; the largest step that tells the slopes of greens, metres (0.05 ft); and a spacing that
#: does
#: not tell them, metres (1.1 yards are the most that does).
_IN_METRES = {"metres": 1.0, "feet": 0.3048}
_FINEST_STEP, _COARSE = 0.05 * 0.3048, 1.2 * 0.9144


def _system(file: Any, path: str, crs: str | None) -> Any:
    """The system of the coordinates: the one that is told, or that of the file."""
    rasterio: Any = importlib.import_module("rasterio")
    if crs is None:
        if file.crs is None:
            raise core.InputError(
                f'{path}: it does not name the system of its coordinates; tell it with crs, such as "EPSG:27700", '
                "or tell origin and plan"
            )
        return file.crs
    try:
        return rasterio.crs.CRS.from_user_input(crs)
    except (rasterio.errors.CRSError, ValueError) as error:
        raise core.InputError(
            f'crs is {crs!r}; it must be the name of a system, such as "EPSG:27700" ({error})'
        ) from error


def _told_unit(file: Any) -> str:
    """What the heights are in by the file's own word, or else metres."""
    unit = str(file.units[0] or "").lower()
    return "feet" if unit in ("ft", "foot", "feet", "us survey foot", "ftus", "us_ft") else "metres"


def _cells(file: Any, edges: tuple[float, ...]) -> tuple[_Range, _Range]:
    """The rows and columns of a box of the file's own coordinates, with a few around it, however it is turned."""
    left, lower, right, upper = edges
    back = ~file.transform
    corners = [(x, y) for x in (left, right) for y in (lower, upper)]
    columns = sorted(back.a * x + back.b * y + back.c for x, y in corners)
    rows = sorted(back.d * x + back.e * y + back.f for x, y in corners)
    far = 1e9  # beyond any raster, so that the bounds are whole numbers
    span = [
        (int(max(low, -far)) - 3, int(min(high, far)) + 4) for low, high in ((c[0], c[-1]) for c in (rows, columns))
    ]
    return span[0], span[1]


def _band(file: Any, window: Any = None) -> _Heights:
    """The heights of a window with NaN for gaps."""
    band = file.read(1, masked=True, window=window)
    heights: _Heights = band.astype(np.float64).filled(np.nan) * file.scales[0] + file.offsets[0]
    heights[~np.isfinite(heights)] = np.nan
    return heights


def _least_step(heights: _Heights) -> float | None:
    """The least difference between two neighbours that differ; None where none do."""
    least = [np.abs(np.diff(heights, axis=axis)) for axis in (0, 1)]
    steps = [float(d[d > 0].min()) for d in least if (d > 0).any()]
    return min(steps, default=None)


def _check(file: Any, path: str) -> None:
    """Refuse what is no survey with a place."""
    if file.count != 1:
        raise core.InputError(f"{path}: the number of bands is {file.count}; it must be 1, of heights")
    if file.transform.is_identity:
        raise core.InputError(f"{path}: its place is not told; it must be told by the file")


def _heights(file: Any, path: str, plan: str, most: int) -> tuple[_Pair, _Pair, _Heights]:
    def refuse(field: str, value: object, allowed: str) -> core.InputError:
        return core.InputError(f"{path}: {field} is {value}; it must be {allowed}")

    _check(file, path)
    if file.width * file.height > most:
        raise refuse("columns by rows", f"{file.width} by {file.height}", f"at most {most} heights: cut it first")
    place = file.transform
    if not (place.b == 0 and place.d == 0 and place.a > 0 and place.e < 0):
        raise refuse("its transform", tuple(place)[:6], "north up, neither turned nor mirrored")
    units = _units(file.crs)
    if units is not None and _is_stretched(file.crs):
        raise core.InputError(
            f"{path}: its coordinates are Mercator's, whose metres are none; it must be laid out by its system: "
            "read the hole from a map, and leave origin and plan out"
        )
    if units is not None and units != plan:
        raise core.InputError(f"plan is {plan!r}; it must be {units!r}, which the coordinates of {path} are in")
    heights = _band(file)
    # The transform tells the corner of a cell; its height is at the middle.
    lowest = (place.c + 0.5 * place.a, place.f + (file.height - 0.5) * place.e)
    return lowest, (place.a, -place.e), heights


def _is_stretched(crs: Any) -> bool:
    """True for Mercator's projection of the whole earth: its metres are none but at the equator."""
    told = str(crs.to_wkt()).lower()
    return crs.to_epsg() in (3857, 3395, 900913) or "pseudo-mercator" in told or "mercator_1sp" in told


def _units(crs: Any) -> str | None:
    """What coordinates are in by the file's own word, or None if it has none that is known."""
    if crs is None:
        return None
    if crs.is_geographic:
        return "degrees"
    return _UNITS.get(str(crs.linear_units).lower())
