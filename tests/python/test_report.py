"""The report and the pocket card: what they say, that names are taken as names, and what is refused."""

import re
import xml.etree.ElementTree as ElementTree
from html.parser import HTMLParser

import pytest
import wideberth as wb
from helpers import plans, sketch
from wideberth._table import percent

pytest.importorskip("jinja2")
pytest.importorskip("matplotlib").use("Agg")

#: Names that would break out of a text, an attribute or a style if they were not escaped.
NASTY = '</title></svg><script>alert("1")</script>&amp; "x\' onload=\'y'
#: Elements that HTML closes by itself.
VOID = "area base br col embed hr img input link meta source track wbr".split()
PUPIL = wb.Player.from_handicap(16)


@pytest.fixture(scope="module")
def result():
    return wb.compare(sketch(), PUPIL, plans(), plays=2_000, seed=3, blow_up=2)


@pytest.fixture(scope="module")
def solved():
    return wb.solve(sketch(), PUPIL, cell=6)


@pytest.fixture(scope="module")
def html(result, solved, tmp_path_factory):
    path = wb.report(result, solved=solved, path=tmp_path_factory.mktemp("page") / "report.html", title="A page")
    return path.read_text("utf-8")


class Outline(HTMLParser):
    """The elements of a page; fails where one is closed that is not the innermost open one."""

    def __init__(self):
        super().__init__()
        self.open, self.starts, self.headings, self.text = [], [], [], []

    def handle_starttag(self, tag, attributes):
        self.starts.append((tag, dict(attributes)))
        if tag not in VOID:
            self.open.append(tag)
        if re.fullmatch("h[1-6]", tag):
            self.headings.append(int(tag[1]))

    def handle_startendtag(self, tag, attributes):
        self.starts.append((tag, dict(attributes)))

    def handle_endtag(self, tag):
        assert self.open.pop() == tag

    def handle_data(self, data):
        if not self.open or self.open[-1] != "style":
            self.text.append(data)

    @property
    def words(self):
        return re.sub(r"\s+", " ", "".join(self.text))


def outline(html):
    found = Outline()
    found.feed(html)
    found.close()
    assert not found.open
    return found


def pictures(html):
    return [ElementTree.fromstring(svg) for svg in re.findall(r"<svg.*?</svg>", html, re.DOTALL)]


def shown(html):
    """The names of the two plans looked at closely."""
    return re.findall(r'<label for="show-\d">([^<]*)', html)


def test_it_says_question_answer_and_every_figure(html, result, solved):
    words = outline(html).words
    assert result.advice in words
    assert "Which of 3 plans should a player of handicap 16 choose on Trial, a par 4 of 392 yards?" in words
    for plan in result.plans:
        assert f"{plan.mean:.3f} ± {plan.standard_error:.3f}" in words
        assert percent(plan.blow_up, plan.blow_up_error) in words
    advice = solved.shot_from(solved.hole.tee)
    assert advice.words in words and f"{advice.expected_strokes:.2f} strokes" in words
    assert advice.runner_up.words in words
    for mistake in advice.mistakes:
        assert mistake.words in words
    for cause in result.best.blow_up_causes:
        assert cause in words
    assert "2,000 plays of each plan on the same luck, seed 3" in words


def test_the_usual_tee_shot_is_told_as_the_average_it_is(html):
    usual = PUPIL.tee_shot()
    told = f"Usual tee shot: {usual.club}, on average {usual.carry:.0f} yd of carry and {usual.total:.0f} in all"
    words = outline(html).words
    assert f"{told}, mishits included; two thirds of all shots finish within" in words
    assert "solidly" not in words


def test_cautions_are_there(html):
    words = outline(html).words
    for word in "Rules of Golf,Committee,local rules,qualified professional,people,roads,lightning,trees".split(","):
        assert word in words, word


