"""Tables: data frames, terminals and notebooks, and the advice in a sentence."""

import html.parser
import math
import re

import helpers
import numpy as np
import pytest
import wideberth as wb
from wideberth import _table

STROKES = set(
    "play stroke club x y lie to_pin target_x target_y carry landed_x landed_y rest_x rest_y rest_on penalty holed "
    "mishit trees lost unplayable".split()
)


@pytest.fixture(scope="module")
def demo():
    """What the command line compares when it is told nothing, with fewer plays."""
    hole = wb.Hole.from_geojson(helpers.read_map("alder-bend"))
    player = wb.Player.from_handicap(18)
    return wb.compare(hole, player, wb.suggest_plans(hole, player), plays=2_000, seed=1)


@pytest.fixture(scope="module")
def plays(played):
    return played["driver"]


@pytest.mark.parametrize("of", ["demo", "plays"])
def test_columns_are_of_one_length(of, request):
    columns = request.getfixturevalue(of).columns()
    assert len({len(column) for column in columns.values()}) == 1
    assert all(type(column) is np.ndarray and column.ndim == 1 for column in columns.values())


def test_columns_of_strokes(plays):
    columns = plays.columns()
    assert set(columns) == STROKES
    kinds = {name: column.dtype.kind for name, column in columns.items()}
    assert {n for n, k in kinds.items() if k == "U"} == {"club", "lie", "rest_on"}
    assert {n for n, k in kinds.items() if k == "i"} == {"play", "stroke", "penalty"}
    assert {n for n, k in kinds.items() if k == "b"} == {"holed", "mishit", "trees", "lost", "unplayable"}
    assert all(np.isfinite(column).all() for column in columns.values() if column.dtype.kind == "f")


def test_columns_are_a_copy_of_the_dict(plays):
    plays.columns().clear()
    assert set(plays.columns()) == STROKES


@pytest.mark.parametrize("of", ["demo", "plays"])
def test_pandas(of, request):
    pytest.importorskip("pandas")
    table = request.getfixturevalue(of)
    frame, columns = table.to_pandas(), table.columns()
    assert list(frame.columns) == list(columns)
    assert all(np.array_equal(frame[name].to_numpy(), column) for name, column in columns.items())


@pytest.mark.parametrize("of", ["demo", "plays"])
def test_polars(of, request):
    pytest.importorskip("polars")
    table = request.getfixturevalue(of)
    frame, columns = table.to_polars(), table.columns()
    assert frame.columns == list(columns)
    assert all(frame[name].to_list() == column.tolist() for name, column in columns.items())


def test_the_ranked_table(demo):
    columns = demo.columns()
    assert columns["plan"].tolist() == demo.names
    assert columns["mean"].tolist() == sorted(columns["mean"])
    assert columns["behind"][0] == columns["behind_error"][0] == 0 and (columns["behind"] >= 0).all()
    assert columns["behind"] == pytest.approx(columns["mean"] - columns["mean"][0], abs=1e-9)


def test_checkpoints_are_columns_and_no_other_name_is_hidden(result, hole, player, plans, checkpoints):
    columns = result.columns()
    for name in checkpoints:
        assert columns[name].tolist() == [r.checkpoints[name] for r in result.plans]
    plain = wb.compare(hole, player, plans, plays=10).columns()
    for name in plain:
        with pytest.raises(wb.InputError, match="column"):
            wb.compare(hole, player, plans, plays=10, checkpoints={name: wb.first_putt(10, 2)})


def test_tables_fit_a_terminal(demo, plays):
    for thing in (demo, demo.best, demo.hole, demo.player, plays, *demo.plans):
        for line in repr(thing).splitlines():
            assert len(line) <= 100, line
    text = repr(demo)
    assert all(name in text for name in demo.names) and demo.hole.name in text


class Tags(html.parser.HTMLParser):
    """Checks that tags are closed in order, and gathers the text."""

    def __init__(self):
        super().__init__()
        self.open, self.text, self.seen = [], "", set()

    def handle_starttag(self, tag, attrs):
        self.open.append(tag)
        self.seen.add(tag)

    def handle_endtag(self, tag):
        assert self.open.pop() == tag

    def handle_data(self, data):
        self.text += data


