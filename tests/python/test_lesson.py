"""The lesson's server: what it answers, and what it refuses."""

import contextlib
import http.client
import json
import re
import signal
import socket
import sys
from urllib.parse import urlsplit

import pytest
import wideberth as wb
from hypothesis import given
from hypothesis import strategies as st
from lessons import SKETCH, served

pytest.importorskip("starlette")
pytest.importorskip("uvicorn")
sockets = pytest.importorskip("websockets.sync.client")
from websockets.exceptions import ConnectionClosed, InvalidStatus  # noqa: E402
from wideberth._lesson import answers, look, played  # noqa: E402
from wideberth._lesson.guards import Doors, Pace  # noqa: E402
from wideberth._lesson.opened import Opened, Stale  # noqa: E402
from wideberth._lesson.server import address_here, page_files  # noqa: E402
from wideberth._lesson.view import Scene, Shot, View, view_of  # noqa: E402
from wideberth.cli import main  # noqa: E402
from wideberth.plot import DARK, LIGHT  # noqa: E402


@pytest.fixture(scope="module")
def lesson():
    with served() as (address, _):
        yield address


@pytest.fixture(scope="module")
def opened():
    hole = wb.Hole.sketch(par=4, length=330, water=[wb.along(190, right=20)])
    return Opened([hole], wb.Player.from_handicap(18), cell=10)


@pytest.fixture(scope="module")
def solution(opened):
    return opened.solve(Scene(), lambda done, goal: None)


def talk(address, **options):
    """A tab without a browser."""
    parts = urlsplit(address)
    options.setdefault("origin", address.rstrip("/"))
    return sockets.connect(f"ws://{parts.netloc}/lesson", **options)


def asked(tab, number=1, **message):
    tab.send(json.dumps({"id": number, "kind": "ask", "view": {}, **message}))


def until(tab, kind, number=None):
    """The next message of a kind."""
    while True:
        message = json.loads(tab.recv(timeout=60))
        if message["kind"] == kind and number in (None, message["id"]):
            return message[kind]


def listened(tab):
    """Listen until the talk ends."""
    while True:
        tab.recv(timeout=60)


def fetched(address, method="GET", path="/", body=None, **headers):
    """A plain answer: status, headers and text. No client of comfort comes between, so paths go out as they are."""
    parts = urlsplit(address)
    connection = http.client.HTTPConnection(parts.hostname, parts.port, timeout=60)
    try:
        connection.putrequest(method, path, skip_host="Host" in headers)
        for name, value in headers.items():
            connection.putheader(name.replace("_", "-"), value)
        if body is not None:
            connection.putheader("Content-Length", str(len(body)))
        connection.endheaders(body)
        answer = connection.getresponse()
        return answer.status, dict(answer.getheaders()), answer.read()
    finally:
        connection.close()


# What is answered.


def test_a_question_is_answered_quickly_then_sharply(lesson):
    with talk(lesson) as tab:
        asked(tab)
        assert until(tab, "map")["par"] == 3
        shown = until(tab, "shown")
        assert set(shown["shots"]) == {"this shot", "the best shot", "at the flag"}
        quick, sharp = until(tab, "figures"), until(tab, "figures")
    assert (quick["plays"], quick["sharp"], sharp["plays"], sharp["sharp"]) == (2_000, False, 20_000, True)
    assert all(len(figure) == 2 for figure in sharp["shots"]["this shot"].values())
    assert sharp["sentence"]["lead"].endswith(" strokes")