def test_good_enough_is_what_the_bag_and_the_expectations_say(html):
    words, bag = outline(html).words, PUPIL.table().columns()
    for name in shown(html):
        club = {"driver": "driver", "iron": "5-iron", "wood": "3-wood"}[name]
        row = list(bag["club"]).index(club)
        assert f"Tee shot: {club}" in words
        assert f"{bag['short_end'][row]:.0f} to {bag['long_end'][row]:.0f} yd long" in words
    approaches = PUPIL.expectations(plays=10_000, seed=3).approaches.columns()
    feet = approaches["good_enough_ft"][list(approaches["yards"]).index(125.0)]
    assert f"within {feet:.0f} ft of the pin" in words


def test_the_page_is_well_formed_and_small(html):
    found = outline(html)
    assert len(html.encode()) < 400_000
    assert found.headings[0] == 1 and found.headings.count(1) == 1
    steps = zip(found.headings, found.headings[1:], strict=False)
    assert all(after <= before + 1 for before, after in steps)
    named = [attributes["id"] for _, attributes in found.starts if "id" in attributes]
    assert len(named) == len(set(named))
    for _, attributes in found.starts:
        for key in ("for", "aria-labelledby"):
            assert attributes.get(key, named[0]) in named
    assert dict(found.starts)["html"]["lang"] == "en"
    maps = pictures(html)
    assert len([svg for svg in maps if svg.get("role") == "img"]) == 4
    for svg in maps:
        title = svg.find("{http://www.w3.org/2000/svg}title")
        assert svg.get("aria-hidden") == "true" or title.text.strip()


def test_it_asks_nothing_of_the_network(html):
    bare = html.replace("http://www.w3.org/2000/svg", "")
    assert not re.search(r"https?:|//[a-z]|@import|<script|<link|<img|<iframe", bare)
    assert set(re.findall(r"url\((.)", bare)) == {"#"}


def test_the_balls_drawn_are_those_played(html, result):
    for number, name in enumerate(shown(html), start=1):
        strokes = wb.simulate(sketch(), PUPIL, result[name].plan, plays=200, seed=3).columns()
        group = html.split(f'id="pattern-{number}"')[1].split("</svg>")[0]
        dots = {int(k): d.count("M") for k, d in re.findall(r'class="k(\d) dots" d="([^"]*)"', group)}
        safe = (strokes["stroke"] == 1) & (strokes["penalty"] == 0)
        # Balls off the map are not drawn.
        assert 0.9 * safe.sum() <= dots[1] <= safe.sum()


def test_same_arguments_same_file(result, solved, html, tmp_path):
    again = wb.report(result, solved=solved, path=tmp_path / "again.html", title="A page")
    assert again.read_text("utf-8") == html
    cards = [wb.pocket_card(result, path=tmp_path / f"{i}.pdf").read_bytes() for i in range(2)]
    assert cards[0] == cards[1]


HILLY = {"uphill_ft": 24, "fairway_tilt_percent": 4, "green_tilt_percent": (2.5, -1)}


def hilly():
    """A hole with named and unnamed trouble on ground that is not level; short words below it, for it is narrow."""
    return wb.Hole.sketch(
        name="Hilly",
        par=4,
        length=392,
        bunkers=[wb.hazard(wb.along(205, right=16), 24, 12, name="the pit"), wb.hazard(wb.short_of_green(4, left=14))],
        crossings=[(330, 12)],
        **HILLY,
    )


@pytest.fixture(scope="module")
def hilly_page(tmp_path_factory):
    comparison = wb.compare(hilly(), PUPIL, plans(), plays=1_000, seed=3)
    path = wb.report(comparison, path=tmp_path_factory.mktemp("hilly") / "page.html")
    return comparison, path.read_text("utf-8")


def maps(html):
    return [svg for svg in pictures(html) if "from above" in "".join(svg.itertext())]


SVG = "{http://www.w3.org/2000/svg}"


