"""Players from shots: tables of every kind, the same answers as general-purpose estimators, words for what is wrong."""

import csv
import math
import pickle
import warnings

import numpy as np
import pytest
import wideberth as wb

PRIOR = wb.Player.from_handicap(18)


def iron(n, seed=8, mishits=0.12, carry=128.0, carry_sd=7.0, bias=4.0, lateral_sd=9.0):
    """Shots of a 7-iron whose mishits have nothing to do with the library's."""
    rng = np.random.default_rng(seed)
    carries, laterals = rng.normal(carry, carry_sd, n), rng.normal(bias, lateral_sd, n)
    bad = rng.random(n) < mishits
    carries[bad], laterals[bad] = rng.normal(80, 20, bad.sum()), rng.normal(0, 22, bad.sum())
    return {"club": ["7-iron"] * n, "carry": carries, "lateral": laterals}, bad


def fit(shots, **options):
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", UserWarning)
        return wb.Player.from_shots(shots, **{"prior": PRIOR, **options})


def figures(player, club="7-iron"):
    c = player.club(club)
    return np.array([c.carry, c.carry_sd, c.lateral_bias, c.lateral_sd, c.correlation, c.mishit_share])


# --- Right answers


def test_mishits_are_found_and_not_averaged_in():
    shots, bad = iron(60)
    fitted = fit(shots)
    club = fitted.club("7-iron")
    assert abs(club.carry - 128) < 3 and abs(club.lateral_bias - 4) < 3
    assert abs(club.carry_sd - 7) < 2.5 and abs(club.lateral_sd - 9) < 3 and 0.05 < club.mishit_share < 0.25
    judged = fitted.judged_shots()
    assert list(judged) == ["club", "carry", "lateral", "mishit", "outlier"]
    taken = judged["mishit"] + judged["outlier"]
    # Shots drawn as mishits that landed among the solid ones cannot be told from them.
    clearly = bad & ((shots["carry"] < 100) | (abs(shots["lateral"]) > 40))
    assert (taken[clearly] > 0.9).all() and clearly.sum() >= 4
    assert (taken[~bad] < 0.5).mean() > 0.97
    assert fitted.club("driver").carry > 150


