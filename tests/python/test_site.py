"""The documentation site: its code runs and prints what is shown, it builds without a warning and needs no network."""

import ast
import html
import importlib.util
import inspect
import os
import re
import shutil
import subprocess
import sys
from html.parser import HTMLParser
from pathlib import Path

import pytest
import wideberth as wb

ROOT = Path(__file__).parents[2]
DOCS = ROOT / "docs"

pytest.importorskip("matplotlib").use("Agg")


def load(name):
    """A program of the docs as a module."""
    spec = importlib.util.spec_from_file_location(name, DOCS / f"{name}.py")
    module = importlib.util.module_from_spec(spec)
    sys.modules[name] = module
    spec.loader.exec_module(module)
    return module


refresh = load("refresh")
PAGES = {str(path.relative_to(DOCS)): path for path in refresh.pages()}
RUN = [name for name, path in PAGES.items() if refresh.blocks(path.read_text("utf-8"))]


@pytest.mark.parametrize("name", RUN)
def test_code_of_a_page_runs_and_prints_what_is_shown(name, tmp_path):
    blocks = refresh.blocks(PAGES[name].read_text("utf-8"))
    for block, now in zip(blocks, refresh.printed(PAGES[name], blocks, tmp_path), strict=True):
        if block.shown is not None:
            hint = f"{name}, line {block.line}: after a change of numbers run python docs/refresh.py"
            assert refresh.same(block.shown, now), f"{hint}\nshown:\n{block.shown}\nprinted:\n{now}"
    for picture in tmp_path.glob("*.png"):
        assert f"(assets/{picture.name})" in PAGES[name].read_text("utf-8")
        assert (refresh.ASSETS / picture.name).is_file(), "run python docs/refresh.py"


def test_ground_that_a_sentence_names_is_ground():
    """What stands in a sentence is in no block that runs: its numbers are tried on the hole of the page on ground."""
    hole = wb.Hole.sketch(par=4, length=392, fairway_width=32, green_depth=30, green_width=26)
    shapes, tried = ("uphill_ft", "fairway_tilt_percent", "green_tilt_percent", "two_tier_green"), 0
    for path in PAGES.values():
        for name, value in re.findall(r"`(\w+)=(\([^`]*\)|[-\d.]+)`", path.read_text("utf-8")):
            if name in shapes:
                hole.with_terrain(**{name: ast.literal_eval(value)})
                tried += 1
    assert tried >= 2


def test_every_output_shown_is_one_that_is_compared():
    for name, path in PAGES.items():
        text = path.read_text("utf-8")
        compared = sum(block.shown is not None for block in refresh.blocks(text))
        assert len(re.findall(r"^```text$", text, re.M)) == compared, name
        assert all(block.shown is None or block.shown.strip() for block in refresh.blocks(text)), name
    assert {"index.md", "tutorial.md", "how-to/results.md"} <= set(RUN)


def test_outputs_that_differ_are_told_apart():
    assert refresh.same("mean 5.012 ± 0.008", "mean  5.014 ± 0.007")
    assert not refresh.same("mean 5.012 ± 0.008", "mean 5.015 ± 0.008")
    assert not refresh.same("1 driver 5.0", "1 iron 5.0")
    assert not refresh.same("5.0", "5.00")
    assert not refresh.same("2 plans", "2 plans, 3 more")
    text = "```python\nprint(1)\n```\n\n```text\nold\n```\n```python\nx = 2\n```\nWords.\n```text\nfree\n```\n"
    assert [block.shown for block in refresh.blocks(text)] == ["old\n", None]


@pytest.fixture(scope="module")
def site(tmp_path_factory):
    """The site, built with warnings as errors, and what the build printed."""
    for module in ("mkdocs", "material", "mkdocstrings_handlers.python"):
        try:
            importlib.import_module(module)
        except ImportError:
            pytest.skip(f"{module} is not installed: pip install '.[docs]'")
    folder = tmp_path_factory.mktemp("site")
    # The theme tells of its own future here, which is no warning about these pages.
    quiet = {**os.environ, "NO_MKDOCS_2_WARNING": "1", "NO_COLOR": "1"}
    built = subprocess.run(
        [sys.executable, "-m", "mkdocs", "build", "--strict", "--site-dir", str(folder)],
        cwd=ROOT,
        env=quiet,
        capture_output=True,
        text=True,
        check=False,
        timeout=300,
    )
    said = built.stdout + built.stderr
    assert built.returncode == 0, said
    yield folder, said
    shutil.rmtree(folder)


