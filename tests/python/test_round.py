"""Rounds, targets, practice, reviews: what they tell fits together, and bad input is refused first."""

import pickle
import re
import threading

import numpy as np
import pytest
import wideberth as wb

HOLES = [
    wb.Hole.sketch(par=4, length=352, water=[wb.along(310, right=20)]),
    wb.Hole.sketch(par=3, length=156, bunkers=[wb.along(146, left=14)]),
    wb.Hole.sketch(par=5, length=488, out_of_bounds="left"),
]
COURSE = wb.Course(HOLES, name="Heron Links")
PUPIL = wb.Player.from_handicap(17)
PLAYED = wb.play_rounds(COURSE, PUPIL, plays=1_000, seed=1)
TARGET = wb.break_score(COURSE, PUPIL, 15, plays=2_000, seed=1, cell=10)
GAINS = wb.practice_gains(COURSE, PUPIL, plays=300, seed=1, target=15)
CARD = """hole,stroke,club,lie,to_pin,side
1,1,driver,tee,352,
1,2,7-iron,rough,160,left 25
1,3,chip,fairway,24,
1,4,putter,green,9,
2,1,5-iron,tee,156,
2,2,putter,green,30,
2,3,putter,green,3,
"""


def test_rounds_tell_one_thing():
    totals, shares = list(PLAYED.distribution), list(PLAYED.distribution.values())
    assert sum(shares) == pytest.approx(1) and PLAYED.mean == pytest.approx(np.dot(totals, shares))
    assert PLAYED.at_most(totals[-1])[0] == 1 and PLAYED.at_most(totals[0] - 1)[0] == 0
    assert PLAYED.quantile(0.5) in totals and PLAYED.quantile(1.0) == totals[-1]
    scores = PLAYED.scores()
    assert scores.shape == (1_000, 3) and scores.sum() == pytest.approx(1_000 * PLAYED.mean)
    c = PLAYED.by_hole().columns()
    assert c["mean"].sum() == pytest.approx(PLAYED.mean) and list(c["hole"]) == [1, 2, 3]
    assert np.allclose(c["mean"], scores.mean(axis=0))
    assert np.allclose(c["double_or_worse"], (scores >= c["par"] + 2).mean(axis=0))
    assert np.isnan(c["fairway"][1]) and np.isfinite(c["fairway"][[0, 2]]).all()
    assert PLAYED.standard_error == pytest.approx(scores.sum(axis=1).std(ddof=1) / np.sqrt(1_000))
    s = PLAYED.statistics().columns()
    assert {"greens in regulation", "fairways", "putts", "three-putts", "penalty strokes", "up and downs"} <= set(
        s["statistic"]
    )
    assert sum(PLAYED.hole_distribution(2).values()) == pytest.approx(1)
    assert sum(PLAYED.blow_up_causes.values()) == pytest.approx(c["double_or_worse"].sum())


def test_rounds_are_the_same_on_any_number_of_threads():
    for threads in (1, 3):
        again = wb.play_rounds(COURSE, PUPIL, plays=1_000, seed=1, threads=threads)
        assert again == PLAYED
    assert wb.play_rounds(COURSE, PUPIL, plays=1_000, seed=2) != PLAYED
    plans = [wb.Plan("direct", [], then="direct")] * 3
    assert wb.play_rounds(COURSE, PUPIL, plans=plans, plays=1_000, seed=1) == PLAYED


def test_a_rating_serves_the_course_it_is_of():
    eighteen = wb.Course(HOLES * 6, name="Eighteen")
    rating = eighteen.rating(plays=400, seed=1)
    assert rating.course < eighteen.par < rating.bogey and 55 <= rating.slope <= 155
    assert sorted(rating.stroke_indexes) == list(range(1, 19))
    played = wb.play_rounds(eighteen, PUPIL, plays=400, seed=1)
    assert 10 < played.index(rating) < 24 and 0 < played.index_error(rating) < 1
    with pytest.raises(wb.InputError, match="rating is of another course"):
        PLAYED.index(rating)
    with pytest.raises(wb.InputError, match="the course has 3 holes"):
        PLAYED.index(COURSE.rating(plays=2))
    assert list(rating.by_hole().columns()["stroke_index"]) == rating.stroke_indexes


