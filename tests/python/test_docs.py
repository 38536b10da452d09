"""Docstrings: everything public has one, and every example in them runs, compiled or not."""

import doctest
import importlib
import inspect
import pkgutil
import re

import pytest
import wideberth as wb
from wideberth import _wideberth as core

#: Functions whose docstrings must show how to use them.
SHOWN = (
    *("compare", "simulate", "aim_sweep", "shot", "along", "hazard", "first_putt", "Plan", "Club", "suggest_plans"),
    *("fly", "run", "putt", "captured"),
)
SHOWN_METHODS = (wb.Hole.sketch, wb.Hole.surface_at, wb.Player.from_handicap)


def members(module):
    """Every public name of a module that is its own, and every public member of its classes."""
    for name in module.__all__ if hasattr(module, "__all__") else vars(module):
        value = getattr(module, name)
        if name.startswith("_") or not (inspect.isclass(value) or callable(value)):
            continue
        yield name, value
        if inspect.isclass(value) and not issubclass(value, Exception):
            for member in dir(value):
                if not member.startswith("_"):
                    yield f"{name}.{member}", inspect.getattr_static(value, member)


COMPILED = dict(members(core))
PUBLIC = dict(members(wb))


@pytest.mark.parametrize("name", [*PUBLIC, *(name for name in COMPILED if name not in PUBLIC)])
def test_everything_has_a_docstring(name):
    doc = inspect.getdoc(PUBLIC.get(name, COMPILED.get(name)))
    assert doc and doc.split("\n")[0].endswith((".", ":")), f"{name}: {doc!r}"
    assert max(map(len, doc.splitlines())) <= 120


def test_what_takes_arguments_says_what_they_are():
    for name, value in {**COMPILED, **PUBLIC}.items():
        function = getattr(value, "__func__", value)
        if not callable(function) or (inspect.isclass(function) and function not in (wb.Club, wb.Plan)):
            continue
        signature = inspect.signature(function)
        keywords = [p.name for p in signature.parameters.values() if p.kind is p.KEYWORD_ONLY]
        doc = inspect.getdoc(function)
        # It may leave that to another function, which is looked at, too.
        if re.search(r"`wideberth\.[\w.]+`", doc):
            continue
        for keyword in keywords:
            assert keyword in doc, f"{name} does not tell what {keyword} is"


def test_signatures_can_be_read():
    for name, value in COMPILED.items():
        if callable(value) and not inspect.isclass(value):
            assert "Ellipsis" not in str(inspect.signature(value)), name
    assert str(inspect.signature(wb.Plan)) == "(name, instructions, then='steady')"
    assert "bunkers=()" in str(inspect.signature(wb.Hole.sketch))


def examples():
    """The examples of every docstring; the finder does not look into compiled classes by itself."""
    finder = doctest.DocTestFinder(recurse=False, exclude_empty=True)
    for name, value in COMPILED.items():
        # A getter or class method of a compiled class has its docstring on itself.
        yield from finder.find(value, f"wideberth._wideberth.{name}", module=False, globs={})
    for info in pkgutil.walk_packages(wb.__path__, "wideberth."):
        if info.name in ("wideberth._wideberth", "wideberth.__main__"):
            continue
        if info.name.startswith("wideberth.plot"):
            pytest.importorskip("matplotlib").use("Agg")
        module = importlib.import_module(info.name)
        yield from doctest.DocTestFinder().find(module, info.name)
    yield from doctest.DocTestFinder(recurse=False).find(wb, "wideberth")


def test_examples():
    runner = doctest.DocTestRunner(optionflags=doctest.REPORT_NDIFF)
    run = {}
    report = []
    for example in examples():
        if example.examples:
            result = runner.run(example, out=report.append)
            run[example.name.rsplit("wideberth.", 1)[-1]] = result.attempted
            assert result.failed == 0, "".join(report)
    for name in SHOWN:
        assert any(key.split(".")[-1] == name for key in run), f"{name} has no example"
    for method in SHOWN_METHODS:
        assert any(key.endswith(method.__name__) for key in run), f"{method} has no example"


def test_names_of_the_package():
    assert wb.__all__ == sorted(wb.__all__)
    assert all(hasattr(wb, name) for name in wb.__all__)
    assert wb.__version__.count(".") == 2
    for name in wb.__all__:
        value = getattr(wb, name)
        if inspect.isclass(value):
            assert value.__module__.split(".")[0] == "wideberth"