def test_figures_are_those_of_compare(opened, solution):
    """The lesson counts nothing itself: the same plans compared by hand give the same figures."""
    view = View(Scene(), shot=Shot("5-iron", (4.0, 150.0), None))
    now = answers.situation(opened, view, solution)
    result = answers.compared(opened, now, 2_000, None)
    found = answers.figures(now, result)
    over = [core_at(now, 4.0, 150.0)]
    by_hand = wb.compare(
        now.ground.hole,
        now.ground.player,
        [
            wb.Plan("this shot", [wb.exactly("5-iron", wb.at(*over[0]))], then=solution),
            wb.Plan("the best shot", [solution.shot_from(now.ground.hole.tee).instruction], then=solution),
        ],
        plays=2_000,
        seed=1,
    )
    difference = by_hand.difference("this shot", "the best shot")
    assert found["against"]["the best shot"]["mean"] == difference.mean
    assert found["against"]["the best shot"]["error"] == difference.standard_error
    mine = by_hand["this shot"]
    assert found["shots"]["this shot"]["mean"] == [f"{mine.mean:.2f}", f"{mine.standard_error:.2f}"]
    assert found["shots"]["this shot"]["blow_up"][1] == f"{100 * mine.blow_up_error:.1f}"
    assert float(found["shots"]["this shot"]["blow_up"][0].removesuffix(" %")) == pytest.approx(
        100 * mine.blow_up, abs=0.5
    )


def core_at(now, x, y):
    return now.ground.plan((x, y))


def test_a_ball_in_the_water_is_told_in_words(opened, solution):
    with pytest.raises(wb.InputError, match="the ball lies in a red penalty area; it must lie where"):
        answers.situation(opened, View(Scene(), ball=(20.0, 190.0), played=1), solution)


def test_the_page_has_the_colours_of_every_picture():
    """Those are held apart under simulated colour vision by the tests of pictures; the page has no others."""
    told = set(re.findall("#[0-9a-f]{6}", look.css()))
    for theme in (LIGHT, DARK):
        assert {*theme.strokes, theme.paper, theme.ink, theme.blow_up} <= told
        assert {surface.fill for surface in theme.surfaces.values()} <= told
    own = set(re.findall("#[0-9a-f]{3,6}\\b", page_files()["lesson.css"][0].decode()))
    # The ball is white in the dark as well.
    assert own == {"#fff", "#22252b"}


def test_strokes_before_count(opened, solution):
    """From the same place with two strokes more, all scores are two higher and par is rarer."""
    few, many = (
        answers.situation(opened, View(Scene(), ball=(0.0, 200.0), lie="fairway", played=n), solution) for n in (1, 3)
    )
    result = answers.compared(opened, few, 2_000, None)
    one, three = answers.figures(few, result), answers.figures(many, result)

    def figure(found, name):
        return float(found["shots"]["this shot"][name][0].removesuffix(" %"))

    assert figure(three, "mean") == pytest.approx(figure(one, "mean") + 2)
    assert figure(three, "par") < figure(one, "par")


def test_a_shot_goes_as_far_as_it_is_pointed(opened, solution):
    """A part swing ends where it is pointed, as far as a solid strike tells; a full one does not mind."""
    ball = (0.0, 200.0)
    near, far = (
        answers.situation(
            opened, View(Scene(), ball=ball, lie="fairway", played=1, shot=Shot("pitch", (0.0, y), None)), solution
        ).shots["this shot"]
        for y in (225.0, 240.0)
    )
    assert near["carry"] < far["carry"]
    for shot, y in ((near, 225.0), (far, 240.0)):
        hole = opened.ground(Scene()).hole
        assert abs(wb._wideberth.along_line(hole, shot["finish"]) - y) < 6
    full = Shot("9-iron", (0.0, 225.0), True)
    told = answers.situation(opened, View(Scene(), ball=ball, lie="fairway", played=1, shot=full), solution)
    assert told.shots["this shot"]["full"]
    assert told.shots["this shot"]["carry"] > far["carry"]


