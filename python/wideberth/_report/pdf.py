"""Sheets as one PDF file."""

from __future__ import annotations

from collections.abc import Iterable
from io import BytesIO
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from matplotlib.figure import Figure


def sheets(figures: Iterable[Figure]) -> bytes:
    """The figures as the sheets of one PDF, the same for the same figures."""
    from matplotlib.backends.backend_pdf import PdfPages

    metadata: dict[str, Any] = {"CreationDate": None, "ModDate": None, "Creator": "wideberth", "Producer": None}
    content = BytesIO()
    with PdfPages(content, metadata=metadata) as pdf:
        for figure in figures:
            pdf.savefig(figure)
    return content.getvalue()
