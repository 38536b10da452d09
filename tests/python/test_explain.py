"""A player explained: against SciPy, against plays of one's own, and how it reads."""

import html.parser
import json
import multiprocessing
import re
import sys
from pathlib import Path

import numpy as np
import pytest
import wideberth as wb

PLAYER = wb.Player.from_handicap(18)
FOUND = PLAYER.expectations(plays=3_000, seed=6)
PARTS = ("tee_shot", "approaches", "around_the_green", "putts")


def changed(player, **figures):
    """The player with figures of every club set, or worked out from the club."""
    document = json.loads(player.to_json())
    for club in document["clubs"]:
        for name, value in figures.items():
            where, field = (club["mishit_shape"], name[7:]) if name.startswith("mishit_") else (club, name)
            if name == "mishit_share":
                where, field = club, name
            where[field] = value(club) if callable(value) else value
    return wb.Player.from_json(json.dumps(document))


def dead(player, **figures):
    """Balls that stop where they come down, so that what a club does can be written down."""
    return changed(player, run=0, mishit_duff_run=0, mishit_wild_run=0, **figures)


def luck_of(more, bent, even, beyond):
    """The luck by which strikes carry so much more than even luck lets them, by halving."""
    low, high = np.full(len(bent), -40.0), np.full(len(bent), 40.0)
    for _ in range(60):
        luck = (low + high) / 2
        bow = (1 + beyond) / 2 * luck - (1 - beyond) / 2 * (np.hypot(luck, 0.25) - 0.25)
        short = bent * bow + even * luck < more
        low, high = np.where(short, luck, low), np.where(short, high, luck)
    return (low + high) / 2


@pytest.mark.parametrize("handicap", [0, 20, 54])
def test_the_spans_are_those_of_the_mixture(handicap):
    stats, optimize, integrate = (pytest.importorskip(f"scipy.{part}") for part in ("stats", "optimize", "integrate"))
    norm = stats.norm
    player = dead(
        wb.Player.from_handicap(handicap), lateral_bias=lambda c: 0.03 * c["carry"], correlation=lambda c: -0.45
    )
    columns = player.table().columns()
    for i, club in list(enumerate(json.loads(player.to_json())["clubs"]))[::4]:
        c, sd, shape, missed = club["carry"], club["carry_sd"], club["mishit_shape"], club["mishit_share"] / 0.5
        # Luck in depth is bent where strikes spread beyond 6 % of the carry: of bent and of even luck there is so much.
        beyond = (1 + (sd / c / 0.06) ** 16) ** (-1 / 16)
        kinds = [(1 - missed, c, sd, 0.0, 1.0)]
        # Misses of every severity; the table looks at sixteen, which is what the tolerances below allow for.
        for severity in (np.arange(400) + 0.5) / 400:
            g = severity ** shape["mildness"]
            for part, worst in ((shape["duff_part"], "duff"), (1 - shape["duff_part"], "wild")):
                far, far_sd, wide = (shape[f"{worst}_{what}"] for what in ("carry", "carry_sd", "side"))
                kinds.append(
                    (missed * part / 400, c * (1 + g * (far - 1)), (1 - g) * sd, g * far_sd * c, 1 + g * (wide - 1))
                )
        share_of, mean_of, bent_of, even_of, times_of = np.array(kinds).T

        def along(x, p=share_of, mean=mean_of, bent=bent_of, even=even_of, beyond=beyond):
            return p @ norm.cdf(luck_of(x - mean, bent, even, beyond))

        def side(x, p=share_of, times=times_of, club=club):
            # Whatever the depth, what is to the side is normal as a whole.
            return p @ norm.cdf(x, club["lateral_bias"], club["lateral_sd"] * times)

        for law, low, high in ((along, "short_end", "long_end"), (side, "left_end", "right_end")):
            for share_below, name in ((1 / 6, low), (5 / 6, high)):
                end = optimize.brentq(lambda x, law=law, p=share_below: law(x) - p, -c, 2 * c)
                assert columns[name][i] == pytest.approx(end, abs=0.06), (club["name"], name)
        mean = integrate.quad(lambda x: 1 - along(x), 0, 2 * c, limit=200)[0]
        assert columns["average"][i] == pytest.approx(mean, abs=0.05)
    assert columns["depth"] == pytest.approx(columns["long_end"] - columns["short_end"])
    assert columns["width"] == pytest.approx(columns["right_end"] - columns["left_end"])
    assert columns["middle"] - columns["left_end"] == pytest.approx(columns["right_end"] - columns["middle"])


def test_the_table_is_of_the_bag():
    columns = PLAYER.table().columns()
    assert columns["club"].tolist() == [club.name for club in PLAYER.clubs]
    assert columns["carry"].tolist() == [club.carry for club in PLAYER.clubs]
    assert columns["mishit_share"] == pytest.approx([club.mishit_share for club in PLAYER.clubs])
    # The turf is solved so that a solid strike runs what the player's ball runs.
    assert columns["total"] == pytest.approx([club.total for club in PLAYER.clubs], abs=0.5)
    # Worked out by another formula, which takes the run to be in proportion to the carry.
    assert columns["average"][0] == pytest.approx(PLAYER.tee_shot().total, abs=2)
    assert (columns["solid_depth"] < columns["depth"]).all() and (columns["solid_width"] < columns["width"]).all()
    assert len(PLAYER.table()) == len(PLAYER.clubs)