def test_choice_and_execution_add_up(opened, solution):
    view = View(Scene(), shot=Shot("7-iron", (60.0, 100.0), None))
    now = answers.situation(opened, view, solution)
    found = played.played(opened, now, 1, 5, "best", lambda done, goal: None)
    strokes = found["strokes"]
    assert sum(s["used"] for s in strokes) == found["scores"][0]
    for stroke in strokes:
        assert stroke["choice"] + stroke["execution"] == pytest.approx(stroke["gained"], abs=0.0151)
    # Sixty yards off the line is no good choice, and the solution's own strokes after it are as good as can be.
    assert strokes[0]["choice"] < -0.1
    assert all(stroke["choice"] == 0 for stroke in strokes[1:])
    total = solution.expected_strokes(now.ground.hole.tee) - found["scores"][0]
    assert sum(s["gained"] for s in strokes) == pytest.approx(total, abs=0.005 * len(strokes) + 0.01)


def test_a_hundred_balls(opened, solution):
    now = answers.situation(opened, View(Scene()), solution)
    found = played.played(opened, now, 100, 5, "pupil", lambda done, goal: None)
    assert len(found["scores"]) == 100
    assert len(found["strokes"][0]["rest"]) == 100


def test_work_nobody_waits_for_is_dropped(opened, solution):
    """Whoever is told of progress may end the work: that is how a stale question is dropped."""
    now = answers.situation(opened, View(Scene()), solution)
    heard = []

    def stale(done, goal):
        heard.append(done)
        raise Stale

    with pytest.raises(Stale):
        answers.compared(opened, now, 1_000_000, stale)
    assert len(heard) == 1 and heard[0] < 1_000_000


def test_a_newer_question_takes_the_place_of_an_older_one(lesson):
    with talk(lesson) as tab:
        for number in range(1, 30):
            asked(tab, number, view={"shot": {"club": "7-iron", "aim": [number, 140]}})
        while True:
            message = json.loads(tab.recv(timeout=60))
            if message["kind"] == "figures" and message["figures"]["sharp"]:
                break
        # Of all of them only the last is answered to the end.
        assert message["id"] == 29


def test_tabs_do_not_disturb_each_other(lesson):
    with talk(lesson) as one, talk(lesson) as other:
        asked(one, 1, view={"shot": {"club": "5-iron", "aim": [0, 140]}})
        asked(other, 1, view={"shot": {"club": "9-iron", "aim": [0, 140]}})
        assert until(one, "shown")["shots"]["this shot"]["club"] == "5-iron"
        assert until(other, "shown")["shots"]["this shot"]["club"] == "9-iron"


def test_files_are_handed_over_and_not_left(lesson, tmp_path):
    for what, start in (
        ("still.png", b"\x89PNG"),
        ("still.svg", b"<?xml"),
        ("card.pdf", b"%PDF"),
        ("report.html", b"<!"),
    ):
        status, headers, body = fetched(lesson, "POST", f"/save/{what}", b"{}", Origin=lesson.rstrip("/"))
        assert status == 200, body
        assert body[: len(start)] == start
        assert headers["content-disposition"].startswith("attachment")


# What is refused.

