"""The command line, run the way a person runs it."""

import csv
import io
import json
import os
import re
import signal
import struct
import subprocess
import sys
import time

import helpers
import pytest
import wideberth as wb


def run(*arguments, cwd=None):
    return subprocess.run(
        [sys.executable, "-m", "wideberth", *map(str, arguments)],
        capture_output=True,
        encoding="utf-8",
        env={**os.environ, "PYTHONUTF8": "1"},
        cwd=cwd,
        timeout=120,
    )


def test_demo(tmp_path):
    done = run("--no-picture", "--plays", 500, cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    assert "500 plays each, seed 1" in done.stdout and "±" in done.stdout
    assert "invented" in done.stdout and "not rulings or guarantees" in done.stdout
    assert max(map(len, done.stdout.split("\n\n")[3].splitlines())) <= 100
    assert not list(tmp_path.iterdir()), "no picture was asked for"


def test_a_pupil_who_is_told_is_not_invented(tmp_path):
    done = run("--handicap", 9, "--no-picture", "--plays", 100, cwd=tmp_path)
    assert done.stdout.startswith("Demo: the hole is invented.\n")


def test_the_same_twice():
    once, again = (run("--no-picture", "--plays", 300, "--seed", 5).stdout for _ in range(2))
    assert once == again and "seed 5" in once


@pytest.mark.parametrize("name", helpers.MAPS)
def test_a_map_and_a_handicap(name):
    done = run(helpers.DATA / f"{name}.geojson", "--handicap", 9, "--no-picture", "--plays", 300, "--blow-up", 4)
    assert done.returncode == 0, done.stderr
    assert wb.Hole.from_geojson(helpers.read_map(name)).name in done.stdout
    assert "handicap 9" in done.stdout and "4 over+" in done.stdout and "invented" not in done.stdout


def test_documents(tmp_path):
    (tmp_path / "hole.json").write_text(helpers.sketch().to_json(), "utf-8")
    (tmp_path / "player.json").write_text(wb.Player.from_handicap(31).to_json(), "utf-8")
    arguments = [tmp_path / "hole.json", "--player", tmp_path / "player.json", "--no-picture", "--plays", 200]
    done = run(*arguments)
    assert done.returncode == 0, done.stderr
    assert "Trial" in done.stdout and "handicap 31" in done.stdout


@pytest.mark.parametrize("words", [["report", "--handicap", "9"], ["round", "--handicap", "9", "--break", "90"]])
def test_what_a_page_needs_is_told_before_long_work(words, tmp_path, monkeypatch, capsys):
    from wideberth.cli import common, main

    def worked(*_, **__):
        pytest.fail("it worked before it said what is missing")

    monkeypatch.setattr(common, "find_spec", lambda name: None if name == "jinja2" else name)
    monkeypatch.setattr(wb, "break_score", worked)
    monkeypatch.setattr(wb, "solve", worked)
    assert main([*words, "-o", str(tmp_path / "page.html")]) == 2
    assert "reports need Jinja" in capsys.readouterr().err


def test_picture(tmp_path):
    image = pytest.importorskip("matplotlib.image")
    path = tmp_path / "shots.png"
    done = run("--plays", 200, "--picture", path, cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    assert str(path) in done.stdout
    data = path.read_bytes()
    assert data.startswith(b"\x89PNG\r\n\x1a\n")
    width, height = struct.unpack(">II", data[16:24])
    assert width > 800 and height > 800
    pixels = image.imread(path)[..., :3]
    # A picture has many colours, in both of its halves.
    for half in (pixels[:, : width // 2], pixels[:, width // 2 :]):
        colours = {tuple(c) for c in (half[::7, ::7].reshape(-1, 3) * 255).astype(int)}
        assert len(colours) > 30


# Commands.

SHORT = ["--plays", 300, "--handicap", 20]


@pytest.fixture(scope="module")
def hole_file(tmp_path_factory):
    """A short hole, quick to solve, as a file."""
    path = tmp_path_factory.mktemp("hole") / "short.json"
    path.write_text(
        wb.Hole.sketch(name="Short", par=3, length=140, bunkers=[wb.along(130, left=14)]).to_json(), "utf-8"
    )
    return path


def test_without_a_command_it_compares():
    options = ["--no-picture", "--plays", 300, "--seed", 5]
    assert run(*options).stdout == run("compare", *options).stdout


def test_compare_takes_the_day(hole_file):
    calm = run("compare", hole_file, "--csv", *SHORT).stdout
    hole = wb.Hole.read(hole_file)
    day = wb.Conditions(wind=wb.Wind(mph=20, from_deg=30), firmness="firm")
    player = wb.Player.from_handicap(20)
    windy = hole.under(day)
    wanted = wb.compare(windy, player, wb.suggest_plans(windy, player), plays=300, seed=1)
    told = run("compare", hole_file, "--wind", 20, 30, "--firmness", "firm", "--csv", *SHORT).stdout
    rows = list(csv.DictReader(io.StringIO(told)))
    assert [float(row["mean"]) for row in rows] == wanted.columns()["mean"].tolist() and told != calm


def test_compare_for_other_programs(hole_file, tmp_path):
    player = wb.Player.from_handicap(20)
    hole = wb.Hole.read(hole_file)
    result = wb.compare(hole, player, wb.suggest_plans(hole, player), plays=300, seed=1)
    columns = {name: column.tolist() for name, column in result.columns().items()}

    done = run("compare", hole_file, "--csv", *SHORT, cwd=tmp_path)
    assert (done.returncode, done.stderr) == (0, "")
    rows = list(csv.reader(io.StringIO(done.stdout)))
    assert rows[0] == list(columns)
    for name, told in zip(rows[0], zip(*rows[1:], strict=True), strict=True):
        # Every digit: read back it is the same number.
        assert [type(columns[name][0])(value) for value in told] == columns[name]

    done = run("compare", hole_file, "--json", *SHORT, cwd=tmp_path)
    assert (done.returncode, done.stderr) == (0, "")
    told = json.loads(done.stdout)
    assert {name: [row[name] for row in told["plans"]] for name in columns} == columns
    assert told["advice"] == result.advice and told["plays"] == 300 and told["settled"] == result.settled
    assert told["plans"][0]["distribution"] == {str(k): v for k, v in result.best.distribution.items()}

    done = run("compare", hole_file, "--markdown", *SHORT, cwd=tmp_path)
    assert (done.returncode, done.stderr, done.stdout) == (0, "", f"{result.to_markdown()}\n")
    assert not list(tmp_path.iterdir()), "no picture was asked for"


def test_what_is_not_known_is_no_number(hole_file):
    one = ["compare", hole_file, "--handicap", 20, "--plays", 1]
    told = json.loads(run(*one, "--json").stdout, parse_constant=lambda word: pytest.fail(word))
    assert told["plans"][0]["standard_error"] is None
    rows = list(csv.DictReader(io.StringIO(run(*one, "--csv").stdout)))
    assert rows[0]["standard_error"] == "" and rows[0]["mean"]


def test_solve(hole_file, tmp_path):
    done = run("solve", hole_file, "--handicap", 20, "--cell", 8, "--threads", 1, cwd=tmp_path)
    assert (done.returncode, done.stderr) == (0, "")
    best = wb.solve(wb.Hole.read(hole_file), wb.Player.from_handicap(20), cell=8)
    assert repr(best.shot_from(best.hole.tee)) in done.stdout
    assert f"{best.expected_strokes(best.hole.tee):.2f} strokes from the tee" in done.stdout
    assert "not rulings or guarantees" in done.stdout
    shares = [float(share) for share in re.findall(r"\d+: (\d+\.\d) %", done.stdout)]
    assert sum(shares) == pytest.approx(100, abs=0.5)
    assert not list(tmp_path.iterdir())
    done = run(
        "solve", hole_file, "--handicap", 20, "--cell", 8, "--along", 60, "--left", 12, "--lie", "rough", "--json"
    )
    told = json.loads(done.stdout)
    advice = best.shot_from(wb.along(60, left=12), "rough")
    assert told["shot"]["words"] == advice.words and told["shot"]["expected_strokes"] == advice.expected_strokes
    assert told["shot"]["where"] == list(advice.where) and told["shot"]["lie"] == "rough"
    assert [other["cost"] for other in told["others"]] == [advice.runner_up.cost, *[m.cost for m in advice.mistakes]]


def test_solve_for_a_score(hole_file, tmp_path):
    done = run("solve", hole_file, "--handicap", 20, "--cell", 8, "--at-most", 4)
    four = wb.solve(wb.Hole.read(hole_file), wb.Player.from_handicap(20), cell=8, objective=wb.at_most(4))
    assert f"{100 * four.chance(four.hole.tee):.1f} % in 4 or fewer" in done.stdout
    told = json.loads(run("solve", hole_file, "--cell", 8, "--safe", 2, "--blow-up", 2, "--json").stdout)
    assert told["objective"] == "safe(blow_up=2, price=2)"


def test_player(tmp_path):
    player = wb.Player.from_handicap(20)
    assert run("player", "--handicap", 20).stdout == f"{player}\n"
    assert run("player", "--handicap", 20, "--markdown").stdout == f"{player.table().to_markdown()}\n"
    rows = list(csv.DictReader(io.StringIO(run("player", "--handicap", 20, "--csv").stdout)))
    assert [float(row["total"]) for row in rows] == player.table().columns()["total"].tolist()
    women = wb.Player.from_handicap(20, reference="women")
    assert run("player", "--handicap", 20, "--women").stdout == f"{women}\n"
    expected = player.expectations(plays=200, seed=3)
    options = ["--handicap", 20, "--expectations", "--plays", 200, "--seed", 3]
    assert run("player", *options).stdout == f"{expected}\n"
    assert run("player", *options, "--markdown").stdout == f"{expected.to_markdown()}\n"


def test_a_player_from_shots_goes_into_a_file_and_on(hole_file, tmp_path):
    shots = tmp_path / "shots.csv"
    carries = [181, 176, 190, 112, 184, 171]
    shots.write_text("club,carry,lateral\n" + "".join(f"driver,{carry},{carry - 178}\n" for carry in carries), "utf-8")
    done = run("player", "--handicap", 20, "--shots", shots, "--json")
    assert done.returncode == 0, done.stderr
    fitted = wb.Player.from_shots(shots, prior=wb.Player.from_handicap(20))
    assert wb.Player.from_json(done.stdout) == fitted != wb.Player.from_handicap(20)
    document = tmp_path / "robin.json"
    document.write_text(done.stdout, "utf-8")
    done = run("compare", hole_file, "--player", document, "--plays", 200, "--no-picture")
    assert done.returncode == 0 and str(fitted) in done.stdout


def test_what_looks_odd_in_shots_is_told_once(tmp_path):
    shots = tmp_path / "shots.csv"
    shots.write_text("club,carry,lateral\ndriver,181,4\ndriver,176,-9\ndriver,190,2\n", "utf-8")
    notes = run("player", "--handicap", 20, "--shots", shots).stderr.splitlines()
    # As notes, and not as warnings of Python's besides.
    assert sum("driver: only 3 shots" in note for note in notes) == 1
    assert all(note.startswith("note: ") for note in notes) and len(notes) == len(set(notes))


def test_pictures_of_other_commands(hole_file, tmp_path):
    pytest.importorskip("matplotlib")
    for name, arguments in {
        "values.png": ["solve", hole_file, "--cell", 10],
        "chances.svg": ["solve", hole_file, "--cell", 10, "--at-most", 4, "--json"],
        "bag.png": ["player", "--handicap", 20],
        "quiet.png": ["compare", hole_file, "--plays", 100, "--csv"],
    }.items():
        path = tmp_path / name
        done = run(*arguments, "--picture", path)
        assert done.returncode == 0, done.stderr
        assert path.stat().st_size > 5_000
        # Where another program reads, nothing is said among what it reads.
        machine = "--json" in arguments or "--csv" in arguments
        assert (f"Picture written to {path}" in done.stdout) is not machine


def test_report(hole_file, tmp_path):
    if not hasattr(wb, "report"):
        pytest.skip("this version writes no reports")
    pytest.importorskip("matplotlib")
    path = tmp_path / "page.html"
    arguments = ["report", hole_file, *SHORT, "--cell", 8, "-o", path, "--title", "A < B"]
    done = run(*arguments, cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    assert str(path) in done.stdout
    page = path.read_text("utf-8")
    assert "A &lt; B" in page and "Short" in page
    assert [p.name for p in tmp_path.iterdir()] == ["page.html"]


def test_the_report_gets_what_was_found(hole_file, tmp_path, monkeypatch, capsys):
    pytest.importorskip("matplotlib")
    from wideberth.cli import main

    given = {}

    def write(result, **options):
        given.update(options, result=result)
        return options["path"]

    monkeypatch.setattr(wb, "report", write, raising=False)
    path = tmp_path / "page.html"
    words = ["report", str(hole_file), "--handicap", "20", "--plays", "200", "--cell", "8", "-o", str(path)]
    assert main(words) == 0
    assert f"Report written to {path}" in capsys.readouterr().out
    hole, player = wb.Hole.read(hole_file), wb.Player.from_handicap(20)
    assert given["result"] == wb.compare(hole, player, wb.suggest_plans(hole, player), plays=200, seed=1)
    assert given["solved"] == wb.solve(hole, player, cell=8)
    assert (given["path"], given["title"]) == (path, "Short, handicap 20")
    assert main([*words, "--no-solve", "--title", "Mine"]) == 0
    assert given["solved"] is None and given["title"] == "Mine"


# What goes wrong.


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (
            ["no-such-file.geojson"],
            "cannot read no-such-file.geojson: there is no such file; it must be a map of a hole",
        ),
        (["."], "cannot read .: it is a directory; it must be a map of a hole"),
        (["--hole-ref", "3"], "--hole-ref needs a map"),
        (["--handicap", "80"], "handicap is 80"),
        (["--plays", "0"], "plays is 0"),
        (["--plays", "-3"], "plays is -3"),
        (["--seed", "-1"], "seed is -1"),
        (["--blow-up", "0"], "blow_up is 0"),
        (["--precision", "-1"], "precision is -1"),
        (["--wind", "-1", "0"], "mph is -1"),
        (["--player", "nobody.json"], "cannot read nobody.json: there is no such file; it must be a player"),
        (["--women"], "--women needs --handicap"),
        (["compare", "--picture", "no-such-folder/x.png"], "there is no directory 'no-such-folder'"),
        (["compare", "--picture", "x.doc"], "it must end in one of"),
        (["slove"], "no command and no file 'slove'; see python -m wideberth --help"),
        (["solve", "--cell", "99"], "cell is 99"),
        (["solve", "--left", "10"], "--left and --right need --along"),
        (["solve", "--along", "nan"], "NaN"),
        (["solve", "--along", "300", "--right", "80"], "out of bounds; it must be a place to play from"),
        (["solve", "--at-most", "0"], "at_most: strokes is 0"),
        (["solve", "--safe", "-2"], "price is -2"),
        (["solve", "--blow-up", "2"], "--blow-up needs --safe"),
        (["player", "--women"], "--women needs --handicap"),
        (["player", "--shots", "x.csv"], "--shots needs --handicap"),
        (
            ["player", "--handicap", "9", "--shots", "x.csv"],
            "cannot read x.csv: there is no such file; it must be a CSV",
        ),
        (["player", "--expectations", "--plays", "0"], "plays is 0"),
        (["player", "--expectations", "--json"], "--json writes the player"),
        (["report", "-o", "no-such-folder/x.html"], "there is no directory 'no-such-folder'"),
        (["report", "-o", "."], "it must end in .html"),
    ],
    ids=str,
)
def test_bad_input_is_one_line(arguments, words, tmp_path):
    if "--picture" in arguments or "report" in arguments:
        pytest.importorskip("matplotlib")
    elif arguments[0] not in ("solve", "player"):
        arguments = [*arguments, "--no-picture"]
    done = run(*arguments, cwd=tmp_path)
    assert done.returncode == 2
    assert done.stderr.count("\n") == 1 and done.stderr.startswith("wideberth: ")
    assert words in done.stderr and "Traceback" not in done.stderr


def test_a_bad_file(tmp_path):
    bad = tmp_path / "bad.geojson"
    bad.write_text("{", "utf-8")
    done = run(bad, "--no-picture")
    assert (done.returncode, done.stderr.count("\n")) == (2, 1)
    assert f"{bad}: not valid JSON" in done.stderr
    bad.write_bytes(b"\xff\xfe\x00")
    done = run("--player", bad, "--no-picture")
    assert (done.returncode, done.stderr.count("\n")) == (2, 1)


def test_every_fault_of_a_map_is_told_in_one_line(tmp_path):
    bad = tmp_path / "bad.json"
    document = json.loads(helpers.sketch().to_json())
    bad.write_text(json.dumps({**document, "par": 9, "features": []}), "utf-8")
    done = run("solve", bad)
    assert (done.returncode, done.stderr.count("\n")) == (2, 1)
    assert "par is 9" in done.stderr and "no green" in done.stderr and "; " in done.stderr


@pytest.mark.parametrize(
    "arguments",
    [
        ["--handicap", "low"],
        ["round", "--wind", "15"],
        ["--no-such-option"],
        ["--handicap", "3", "--player", "x"],
        ["compare", "--json", "--csv"],
        ["solve", "--at-most", "5", "--safe", "1"],
        ["solve", "--along", "5", "--left", "1", "--right", "1"],
        ["compare", "--firmness", "mushy"],
        ["report", "--csv"],
        ["solve", "--lie", "lava"],
    ],
    ids=str,
)
def test_bad_usage(arguments):
    done = run(*arguments)
    assert done.returncode == 2 and "usage:" in done.stderr


def test_help():
    done = run("--help")
    assert done.returncode == 0 and not done.stderr
    for command in ("compare", "solve", "player", "report", "round", "practice", "review"):
        assert f"python -m wideberth {command} " in done.stdout, "an example"
    options = {
        "compare": "--handicap --player --plays --seed --blow-up --picture --no-picture --hole-ref --precision --json "
        "--wind --firmness --women",
        "solve": "--at-most --safe --along --left --right --lie --cell --picture --json",
        "player": "--handicap --shots --women --expectations --json --csv --markdown",
        "report": "--output --title --no-solve",
        "round": "--break --plays --seed --cell --output --card --paper --title --json --csv --markdown --course-name "
        "--wind --firmness --women",
        "practice": "--break --share --plays --seed --picture --csv --markdown --wind --firmness --women",
        "review": "--by --strokes --cell --csv --markdown --wind --firmness --women",
    }
    for command, names in options.items():
        done = run(command, "--help")
        assert done.returncode == 0 and not done.stderr
        assert "examples:" in done.stdout and f"python -m wideberth {command} " in done.stdout
        assert all(name in done.stdout for name in names.split())
        assert max(map(len, done.stdout.splitlines())) <= 120
    assert run("--version").stdout == f"wideberth {wb.__version__}\n"


def test_the_examples_of_the_help_run(hole_file, tmp_path):
    """What the help tells the reader to type works, on a quick hole and with few plays."""
    pytest.importorskip("matplotlib")
    (tmp_path / "hole.geojson").write_bytes(hole_file.read_bytes())
    (tmp_path / "shots.csv").write_text("club,carry,lateral\n" + "driver,181,4\ndriver,176,-9\n" * 3, "utf-8")
    (tmp_path / "robin.json").write_text(wb.Player.from_handicap(18).to_json(), "utf-8")
    ran = 0
    for command in ("compare", "solve", "player"):
        for line in run(command, "--help").stdout.splitlines():
            if not line.startswith("  python -m wideberth "):
                continue
            words = [word.strip('"') for word in line.partition(" > ")[0].split()[3:]]
            # A run to a precision plays a thousand times at least.
            small = {"compare": ["--plays", "1000"], "solve": ["--cell", "10"], "player": ["--plays", "200"]}[words[0]]
            # The hole is too short for what is 230 yards along it.
            words = ["60" if word == "230" else word for word in words]
            done = run(*words, *small, cwd=tmp_path)
            assert done.returncode == 0, (line, done.stderr)
            ran += 1
    assert ran >= 9


@pytest.fixture(scope="module")
def course_folder(tmp_path_factory):
    """A folder with a quick course, and a round of it."""
    folder = tmp_path_factory.mktemp("course")
    holes = [wb.Hole.sketch(par=3, length=130 + 20 * i, number=i + 1, name=f"No. {i + 1}") for i in range(2)]
    (folder / "course.json").write_text(wb.Course(holes, name="Two").to_json(), "utf-8")
    strokes = [
        "1,1,8-iron,tee,130,",
        "1,2,chip,rough,17,left 12",
        "1,3,putter,green,6,",
        "2,1,6-iron,tee,150,",
        "2,2,putter,green,15,",
    ]
    (folder / "saturday.csv").write_text("\n".join(["hole,stroke,club,lie,to_pin,side", *strokes, ""]), "utf-8")
    return folder


@pytest.mark.parametrize("command", ["round", "practice", "review"])
def test_the_examples_of_the_help_about_courses_run(course_folder, command):
    """What the help tells the reader to type works, on a quick course and with few plays."""
    pytest.importorskip("matplotlib")
    small = {"round": ["--plays", "200", "--cell", "10"], "practice": ["--plays", "20"], "review": ["--cell", "10"]}[
        command
    ]
    ran = 0
    for line in run(command, "--help").stdout.splitlines():
        if line.startswith("  python -m wideberth "):
            # Eighteen holes in 89 are two in 9.
            words = ["10" if word == "90" else word for word in line.split()[3:]]
            done = run(*words, *small, cwd=course_folder)
            assert done.returncode == 0, (line, done.stderr)
            ran += 1
    assert ran >= 2


def test_rounds_for_other_programs(course_folder):
    done = run("round", "course.json", "--handicap", "18", "--plays", "200", "--json", cwd=course_folder)
    told = json.loads(done.stdout)
    course = wb.Course.from_json((course_folder / "course.json").read_text("utf-8"))
    played = wb.play_rounds(course, wb.Player.from_handicap(18), plays=200, seed=1)
    assert told["mean"] == played.mean and len(told["holes"]) == 2
    table = run(
        "round", "course.json", "--break", "9", "--plays", "200", "--cell", "10", "--csv", cwd=course_folder
    ).stdout
    assert table.splitlines()[0].startswith("hole,par,length") and len(table.splitlines()) == 3


def test_a_course_takes_the_day_and_women_play_it(course_folder):
    course = wb.Course.read(course_folder / "course.json")
    day = wb.Conditions(wind=wb.Wind(mph=20, from_deg=0), firmness="firm")
    windy = wb.Course([hole.under(day) for hole in course], name="Two")
    pupil = wb.Player.from_handicap(18, reference="women")
    weather = ["course.json", "--handicap", 18, "--women", "--wind", 20, 0, "--firmness", "firm", "--csv"]
    done = run("round", *weather, "--plays", 200, cwd=course_folder)
    told = [float(row["mean"]) for row in csv.DictReader(io.StringIO(done.stdout))]
    assert told == wb.play_rounds(windy, pupil, plays=200, seed=1).by_hole().columns()["mean"].tolist()
    # Sketched holes have no north, and what a bearing is told from must be known.
    assert (
        done.stderr
        == "note: north is not known on 2 of 2 holes: there FROM counts from straight up the hole's own map\n"
    )
    done = run("practice", *weather, "--plays", 20, cwd=course_folder)
    told = [float(row["strokes_saved"]) for row in csv.DictReader(io.StringIO(done.stdout))]
    assert (
        told == wb.practice_gains(windy, pupil, reference="women", plays=20, seed=1).columns()["strokes_saved"].tolist()
    )
    done = run("review", "saturday.csv", *weather, "--strokes", "--cell", 10, cwd=course_folder)
    told = [float(row["before"]) for row in csv.DictReader(io.StringIO(done.stdout))]
    reviewed = wb.review(windy, pupil, course_folder / "saturday.csv", cell=10)
    assert told == reviewed.strokes().columns()["before"].tolist()


def test_rounds_of_a_course_from_a_map():
    done = run("round", helpers.DATA / "alder-bend.geojson", "--plays", 50, "--wind", 9, 270, "--json")
    assert (done.returncode, done.stderr) == (0, "") and json.loads(done.stdout)["course"] == "Course"
    links = helpers.DATA / "sandpiper-links.json"
    assert "course must be one of" in run("round", links).stderr
    done = run("round", links, "--course-name", "Sandpiper Short Course", "--plays", 50, "--json")
    assert [hole["par"] for hole in json.loads(done.stdout)["holes"]] == [3, 3, 3]


def test_a_course_that_was_not_given_is_told_of():
    assert "note: no course was given: Withy Fen is an invented one" in run("round", "--plays", 20).stderr


def test_faults_without_end_are_cut_short(course_folder):
    done = run("review", helpers.DATA / "withy-fen.json", "course.json", cwd=course_folder)
    assert (done.returncode, done.stderr.count("\n")) == (2, 1)
    assert len(done.stderr) < 10_000 and re.search(r"; and \d+,\d+ more$", done.stderr)


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["round", "course.json", "--card", "sheet.pdf"], "--card needs --break"),
        (["round", "course.json", "--title", "Two"], "--title needs --output"),
        (["round", "course.json", "--paper", "a4"], "--paper needs --card"),
        (["round", "course.json", "--women"], "--women needs --handicap"),
        (["round", "course.json", "--wind", "99", "0"], "mph is 99"),
        (["round", "--course-name", "Two"], "--course-name needs a map"),
        (["round", "course.json", "--break", "9", "-o", "page.pdf"], "it must end in .html or .htm"),
        (["round", "course.json", "--break", "3"], "target is 3; it must be"),
        (["round", "nowhere.json"], "cannot read nowhere.json: there is no such file; it must be a map of a course"),
        (["practice", "."], "cannot read .: it is a directory"),
        (["review", "nowhere.csv", "course.json"], "cannot read nowhere.csv: there is no such file; it must be a CSV"),
        (["review", "course.json", "nowhere.json"], "cannot read nowhere.json: there is no such file"),
        (["practice", "course.json", "--share", "2"], "share is 2"),
        (["review", "course.json", "course.json"], "hole"),
    ],
)
def test_bad_input_about_courses_is_one_line(course_folder, arguments, words):
    done = run(*arguments, cwd=course_folder)
    assert done.returncode == 2 and words in done.stderr and len(done.stderr.splitlines()) == 1


