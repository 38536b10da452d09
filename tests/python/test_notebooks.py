"""Every notebook runs from top to bottom on the installed package, and is kept light."""

from pathlib import Path

import nbclient
import nbformat
import pytest

FOLDER = Path(__file__).parents[2] / "notebooks-demo"
NOTEBOOKS = sorted(FOLDER.glob("*.ipynb"))


def test_there_are_notebooks() -> None:
    assert NOTEBOOKS


@pytest.mark.parametrize("path", NOTEBOOKS, ids=lambda p: p.stem)
def test_it_runs(path: Path) -> None:
    notebook = nbformat.read(path, as_version=4)
    nbclient.NotebookClient(notebook, timeout=300, resources={"metadata": {"path": FOLDER}}).execute()


@pytest.mark.parametrize("path", NOTEBOOKS, ids=lambda p: p.stem)
def test_it_is_light_and_was_run(path: Path) -> None:
    assert path.stat().st_size < 600_000
    cells = [c for c in nbformat.read(path, as_version=4).cells if c.cell_type == "code"]
    assert [c.execution_count for c in cells] == list(range(1, len(cells) + 1))
    assert not any(o.output_type == "error" for c in cells for o in c.outputs)