BAD = [
    ("", "not JSON"),
    ("{", "not JSON"),
    ("[" * 4_000, "not JSON"),
    ("[]", "must be an object"),
    ('{"id": 1}', "kind is None"),
    ('{"id": -1, "kind": "ask", "view": {}}', "id is -1"),
    ('{"id": 1, "kind": "solve", "view": {}}', "kind is 'solve'"),
    ('{"id": 1, "kind": "ask"}', "view is None"),
    ('{"id": 1, "kind": "ask", "view": {"nail": 1}}', "field 'nail'"),
    ('{"id": 1, "kind": "ask", "view": {"hole": 7}}', "hole is 7"),
    ('{"id": 1, "kind": "ask", "view": {"hole": 1e400}}', "hole is inf"),
    ('{"id": 1, "kind": "ask", "view": {"hole": true}}', "hole is True"),
    ('{"id": 1, "kind": "ask", "view": {"handicap": 55}}', "handicap is 55"),
    ('{"id": 1, "kind": "ask", "view": {"handicap": NaN}}', "handicap is nan"),
    ('{"id": 1, "kind": "ask", "view": {"handicap": 1' + 400 * "0" + "}}", "handicap is 1"),
    ('{"id": 1, "kind": "ask", "view": {"wind": [90, 0]}}', "mph is 90"),
    ('{"id": 1, "kind": "ask", "view": {"firmness": "concrete"}}', "firmness is 'concrete'"),
    ('{"id": 1, "kind": "ask", "view": {"skill": "luck"}}', "skill is 'luck'"),
    ('{"id": 1, "kind": "ask", "view": {"skill": ["putting"]}}', "skill is ['putting']"),
    ('{"id": 1, "kind": "ask", "view": {"pin": [60, 0]}}', "green"),
    ('{"id": 1, "kind": "ask", "view": {"ball": [1]}}', "two numbers"),
    ('{"id": 1, "kind": "ask", "view": {"ball": [4000, 0]}}', "off the map"),
    ('{"id": 1, "kind": "ask", "view": {"lie": "\\ud800"}}', "lie"),
    ('{"id": 1, "kind": "ask", "view": {"lie": "carpet"}}', "carpet"),
    ('{"id": 1, "kind": "ask", "view": {"shot": "best of all"}}', "best, flag"),
    ('{"id": 1, "kind": "ask", "view": {"shot": {"club": "9-wood", "aim": [0, 1]}}}', "9-wood"),
    ('{"id": 1, "kind": "ask", "view": {"shot": {"club": "bunker shot", "aim": [0, 1]}}}', "bunker shot"),
    ('{"id": 1, "kind": "ask", "view": {"shot": {"club": "driver", "aim": [0, 1], "full": 1}}}', "full is 1"),
    ('{"id": 1, "kind": "play", "view": {}, "balls": 101}', "balls is 101"),
    ('{"id": 1, "kind": "play", "view": {}, "then": "luck"}', "then is 'luck'"),
    ('{"id": 1, "kind": "round", "view": {}, "target": 90}', "needs a course"),
]


@pytest.mark.parametrize(("text", "told"), BAD)
def test_bad_messages_are_refused_and_the_tab_goes_on(lesson, text, told):
    with talk(lesson) as tab:
        tab.send(text)
        refused = until(tab, "refused")
        assert told in refused
        assert "Traceback" not in refused
        asked(tab, 9)
        until(tab, "figures", 9)


#: Anything that JSON tells, with the names of fields more often than chance would have them.
NAMES = st.sampled_from(
    ["hole", "handicap", "skill", "wind", "firmness", "pin", "ball", "lie", "played", "shot", "kept"]
)
JSON = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=8) | st.sampled_from(["best", "firm"]),
    lambda inner: (
        st.lists(inner, max_size=3)
        | st.dictionaries(NAMES | st.sampled_from(["club", "aim", "full"]) | st.text(max_size=5), inner, max_size=4)
    ),
    max_leaves=12,
)


@given(JSON | st.dictionaries(NAMES, JSON, max_size=3))
def test_whatever_comes_is_a_view_or_refused(message):
    try:
        view, told = view_of(message), ""
    except wb.InputError as error:
        view, told = None, str(error)
    assert isinstance(view, View) or "must be" in told or "known are" in told


def test_bytes_are_no_question(lesson):
    with talk(lesson) as tab:
        tab.send(b"\x00\xff")
        assert "not JSON" in until(tab, "refused")


def test_a_long_message_ends_the_talk(lesson):
    with talk(lesson) as tab:
        tab.send(" " * 100_000)
        with pytest.raises(ConnectionClosed) as closed:
            until(tab, "figures")
        assert closed.value.rcvd.code == 1009


def test_a_flood_ends_the_talk(lesson):
    def flood(tab):
        for _ in range(3_000):
            tab.send("{}")
        listened(tab)

    with talk(lesson) as tab, pytest.raises(ConnectionClosed):
        flood(tab)


def test_too_many_tabs_are_turned_away(lesson):
    with contextlib.ExitStack() as tabs:

        def more():
            for _ in range(12):
                tabs.enter_context(talk(lesson))

        # Tabs of other tests may be on their way out.
        more()
        with pytest.raises(InvalidStatus):
            more()