def test_the_shape_of_the_ground_is_in_the_assumptions_and_on_the_map(hilly_page, html):
    words = outline(hilly_page[1]).words
    assert "The pin is 24 ft above the tee, the ground falls 4.0 % from left to right, the green falls 2.5 %" in words
    for svg in maps(hilly_page[1]):
        arrows = [path.get("transform") for path in svg.iter(f"{SVG}path") if path.get("class") == "fall"]
        # Down the slope: to the right, and back to the tee or across the green, but not up the page.
        turns = [float(turn) for turn in re.findall(r"rotate\(([-\d.]+)\)", " ".join(arrows))]
        assert len(turns) == 4 and all(45 < turn < 150 for turn in turns)
        percents = [text.text for text in svg.iter(f"{SVG}text") if text.get("class") == "small"]
        assert percents == ["4 %"] * 3 + ["3 %"]
    assert "Level ground." in outline(html).words
    assert not any(path.get("class") == "fall" for svg in maps(html) for path in svg.iter(f"{SVG}path"))


def test_the_aims_are_on_the_map(hilly_page):
    comparison, html = hilly_page
    for svg, name in zip(maps(html), shown(html), strict=True):
        dashed = [path.get("d") for path in svg.iter(f"{SVG}path") if "dashed" in path.get("class", "")]
        assert len(dashed) >= 2
        # The first leads from the tee straight up the page, as far as the plan aims.
        x0, y0, x1, y1 = map(float, re.findall(r"[\d.]+", dashed[0]))
        fifty = next(float(d) for d in re.findall(r"M0 0h([\d.]+)M", text_of(svg)))
        aim = {"driver": 215, "iron": 160, "wood": 195}[name]
        assert abs(x1 - x0) < 8 * fifty / 50
        assert (y0 - y1) * 50 / fifty == pytest.approx(aim, abs=8), comparison[name].plan


def text_of(svg):
    return ElementTree.tostring(svg, "unicode")


def test_what_is_in_the_way_is_named_lettered_and_told_in_yards(hilly_page):
    html = hilly_page[1]
    for svg, table in zip(maps(html), re.findall(r'<table class="way">(.*?)</table>', html, re.DOTALL), strict=True):
        rows = re.findall(r'letter">(\w+)</td><th scope="row">([^<]*)</th><td>(\d+) – (\d+)', table)
        drawn = [text.text for text in svg.iter(f"{SVG}text") if "letter" in text.get("class", "")]
        assert rows and {letter for letter, *_ in rows} <= set(drawn)
        assert len(drawn) == len(set(drawn))
        words = {words for _, words, *_ in rows}
        assert "the pit, right" in words and "penalty area, across" in words
        assert all(int(reach) <= int(carry) for *_, reach, carry in rows)
    assert "Off the tee" in html and "reach – carry" in html


def test_words_below_a_narrow_map_are_on_lines_of_their_own(hilly_page):
    for svg in maps(hilly_page[1]):
        lines = {text.text: float(text.get("y")) for text in svg.iter(f"{SVG}text") if text.text}
        assert lines["play up the page"] - lines["50 yd"] > 12


def test_a_phone_lays_every_figure_of_the_table_out(html):
    """Rows are laid out anew where there is little room: as many columns as figures, and they stay a table."""
    found = outline(html)
    table = next(a for tag, a in found.starts if a.get("class") == "ranked")
    figures = int(table["style"].removeprefix("--figures: "))
    roles = [a.get("role") for _, a in found.starts]
    assert table["role"] == "table" and roles.count("columnheader") == figures + 1
    assert roles.count("rowheader") == 3 and roles.count("cell") == 3 * figures


def test_a_plan_that_is_solved_is_told_in_plain_words(solved, tmp_path):
    machine = [wb.Plan("machine", [], then=solved), *plans()[:1]]
    result = wb.compare(sketch(), PUPIL, machine, plays=1_000, seed=2)
    assert result.best.name == "machine"
    words = outline(wb.report(result, path=tmp_path / "page.html").read_text("utf-8")).words
    off_the_tee = solved.shot_from(solved.hole.tee).words
    assert (
        f"“machine” (the best shot from everywhere, for fewest strokes on average; off the tee: {off_the_tee})" in words
    )
    _, card = card_words(wb.pocket_card(result, path=tmp_path / "card.pdf"))
    assert "By the best shot from everywhere." in card[0]


