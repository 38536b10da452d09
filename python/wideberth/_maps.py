"""Maps of every usual kind, brought to the text that the core reads.

JSON is left to the core. What is in other formats is read by libraries that know them, with the extra ``maps``:
OpenStreetMap's files by osmium, GeoPackage and the like by pyogrio, shapely and pyproj.
"""

from __future__ import annotations

import importlib
import json
import math
import os
import warnings
from pathlib import Path
from typing import Any

from wideberth import _wideberth as core
from wideberth._given import plain

#: Endings of OpenStreetMap's own files, and of what GDAL reads.
_OSM = (".osm", ".osm.bz2", ".osm.gz", ".pbf")
_GDAL = (".gpkg", ".shp", ".shz", ".fgb", ".gml", ".kml", ".sqlite", ".zip", ".parquet")
#: Keys of what has to do with a golf course: a whole country has too much else.
_KEYS = (
    "golf", "role", "surface", "natural", "landuse", "waterway", "leisure", "barrier", "building", "highway", "railway",
    "amenity", "tourism",
)  # fmt: skip
#: The most features that are taken: a county has fewer that matter.
_MOST = 1_000_000
#: What the licence of OpenStreetMap's data asks for.
_OSM_CREDIT = "© OpenStreetMap contributors"


def text_of(source: Any) -> str | Path:
    """Return the JSON text of a map, or the path of a file that holds it.

    Args:
        source: a path, a text, bytes, a dict, or anything with ``__geo_interface__``.

    Raises:
        InputError: what cannot be read, or is no map.
        ImportError: a format that needs the extra ``maps``, and it is not installed.
        TypeError: something that is no map at all.

    """
    if isinstance(source, bytes | bytearray | memoryview):
        return _of_bytes(bytes(source))
    if isinstance(source, dict):
        return _dumps(source)
    if isinstance(source, str) and source.lstrip("\ufeff \t\r\n")[:1] in ("{", "[", "<"):
        return _of_bytes(source.encode()) if source.lstrip("\ufeff \t\r\n")[0] == "<" else source
    if isinstance(source, str | os.PathLike):
        return _of_path(Path(source))
    if hasattr(source, "__geo_interface__"):
        return _of_interface(source)
    raise TypeError(
        f"source is of the type {type(source).__name__}; it must be a path, a text, bytes, a dict, or "
        "have __geo_interface__"
    )


def _of_path(path: Path) -> str | Path:
    name = path.name.lower()
    if name.endswith(_OSM):
        return _osm(path, str(path))
    if name.endswith(_GDAL):
        return _gdal(path, str(path))
    return path


def _of_bytes(data: bytes) -> str:
    """Bytes by how they begin."""
    if data.startswith(b"SQLite format 3"):
        return _gdal(data, "the bytes")
    if b"OSMHeader" in data[:64]:
        return _osm_bytes(data, "pbf")
    if data.lstrip(b"\xef\xbb\xbf \t\r\n").startswith(b"<"):
        return _osm_bytes(data, "osm")
    try:
        return data.decode()
    except UnicodeDecodeError as error:
        raise core.InputError(f"the bytes are no map: not UTF-8 text (byte {error.start})") from error


def _of_interface(source: Any) -> str:
    """What other libraries hand over, in longitude and latitude where they know their own system."""
    crs = getattr(source, "crs", None)
    if crs is not None and hasattr(source, "to_crs"):
        source = source.to_crs(4326)
    document = source.__geo_interface__
    if isinstance(document, dict) and document.get("type") == "Feature":
        document = {"type": "FeatureCollection", "features": [document]}
    return _dumps(document)


def _dumps(document: Any) -> str:
    """JSON of plain objects, NumPy's numbers among them; NaN, with which tables fill their gaps, is null."""
    try:
        try:
            return json.dumps(document, allow_nan=False, default=_plain)
        except ValueError:
            return json.dumps(_without_nan(document), allow_nan=False, default=_plain)
    except (TypeError, ValueError, RecursionError) as error:
        raise core.InputError(f"the map cannot be written as JSON: {error}") from error


def _plain(value: Any) -> Any:
    if hasattr(value, "tolist"):
        return _without_nan(value.tolist())
    if isinstance(value, set | frozenset):
        return sorted(value, key=str)
    return str(value)


def _without_nan(value: Any) -> Any:
    if isinstance(value, float):
        return value if math.isfinite(value) else None
    if isinstance(value, dict):
        return {key: _without_nan(inner) for key, inner in value.items()}
    if isinstance(value, list | tuple):
        return [_without_nan(inner) for inner in value]
    return value


def _library(name: str, what: str) -> Any:
    try:
        return importlib.import_module(name)
    except ImportError as error:
        package = name.split(".")[0]
        raise ImportError(f"reading {what} needs {package}: pip install 'wideberth[maps]'") from error


def _osm_bytes(data: bytes, kind: str) -> str:
    osmium = _library("osmium", "OpenStreetMap's files")
    return _osm(osmium.io.FileBuffer(data, kind), "the text")


