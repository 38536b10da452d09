"""Fixtures for all tests: one hole, one player, some plans, and what they came to."""

import shutil

import helpers
import pytest
import wideberth as wb

#: Nothing but the page: no sandbox (root in a container has none), no talk of the browser's own with its maker.
FLAGS = (
    "--no-sandbox --disable-gpu --disable-quic --no-first-run --disable-background-networking "
    "--disable-component-update --disable-sync"
).split()


#: Files that take longest. They begin first: at the end of a run on several cores none waits for them.
LONGEST = ("test_notebooks.py", "test_types.py", "test_lesson_browser.py", "test_plot.py")


def pytest_collection_modifyitems(items):
    items.sort(key=lambda item: item.path.name not in LONGEST)


@pytest.fixture(scope="module")
def browser():
    """A real browser; the tests that ask for it are skipped where there is none."""
    playwright = pytest.importorskip("playwright.sync_api", reason="playwright is not installed")
    chromium = shutil.which("chromium")
    if chromium is None:
        pytest.skip("there is no chromium on the path")
    with playwright.sync_playwright() as started:
        opened = started.chromium.launch(executable_path=chromium, args=FLAGS)
        yield opened
        opened.close()


@pytest.fixture(scope="session")
def hole():
    return helpers.sketch()


@pytest.fixture(scope="session")
def player():
    return wb.Player.from_handicap(16)


@pytest.fixture(scope="session")
def plans():
    return helpers.plans()


@pytest.fixture(scope="session")
def checkpoints():
    return {
        "birdie putt inside 30 ft": wb.first_putt(within_ft=30, after_strokes=2),
        "putting in four": wb.first_putt(within_ft=1_000, after_strokes=4),
    }


@pytest.fixture(scope="session")
def result(hole, player, plans, checkpoints):
    return wb.compare(hole, player, plans, plays=4_000, seed=17, blow_up=2, checkpoints=checkpoints)


@pytest.fixture(scope="session")
def played(hole, player, plans):
    """Every stroke of the plays that `result` counts, by name of the plan."""
    return {plan.name: wb.simulate(hole, player, plan, plays=4_000, seed=17) for plan in plans}