# Progress, and being stopped.


def on_a_terminal(code, *arguments):
    """Run with the standard error on a terminal; returns the exit code and what was shown there."""
    pty = pytest.importorskip("pty", reason="no terminals on this system")
    ours, theirs = pty.openpty()
    fcntl, termios = pytest.importorskip("fcntl"), pytest.importorskip("termios")
    fcntl.ioctl(theirs, termios.TIOCSWINSZ, struct.pack("HHHH", 24, 80, 0, 0))
    program = f"import sys; {code}\nfrom wideberth.__main__ import main\nsys.exit(main(sys.argv[1:]))"
    process = subprocess.Popen(
        [sys.executable, "-c", program, *map(str, arguments)], stdout=subprocess.DEVNULL, stderr=theirs
    )
    os.close(theirs)
    shown = b""
    while True:
        try:
            some = os.read(ours, 4096)
        except OSError:  # How Linux tells that nobody holds the other end any more.
            break
        if not some:
            break
        shown += some
    os.close(ours)
    return process.wait(timeout=60), shown.decode()


def test_progress_in_words(hole_file):
    code, shown = on_a_terminal("sys.modules['tqdm'] = None", "compare", hole_file, "--plays", 40_000, "--csv")
    assert code == 0
    percents = [int(n) for n in re.findall(r"\rplaying (\d+) %", shown)]
    assert len(percents) >= 2 and percents == sorted(percents) and percents[-1] == 100
    assert shown.endswith(" \r") and "\n" not in shown, "nothing is left behind"
    code, shown = on_a_terminal("", "compare", hole_file, "--plays", 40_000, "--csv", "--quiet")
    assert (code, shown) == (0, "")


