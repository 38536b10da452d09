"""What was given and cannot be taken: errors that name the field, the value and what is allowed."""

from __future__ import annotations

import operator
from collections.abc import Iterable, Mapping
from itertools import islice
from typing import Any, TypeVar

import numpy as np

from wideberth import _wideberth as core

_Error = TypeVar("_Error", bound=Exception)
_Kind = TypeVar("_Kind")

#: The most letters of a value that are shown.
_MOST_SHOWN = 80
#: The most characters of a name.
_MOST_IN_A_NAME = 200


def plain(text: str) -> str:
    """A text with nothing in it that a terminal acts upon: that is written as Python writes it."""
    return "".join(c if c.isprintable() else ascii(c)[1:-1] for c in text)


def shown(value: object) -> str:
    """A value as it is written in Python, on one line and not too long."""
    try:
        text = repr(value)
    except Exception:
        return f"a {type(value).__name__}"
    text = plain(text)
    return text if len(text) <= _MOST_SHOWN else f"{text[: _MOST_SHOWN - 1]}… ({type(value).__name__})"


def unfit(value: object, allowed: str) -> TypeError:
    """The error of an argument of a wrong type, which is told the argument's name after it is made."""
    return awaiting_its_name(TypeError(), f"is {shown(value)}; it must be {allowed}")


def awaiting_its_name(error: _Error, message: str) -> _Error:
    """An error that hears the name of its argument, and only then says what it is about.

    Whoever takes an argument apart does not know its name; whoever knows it adds a note, "while processing 'name'". The
    error puts the name where it belongs, in front of its message, instead of below it.
    """
    error.args = (f"argument {message}",)

    def add_note(note: str) -> None:
        del error.add_note
        # Rust writes a name that is a word of its own with r# before it.
        name = note.partition("'")[2].rpartition("'")[0].removeprefix("r#")
        error.args = (f"{name or 'argument'} {message}",)

    error.add_note = add_note  # type: ignore[method-assign]
    return error


def listed(field: str, given: Iterable[Any], allowed: str, most: int) -> list[Any]:
    """The items of a list, looked at only as far as it may be long.

    Raises:
        InputError: more items than that.
        TypeError: something that holds none.

    """
    try:
        # Neither letters nor the keys of a dict are items; an array of no dimension only looks as if it held some.
        if isinstance(given, str | Mapping):
            raise TypeError
        each = iter(given)
    except TypeError:
        raise TypeError(f"{field} is {shown(given)}; it must be a list of {allowed}") from None
    items = list(islice(each, most + 1))
    if len(items) > most:
        raise core.InputError(f"{field} has more than {most:,} items; it must have at most {most:,}")
    return items


def of_kind(field: str, given: Any, kind: type[_Kind], allowed: str) -> _Kind:
    """What is of a class.

    Raises:
        TypeError: something else.

    """
    if not isinstance(given, kind):
        raise TypeError(f"{field} is {shown(given)}; it must be {allowed}")
    return given


def mapping(field: str, given: Any, allowed: str) -> Mapping[Any, Any]:
    """A dict, or what is as good.

    Raises:
        TypeError: something else.

    """
    if not isinstance(given, Mapping):
        raise TypeError(f"{field} is {shown(given)}; it must be {allowed}")
    return given


def named(field: str, given: Any, kind: type[_Kind], allowed: str) -> dict[str, _Kind]:
    """Things of a class by name.

    Raises:
        InputError: a name that is none.
        TypeError: something else.

    """
    held = mapping(field, given, f"a dict of {allowed} by name")
    for name, value in held.items():
        if not isinstance(name, str):
            raise TypeError(f"{field} has the name {shown(name)}; it must be text")
        checked_name(f"name in {field}", name)
        of_kind(f"{field}[{shown(name)}]", value, kind, allowed)
    return dict(held)


def text(field: str, given: Any) -> str:
    """Text that can be shown as it is.

    Raises:
        InputError: control characters.
        TypeError: something else than text.

    """
    if not isinstance(given, str):
        raise TypeError(f"{field} is {shown(given)}; it must be text")
    try:
        plain = core.is_plain(given)
    except UnicodeError:  # Half a character.
        plain = False
    if not plain:
        raise core.InputError(f"{field} is {shown(given)}; it must be text without control characters")
    return given


def checked_name(field: str, given: Any) -> str:
    """A name, as those of holes are.

    Raises:
        InputError: nothing but spaces, control characters, or far too many of others.
        TypeError: something else than text.

    """
    if not text(field, given).strip():
        raise core.InputError(f"{field} is {shown(given)}; it must be text that is not empty")
    if len(given) > _MOST_IN_A_NAME:
        raise core.InputError(
            f"{field} is {shown(given)}; it must have at most {_MOST_IN_A_NAME} characters and no control characters"
        )
    return str(given)


def whole(field: str, given: Any, low: int, high: int) -> int:
    """A whole number in a range.

    Raises:
        InputError: one out of it.
        TypeError: something else.

    """
    try:
        value = operator.index(given)
    except TypeError:
        raise TypeError(f"{field} is {shown(given)}; it must be a whole number") from None
    if not low <= value <= high:
        raise core.InputError(f"{field} is {shown(value)}; it must be {low} to {high}")
    return value


def is_frame(given: Any) -> bool:
    """Whether something is a data frame: it holds its rows, as a lazy one does not, and tells the names of columns."""
    return all(hasattr(given, each) for each in ("__len__", "__getitem__", "columns")) and not callable(given.columns)


def without_gaps(field: str, given: Any) -> Any:
    """An array or a column, if it masks nothing: what lies beneath a mask is no value.

    Raises:
        InputError: masked values.

    """
    if np.ma.is_masked(given):
        hidden = int(np.ma.getmaskarray(given).sum())
        raise core.InputError(f"{field} has {hidden} masked values; it must have none: fill them or leave them out")
    return given


def number(field: str, given: Any) -> float:
    """A number, whatever the kind.

    Raises:
        TypeError: something else.

    """
    try:
        if isinstance(given, str | bytes):
            raise TypeError
        return float(given)
    except OverflowError:
        # Refused for being too large, by whoever knows what is allowed.
        return float("inf") if given > 0 else float("-inf")
    except Exception:
        raise TypeError(f"{field} is {shown(given)}; it must be a number") from None