def test_the_posterior_is_that_of_brute_force():
    """The posterior of one club by importance sampling with the laws of SciPy and NumPy, nothing of the library but the
    figures of the prior. 400,000 draws of the prior, weighted by the likelihood of six shots, one of them a duff.

    The tolerances are 5 Monte Carlo errors of both (1,000 draws and the weights' effective number).
    """
    stats = pytest.importorskip("scipy.stats")
    shots = np.array([(131, 4), (127, -9), (124, 11), (74, -15), (130, 2), (137, 14)], float)
    fitted = fit({"club": ["7-iron"] * 6, "carry": shots[:, 0], "lateral": shots[:, 1]})
    prior = figures(PRIOR)
    rng, n = np.random.default_rng(1), 400_000
    # Standard deviations between players as documented: together, with like clubs, alone.
    sds = np.sqrt([0.07**2 + 0.03**2 + 0.02**2, *[0.25**2 + 2 * 0.1**2], *[0.03**2 + 0.02**2 + 0.01**2],
                   *[0.25**2 + 2 * 0.1**2], 0.2**2 + 2 * 0.1**2, 0.5**2 + 2 * 0.2**2])  # fmt: skip
    z = rng.standard_normal((6, n)) * sds[:, None]
    carry = prior[0] * np.exp(z[0])
    carry_sd = prior[1] / prior[0] * carry * np.exp(z[1])
    bias = carry * z[2]
    lateral_sd = prior[3] / prior[0] * carry * np.exp(z[3])
    rho = np.tanh(z[4])
    # The odds are those of being missed at all, of which a mishit is the worse half.
    missed = 1 / (1 + np.exp(-(math.log(prior[5] / (0.5 - prior[5])) + z[5])))
    share, shape = missed / 2, PRIOR.club("7-iron").mishit_shape

    # Beyond the middle flush strikes spread by 6 % of the carry at most: luck in depth is bent.
    share_beyond = (1 + (carry_sd / carry / 0.06) ** 16) ** (-1 / 16)

    def density(shot, mean, sd, side, beyond=share_beyond):
        more, less, v = 1 + beyond, 1 - beyond, (shot[1] - bias) / side
        # The luck u that is bent to the standardised depth: (more u - less (hypot(u, 1/4) - 1/4)) / 2, a quadratic.
        at = 2 * (shot[0] - mean) / sd - less / 4
        u = (more * at + less * np.sqrt(at**2 + beyond / 4)) / (4 * beyond)
        slope = (more - less * u / np.hypot(u, 0.25)) / 2
        q = (u**2 - 2 * rho * u * v + v**2) / (1 - rho**2)
        return np.exp(-q / 2) / (2 * math.pi * sd * slope * side * np.sqrt(1 - rho**2))

    # Of luck that is not bent the formula is that of a bivariate normal.
    law = stats.multivariate_normal([carry[0], bias[0]], [
        [carry_sd[0] ** 2, rho[0] * carry_sd[0] * lateral_sd[0]],
        [rho[0] * carry_sd[0] * lateral_sd[0], lateral_sd[0] ** 2],
    ])  # fmt: skip
    assert density(shots[0], carry, carry_sd, lateral_sd, 1.0 + 0 * rho)[0] == pytest.approx(law.pdf(shots[0]))
    # Severities are even on [0, 1], an integral by Gauss's rule with many more places than the library takes.
    places, weights = np.polynomial.legendre.leggauss(20)
    kinds = [
        (shape.duff_part, shape.duff_carry, shape.duff_carry_sd, shape.duff_side),
        (1 - shape.duff_part, shape.wild_carry, shape.wild_carry_sd, shape.wild_side),
    ]
    log_weight = np.zeros(n)
    for shot in shots:
        mixture = (1 - missed) * density(shot, carry, carry_sd, lateral_sd)
        for u, weight in zip((places + 1) / 2, weights / 2, strict=True):
            g = u**shape.mildness
            for part, far, far_sd, wide in kinds:
                bent, even = (1 - g) * carry_sd, g * far_sd * carry
                beyond = 1 - bent / (bent + even) * (1 - share_beyond)
                side = lateral_sd * (1 + g * (wide - 1))
                strike = density(shot, carry * (1 + g * (far - 1)), bent + even, side, beyond)
                mixture += missed * part * weight * strike
        log_weight += np.log(0.995 * mixture + 0.005 / (4 * prior[0] ** 2))
    weight = np.exp(log_weight - log_weight.max())
    weight /= weight.sum()
    effective = 1 / (weight**2).sum()
    assert effective > 1000
    sure = fitted.uncertainty("7-iron")
    errors = [sure.carry_se, sure.carry_sd_se, sure.lateral_bias_se, sure.lateral_sd_se, sure.correlation_se,
              sure.mishit_share_se]  # fmt: skip
    draws = np.array([figures(p) for p in fitted.draws(1000, seed=1)])
    for values, error, mine in zip((carry, carry_sd, bias, lateral_sd, rho, share), errors, draws.T, strict=True):
        mean = weight @ values
        sd = math.sqrt(weight @ (values - mean) ** 2)
        noise = sd * math.sqrt(1 / effective + 1 / 1000)
        assert abs(mine.mean() - mean) < 5 * noise
        assert abs(error / sd - 1) < 5 * noise / sd


