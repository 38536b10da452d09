"""Plans that go on by the best play of the hole."""

import copy
import pickle

import pytest
import wideberth as wb

HOLE = wb.Hole.sketch(par=4, length=360, water=[wb.along(190, right=12)], bunkers=[wb.along(345, left=14)])
PUPIL = wb.Player.from_handicap(18)


@pytest.fixture(scope="module")
def solution() -> wb.Solution:
    """The hole solved as finely as a plan that goes on by the best play has it solved."""
    return wb.solve(HOLE, PUPIL, cell=4)


def iron(then) -> wb.Plan:
    """An iron off the tee."""
    return wb.Plan("iron", [wb.shot("5-iron", wb.along(150))], then=then)


def test_best_is_the_solution(solution: wb.Solution) -> None:
    """The very plays of a solution that is handed in, whoever asks."""
    best, handed = (wb.compare(HOLE, PUPIL, [iron(then)], plays=2_000, seed=1) for then in ("best", solution))
    assert best.best.distribution == handed.best.distribution
    one, other = (wb.simulate(HOLE, PUPIL, iron(then), plays=200, seed=1) for then in ("best", solution))
    assert (one.scores == other.scores).all() and (one.putts == other.putts).all()
    one, other = (wb.compare(HOLE, PUPIL, [iron(then)], luck="even", plays=640) for then in ("best", solution))
    assert one["iron"].mean == other["iron"].mean


def test_a_strategy_of_ones_own_may_leave_the_rest_to_it(solution: wb.Solution) -> None:
    """What it does not choose itself is played as the solution has it."""
    nothing = [wb.strategy(lambda balls: None, otherwise=otherwise) for otherwise in ("best", solution)]
    one, other = (wb.compare(HOLE, PUPIL, [iron(then)], plays=500, seed=1) for then in nothing)
    assert one.best.distribution == other.best.distribution


def test_going_on_best_is_better_than_going_on_steadily() -> None:
    """Paired: it gained 0.018 with a standard error of 0.004, so that chance fails it once in a million.

    Played as `steady` the difference would be nothing, and as `direct` to the other side.
    """
    plans = [wb.Plan("best", [], then="best"), wb.Plan("steady", [], then="steady")]
    assert wb.compare(HOLE, PUPIL, plans, plays=20_000, seed=2).difference("best", "steady").mean < 0


def test_rounds_and_strokes_around_the_green_may_go_on_by_it() -> None:
    """Every hole of a course is solved for the player; a chip is followed by the best there is."""
    course = wb.Course([HOLE, wb.Hole.sketch(par=3, length=140)], name="Two")
    best, direct = (wb.play_rounds(course, PUPIL, then=then, plays=4_000, seed=3) for then in ("best", "direct"))
    assert best.mean < direct.mean
    plans = [wb.Plan(f"hole {number}", [], then="best") for number in (1, 2)]
    assert wb.play_rounds(course, PUPIL, plans=plans, plays=4_000, seed=3).mean == best.mean
    ranked = wb.around_the_green(HOLE, PUPIL, at=wb.short_of_green(6), plays=2_000, seed=3, then="best")
    assert 2 < ranked.best.mean < 4


def test_it_travels_by_its_name() -> None:
    """It is no part of a document or a copy that there is a solution."""
    plan = iron("best")
    assert plan.then == "best"
    assert 'then="best"' in repr(plan)
    assert wb.Plan.from_json(plan.to_json()) == plan == pickle.loads(pickle.dumps(plan)) == copy.deepcopy(plan)


def test_where_there_is_no_one_solution_it_is_refused() -> None:
    """Several players have several solutions."""
    with pytest.raises(wb.InputError, match='then is "best"; it must be "direct" or "steady" here'):
        wb.compare_players(HOLE, {"18": PUPIL, "8": wb.Player.from_handicap(8)}, iron("best"), plays=100)
    with pytest.raises(wb.InputError, match="leave out player_draws"):
        wb.compare(HOLE, PUPIL, [iron("best")], plays=100, player_draws=5)
    with pytest.raises(wb.InputError, match='then is "best"; it must be "direct" or "steady"'):
        wb.evaluate(HOLE, PUPIL, "best")
    course = wb.Course([HOLE], name="One")
    with pytest.raises(wb.InputError, match='then is "bold"; it must be "direct", "steady" or "best"'):
        wb.play_rounds(course, PUPIL, then="bold")


def test_solving_tells_how_far_it_is() -> None:
    """The holes that are not known yet first, in thousandths of each, then the rounds."""
    course = wb.Course([wb.Hole.sketch(par=3, length=length) for length in (131, 143)])
    heard: list[tuple[int, int]] = []
    wb.play_rounds(course, PUPIL, then="best", plays=10, seed=1, progress=lambda *told: heard.append(told))
    solving = [done for done, goal in heard if goal == 2_000]
    assert solving == sorted(solving) and solving[-1] == 2_000 and len(set(solving)) > 4
    assert heard[-1] == (10, 10)
    again: list[tuple[int, int]] = []
    wb.play_rounds(course, PUPIL, then="best", plays=10, seed=1, progress=lambda *told: again.append(told))
    assert {goal for _, goal in again} == {10}


def test_a_hole_that_is_played_twice_is_solved_once() -> None:
    """Holes that are alike are one hole to be solved."""
    course = wb.Course([wb.Hole.sketch(par=3, length=127) for _ in range(3)])
    heard: list[tuple[int, int]] = []
    wb.play_rounds(course, PUPIL, then="best", plays=10, seed=1, progress=lambda *told: heard.append(told))
    assert {goal for _, goal in heard} == {1_000, 10}