def test_a_target_is_reckoned_from_its_holes():
    assert 0 < TARGET.chance < 1 and 0 < TARGET.chance_error < 0.05
    assert TARGET.chance >= TARGET.chance_by_fewest_strokes - 3 * TARGET.gain_error
    assert TARGET.chance - TARGET.chance_by_fewest_strokes == pytest.approx(TARGET.gain)
    assert sum(TARGET.totals().values()) == pytest.approx(TARGET.chance)
    # With one hole to play the chance is that of its scores by the way that is taken.
    for so_far in range(7, 12):
        way = TARGET.way_from(hole=3, strokes_so_far=so_far)
        scores = TARGET.hole_distributions(3)[way]
        left = sum(share for score, share in scores.items() if so_far + score <= 14)
        assert TARGET.chance_from(hole=3, strokes_so_far=so_far) == pytest.approx(left, abs=0.03)
    chances = [TARGET.chance_from(hole=2, strokes_so_far=n) for n in range(2, 20)]
    assert all(np.diff(chances) <= 1e-12) and chances[-1] == 0
    c = TARGET.plan().columns()
    assert c["score_to_make"].sum() == 14 and np.all(c["made"] > 0) and list(c["hole"]) == [1, 2, 3]
    assert set(c["way"]) <= set(TARGET.ways) and all(c["aim"]) and all(c["club"])
    for name in ("in_play", "putt_for_par", "putt_for_bogey"):
        worth = c[f"{name}_worth"]
        assert np.all((c[name] >= 0) & (c[name] <= 1)) and np.all((worth > 0) | (np.isnan(worth) & (c[name] == 1)))


def test_rounds_by_the_ways_of_a_target_meet_its_chance():
    """The recursion against rounds that are played: fewest strokes on every hole, within 4 errors of both."""
    solutions = [wb.solve(hole, PUPIL, cell=10) for hole in HOLES]
    plans = [wb.Plan("fewest", [], then=solution) for solution in solutions]
    played = wb.play_rounds(COURSE, PUPIL, plans=plans, plays=4_000, seed=5)
    share, error = played.at_most(14)
    # Solved by another search than the six ways at once: nearly the same strokes.
    assert share == pytest.approx(TARGET.chance_by_fewest_strokes, abs=4 * np.hypot(error, TARGET.chance_error) + 0.02)


def test_practice_is_ranked_by_strokes():
    c = GAINS.columns()
    assert len(c["skill"]) >= 20 and len(set(c["skill"])) == len(c["skill"])
    assert np.all(np.diff(c["strokes_saved"]) <= 1e-12) and np.all(np.isfinite(c["strokes_saved_error"]))
    assert np.isfinite(c["chance_added"]).all()
    likes = c["like_handicap"][c["part"] != "choice"]
    assert np.all(likes == 17)
    wild = wb.practice_gains(COURSE, PUPIL.with_clubs([
        wb.Club(club.name, carry=club.carry, carry_sd=club.carry_sd, lateral_sd=1.6 * club.lateral_sd,
                lateral_bias=club.lateral_bias, mishit_share=club.mishit_share)
        if club.name == "driver" else club for club in PUPIL.clubs
    ]), plays=100, seed=1).columns()  # fmt: skip
    of = dict(zip(wild["skill"], wild["like_handicap"], strict=True))
    assert of["straighter driver"] > 25 and of["chip"] == 17


def review(text, tmp_path, **more):
    card = tmp_path / "card.csv"
    card.write_text(text)
    return wb.review(COURSE, PUPIL, card, cell=10, **more)


def test_a_review_adds_up_to_the_score(tmp_path):
    reviewed = review(CARD, tmp_path)
    c = reviewed.strokes().columns()
    assert reviewed.score == 7 == c["used"].sum()
    assert np.allclose(c["choice"] + c["execution"], c["gained"])
    assert c["gained"].sum() == pytest.approx(reviewed.expected - reviewed.score)
    for what in ("part", "hole", "club"):
        by = reviewed.by(what).columns()
        assert by["gained"].sum() == pytest.approx(c["gained"].sum()) and by["strokes"].sum() == 7
        for kind, luck in zip(by[what], by["luck"], strict=True):
            assert luck == pytest.approx(np.linalg.norm(c["luck"][c[what] == kind]))
    assert list(reviewed.by("part").columns()["part"]) == ["tee shots", "approaches", "around the green", "putting"]
    with pytest.raises(wb.InputError, match="what is 'lie'"):
        reviewed.by("lie")
    outcomes = reviewed.outcomes()
    assert "hit" in outcomes["finish"]
    known = wb.Player.from_shots(None, prior=PUPIL, outcomes=outcomes)
    assert known != PUPIL