@pytest.mark.parametrize(("seed", "outliers"), [(1, 0), (2, 0), (3, 0.1), (4, 0.2)])
def test_agrees_with_the_minimum_covariance_determinant(seed, outliers):
    """MinCovDet of scikit-learn (Rousseeuw 1984) is comparable: both estimate the centre and the covariance of the
    solid strikes and give no weight to what lies far out; on 400 clean shots both are near the sample moments. With
    mishits short and wide, MCD still keeps the ones among the bulk, so the tolerance of the spread is wider.
    """
    covariance = pytest.importorskip("sklearn.covariance")
    rng = np.random.default_rng(seed)
    # Narrow enough to be even about their middle.
    shots = rng.multivariate_normal([131, -5], [[36, -15], [-15, 81]], 400)
    bad = rng.random(400) < outliers
    # Misses scatter about the club's own bias.
    shots[bad] = rng.normal([72, -5], [12, 20], (bad.sum(), 2))
    other = covariance.MinCovDet(random_state=0).fit(shots)
    club = fit({"club": ["7-iron"] * 400, "carry": shots[:, 0], "lateral": shots[:, 1]}).club("7-iron")
    # The law has slight misses, short and wide, where these shots have none: it puts flush strikes a little farther.
    assert club.carry == pytest.approx(other.location_[0], abs=2.0)
    assert club.lateral_bias == pytest.approx(other.location_[1], abs=1.0)
    assert club.carry_sd == pytest.approx(math.sqrt(other.covariance_[0, 0]), rel=0.15)
    assert club.lateral_sd == pytest.approx(math.sqrt(other.covariance_[1, 1]), rel=0.2)
    rho = other.covariance_[0, 1] / math.sqrt(np.prod(np.diag(other.covariance_)))
    assert club.correlation == pytest.approx(rho, abs=0.1)
    assert club.mishit_share == pytest.approx(bad.mean(), abs=0.04)


def test_few_shots_are_pulled_to_the_level_and_say_so():
    shots, _ = iron(60)
    few, many = fit({k: v[:6] for k, v in shots.items()}), fit(shots)
    for name in ("carry", "carry_sd", "lateral_bias", "lateral_sd", "correlation", "mishit_share"):
        error, weight = f"{name}_se", f"{name}_weight"
        assert getattr(few.uncertainty("7-iron"), error) > getattr(many.uncertainty("7-iron"), error) > 0
        assert getattr(few.uncertainty("7-iron"), weight) < getattr(many.uncertainty("7-iron"), weight) <= 1
        low, high = few.interval("7-iron", name, level=0.5)
        wide = few.interval("7-iron", name)
        assert wide[0] < low < high < wide[1]
    assert few.uncertainty("7-iron").shots == 6 and few.uncertainty("driver").shots == 0


def test_draws_are_players_and_repeat():
    few = fit({k: v[:6] for k, v in iron(6)[0].items()})
    draws = few.draws(30, seed=5)
    assert draws == few.draws(40, seed=5)[:30] and draws != few.draws(30, seed=6)
    assert all(type(p) is wb.Player for p in draws) and len({p.club("driver").carry for p in draws}) == 30
    by_level = PRIOR.draws(200, seed=1)
    spread = np.std([p.club("7-iron").carry / PRIOR.club("7-iron").carry for p in by_level])
    assert 0.06 < spread < 0.10
    # Any player has players about it, one known by its figures alone too.
    assert PRIOR.with_clubs([PRIOR.club("driver")]).draws(3, seed=1)[0] != PRIOR


def test_outcomes_count_for_less():
    n = 30
    outcomes = {"club": ["driver"] * n, "finish": ["right"] * 18 + ["hit"] * 12, "width": [30] * n}
    told = wb.Player.from_shots(None, prior=PRIOR, outcomes=outcomes)
    assert told.club("driver").lateral_bias > 5 and told.uncertainty("driver").outcomes == n
    outcomes = {**outcomes, "depth": [25] * n, "finish": ["short"] * 18 + ["hit"] * 12, "club": ["7-iron"] * n}
    green = wb.Player.from_shots(None, prior=PRIOR, outcomes=outcomes)
    assert green.uncertainty("7-iron").carry_weight < fit(iron(n)[0]).uncertainty("7-iron").carry_weight


# --- Known numbers