def test_two_thirds_of_shots_of_ones_own_make_the_tee_band():
    # Plays of another seed on a hole with the same fairway: within 4.5 standard errors of both samples together,
    # false-alarm rate 7e-6 each.
    hole = wb.Hole.sketch(par=5, length=1_000, fairway_width=35)
    plan = wb.Plan("down the middle", [wb.shot("driver", wb.along(900))])
    strokes = wb.simulate(hole, PLAYER, plan, plays=3_000, seed=99, maximum_score=6).columns()
    first = strokes["stroke"] == 1
    along, aside = strokes["rest_y"][first], np.abs(strokes["rest_x"][first])
    columns = {name: column[0] for name, column in FOUND.tee_shot.columns().items()}
    assert columns["stroke"] == "driver"
    for band, share in (("usual", 1 / 2), ("good_enough", 2 / 3)):
        meets = (along >= columns[f"{band}_total"]) & (aside <= columns[f"{band}_side"])
        assert meets.mean() == pytest.approx(share, abs=4.5 * np.sqrt(2 * share * (1 - share) / 3_000))
    on_fairway = (strokes["rest_on"][first] == "fairway").mean()
    assert on_fairway == pytest.approx(columns["on_fairway"], abs=4.5 * np.sqrt(2) * columns["on_fairway_error"])


def test_a_putt_from_off_the_green_is_what_around_the_green_finds():
    # The same stroke from the same kind of place, chosen with more care there: no more than a little better. Both are
    # played, and each share is known to about a hundredth.
    hole = wb.Hole.sketch(par=4, length=380, green_depth=25, green_width=25).with_pin(back=-0.5)
    ranked = wb.around_the_green(hole, PLAYER, at=wb.short_of_green(8), plays=4_000, seed=1)
    columns = FOUND.around_the_green.columns()
    row = next(i for i in range(9) if columns["yards"][i] == 20 and columns["lie"][i] == "fairway")
    putter = ranked["putter"]
    assert columns["stroke"][row] == "putter"
    assert columns["down_in_two"][row] == pytest.approx(putter.down_in(2), abs=0.06)
    assert columns["down_in_three"][row] == pytest.approx(putter.down_in(3), abs=0.06)
    assert columns["usual_ft"][row] == pytest.approx(putter.left_ft, rel=0.25)


def test_columns():
    for part in PARTS:
        columns = getattr(FOUND, part).columns()
        assert len({len(column) for column in columns.values()}) == 1
        for name, column in columns.items():
            if name.endswith("_error"):
                assert (column >= 0).all() and name[:-6] in columns
            elif f"{name}_error" in columns and name.startswith(("on_", "holed", "down_")):
                assert ((column >= 0) & (column <= 1)).all()
    columns = FOUND.columns()
    assert set(columns) == {"part", "yards", "lie", "stroke", "figure", "value", "standard_error"}
    assert list(dict.fromkeys(columns["part"])) == list(PARTS)
    for part in PARTS:
        table = getattr(FOUND, part).columns()
        for figure in (name for name in table if f"{name}_error" in table):
            rows = (columns["part"] == part) & (columns["figure"] == figure)
            assert columns["value"][rows].tolist() == table[figure].tolist()
            assert columns["standard_error"][rows].tolist() == table[f"{figure}_error"].tolist()
    putts = columns["part"] == "putts"
    assert sorted(set(np.round(3 * columns["yards"][putts]))) == [3, 6, 10, 20, 30, 40]


@pytest.mark.parametrize("kind", ["pandas", "polars"])
def test_frames(kind):
    pytest.importorskip(kind)
    for thing in (PLAYER.table(), FOUND, *(getattr(FOUND, part) for part in PARTS)):
        frame = getattr(thing, f"to_{kind}")()
        assert list(frame.columns) == list(thing.columns()) and len(frame) > 0


def documents():
    """Players that are hard to print."""
    yield from (wb.Player.from_handicap(h) for h in (0, 7.5, 18, 36, 54))
    yield changed(PLAYER, lateral_bias=lambda c: -0.05 * c["carry"])
    document = json.loads(PLAYER.to_json())
    document["name"] = "<i>Tuesday</i> & " + "x" * 40
    document["handicap"] = None
    for i, club in enumerate(document["clubs"]):
        club["name"] = f"{i:02} " + "&" * 57
    yield wb.Player.from_json(json.dumps(document))
    document["clubs"] = document["clubs"][-1:]
    yield wb.Player.from_json(json.dumps(document))