def test_names_are_names(tmp_path):
    hole = wb.Hole.sketch(name=NASTY, par=4, length=392, water=[wb.hazard(wb.along(190, right=22), 70, 30, name=NASTY)])
    named = [wb.Plan(f"{NASTY} {i}", plan.instructions, plan.then) for i, plan in enumerate(plans())]
    result = wb.compare(hole, PUPIL, named, plays=300, seed=1)
    html = wb.report(result, path=tmp_path / "nasty.html", title=NASTY).read_text("utf-8")
    found = outline(html)
    assert "script" not in {tag for tag, _ in found.starts}
    assert not [key for _, attributes in found.starts for key in attributes if key.startswith("on")]
    assert len(pictures(html)) >= 5
    assert f"{NASTY} 0" in found.words and result.advice in found.words
    assert wb.pocket_card(result, path=tmp_path / "nasty.pdf").stat().st_size > 5_000


@pytest.mark.parametrize(("objective", "score"), [(wb.at_most(5), 5), (wb.safe(blow_up=2, price=1), 5)])
def test_what_is_played_for_is_told_with_its_chance(result, tmp_path, objective, score):
    solved = wb.solve(sketch(), PUPIL, cell=10, objective=objective)
    words = outline(wb.report(result, solved=solved, path=tmp_path / "for.html").read_text("utf-8")).words
    chance = solved.chance(solved.hole.tee, at_most=score)
    assert f"a score of {score} or better has a chance of {100 * chance:.1f} %" in words


def test_the_day_is_told(tmp_path):
    day = wb.Conditions(wind=wb.Wind(12, 200), firmness="firm", green_speed=11, altitude_ft=3_000, temperature_f=80)
    women = wb.Player.from_handicap(24, reference="women")
    result = wb.compare(sketch().under(day), women, plans(), plays=100)
    words = outline(wb.report(result, path=tmp_path / "day.html").read_text("utf-8")).words
    assert "Wind of 12 mph from 200°, firm ground, green speed 11 ft, 80 °F, 3,000 ft above the sea." in words
    assert "should a player of handicap 24 (women) choose" in words


def test_the_two_plans_can_be_chosen(result, tmp_path):
    two = ("wood", "iron")
    html = wb.report(result, plans=two, path=tmp_path / "two.html").read_text("utf-8")
    assert shown(html) == list(two)


def test_by_default_the_bold_plan_is_shown_beside_the_best(html, result):
    assert shown(html) == [result.best.name, "driver" if result.best.name != "driver" else result.names[1]]


def test_the_bold_plan_is_the_longest_that_goes_at_the_pin(tmp_path):
    # The steady driver is best; of those that go at the pin over the water the 3-wood is longer than the iron.
    hole = wb.Hole.sketch(par=5, length=480, crossings=[(385, 30)])
    named = {"steady": ("driver", "steady"), "iron": ("7-iron", "direct"), "wood": ("3-wood", "direct")}
    several = [wb.Plan(name, [wb.shot(club, wb.along(200))], then=then) for name, (club, then) in named.items()]
    result = wb.compare(hole, PUPIL, several, plays=1_000, seed=1)
    assert result.best.name == "steady"
    assert shown(wb.report(result, path=tmp_path / "bold.html").read_text("utf-8")) == ["steady", "wood"]


def test_a_long_table_is_cut_but_holds_the_plans_looked_at(tmp_path):
    many = [wb.Plan(f"plan {i}", [wb.shot("driver", wb.along(215, left=i))]) for i in range(15)]
    result = wb.compare(sketch(), PUPIL, many, plays=200, seed=1)
    last = result.names[-1]
    html = wb.report(result, plans=(result.names[0], last), path=tmp_path / "many.html").read_text("utf-8")
    rows = re.findall(r'<th scope="row" role="rowheader">(\d+)\. (plan \d+)</th>', html)
    assert len(rows) == 12 and rows[-1] == ("15", last) and rows[0] == ("1", result.names[0])
    assert "3 more plans further behind are left out" in html