def test_known_numbers_move_the_bag():
    pupil = wb.Player.from_handicap(18, carries={"driver": 178, "5-hybrid": 152, "7-iron": 126})
    assert [pupil.club(c).carry for c in ("driver", "5-hybrid", "7-iron")] == [178, 152, 126]
    carries = [c.carry for c in pupil.clubs]
    assert carries == sorted(carries, reverse=True)
    for club in pupil.clubs:
        old = PRIOR.club(club.name)
        assert club.carry_sd / club.carry == pytest.approx(old.carry_sd / old.carry)
    slicer = wb.Player.from_handicap(18, lateral_biases={"driver": 15})
    assert slicer.club("driver").lateral_bias == 15 and 0 < slicer.club("7-iron").lateral_bias < 10
    assert slicer.club("driver").carry == pytest.approx(PRIOR.club("driver").carry)


def test_a_bag_of_ones_own():
    mine = wb.Player.from_handicap(18, bag=["driver", "4-iron", "7-iron"], carries={"4-iron": 165})
    assert [c.name for c in mine.clubs] == ["driver", "4-iron", "7-iron"] and mine.club("4-iron").carry == 165
    with pytest.raises(wb.InputError, match='bag: "4-iron" is none of the level\'s clubs'):
        wb.Player.from_handicap(18, bag=["driver", "4-iron"])
    with pytest.raises(wb.InputError, match="carries: club is"):
        wb.Player.from_handicap(18, carries={"4-iron": 165})
    with pytest.raises(wb.InputError, match="carries: driver is 30; it must be"):
        wb.Player.from_handicap(18, carries={"driver": 30})
    with pytest.raises(wb.InputError, match="clubs: there are 0"):
        wb.Player.from_handicap(18, bag=[])


def test_shots_of_a_player_who_knows_something():
    slicer = wb.Player.from_handicap(18, carries={"driver": 236}, lateral_biases={"driver": 15})
    times = slicer.club("7-iron").carry / 128
    shots, _ = iron(60, carry=1.08 * 128 * times)
    fitted, forgot = fit(shots, prior=slicer), fit(shots, prior=wb.Player.from_json(slicer.to_json()))
    assert (fitted.club("driver").carry, fitted.club("driver").lateral_bias) == (236, 15)
    assert forgot.club("driver").carry > 240
    assert fitted.club("7-iron").carry == pytest.approx(forgot.club("7-iron").carry, rel=0.01)
    assert {p.club("driver").carry for p in fitted.draws(20, seed=1)} == {236.0}
    assert fitted.uncertainty("driver").carry_se == pytest.approx(0, abs=1e-9)
    again = pickle.loads(pickle.dumps(fitted))
    assert again == fitted and again.draws(3, seed=1) == fitted.draws(3, seed=1)


def test_later_shots_are_added_to_earlier_ones():
    shots, _ = iron(40)
    first, second = ({k: v[part] for k, v in shots.items()} for part in (slice(25), slice(25, 40)))
    stepwise, whole = fit(second, prior=fit(first)), fit(shots)
    assert stepwise == whole and stepwise.uncertainty("driver") == whole.uncertainty("driver")
    assert np.array_equal(stepwise.judged_shots()["carry"], shots["carry"])
    with pytest.raises(wb.InputError, match="the table holds the 25 shots that the prior was fitted to"):
        fit(shots, prior=fit(first))


# --- Tables


def write(path, shots, separator=","):
    with open(path, "w", newline="", encoding="utf-8") as file:
        rows = csv.writer(file, delimiter=separator)
        rows.writerow(shots)
        rows.writerows(zip(*shots.values(), strict=True))
    return path


def tables(tmp_path):
    shots, _ = iron(20)
    pandas, polars = pytest.importorskip("pandas"), pytest.importorskip("polars")
    structured = np.zeros(20, [("club", "U10"), ("carry", float), ("lateral", float)])
    for name, column in shots.items():
        structured[name] = column
    metres = {"club": shots["club"], "Carry (m)": shots["carry"] * 0.9144, "lateral_ft": shots["lateral"] * 3}
    frame = pandas.DataFrame(shots)
    return {
        "dict": shots,
        "lists": {k: list(v) for k, v in shots.items()},
        "strings": {k: [str(x) for x in v] for k, v in shots.items()},
        "pandas": frame,
        "pandas, other index": frame.set_index(np.arange(20)[::-1]),
        "categories": frame.astype({"club": "category"}),
        "polars": polars.DataFrame(shots),
        "structured array": structured,
        "rows": [dict(zip(shots, row, strict=True)) for row in zip(*shots.values(), strict=True)],
        "more columns": {**shots, "ball speed": [60] * 20, "when": ["noon"] * 20},
        "empty lies": {**shots, "lie": [None, "", float("nan"), *[None] * 17], "total": [None] * 20},
        "csv": write(tmp_path / "a.csv", shots),
        "csv with semicolons": str(write(tmp_path / "b.csv", shots, ";")),
        "other units": metres,
    }