def test_the_build_prints_no_warning(site):
    assert not re.search(r"warning|error|deprecated", site[1], re.I), site[1]


class Page(HTMLParser):
    """What a built page loads, links to and can be linked to."""

    #: Where a browser fetches from by itself.
    FETCHED = (
        *(("script", "src"), ("img", "src"), ("img", "srcset"), ("source", "src"), ("source", "srcset")),
        *(("iframe", "src"), ("video", "src"), ("audio", "src"), ("embed", "src"), ("object", "data")),
        *(("link", "href"), ("image", "href"), ("use", "href")),
    )

    def __init__(self, path):
        super().__init__()
        self.fetched, self.links, self.anchors = [], [], set()
        self.feed(path.read_text("utf-8"))

    def handle_starttag(self, tag, attrs):
        for name, value in attrs:
            if (tag, name) in self.FETCHED:
                self.fetched.append(value)
            elif (tag, name) == ("a", "href"):
                self.links.append(value)
            elif name == "id":
                self.anchors.add(value)


def read(folder):
    return {path.relative_to(folder).as_posix(): Page(path) for path in sorted(folder.rglob("*.html"))}


def test_the_site_fetches_nothing_from_elsewhere(site):
    outside = re.compile(r"^(?:https?:)?//", re.I)
    for name, page in read(site[0]).items():
        assert page.fetched, name
        assert [url for url in page.fetched if outside.match(url)] == [], name
    for sheet in site[0].rglob("*.css"):
        urls = re.findall(r"url\(\s*[\"']?([^\"')]+)|@import\s+[\"']([^\"']+)", sheet.read_text("utf-8"))
        assert [url for pair in urls for url in pair if outside.match(url)] == [], sheet.name


def test_links_within_the_site_hold(site):
    pages = read(site[0])
    seen = 0
    for name, page in pages.items():
        if name == "404.html":
            continue
        for link in page.links:
            if re.match(r"[a-z]+:", link):
                continue
            path, _, anchor = link.partition("#")
            target = os.path.normpath(os.path.join(os.path.dirname(name), path)) if path else name
            target = "index.html" if target == "." else target
            assert (site[0] / target).exists(), f"{name}: {link}"
            if anchor and target in pages:
                assert anchor in pages[target].anchors or anchor == "__skip", f"{name}: {link}"
            seen += 1
    assert seen > 500


def test_search_is_local(site):
    index = (site[0] / "search" / "search_index.json").read_text("utf-8")
    assert "around_the_green" in index and "blow-up" in index


def public():
    """Every public name, and every public member of every public class, as the API pages should show it."""
    for name in wb.__all__:
        yield f"wideberth.{name}"
        value = getattr(wb, name)
        if inspect.isclass(value) and not issubclass(value, Exception):
            for member in dir(value):
                if not member.startswith("_"):
                    yield f"wideberth.{name}.{member}"
    for name in wb.ball.__all__:
        yield f"wideberth.ball.{name}"


def test_every_public_name_is_in_the_api(site):
    anchors = set().union(*(page.anchors for name, page in read(site[0]).items() if name.startswith("api/")))
    assert [name for name in public() if name not in anchors] == []
    assert len(list(public())) > 150


def test_compiled_classes_show_docstrings_types_and_how_they_are_made(site):
    holes = words(site[0] / "api" / "holes.html")
    assert "Conditions( *, wind: Wind | None = None, firmness:" in holes
    assert "sketch( *, par: int, length: float," in holes
    assert "The surface at a place, or the surfaces at many." in holes
    assert "Steady wind" in holes or "A steady wind: its speed and where it blows from" in holes
    assert "The axes, in yards from the tee: across the page" in words(site[0] / "api" / "pictures.html")
    solving = words(site[0] / "api" / "solving.html")
    assert "What it costs next to the best shot" in solving
    for name in ("holes", "players", "plans", "solving", "ball"):
        text = words(site[0] / "api" / f"{name}.html")
        assert not re.search(r":(?:func|meth|class):|Initialize self|\b_[A-Z][a-z]", text), name
        assert "Args:" not in text and "Raises: InputError:" not in text, name


def words(path):
    """The text of a built page, tags taken out."""
    text = re.sub(r"<(script|style).*?</\1>", "", path.read_text("utf-8"), flags=re.S)
    text = re.sub(r"<[^>]+>", "", text)
    return " ".join(html.unescape(text).split())