def test_without_a_blow_up_and_without_a_solution(tmp_path):
    hole = wb.Hole.sketch(par=3, length=120)
    pair = [wb.Plan(name, [wb.at_pin()], then=name) for name in ("direct", "steady")]
    result = wb.compare(hole, wb.Player.from_handicap(2), pair, plays=100, seed=1, blow_up=12)
    words = outline(wb.report(result, path=tmp_path / "calm.html").read_text("utf-8")).words
    assert "Nothing blew up." in words and "The best there is" not in words


@pytest.mark.parametrize(
    ("change", "told"),
    [
        ({"plans": ("wood", "putter only")}, "plans has 'putter only'; it must be two of .*'wood'"),
        ({"plans": ("wood",)}, r"plans is \['wood'\]; it must be the names of 2 different plans"),
        ({"plans": ("wood", "wood")}, "2 different plans"),
        ({"plans": "wood"}, r"plans is \['wood'\]"),
        ({"title": "  "}, "title is '  '"),
        ({"path": "page.pdf"}, "page.pdf'; it must end in .html or .htm"),
        ({"path": "nowhere/page.html"}, "there is no directory .*nowhere"),
        ({"path": "folder.html"}, "folder.html'; that is a directory"),
    ],
)
def test_refusals_of_a_report(result, tmp_path, change, told):
    (tmp_path / "folder.html").mkdir()
    arguments = {"path": "page.html", **change}
    with pytest.raises(wb.InputError, match=told):
        wb.report(result, **{**arguments, "path": tmp_path / arguments["path"]})
    assert [p.name for p in tmp_path.iterdir()] == ["folder.html"]


def test_refusals_of_what_does_not_belong_together(result, solved, tmp_path):
    one = wb.compare(sketch(), PUPIL, plans()[:1], plays=100)
    with pytest.raises(wb.InputError, match="comparison has 1 plan, 'driver'; a report needs at least 2"):
        wb.report(one, path=tmp_path / "one.html")
    windy = sketch().under(wb.Conditions(wind=wb.Wind(10, 0)))
    elsewhere = wb.compare(windy, PUPIL, plans(), plays=100)
    with pytest.raises(wb.InputError, match=r"solved is for another hole, 'Trial'; .*unchanged"):
        wb.report(elsewhere, solved=solved, path=tmp_path / "windy.html")
    other = wb.compare(sketch(), wb.Player.from_handicap(3), plans(), plays=100)
    with pytest.raises(wb.InputError, match=r"solved is for another player, 'handicap 16'; .*'handicap 3'"):
        wb.report(other, solved=solved, path=tmp_path / "other.html")
    with pytest.raises(TypeError, match="of is str"):
        wb.report("a comparison", path=tmp_path / "text.html")
    with pytest.raises(TypeError, match="solved is int"):
        wb.report(result, solved=1, path=tmp_path / "text.html")
    assert not list(tmp_path.iterdir())


def card_words(path):
    pages = pytest.importorskip("pypdf").PdfReader(path).pages
    return pages, [re.sub(r"\s+", " ", page.extract_text()) for page in pages]


def test_cards_are_small_sheets_one_a_hole(result, solved, tmp_path):
    pages, words = card_words(wb.pocket_card([result, solved], path=tmp_path / "cards.pdf"))
    assert len(pages) == 2
    for page in pages:
        # 105 by 148 mm at 72 points an inch.
        assert float(page.mediabox.width) == pytest.approx(105 / 25.4 * 72, abs=1)
        assert float(page.mediabox.height) == pytest.approx(148 / 25.4 * 72, abs=1)
    advice = solved.shot_from(solved.hole.tee)
    assert advice.club in words[1] and advice.words.split(", ")[-1] in words[1]
    good = int(re.search(r"score of (\d) or better", words[0]).group(1))
    # By plays of its own: two thirds make it, and fewer a stroke less, within 5 standard errors.
    assert 1 - result.best.probability(at_least=good + 1) > 2 / 3 - 0.06
    assert 1 - result.best.probability(at_least=good) < 2 / 3 + 0.06
    for text in words:
        assert "Trial" in text and "par 4, 392 yd" in text and "Rules of Golf" in text