def test_progress_as_a_bar(hole_file):
    pytest.importorskip("tqdm")
    code, shown = on_a_terminal("", "solve", hole_file, "--cell", 4, "--json")
    assert code == 0 and "solving" in shown and "%" in shown and "|" in shown


def test_progress_in_a_log(capsys, monkeypatch):
    from wideberth.cli import progress

    now = iter([0.0, 9.0, 10.5, 12.0, 20.6])
    monkeypatch.setattr(progress.time, "monotonic", lambda: next(now))
    with progress.progress("playing", quiet=False) as show:
        for done in (10, 20, 30, 40):
            show(done, 40)
    assert capsys.readouterr().err == "playing 50 %\nplaying 100 %\n"


def test_ctrl_c_ends_it():
    process = subprocess.Popen(
        [sys.executable, "-m", "wideberth", "compare", "--plays", "20000000", "--no-picture"],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
    )
    process.stdout.readline()  # It says what it plays before it plays.
    time.sleep(1.0)
    process.send_signal(signal.SIGINT)
    _, errors = process.communicate(timeout=20)
    assert process.returncode == 130 and b"Traceback" not in errors


def test_who_reads_may_stop_reading(hole_file):
    process = subprocess.Popen(
        [sys.executable, "-m", "wideberth", "compare", str(hole_file), "--plays", "100", "--no-picture"],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
    )
    process.stdout.close()
    errors = process.stderr.read()
    process.stderr.close()
    assert (process.wait(timeout=60), errors) == (0, b"")


def test_main_can_be_called(capsys):
    from wideberth.__main__ import main

    assert main(["--no-picture", "--plays", "100", "--handicap", "20"]) == 0
    assert "handicap 20" in capsys.readouterr().out
    assert main(["--no-picture", "--handicap", "-4"]) == 2
    assert "handicap is -4" in capsys.readouterr().err


def test_a_plus_handicap_is_refused():
    done = run("player", "--handicap", "+2")
    assert done.returncode == 2
    assert "+2 is a plus handicap, better than scratch; it must be 0 to 54" in done.stderr
