"""The numbers of golf: each has unit and role, and the page that lists them is what its generator writes."""

import importlib.util
import re
from pathlib import Path

import pytest

SCRIPT = Path(__file__).parents[2] / "docs" / "figures.py"
SPEC = importlib.util.spec_from_file_location("figures", SCRIPT)
figures = importlib.util.module_from_spec(SPEC)
SPEC.loader.exec_module(figures)

FILES = {path.stem: path.read_text("utf-8") for path in figures.files()}


def test_the_page_is_what_the_generator_writes():
    assert figures.PAGE.read_text("utf-8") == figures.page(), "run python docs/figures.py"


@pytest.mark.parametrize("name", FILES)
def test_every_figure_has_a_meaning_a_unit_and_a_role(name):
    alone, groups = figures.figures(FILES[name])
    of_groups = [figure for group in groups for figure in group.fields]
    kinds = [kind for group in groups for kind in group.kinds]
    for figure in [*alone, *of_groups]:
        assert figure.meaning.endswith("."), f"{name}: what is {figure.name}?"
        assert figure.unit.startswith(figures.UNITS), f"{name}: in what is {figure.name}? ({figure.unit!r})"
    for figure in [*alone, *kinds]:
        assert figure.role, f"{name}: where is {figure.name} from?"
    for group in groups:
        fields = {field.name for field in group.fields}
        assert all(set(values) == fields for values in group.values.values()), name


@pytest.mark.parametrize("name", FILES)
def test_no_figure_is_passed_over(name):
    alone, groups = figures.figures(FILES[name])
    read = [figure.name for figure in [*alone, *(kind for group in groups for kind in group.kinds)]]
    assert sorted(read) == sorted(re.findall(r"\bconst (\w+):", FILES[name]))
    assert f"mod {name};" in (figures.SOURCES / "mod.rs").read_text("utf-8")