def test_a_card_tells_what_to_carry_and_no_errors(solved, tmp_path):
    comparison = wb.compare(hilly(), PUPIL, plans(), plays=500, seed=1)
    _, words = card_words(wb.pocket_card([comparison, solved], path=tmp_path / "carry.pdf"))
    for text in words:
        assert "±" not in text
    assert "reach – carry" in words[0] and "From " in words[0]
    # The pit is 193 to 217 yards out, 16 to 28 aside, and its far corner out of reach of where this is aimed; the brook
    # crosses from 324 to 336.
    reach, carry = map(int, re.search(r"the pit, right (\d+) – (\d+)", words[0]).groups())
    assert 192 <= reach <= 204 and reach < carry <= 219
    left = int(re.search(r"From (\d+) yd", words[0]).group(1))
    near, far = map(int, re.search(r"penalty area, across (\d+) – (\d+)", words[0]).groups())
    assert near == pytest.approx(left - (392 - 324), abs=6) and far - near == pytest.approx(12, abs=2)
    assert "The pin is 24 ft above the tee" in words[0] and "Level ground" in words[1]


def water_on(side):
    hole = wb.Hole.sketch(par=4, length=380, water=[wb.hazard(wb.along(190, **{side: 22}), 120, 24)])
    straight = [wb.Plan(name, [wb.shot("driver", wb.along(215))], then=name) for name in ("direct", "steady")]
    return wb.compare(hole, PUPIL, straight, plays=400, seed=1)


def test_the_side_to_miss_on_is_away_from_the_water(tmp_path):
    both = [water_on("left"), water_on("right")]
    _, words = card_words(wb.pocket_card(both, path=tmp_path / "water.pdf"))
    assert "right: left costs" in words[0]
    assert "left: right costs" in words[1]


def test_what_a_lay_up_leaves_is_told(tmp_path):
    lay_up = [wb.Plan("lay up", [wb.shot("5-iron", wb.along(160)), wb.leave(90)])]
    only = wb.compare(sketch(), PUPIL, lay_up, plays=200)
    _, words = card_words(wb.pocket_card(only, path=tmp_path / "lay-up.pdf"))
    assert "then lay up to 90 yd" in words[0]
    assert "5-iron" in words[0] and "on the line of play, over the point 160 yd out" in words[0]


def test_refusals_of_a_card(result, tmp_path):
    for of, path, told in (
        ([], "card.pdf", "of has 0 holes; it must have 1 to 100"),
        (result, "card.png", "it must end in .pdf"),
        (result, "nowhere/card.pdf", "there is no directory"),
    ):
        with pytest.raises(wb.InputError, match=told):
            wb.pocket_card(of, path=tmp_path / path)
    with pytest.raises(wb.InputError, match="paper is 'lettre'; it must be one of a4, letter, booklet"):
        wb.pocket_card([result], path=tmp_path / "card.pdf", paper="lettre")
    with pytest.raises(TypeError, match="of holds str"):
        wb.pocket_card(["a hole"], path=tmp_path / "card.pdf")
    assert not list(tmp_path.iterdir())


def test_trees_over_the_fairway_are_drawn_above_it(tmp_path):
    stand = wb.hazard(wb.along(270), length=40, width=36)
    hole = wb.Hole.sketch(par=4, length=360, fairway_width=40, trees=[stand])
    result = wb.compare(hole, PUPIL, plans()[:2], plays=200, seed=3)
    html = wb.report(result, path=tmp_path / "wooded.html").read_text("utf-8")
    ground = re.search(r'<g id="ground".*?</g>', html, re.DOTALL).group()
    drawn = re.findall(r'class="s s-(\w+)[^"]*?( crown)?"', ground)
    assert drawn.index(("trees", " crown")) > max(i for i, (_, crown) in enumerate(drawn) if not crown)
    assert drawn.index(("trees", "")) < drawn.index(("fairway", ""))