def test_every_kind_of_table_gives_the_same_player(tmp_path):
    kinds = tables(tmp_path)
    want = figures(fit(kinds["dict"]))
    for name, table in kinds.items():
        assert np.allclose(figures(fit(table)), want, rtol=1e-9 if name != "other units" else 1e-6), name
    in_metres = {**kinds["dict"], **{k: kinds["dict"][k] * 0.9144 for k in ("carry", "lateral")}}
    assert np.allclose(figures(fit(in_metres, units="metres")), want, rtol=1e-6)


def test_lies_change_what_a_shot_says():
    shots, _ = iron(40)
    home, rough = fit(shots), fit({**shots, "lie": ["rough"] * 40})
    assert rough.club("7-iron").carry > home.club("7-iron").carry + 4
    with pytest.raises(
        wb.InputError, match=r"shots, row 2 \(the header is row 1\): lie is \"lava\"; it must be empty or one"
    ):
        fit({**shots, "lie": ["lava"] * 40})


GOOD = {"club": ["7-iron"] * 4, "carry": [130.0, 126, 128, 131], "lateral": [3.0, -4, 0, 8]}


def cell(column, row, value):
    column = list(GOOD[column]) if isinstance(column, str) else column
    return [*column[:row], value, *column[row + 1 :]]


@pytest.mark.parametrize(
    ("shots", "words"),
    [
        ({"club": ["7-iron"], "carry": [130]}, "shots: there is no column 'lateral'; there are 'club', 'carry'"),
        ({}, "shots: there is no column 'club'; there are no columns"),
        ({"club": [], "carry": [], "lateral": []}, "shots: the table is empty"),
        (
            {**GOOD, "carry": cell("carry", 1, None)},
            r"row 3 \(the header is row 1\), 7-iron: carry is NaN; it must be 0 to",
        ),
        ({**GOOD, "carry": cell("carry", 1, -5)}, "carry is -5; it must be 0 to 450 yards"),
        ({**GOOD, "carry": cell("carry", 1, 1e9)}, "carry is 1000000000; it must be"),
        (
            {**GOOD, "lateral": cell("lateral", 3, "8R")},
            r"row 5 \(the header is row 1\): lateral is '8R'; it must be a number;",
        ),
        ({**GOOD, "lateral": cell("lateral", 3, True)}, "lateral is True; it must be a number"),
        (
            {**GOOD, "club": cell("club", 2, 7)},
            r"row 4 \(the header is row 1\): club is 7; it must be text, such as '7-iron'",
        ),
        ({**GOOD, "club": cell("club", 2, "7 Iron")}, 'club is "7 Iron"; did you mean "7-iron"?'),
        ({**GOOD, "club": cell("club", 2, "spoon")}, 'club is "spoon"; the clubs of the prior are driver, 3-wood'),
        ({**GOOD, "carry": [130.0]}, "carry has 1 rows but club has 4"),
        ({**GOOD, "carry": 130.0}, "carry must be one column of values, not float"),
        ({**GOOD, "carry_m": [1.0] * 4}, "'carry' and 'carry_m' are both carry; keep one"),
        ({**GOOD, "total": [110.0] * 4}, "total is shorter than carry in 4 of 4 rows"),
        ({**GOOD, "carry": [390.0] * 4}, "are these feet"),
        ({1: [2]}, "a column is named 1; names must be text"),
        (None, "shots: the table is empty"),
        (7, "shots is int; it must be a data frame"),
        ("no/such/file.csv", "'no/such/file.csv' cannot be read: No such file"),
    ],
)
def test_refusals_in_words(shots, words):
    with pytest.raises(wb.InputError, match=words):
        fit(shots)


