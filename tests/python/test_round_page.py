"""The page, the sheet and the booklet of a round: what they say, what is refused, that they can be read and printed."""

import io
import re
from dataclasses import replace
from html.parser import HTMLParser

import pytest
import wideberth as wb

pytest.importorskip("jinja2")
pytest.importorskip("matplotlib").use("Agg")

PLAYER = wb.Player.from_handicap(17)


def holes():
    lengths = [(4, 372), (3, 158), (5, 505)] * 6
    return [
        wb.Hole.sketch(
            par=par,
            length=length + 3 * i,
            name=f"Hole <{i + 1}>",
            number=i + 1,
            stroke_index=i + 1,
            water=[wb.along(length - 40, right=22)] if i == 1 else (),
            trees=[wb.along(120, left=40)] if i == 2 else (),
        )
        for i, (par, length) in enumerate(lengths)
    ]


@pytest.fixture(scope="module")
def course():
    return wb.Course(holes()[:4], name="Four & more holes of a course with a name that is rather long")


@pytest.fixture(scope="module")
def target(course):
    return wb.break_score(course, PLAYER, 20, plays=400, seed=1, cell=10)


@pytest.fixture(scope="module")
def played(course):
    return wb.play_rounds(course, PLAYER, plays=400, seed=1)


@pytest.fixture(scope="module")
def practice(course):
    return wb.practice_gains(course, PLAYER, target=20, plays=50, seed=1)


@pytest.fixture(scope="module")
def page(target, played, practice, tmp_path_factory):
    path = tmp_path_factory.mktemp("round") / "round.html"
    wb.report(target, played=played, practice=practice, path=path, title="Breaking 20")
    return path


class Words(HTMLParser):
    """The text of a page, and that its elements close in order."""

    VOID = ("meta", "input", "br", "link")

    def __init__(self):
        super().__init__()
        self.open, self.text, self.mute = [], [], 0

    def handle_starttag(self, tag, attributes):
        if tag not in self.VOID:
            self.open.append(tag)
        self.mute += tag == "style"

    def handle_endtag(self, tag):
        assert self.open.pop() == tag
        self.mute -= tag == "style"

    def handle_data(self, data):
        if not self.mute:
            self.text.append(data)


def words(path):
    parser = Words()
    parser.feed(path.read_text("utf-8"))
    assert not parser.open
    return re.sub(r"\s+", " ", " ".join(parser.text))


def test_the_page_says_the_answer_the_budget_and_what_to_practise(page, target, played, practice):
    text = words(page)
    assert target.summary in text and played.summary in text and practice.summary in text
    plan = target.plan().columns()
    for number, make, club in zip(plan["hole"], plan["score_to_make"], plan["club"], strict=True):
        assert f"{number} make {make}" in text and club in text
    assert f"{sum(plan['score_to_make'])} so far" in text
    assert all(skill in text for skill in practice.skills[:3])
    assert "Rules of Golf" in text and "lightning" in text and "fore" in text


def test_the_page_asks_nothing_of_the_network_and_names_are_names(page):
    html = page.read_text("utf-8")
    assert "Hole <1>" not in html and "Four &amp; more holes" in html
    assert not re.search(r"""(?:src|href)\s*=\s*["'](?!#)""", html) and "<script" not in html and "@import" not in html
    assert 10_000 < len(html) < 600_000


def test_same_arguments_same_files(target, played, practice, page, tmp_path):
    again = wb.report(target, played=played, practice=practice, path=tmp_path / "again.html", title="Breaking 20")
    assert again.read_bytes() == page.read_bytes()
    for paper in ("a4", "booklet"):
        one, two = (wb.pocket_card(target, path=tmp_path / f"{i}.pdf", paper=paper).read_bytes() for i in (1, 2))
        assert one == two


def test_what_does_not_belong_together_is_refused(target, played, practice, tmp_path):
    elsewhere = wb.Course(holes()[:2], name="Two")
    other = wb.play_rounds(elsewhere, PLAYER, plays=20)
    somebody = wb.play_rounds(target.course, wb.Player.from_handicap(3), plays=20)
    path = tmp_path / "round.html"
    for wrong, told in (
        ({"played": other}, "played is of another course, 'Two'"),
        ({"played": somebody}, "played is of another player"),
        ({"plans": ["a", "b"]}, "plans is of type list; it must be left out"),
        ({"title": " "}, "title is ' '"),
    ):
        with pytest.raises(wb.InputError, match=re.escape(told)):
            wb.report(target, path=path, **wrong)
    with pytest.raises(TypeError, match="practice is int"):
        wb.report(target, path=path, practice=1)
    hole = target.course[0]
    comparison = wb.compare(hole, PLAYER, wb.suggest_plans(hole, PLAYER)[:2], plays=50)
    with pytest.raises(wb.InputError, match="played is of type PlayedRounds; it must be left out"):
        wb.report(comparison, played=played, path=path)
    for paper, told in (("a5", "paper is 'a5'; it must be one of a4, letter, booklet"), ("", "paper is ''")):
        with pytest.raises(wb.InputError, match=told):
            wb.pocket_card(target, path=tmp_path / "card.pdf", paper=paper)
    assert not list(tmp_path.iterdir())


