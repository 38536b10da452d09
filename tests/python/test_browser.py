"""The report in a real browser: it loads alone, switches by mouse and by keyboard, can be read, and prints."""

import io

import pytest
import wideberth as wb
from helpers import plans, sketch

pytest.importorskip("jinja2")
pytest.importorskip("matplotlib").use("Agg")

#: Sheets of paper.
PAPERS = ("A4", "Letter")
#: The ratio of luminances by WCAG 2.2, 1.4.3 (published), of each text and what it lies on; the lowest of the page.
CONTRAST = """
() => {
  const parts = c => (c.match(/[\\d.]+/g) || []).map(Number);
  const light = ([r, g, b]) => {
    const f = v => (v /= 255) <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4;
    return 0.2126 * f(r) + 0.7152 * f(g) + 0.0722 * f(b);
  };
  const ground = e => {
    for (; e; e = e.parentElement) {
      const c = parts(getComputedStyle(e).backgroundColor);
      if (c.length === 3 || c[3] === 1) return c;
    }
    return [255, 255, 255];
  };
  let lowest = {ratio: 99}, seen = 0;
  const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (walk.nextNode()) {
    const e = walk.currentNode.parentElement, style = getComputedStyle(e);
    if (!walk.currentNode.data.trim() || !e.getClientRects().length || e.tagName === "title") continue;
    const inPicture = e instanceof SVGElement;
    const ink = parts(inPicture ? style.fill : style.color);
    // Words on the map have a rim of paper; every other word in a picture lies on the page's own.
    const under = inPicture && style.stroke !== "none" ? parts(style.stroke) : ground(e);
    const [a, b] = [light(ink), light(under)].sort((x, y) => y - x), ratio = (a + 0.05) / (b + 0.05);
    seen += 1;
    if (ratio < lowest.ratio) lowest = {ratio, text: walk.currentNode.data.trim()};
  }
  return {...lowest, seen};
}
"""


@pytest.fixture(scope="module")
def page_file(tmp_path_factory):
    """A report that is as full as it usually gets: twenty plans with long names, trouble of every kind, a solution."""
    hole, player = sketch(), wb.Player.from_handicap(16)
    proposed = [*plans(), *wb.suggest_plans(hole, player)]
    result = wb.compare(hole, player, proposed, plays=500, seed=3)
    solved = wb.solve(hole, player, cell=8)
    return wb.report(result, solved=solved, path=tmp_path_factory.mktemp("page") / "report.html")


@pytest.fixture
def opened(browser, page_file):
    """Opens the page in a window of some width and theme, with a record of what it asked for and complained about."""
    contexts = []

    def open_page(width=1280, theme="light", scripts=True):
        context = browser.new_context(
            viewport={"width": width, "height": 800}, color_scheme=theme, java_script_enabled=scripts
        )
        contexts.append(context)
        page = context.new_page()
        page.asked, page.complaints = [], []
        page.on("request", lambda request: page.asked.append(request.url))
        page.on("console", lambda message: page.complaints.append(message.text))
        page.on("pageerror", lambda error: page.complaints.append(str(error)))
        page.goto(page_file.as_uri())
        return page

    yield open_page
    for context in contexts:
        context.close()


def shown(page):
    """Which of the two patterns can be seen."""
    return [page.locator(f"#pattern-{number}").is_visible() for number in (1, 2)]


@pytest.mark.parametrize("theme", ["light", "dark"])
def test_it_loads_alone_and_without_complaint(opened, page_file, theme):
    page = opened(theme=theme)
    assert page.asked == [page_file.as_uri()]
    assert page.complaints == []
    assert page.title() == "Trial"
    assert page.locator("h1").inner_text() == "Trial"


def test_the_mouse_switches_plans(opened):
    page = opened()
    assert shown(page) == [True, False]
    page.locator("label[for=show-2]").click()
    assert shown(page) == [False, True]
    page.locator("#show-1").click()
    assert shown(page) == [True, False]


def test_the_keyboard_switches_plans_and_the_focus_is_seen(opened):
    page = opened(width=360)
    for _ in range(4):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.id") == "show-1":
            break
    assert page.evaluate("document.activeElement.id") == "show-1"
    assert page.evaluate("getComputedStyle(document.activeElement).outlineStyle") == "solid"
    page.keyboard.press("ArrowDown")
    assert shown(page) == [False, True]
    page.keyboard.press("ArrowUp")
    assert shown(page) == [True, False]


def test_it_switches_without_scripts(opened):
    page = opened(scripts=False)
    page.locator("label[for=show-2]").click()
    assert shown(page) == [False, True]


@pytest.mark.parametrize("theme", ["light", "dark"])
def test_every_text_can_be_read(opened, theme):
    found = opened(theme=theme).evaluate(CONTRAST)
    assert found["seen"] > 150
    assert found["ratio"] >= 4.5, found


def test_dark_is_dark(opened):
    papers = [
        opened(theme=theme).evaluate("getComputedStyle(document.documentElement).backgroundColor")
        for theme in ("light", "dark")
    ]
    assert papers == ["rgb(251, 250, 246)", "rgb(23, 25, 28)"]


@pytest.mark.parametrize("width", [320, 360, 390, 768, 1280])
def test_it_needs_no_scrolling_sideways(opened, width):
    page = opened(width=width)
    assert page.evaluate("document.documentElement.scrollWidth") <= width


def test_a_finger_finds_the_switch(opened):
    page = opened(width=360)
    for number in (1, 2):
        box = page.locator(f"label[for=show-{number}]").bounding_box()
        # WCAG 2.2, 2.5.8 (published): 24 pixels at least.
        assert box["height"] >= 24 and box["width"] >= 24


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("theme", ["light", "dark"])
def test_it_prints_on_two_sheets_with_both_maps(opened, paper, theme):
    pypdf = pytest.importorskip("pypdf")
    page = opened(theme=theme)
    sheets = pypdf.PdfReader(io.BytesIO(page.pdf(format=paper, print_background=True))).pages
    assert 1 <= len(sheets) <= 2
    text = " ".join(" ".join(sheet.extract_text() for sheet in sheets).split())
    assert "Rules of Golf" in text and "lightning" in text
    page.emulate_media(media="print")
    assert shown(page) == [True, True]
    assert page.evaluate("getComputedStyle(document.documentElement).color") == "rgb(34, 37, 43)"