def test_what_is_no_data_frame_though_it_has_columns():
    polars = pytest.importorskip("polars")
    hole = wb.Hole.sketch(par=3, length=150)
    comparison = wb.compare(hole, PRIOR, [wb.Plan("one", [])], plays=10)
    for shots, kind in ((polars.LazyFrame(GOOD), "LazyFrame"), (comparison, "Comparison")):
        with pytest.raises(wb.InputError, match=f"shots is {kind}; it must be a data frame, a dict of columns"):
            fit(shots)


def test_broken_files_are_refused(tmp_path):
    path = tmp_path / "shots.csv"
    for text, words in [
        ("", "there is no column 'club'"),
        ("club,carry,lateral\n7-iron,130\n", r"row 2 \(the header is row 1\): it has 2 cells; it must have 3, as"),
        ("club,carry,lateral\n7-iron,130,1,2\n", "it has 4 cells; it must have 3"),
        ("club,carry,lateral\n7-iron,130,1\n\n , ,\n7-iron,x,2\n", r"row 5 \(the header is row 1\): carry is 'x'"),
        ("club,carry,lateral\n\n7-iron,130,1\n7-iron,-1,2\n", r"row 4 \(the header is row 1\), 7-iron: carry is -1"),
        ("club,carry,lateral\n\nspoon,130,1\n", r"row 3 \(the header is row 1\): club is \"spoon\""),
        ("club,carry,lateral,lie\n,,,\n7-iron,130,1,lava\n", r"row 3 \(the header is row 1\): lie is \"lava\""),
        ('club,carry,lateral,note\n7-iron,130,1,"a\nb"\n7-iron,x,2,\n', r"row 4 \(the header is row 1\): carry is 'x'"),
        ("\nclub,carry,lateral\n7-iron,130,1\n", "has nothing in row 1; it must be the header"),
        ("club,carry,carry,lateral\n7-iron,130,120,1\n", "'carry' and 'carry' are both carry; keep one"),
        ("club,Carry,carry_yd,lateral\n7-iron,130,120,1\n", "'Carry' and 'carry_yd' are both carry; keep one"),
        ("club,club,carry,lateral\n7-iron,8-iron,130,1\n", "'club' and 'club' are both club; keep one"),
        ("club,carry,lateral,lie,lie\n7-iron,130,1,,\n", "'lie' and 'lie' are both lie; keep one"),
        ("club,carry,lateral\n7-iron,130,1\n7-iron,x,2\n\n", r"row 3 \(the header is row 1\): carry is 'x'"),
        ("club,carry,lateral\n7-iron,,2\n", "carry is NaN"),
        ('club,carry,lateral\n"7-iron,130,2\n', "cannot be read"),
    ]:
        path.write_text(text, "utf-8")
        with pytest.raises(wb.InputError, match=words):
            fit(path)
    path.write_bytes(b"\xff\xfe\x00")
    with pytest.raises(wb.InputError, match=r"cannot be read: it is not UTF-8 text \(byte 0\)"):
        fit(path)


def test_columns_that_are_there_twice_are_refused():
    pandas = pytest.importorskip("pandas")
    frame = pandas.DataFrame(GOOD)
    for name in GOOD:
        with pytest.raises(wb.InputError, match=f"'{name}' and '{name}' are both {name}; keep one"):
            fit(pandas.concat([frame, frame[[name]]], axis=1))


def test_blank_lines_change_nothing(tmp_path):
    path = tmp_path / "shots.csv"
    rows = [",".join(map(str, row)) for row in zip(*GOOD.values(), strict=True)]
    path.write_text("\n\n,,\n".join(["club,carry,lateral", *rows]) + "\n\n", "utf-8")
    assert fit(path) == fit(GOOD)
    told = tmp_path / "outcomes.csv"
    told.write_text("club,finish,width\n\ndriver,short,30\n", "utf-8")
    with pytest.raises(wb.InputError, match=r"outcomes, row 3 \(the header is row 1\): finish is \"short\", which"):
        fit(None, outcomes=told)
    told.write_text("club,finish,width\n,,\ndriver,lost,30\n", "utf-8")
    with pytest.raises(wb.InputError, match=r"outcomes, row 3 \(the header is row 1\): finish is \"lost\""):
        fit(None, outcomes=told)