@pytest.mark.parametrize("origin", ["http://example.org", "null", "http://127.0.0.1", "https://localhost:1", None])
def test_foreign_pages_may_not_ask(lesson, origin):
    with pytest.raises(InvalidStatus) as turned_away:
        talk(lesson, origin=origin)
    assert turned_away.value.response.status_code == 403
    headers = {} if origin is None else {"Origin": origin}
    status, _, body = fetched(lesson, "POST", "/save/still.png", b"{}", **headers)
    assert (status, b"only the page" in body or b"another site" in body) == (403, True)


@pytest.mark.parametrize("host", ["example.org", "example.org:80", "127.0.0.1", "169.254.1.1:8718", ""])
def test_foreign_names_lead_nowhere(lesson, host):
    """A name of somebody else's that leads to this machine (DNS rebinding) does not get the page."""
    status, _, body = fetched(lesson, Host=host)
    # Without a name there is no request at all (RFC 9112, 3.2).
    assert status in ((403,) if host else (400, 403))
    assert b"<html" not in body


@pytest.mark.parametrize(
    "path",
    [
        "/../pyproject.toml",
        "/..%2f..%2fview.py",
        "/static/lesson.css",
        "/view.py",
        "//etc/passwd",
        "/%00",
        "/lesson.html/../../view.py",
        "/save/../view.py",
        "/lesson.css%00.js",
    ],
)
def test_no_path_leads_out(lesson, path):
    status, headers, body = fetched(lesson, path=path)
    assert status in (404, 405)
    assert body.count(b"\n") == 1
    assert "content-security-policy" in headers


def test_what_is_saved_is_only_what_can_be(lesson):
    own = lesson.rstrip("/")
    assert fetched(lesson, "POST", "/save/etc%2fpasswd", b"{}", Origin=own)[0] == 404
    assert fetched(lesson, "POST", "/save/shadow", b"{}", Origin=own)[0] == 404
    assert fetched(lesson, "POST", "/save/still.png", b"{", Origin=own)[0] == 400
    assert fetched(lesson, "POST", "/save/still.png", b" " * 1_000_000, Origin=own)[0] in (400, 413)
    status, _, body = fetched(lesson, "POST", "/save/still.png", b'{"hole": 3}', Origin=own)
    assert (status, b"hole is 3" in body) == (422, True)
    # A report is told from the tee.
    status, _, body = fetched(lesson, "POST", "/save/report.html", b'{"ball": [0, 100], "played": 1}', Origin=own)
    assert (status, b"tee" in body) == (422, True)


def test_nothing_but_the_page_itself_may_run(lesson):
    for path in ("/", "/about.json", "/lesson.css", "/nowhere"):
        policy = fetched(lesson, path=path)[1]["content-security-policy"]
        assert "default-src 'none'" in policy and "unsafe" not in policy


def test_half_a_request_holds_nobody_up(lesson):
    parts = urlsplit(lesson)
    with socket.create_connection((parts.hostname, parts.port)) as half:
        half.sendall(b"POST /save/still.png HTTP/1.1\r\nHost: ")
        assert fetched(lesson)[0] == 200


def test_the_page_is_small(lesson):
    """All that a browser loads for the page, in bytes."""
    names = "/ /look.css /lesson.css /main.js /map.js /link.js /state.js /panel.js /playing.js /mark.svg /about.json"
    assert sum(len(fetched(lesson, path=path)[2]) for path in names.split()) < 200_000


@pytest.mark.parametrize("busy", [False, True])
def test_ctrl_c_ends_it(busy):
    with served(*(() if not busy else ("--cell", "1"))) as (address, process):
        with talk(address) as tab:
            asked(tab)
            until(tab, "working" if busy else "figures")
            process.send_signal(signal.SIGINT)
            with pytest.raises(ConnectionClosed):
                listened(tab)
        out, err = process.communicate(timeout=60)
        assert process.returncode == 130
        assert "Traceback" not in out + err