def test_html(demo):
    for thing in (demo, demo.hole, demo.player):
        page = thing._repr_html_()
        assert page.startswith("<")
        tags = Tags()
        tags.feed(page)
        tags.close()
        assert not tags.open and not tags.seen & {"script", "style", "img", "iframe"}
        assert getattr(thing, "name", demo.best.name) in tags.text


def test_html_escapes_names(hole, player):
    name = "<script>alert('x')</script> & co"
    page = wb.compare(hole, player, [wb.Plan(name, [])], plays=10)._repr_html_()
    assert "<script>" not in page and "&lt;script&gt;" in page
    named = wb.Hole.sketch(par=3, length=150, name="a < b & c")
    assert "a &lt; b &amp; c" in named._repr_html_()


def read_markdown(text):
    """The caption, the rows of cells and the footer of a table in Markdown, as a reader of Markdown sees them."""
    plain = re.compile(r"\\([!-/:-@\[-`{-~])")
    caption, table, *footer = text.split("\n\n")
    lines = table.split("\n")
    assert all(line.startswith("| ") and line.endswith(" |") for line in lines)
    rows = [[plain.sub(r"\1", cell.strip()) for cell in re.split(r"(?<!\\)\|", line[1:-1])] for line in lines]
    assert rows.pop(1) == [":---", *["---:"] * (len(rows[0]) - 1)]
    assert len({len(row) for row in rows}) == 1
    return plain.sub(r"\1", caption), rows, plain.sub(r"\1", "\n\n".join(footer))


@pytest.fixture(scope="module")
def around():
    return wb.around_the_green(helpers.sketch(), wb.Player.from_handicap(18), at=wb.short_of_green(8), plays=300)


@pytest.fixture(scope="module")
def sweep():
    return wb.aim_sweep(helpers.sketch(), wb.Player.from_handicap(18), aims=[-10, 0, 10], plays=300)


@pytest.fixture(scope="module")
def bag():
    return wb.Player.from_handicap(18).table()


@pytest.mark.parametrize("of", ["demo", "around", "sweep", "bag"])
def test_markdown_says_what_the_terminal_does(of, request):
    table = request.getfixturevalue(of)
    caption, rows, footer = read_markdown(table.to_markdown())
    shown = repr(table).splitlines()
    assert shown[0] == caption
    for line, row in zip(shown[1:], rows, strict=False):
        assert " ".join(line.split()) == " ".join(" ".join(row).split())
    assert "\n".join(shown[1 + len(rows) :]) == footer


def test_expectations_in_markdown():
    expected = wb.Player.from_handicap(18).expectations(plays=200)
    text = expected.to_markdown()
    for part in (expected.tee_shot, expected.approaches, expected.around_the_green, expected.putts):
        assert part.to_markdown() in text
        _, rows, footer = read_markdown(part.to_markdown())
        assert len(rows) > 1 and not footer
    assert text.count("\n| :---") == 4 and "Good enough is" in text


@pytest.mark.parametrize(
    "name", ["a|b", "*bold* _x_ `c`", r"back\slash\|", "<b>&amp;</b>", "[l](u) ![i](u)", "$x$ ~~y~~ #1"]
)
def test_names_in_markdown_are_read_as_they_are(name, hole, player):
    text = wb.compare(hole, player, [wb.Plan(name, [])], plays=10).to_markdown()
    _, rows, _ = read_markdown(text)
    assert rows[1][0] == f"1 {name}"
    assert not re.search(r"(?<!\\)[*_`<\[$~#]", text.replace(r"\\", ""))


# Digits.


@pytest.mark.parametrize(
    ("mean", "error", "told"),
    [
        (5.12345, 0.01342, "5.123 ± 0.013"),
        (5.12345, 0.1342, "5.12 ± 0.13"),
        (5.12345, 1.342, "5.1 ± 1.3"),
        (5.12345, 13.42, "5 ± 13"),
        (5.12343, 0.00134, "5.1234 ± 0.0013"),
        # Nine hundred and ninety-six ten-thousandths are a tenth to two figures.
        (5.12345, 0.0996, "5.12 ± 0.10"),
        (5.12345, 0.0994, "5.123 ± 0.099"),
        (-0.25, 0.051, "-0.250 ± 0.051"),
        (5.0, 0.0, "5 ± 0"),
        (5.0, math.nan, "5"),
        (5.12345678, 1e-9, "5.123457 ± 0.000000"),
    ],
)
def test_a_number_has_the_digits_that_its_error_allows(mean, error, told):
    assert _table.measured(mean, error) == told
    assert _table.worth(mean, error, most=99) == told.split(" ")[0]