def test_other_refusals():
    with pytest.raises(wb.InputError, match='units is \'miles\'; it must be "yards", "metres" or "feet"'):
        fit(GOOD, units="miles")
    with pytest.raises(wb.InputError, match="says metres, but units is 'yards'"):
        fit({"club": ["7-iron"], "carry_m": [120], "lateral": [0]}, units="yards")
    told = {"club": ["driver"], "finish": ["lost"], "width": [30]}
    with pytest.raises(wb.InputError, match='finish is "lost"; it must be one of hit, left, right, short, long'):
        fit(None, outcomes=told)
    with pytest.raises(wb.InputError, match="outcomes: there is no column 'width'"):
        fit(None, outcomes={"club": ["driver"], "finish": ["hit"]})
    with pytest.raises(wb.InputError, match='figure is "length"; it must be one of carry,'):
        PRIOR.interval("driver", "length")
    with pytest.raises(wb.InputError, match="level is 1; it must be above 0 and below 1"):
        PRIOR.interval("driver", "carry", level=1)
    for n in (0, 1001, -1, 10**30):
        with pytest.raises(wb.InputError, match="must be 1 to 1000"):
            PRIOR.draws(n, seed=1)
    with pytest.raises(wb.InputError, match="spoon"):
        PRIOR.uncertainty("spoon")
    with pytest.raises(TypeError):
        wb.Player.from_shots(GOOD)


def test_doubts_are_warnings_at_the_call():
    with pytest.warns(UserWarning, match="7-iron: only 4 shots; its figures rest mostly on the level") as caught:
        fitted = wb.Player.from_shots(GOOD, prior=PRIOR)
    assert caught[0].filename == __file__ and list(fitted.doubts) == [str(w.message) for w in caught]
    clubs = [c.name for c in PRIOR.clubs[::3] for _ in range(6)]
    metres = [PRIOR.club(c).carry * 0.9144 + 3 * (i % 6) - 7 for i, c in enumerate(clubs)]
    shots = {"club": clubs, "carry": metres, "lateral": [4.0 * (i % 5) - 8 for i in range(len(clubs))]}
    with pytest.warns(UserWarning, match="as they would be in metres"):
        wb.Player.from_shots(shots, prior=PRIOR)
    assert not any("metres" in d for d in fit(shots, units="yards").doubts)
    assert PRIOR.doubts == []


# --- Travel


def test_uncertainty_travels_with_the_player():
    fitted = fit({k: v[:8] for k, v in iron(8)[0].items()})
    known = wb.Player.from_handicap(18, carries={"driver": 178})
    for player in (fitted, known):
        again = pickle.loads(pickle.dumps(player))
        assert again == player and again.uncertainty("7-iron") == player.uncertainty("7-iron")
        assert again.draws(5, seed=2) == player.draws(5, seed=2) and again.doubts == player.doubts
    assert all(np.array_equal(a, b) for a, b in zip(
        pickle.loads(pickle.dumps(fitted)).judged_shots().values(), fitted.judged_shots().values(), strict=True
    ))  # fmt: skip
    # The document holds the figures alone.
    assert wb.Player.from_json(fitted.to_json()) == fitted
    assert wb.Player.from_json(fitted.to_json()).uncertainty("7-iron").carry_weight < 0.15
    # In another player of this fit the known carry stands.
    assert {p.club("driver").carry for p in known.draws(20, seed=1)} == {178.0}


def test_the_table_of_an_uncertainty_reads_well():
    text = repr(fit(iron(30)[0]).uncertainty("7-iron"))
    assert text.startswith("7-iron: 30 shots (") and "mishit_share" in text and "weight" in text
    assert len(PRIOR.judged_shots()["carry"]) == 0