def _osm(file: Any, name: str) -> str:
    """Features of a file of OpenStreetMap: points, lines, and areas put together from their ways."""
    osmium = _library("osmium", "OpenStreetMap's files")
    if isinstance(file, Path):
        # The library has its own words for a file that is not there, or no file.
        _readable(file)
    factory = osmium.geom.GeoJSONFactory()
    features: list[dict[str, Any]] = []
    try:
        courses, outers = _relations(osmium, file)
        things = osmium.FileProcessor(file).with_areas().with_filter(osmium.filter.KeyFilter(*_KEYS))
        for thing in things:
            tags = {tag.k: tag.v for tag in thing.tags}
            if thing.is_way():
                if any(tags.get(key) == value for key, value in outers.get(thing.id, ())):
                    continue  # It says once more what the area says that it is a part of.
                if thing.id in courses:
                    tags.setdefault("golf:course:name", courses[thing.id])
            geometry = _geometry(osmium, factory, thing, tags)
            if geometry is None:
                continue
            features.append({"type": "Feature", "properties": tags, "geometry": geometry})
            if len(features) > _MOST:
                raise core.InputError(f"{name}: it has more than {_MOST} features: cut out the course first")
    except (RuntimeError, ValueError, OSError, osmium.InvalidLocationError) as error:
        if isinstance(error, core.InputError):
            raise
        raise core.InputError(f"{name}: {error}") from error
    return json.dumps({"type": "FeatureCollection", "attribution": _OSM_CREDIT, "features": features})


def _readable(path: Path) -> None:
    try:
        with path.open("rb") as file:
            file.read(1)
    except OSError as error:
        raise core.InputError(f"cannot read {plain(str(path))}: {error.strerror}") from error


def _relations(osmium: Any, file: Any) -> tuple[dict[int, str], dict[int, list[tuple[str, str]]]]:
    """What relations say of their ways: the course of a route, and what the area is that a way is an edge of."""
    courses: dict[int, str] = {}
    outers: dict[int, list[tuple[str, str]]] = {}
    for relation in osmium.FileProcessor(file, osmium.osm.RELATION):
        ways = [member for member in relation.members if member.type == "w"]
        name = relation.tags.get("name") or relation.tags.get("ref")
        if relation.tags.get("route") == "golf" and name:
            courses |= {way.ref: name for way in ways}
        if relation.tags.get("type") == "multipolygon":
            kinds = [(tag.k, tag.v) for tag in relation.tags if tag.k in _KEYS]
            for way in ways:
                if way.role != "inner":
                    outers.setdefault(way.ref, []).extend(kinds)
    return courses, outers


def _geometry(osmium: Any, factory: Any, thing: Any, tags: dict[str, str]) -> Any:
    """The geometry of a node, way or area; None for what is drawn otherwise or has no places in the file."""
    try:
        if thing.is_node():
            return json.loads(factory.create_point(thing))
        if thing.is_way():
            return json.loads(factory.create_linestring(thing))
        if thing.is_area() and not _is_line(tags):
            return json.loads(factory.create_multipolygon(thing))
    except (osmium.InvalidLocationError, RuntimeError):
        # Ways that the extract cut lack some of their places.
        return None
    return None


def _is_line(tags: dict[str, str]) -> bool:
    """True for what is a line even where it is closed."""
    if tags.get("area", "no") != "no":
        return False
    return (
        bool({"barrier", "highway", "railway"} & tags.keys())
        or tags.get("golf") in ("hole", "cartpath", "path", "out_of_bounds")
        or tags.get("natural") in ("coastline", "tree_row")
    )


def _gdal(file: Any, name: str) -> str:
    """Features of all layers of a file that GDAL reads, in longitude and latitude."""
    pyogrio = _library("pyogrio", "this kind of map")
    shapely = _library("shapely", "this kind of map")
    if isinstance(file, Path):
        _readable(file)
    try:
        with warnings.catch_warnings():
            # Bytes have no ending, of which the library would warn.
            warnings.simplefilter("ignore", RuntimeWarning)
            return _dumps({"type": "FeatureCollection", "features": _layers(pyogrio, shapely, file, name)})
    except (RuntimeError, ValueError, OSError, pyogrio.errors.DataSourceError, shapely.errors.ShapelyError) as error:
        if isinstance(error, core.InputError):
            raise
        raise core.InputError(f"{name}: {error}") from error


def _layers(pyogrio: Any, shapely: Any, file: Any, name: str) -> list[dict[str, Any]]:
    layers = [str(layer) for layer, _ in pyogrio.list_layers(file)]
    count = sum(max(pyogrio.read_info(file, layer=layer)["features"], 0) for layer in layers)
    if count > _MOST:
        raise core.InputError(f"{name}: it has {count} features; at most {_MOST} are taken: cut out the course first")
    features: list[dict[str, Any]] = []
    for layer in layers:
        features += _layer(pyogrio, shapely, file, layer)
    return features


def _layer(pyogrio: Any, shapely: Any, file: Any, layer: str) -> list[dict[str, Any]]:
    meta, _, geometry, columns = pyogrio.raw.read(file, layer=layer, force_2d=True)
    if geometry is None:
        return []
    shapes = shapely.from_wkb(geometry, on_invalid="ignore")
    crs = meta["crs"]
    if crs is not None:
        pyproj = _library("pyproj", "this kind of map")
        system = pyproj.CRS.from_user_input(crs)
        if system.to_epsg() != 4326:
            to_degrees = pyproj.Transformer.from_crs(system, 4326, always_xy=True).transform
            shapes = shapely.transform(shapes, to_degrees, interleaved=False)
    names = [str(name) for name in meta["fields"]]
    features = []
    for i, shape in enumerate(shapes):
        if shape is None or shape.is_empty:
            continue
        properties = {name: column[i] for name, column in zip(names, columns, strict=True)}
        features.append(
            {
                "type": "Feature",
                "properties": {key: value for key, value in properties.items() if value is not None},
                "geometry": shapely.geometry.mapping(shape),
            }
        )
    return features