def test_faults_of_a_card_are_told_by_row(tmp_path):
    for old, new, told in [
        ("1,3,chip", "1,3,chpi", 'row 4 (the header is row 1): club is "chpi"'),
        ("1,4,putter", "1,5,putter", "row 5 (the header is row 1): stroke is 5; on hole 1 it must be 4"),
        ("left 25", "left", 'row 3 (the header is row 1): side is "left"'),
        ("2,1,5-iron,tee,156", "2,1,6-iron,tee,356", "to_pin is 356 from the tee"),
        ("hole,", "hoel,", "no column hole"),
    ]:
        with pytest.raises(wb.InputError, match=re.escape(told)):
            review(CARD.replace(old, new), tmp_path)
    blank = CARD.replace("\n", "\n\n,,\n").replace("1,3,chip", "1,3,chpi")
    with pytest.raises(wb.InputError, match=re.escape('row 10 (the header is row 1): club is "chpi"')):
        review(blank, tmp_path)
    with pytest.raises(wb.InputError, match="cannot read"):
        wb.review(COURSE, PUPIL, tmp_path / "none.csv")
    (tmp_path / "bytes.csv").write_bytes(b"\xff\xfe\x00hole")
    with pytest.raises(wb.InputError, match="not UTF-8"):
        wb.review(COURSE, PUPIL, tmp_path / "bytes.csv")


@pytest.mark.parametrize(
    ("call", "told"),
    [
        (lambda: wb.play_rounds(COURSE, PUPIL, plays=0), "plays is 0"),
        (lambda: wb.play_rounds(COURSE, PUPIL, then="bold"), "then is"),
        (lambda: wb.play_rounds(COURSE, PUPIL, plans=[wb.Plan("a", [])]), "plans has 1 plans"),
        (lambda: COURSE.rating(plays=1), "plays is 1"),
        (lambda: COURSE.rating(reference="both"), "both"),
        (lambda: wb.break_score(COURSE, PUPIL, 4), "target is 4"),
        (lambda: wb.break_score(COURSE, PUPIL, 400), "target is 400"),
        (lambda: wb.break_score(COURSE, PUPIL, 15, plays=10), "plays is 10"),
        (lambda: wb.break_score(COURSE, PUPIL, 15, cell=30), "cell is 30"),
        (lambda: wb.practice_gains(COURSE, PUPIL, share=0), "share is 0"),
        (lambda: wb.practice_gains(COURSE, PUPIL, target=1), "target is 1"),
        (lambda: TARGET.chance_from(hole=4, strokes_so_far=3), "hole is 4; it must be one of 1, 2, 3"),
        (lambda: TARGET.chance_from(hole=1, strokes_so_far=-3), "strokes_so_far is -3"),
        (lambda: PLAYED.quantile(2), "share is 2"),
    ],
)
def test_bad_input_is_refused(call, told):
    with pytest.raises(wb.InputError, match=told):
        call()


@pytest.mark.parametrize("call", [wb.play_rounds, wb.practice_gains])
def test_a_hole_is_no_course(call):
    with pytest.raises(TypeError, match=r"(?s)course is .*Hole\); it must be a Course"):
        call(HOLES[0], PUPIL)


def test_progress_is_told_and_solutions_are_kept():
    seen = []
    course = wb.Course(HOLES[1:2], name="One")
    first = wb.break_score(course, PUPIL, 5, plays=400, seed=1, cell=10, progress=lambda *p: seen.append(p))
    assert seen[-1] == (400, 400)
    steps = len(seen)
    seen.clear()
    wb.break_score(course, PUPIL, 6, plays=400, seed=1, cell=10, progress=lambda *p: seen.append(p))
    # Nothing is solved again: only plays are told.
    assert {goal for _, goal in seen} == {400} and len(seen) < steps
    assert wb.break_score(course, PUPIL, 5, plays=400, seed=1, cell=10) == first
    results = []
    threads = [
        threading.Thread(target=lambda: results.append(wb.break_score(course, PUPIL, 5, plays=400, seed=1, cell=10)))
        for _ in range(3)
    ]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert results == [first] * 3


@pytest.mark.parametrize(
    "thing", [PLAYED, TARGET, GAINS, PLAYED.by_hole(), TARGET.plan()], ids=lambda t: type(t).__name__
)
def test_results_travel_and_read_well(thing):
    again = pickle.loads(pickle.dumps(thing))
    assert again == thing and repr(again) == repr(thing)
    assert "<table>" in thing._repr_html_() and "| --" in thing.to_markdown().replace("---:", "--").replace(
        ":---", "--"
    )
    if hasattr(thing, "columns"):
        columns = thing.columns()
        assert len({len(column) for column in columns.values()}) == 1


@pytest.mark.parametrize("thing", [PLAYED, TARGET, GAINS], ids=lambda t: type(t).__name__)
def test_pictures_are_drawn(thing, tmp_path):
    from wideberth import plot

    for theme in ("light", "dark"):
        path = plot.save(thing.plot(theme=theme), tmp_path / f"{theme}.png")
        assert path.stat().st_size > 10_000
    with pytest.raises(wb.InputError):
        thing.plot(theme="sepia")