@pytest.mark.parametrize(
    ("paper", "wide", "high", "sheets"), [("a4", 210, 297, 2), ("letter", 215.9, 279.4, 2), ("booklet", 105, 148, 4)]
)
def test_sheets_say_what_to_make(target, tmp_path, paper, wide, high, sheets):
    reader = pytest.importorskip("pypdf").PdfReader(wb.pocket_card(target, path=tmp_path / "card.pdf", paper=paper))
    assert len(reader.pages) == sheets
    for page in reader.pages:
        assert float(page.mediabox.width) == pytest.approx(wide / 25.4 * 72, abs=1)
        assert float(page.mediabox.height) == pytest.approx(high / 25.4 * 72, abs=1)
    text = re.sub(r"\s+", " ", " ".join(page.extract_text() for page in reader.pages))
    plan = target.plan().columns()
    for make, club in zip(plan["score_to_make"], plan["club"], strict=True):
        assert f"make {make}" in text and club in text
    assert "Rules of Golf" in text and "stop for lightning" in text and "fore" in text


def boxes(figure):
    """Where the words of a figure lie, in pixels."""
    from matplotlib.backends.backend_agg import FigureCanvasAgg

    FigureCanvasAgg(figure).draw()
    texts = [text for text in [*figure.texts, *(t for ax in figure.axes for t in ax.texts)] if text.get_text().strip()]
    return [(text.get_text(), text.get_window_extent()) for text in texts]


def test_a_share_is_no_nought_and_no_hundred_that_it_is_not():
    from wideberth._report import words

    assert [words.share(of) for of in (0, 0.002, 0.42, 0.998, 1)] == ["0 %", "<1 %", "42 %", ">99 %", "100 %"]


def test_strips_show_what_ends_beside_a_hole_whole():
    from wideberth._report.strips import strips

    pond = wb.Hole.sketch(par=4, length=400, water=[wb.along(250, right=25)])
    bare, wet = strips([wb.Hole.sketch(par=4, length=400), pond])
    assert wet.height > bare.height
    (d,) = [d for surface, d in wet.areas if surface == "penalty_red"]
    assert all(0 < float(y) < wet.height for y in re.findall(r"[ML]\S+ ([-\d.]+)", d))


def test_holes_on_the_sheet_are_whole(target):
    """The corner of a sharp dogleg is on the sheet, whatever the shape of its place there."""
    from matplotlib.figure import Figure
    from wideberth._report import sheet
    from wideberth.plot.page import Page
    from wideberth.plot.theme import LIGHT

    hole = wb.Hole.sketch(par=5, length=560, dogleg=(260, 80))
    figure = Figure(figsize=sheet.PAPERS["a4"])
    sheet._front(figure, target, [replace(sheet.said(target)[0], hole=hole)], LIGHT)
    (ax,) = figure.axes
    x, y = Page(hole).of(hole.line_of_play).T
    (left, right), (low, high) = ax.get_xlim(), ax.get_ylim()
    assert left < x.min() and x.max() < right and low < y.min() and y.max() < high


def test_words_of_the_sheets_keep_apart_and_on_the_paper(target):
    """Eighteen holes with long words: no two words lie on each other, and none runs off the paper."""
    from matplotlib.figure import Figure
    from wideberth._report import booklet, sheet
    from wideberth.plot.theme import LIGHT

    told = sheet.said(target)
    long = {
        "club": "pitching wedge",
        "aim": "14 right of the line of play, finishing 10 right",
        "way": "double bogey first",
    }
    many = [
        replace(told[i % 4], number=i + 1, total=5 * i, press=" ".join([told[i % 4].press] * 3), **long)
        for i in range(18)
    ]
    figures = []
    for draw, holes in ((sheet._front, many), (sheet._back, told)):
        figure = Figure(figsize=sheet.PAPERS["letter"])
        draw(figure, target, holes, LIGHT)
        figures.append(figure)
    # However much there is to tell, every milestone is told.
    said = [text.get_text() for text in figures[0].texts]
    assert {milestone for one in many for milestone in one.milestones} <= set(said)
    for one in (many[0], many[17]):
        figure = Figure(figsize=booklet.SIZE)
        booklet._draw(figure, target, one, LIGHT)
        figures.append(figure)
    for figure in figures:
        found = boxes(figure)
        wide, high = figure.bbox.width, figure.bbox.height
        for i, (text, box) in enumerate(found):
            assert box.x0 > 0 and box.x1 < wide and box.y0 > 0 and box.y1 < high, text
            # The boxes of lines below each other touch: a third of the smaller may be shared.
            for other, beside in found[i + 1 :]:
                across = min(box.x1, beside.x1) - max(box.x0, beside.x0)
                up = min(box.y1, beside.y1) - max(box.y0, beside.y0)
                assert across <= 1 or up <= 0.34 * min(box.height, beside.height), (text, other)


@pytest.fixture(scope="module")
def opened(browser, page):
    def open_page(width=1280, theme="light"):
        tab = browser.new_page(viewport={"width": width, "height": 900}, color_scheme=theme)
        tab.goto(page.as_uri())
        return tab

    return open_page


@pytest.mark.parametrize("theme", ["light", "dark"])
def test_every_text_can_be_read(opened, theme):
    from test_browser import CONTRAST

    found = opened(theme=theme).evaluate(CONTRAST)
    assert found["seen"] > 80
    assert found["ratio"] >= 4.5, found


@pytest.mark.parametrize("width", [320, 390, 768, 1280])
def test_it_needs_no_scrolling_sideways(opened, width):
    assert opened(width=width).evaluate("document.documentElement.scrollWidth") <= width


def test_it_prints_on_few_sheets(opened):
    pypdf = pytest.importorskip("pypdf")
    sheets = pypdf.PdfReader(io.BytesIO(opened().pdf(format="A4", print_background=True))).pages
    assert 1 <= len(sheets) <= 3