class Tags(html.parser.HTMLParser):
    """Checks that tags are closed in order, and gathers the text."""

    def __init__(self):
        super().__init__()
        self.open, self.text = [], ""

    def handle_starttag(self, tag, attrs):
        assert tag != "i"
        self.open.append(tag)

    def handle_endtag(self, tag):
        assert self.open.pop() == tag

    def handle_data(self, data):
        self.text += data


@pytest.mark.parametrize("player", [*documents()], ids=lambda p: p.name[:12])
def test_it_reads_well_in_a_terminal_and_a_notebook(player):
    found = player.expectations(plays=100)
    shown = repr(player)
    assert shown == str(player) == repr(player.table())
    for thing in (player.table(), found, *(getattr(found, part) for part in PARTS)):
        lines = repr(thing).splitlines()
        assert max(map(len, lines)) <= 80, max(lines, key=len)
        assert not any("nan" in line or line != line.rstrip() for line in lines)
        page = Tags()
        page.feed(thing._repr_html_())
        page.close()
        assert not page.open and page.text
    assert player.name in shown and player.name in repr(found)
    assert player.clubs[-1].name[:19] in shown


def test_the_readme_shows_what_is_printed():
    # Words to the letter; numbers to one in the last digit, which another machine may round otherwise.
    readme = (Path(__file__).parents[2] / "README.md").read_text("utf-8")
    shown = readme.split("print(pupil)\n```\n\n```text\n")[1].split("```")[0].splitlines()
    printed = repr(PLAYER).splitlines()
    number = re.compile(r"(?<![\w-])\d+(?!\w)")
    assert [number.sub("#", line) for line in shown] == [number.sub("#", line) for line in printed]
    for told, is_so in zip(shown, printed, strict=True):
        pairs = zip(number.findall(told), number.findall(is_so), strict=True)
        assert all(abs(int(a) - int(b)) <= 1 for a, b in pairs), (told, is_so)


def test_a_pattern_off_the_aim_is_told():
    lines = repr(changed(PLAYER, lateral_bias=lambda c: -0.05 * c["carry"])).splitlines()
    assert "about" in lines[1].split() and "left" in lines[2].split() and "About: " in lines[-1]
    assert "about" not in repr(PLAYER)


def test_shares_are_said_as_a_coach_says_them():
    from wideberth._explain import _of_ten

    said = {0: "none (0 %)", 0.004: "<1 of 10 (<1 %)", 0.03: "<1 of 10 (3 %)", 0.58: "6 of 10 (58 %)"}
    said |= {0.96: ">9 of 10 (96 %)", 0.9999: ">9 of 10 (>99 %)", 1: "all (100 %)"}
    assert {share: _of_ten(share) for share in said} == said


def test_a_seed_fixes_everything():
    again = PLAYER.expectations(plays=3_000, seed=6, threads=1)
    assert again == FOUND and repr(again) == repr(FOUND)
    other = PLAYER.expectations(plays=3_000, seed=7)
    assert other != FOUND and other.putts != FOUND.putts and other.putts == other.putts
    assert PLAYER.table() == PLAYER.table() != wb.Player.from_handicap(19).table()


def test_progress():
    heard = []
    PLAYER.expectations(plays=500, progress=lambda *report: heard.append(report))
    assert heard == sorted(heard) and heard[-1] == (500, 500)


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        ({"plays": 0}, "plays is 0; it must be 100 to 1000000"),
        ({"plays": -1}, "plays is -1"),
        ({"plays": 99}, "plays is 99"),
        ({"plays": 1_000_001}, "plays is 1000001"),
        ({"plays": 10**40}, f"plays is {10**40}"),
        ({"seed": -1}, "seed is -1"),
        ({"seed": 2**64}, "seed is"),
        ({"threads": 0}, "threads is 0"),
    ],
)
def test_bad_numbers_are_refused_in_words(arguments, words):
    with pytest.raises(wb.InputError, match=words):
        PLAYER.expectations(**arguments)


def test_other_types_are_refused():
    for arguments in ({"plays": 1.5}, {"plays": "many"}, {"seed": None, "plays": []}, {"progress": 3}):
        with pytest.raises(TypeError):
            PLAYER.expectations(**arguments)


def test_shots_that_no_physics_gives_are_refused():
    document = json.loads(PLAYER.with_clubs([wb.Club("driver", carry=240, carry_sd=10, lateral_sd=10)]).to_json())
    document["clubs"][0] |= {"carry": 440, "launch_deg": 0.2}
    with pytest.raises(wb.InputError, match=r"driver: carry is 440 yd.*at 230 mph"):
        wb.Player.from_json(json.dumps(document))


@pytest.mark.filterwarnings("ignore:.*fork:DeprecationWarning")
@pytest.mark.skipif(sys.platform == "win32", reason="no fork there")
def test_a_player_is_printed_after_a_fork():
    with multiprocessing.get_context("fork").Pool(1) as pool:
        assert pool.apply_async(repr, (PLAYER,)).get(timeout=60) == repr(PLAYER)