def test_a_port_in_use_is_told():
    with served() as (address, _):
        port = str(urlsplit(address).port)
        words = ["lesson", "--no-browser", "--port", port, *SKETCH]
        assert main(words) == 2


# A phone on the same network.


def test_a_code_lets_one_device_in_once():
    codes = []
    doors = Doors(8718, "192.0.2.7", codes.append)
    assert doors.knows("192.0.2.7:8718") and not doors.knows("192.0.2.8:8718")
    assert doors.lets_in("127.0.0.1", None)
    assert not doors.lets_in("192.0.2.9", None)
    assert doors.enter("AAAA-AAAA") is None
    known = doors.enter(codes[0].lower())
    assert doors.lets_in("192.0.2.9", known)
    assert doors.enter(codes[0]) is None
    assert len(codes) == 2 and codes[0] != codes[1]


def test_a_code_that_is_guessed_at_is_changed():
    codes = []
    doors = Doors(8718, "192.0.2.7", codes.append)
    for _ in range(5):
        assert doors.enter("22222222") is None
    assert len(codes) == 2
    assert doors.enter(codes[0]) is None


def test_without_the_option_there_is_no_way_in():
    doors = Doors(8718, None, pytest.fail)
    assert doors.enter("") is None and doors.enter("AAAAAAAA") is None
    assert not doors.lets_in("192.0.2.9", "") and not doors.lets_in("", None)


def test_a_pace():
    now = [0.0]
    pace = Pace(10, 3, lambda: now[0])
    assert [pace.allows() for _ in range(4)] == [True, True, True, False]
    now[0] = 0.1
    assert [pace.allows() for _ in range(2)] == [True, False]


def test_a_view_is_read_whole():
    view = view_of(
        {
            "hole": 2,
            "handicap": 9.5,
            "skill": "putting",
            "wind": [12, -90],
            "firmness": "firm",
            "pin": [4, -2],
            "ball": [1, 200.5],
            "lie": "rough",
            "played": 2,
            "shot": {"club": "7-iron", "aim": [3, 300], "full": False},
            "kept": "flag",
        }
    )
    assert view.scene == Scene(2, 9.5, "putting", (12.0, 270.0), "firm", (4.0, -2.0))
    assert (view.ball, view.lie, view.played) == ((1.0, 200.5), "rough", 2)
    assert (view.shot, view.kept) == (Shot("7-iron", (3.0, 300.0), False), "flag")


def test_handicaps_told_on_the_page_are_those_of_the_reference_golfers(hole):
    woman = wb.Player.from_handicap(18, reference="women")
    opened = Opened([hole], woman, reference="women")
    assert opened.player_of(Scene(0, 20.0)) == wb.Player.from_handicap(20, reference="women")
    assert Opened([hole], woman).player_of(Scene(0, 20.0)) == wb.Player.from_handicap(20)


def test_the_help_tells_what_can_be_asked():
    """Every example of the help is one that the command line takes."""
    from wideberth.cli import parser
    from wideberth.cli.lesson import HELP

    examples = [line.split()[3:] for line in HELP[1].splitlines() if line.startswith("  python -m wideberth lesson")]
    assert len(examples) >= 4
    for words in examples:
        assert parser().parse_args(words).run


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["--port", "70000"], "port is 70000"),
        (["--sketch", "6", "300"], "par is 6"),
        (["--sketch", "4", "20"], "length"),
        (["--cell", "0.1"], "cell is 0.1"),
        (["--seed", "-1"], "seed"),
        (["--threads", "0"], "threads is 0"),
        (["hole.json", "--course"], "one of them"),
        (["nowhere.geojson"], "cannot read nowhere.geojson: there is no such file"),
        (["--course", "nowhere.json"], "cannot read nowhere.json: there is no such file"),
        (["--sketch", "4", "360", "--hole-ref", "3"], "--hole-ref needs a hole"),
        (["--course-name", "Two"], "--course-name needs --course"),
        (["--network", "300.1.1.1"], "300.1.1.1"),
        (["--network", "192.0.2.55"], "192.0.2.55"),
    ],
)
def test_what_cannot_be_opened_is_told_before_anything_is_served(words, told, capsys):
    assert main(["lesson", "--no-browser", "--port", "0", *words]) == 2
    assert told in capsys.readouterr().err


