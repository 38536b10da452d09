"""Tables: data frames, terminals and notebooks, and the advice in a sentence."""

import html.parser

import helpers
import numpy as np
import pytest
import wideberth as wb

STROKES = set(
    "play stroke club x y lie to_pin target_x target_y landed_x landed_y rest_x rest_y rest_on penalty holed mishit "
    "trees lost unplayable".split()
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
        wb.shot("5-wood", wb.along(1, right=2), carry=3),
        wb.first_putt(15, 2),
        wb.hazard(wb.along(230, right=18), 40, 12.5),
        *helpers.plans(),
    ]:
        assert eval(repr(thing), vars(wb).copy()) == thing
