"""Sheets as one PDF file."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from io import BytesIO
from typing import TYPE_CHECKING, Any, TypeVar

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from wideberth.plot.theme import Theme

_One = TypeVar("_One")


def sheets(size: tuple[float, float], draw: Callable[[Figure, _One, Theme], None], of: Iterable[_One]) -> bytes:
    """A sheet of a size in inches of each thing as one PDF, the same for the same things."""
    from matplotlib.backends.backend_pdf import PdfPages
    from matplotlib.figure import Figure

    from wideberth.plot.theme import LIGHT

    metadata: dict[str, Any] = {"CreationDate": None, "ModDate": None, "Creator": "wideberth", "Producer": None}
    content = BytesIO()
    with PdfPages(content, metadata=metadata) as pdf:
        for one in of:
            figure = Figure(figsize=size, facecolor="white")
            draw(figure, one, LIGHT)
            pdf.savefig(figure)
    return content.getvalue()