def test_two_figures_of_every_error_are_shown():
    rng = np.random.default_rng(2)
    for error in 10 ** rng.uniform(-4.5, 0.9, 500):
        mean = rng.uniform(0, 9)
        shown_mean, shown = _table.measured(mean, error).split(" ± ")
        assert len(shown.replace(".", "").lstrip("0")) == 2 and float(shown) == pytest.approx(error, rel=0.051)
        assert len(shown_mean.partition(".")[2]) == len(shown.partition(".")[2])
        # Rounding costs less than a twentieth of the error.
        assert abs(float(shown_mean) - mean) <= 0.0501 * error
    assert _table.worth(5.12345, 0.0013) == "5.12"


def test_more_plays_give_more_digits(hole, player, plans):
    few, many = (repr(wb.compare(hole, player, plans, plays=plays)) for plays in (30, 4_000))
    assert re.search(r" \d\.\d\d ± 0\.\d\d ", few) and re.search(r" \d\.\d{3} ± 0\.0\d\d ", many)


def test_one_play_tells_no_error(hole, player, plans):
    one = wb.compare(hole, player, plans, plays=1)
    around = wb.around_the_green(hole, player, at=wb.short_of_green(8), plays=1)
    sweep = wb.aim_sweep(hole, player, aims=[0, 10], plays=1)
    texts = [one.advice, *map(repr, one.plans), *map(repr, around.options)]
    for table in (one, around, sweep):
        assert "1 play each" in repr(table) and "One play of each tells no error." in repr(table)
        assert "is not settled by one play" in repr(table)
        texts += [repr(table), table._repr_html_(), table.to_markdown()]
    for text in texts:
        assert "nan" not in text.lower() and "±" not in text and "interval" not in text
    assert one.best.name in repr(one) and f" {one.best.mean:.0f} " in repr(one)
    assert not one.settled and np.isnan(one.columns()["standard_error"]).all()


def test_no_error_is_not_a_number_that_is_shown(hole, player, plans):
    # With two plays some plans score the same in both: no spread was seen.
    for plays in (2, 3):
        for seed in range(5):
            assert "nan" not in repr(wb.compare(hole, player, plans, plays=plays, seed=seed)).lower()


def test_advice_is_a_sentence(demo, result, hole, player, plans):
    alone = wb.compare(hole, player, plans[:1], plays=100)
    for comparison in (demo, result, alone):
        advice = comparison.advice
        assert advice[0].isupper() or advice[0] == "“"
        assert advice.endswith(".") and "\n" not in advice and "nan" not in advice.lower()
        assert f"“{comparison.best.name}”" in advice
        assert f"{comparison.best.mean:.2f}" in advice


def test_results_say_what_they_are(result, plays):
    assert result.best.name in repr(result.best) and f"{result.best.mean:.3f}" in repr(result.best)
    assert "95 % interval" in repr(result.difference("driver", "iron"))
    assert repr(plays).startswith("4,000 plays") and len(plays) == 4_000


def test_what_an_instruction_says_makes_it_again():
    for thing in [
        wb.along(200),
        wb.along(200.5, left=3),
        wb.at(-3, 4.5),
        wb.leave(90),
        wb.advance(12.5),
        wb.at_pin(),
        wb.at_pin(clubs=+1),
        wb.at_pin(clubs=-2),
        wb.carry_over(wb.along(180)),
        wb.carry_over(wb.short_of_green(12, right=3), by=7.5),
        wb.exactly("bunker shot", wb.at(2, 381.25), carry=24.5),
        wb.exactly("driver", wb.along(210, left=8)),
        wb.Habits(too_little_club=0.05, every_flag=True, always_chips=True),
        wb.MishitShape(mildness=3, wild_side=2.25),
        wb.shot("5-wood", wb.along(1, right=2), carry=3),
        wb.first_putt(15, 2),
        wb.hazard(wb.along(230, right=18), 40, 12.5),
        *helpers.plans(),
    ]:
        assert eval(repr(thing), vars(wb).copy()) == thing