@pytest.mark.parametrize("name", ["starlette", "uvicorn", "websockets", "jinja2", "matplotlib"])
def test_a_package_that_is_missing_is_told_by_its_name(name, monkeypatch, capsys):
    monkeypatch.setitem(sys.modules, name, None)
    assert main(["lesson", "--no-browser", "--port", "0"]) == 2
    assert capsys.readouterr().err == f"wideberth: a lesson needs {name}: pip install 'wideberth[lesson]'\n"


def test_a_round_is_planned(tmp_path):
    holes = [wb.Hole.sketch(par=3, length=130 + 20 * i, number=i + 1, name=f"No. {i + 1}") for i in range(2)]
    path = tmp_path / "course.json"
    path.write_text(wb.Course(holes, name="Two").to_json(), "utf-8")
    with served("--course", str(path), "--handicap", "18", "--cell", "10") as (address, _), talk(address) as tab:
        tab.send(json.dumps({"id": 1, "kind": "round", "view": {}, "target": 9}))
        found = until(tab, "round")
        by_hand = wb.break_score(wb.Course(holes, name="Two"), wb.Player.from_handicap(18), 9, plays=2_000, seed=1)
        assert found["summary"] == by_hand.summary
        assert sum(hole["make"] for hole in found["holes"]) == 8
        # Whoever drags an aim meanwhile does not drop the plan.
        tab.send(json.dumps({"id": 3, "kind": "round", "view": {"handicap": 20}, "target": 9}))
        asked(tab, 4)
        seen = set()
        while not {(3, "round"), (4, "figures")} <= seen:
            message = json.loads(tab.recv(timeout=120))
            seen.add((message["id"], message["kind"]))
        tab.send(json.dumps({"id": 2, "kind": "round", "view": {}, "target": 0}))
        assert "target is 0" in until(tab, "refused")


@pytest.mark.skipif(address_here() is None, reason="this machine is on no network")
def test_a_device_of_the_network_comes_in_by_the_code():
    """What comes from this machine's address on its network is another device as far as the lesson can tell."""
    with served(*SKETCH, "--network") as (_, process):
        url, code = re.search(r"open (http://\S+/) with the code (\S+)", process.told).groups()
        own = {"Origin": url.rstrip("/")}
        status, headers, body = fetched(url)
        assert (status, headers["location"], body) == (303, "/enter", b"")
        assert fetched(url, path="/about.json")[0] == 403
        assert fetched(url, path="/main.js")[0] == 403
        assert fetched(url, "POST", "/save/still.png", b"{}", **own)[0] == 403
        with pytest.raises(InvalidStatus):
            talk(url)
        assert b"code" in fetched(url, path="/enter")[2]
        status, headers, _ = fetched(url, "POST", "/enter", b"code=AAAA-AAAA", **own)
        assert (status, headers["location"]) == (303, "/enter#again") and "set-cookie" not in headers
        status, headers, _ = fetched(url, "POST", "/enter", f"code={code}".encode(), **own)
        assert (status, headers["location"]) == (303, "/")
        assert "HttpOnly" in headers["set-cookie"] and "SameSite=strict" in headers["set-cookie"]
        known = headers["set-cookie"].partition(";")[0]
        assert b"Lesson" in fetched(url, Cookie=known)[2]
        with talk(url, additional_headers={"Cookie": known}) as tab:
            asked(tab)
            assert until(tab, "figures")["plays"] == 2_000
        # The code is used up.
        assert "set-cookie" not in fetched(url, "POST", "/enter", f"code={code}".encode(), **own)[1]
