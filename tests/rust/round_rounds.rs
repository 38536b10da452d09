//! Rounds: that they are the plays of their holes, add up, and come out the same however they are played; what a rating is.
use std::sync::Arc;
use wideberth::Run;
use wideberth::course::{Course, course_handicap, differential, handicap_index, strokes_received};
use wideberth::hole::{Bounds, Hazard, Hole, Sketch};
use wideberth::noise::Seed;
use wideberth::plan::{Plan, Scene, Then};
use wideberth::player::{Lie, Player, Reference};
use wideberth::rank::{Length, Question, record};
use wideberth::round::{Field, PlayedRounds, RatingRun, RoundFault, Rounds, Statistic, Way};
use wideberth::shot::Events;
use wideberth::stats::Estimate;

/// A course of so many holes: pars 4, 3 and 5 in turn, with sand, water and a boundary here and there.
fn course(holes: usize) -> Arc<Course> {
    let hole = |i: usize| {
        let (par, length) = [(4, 360.0), (3, 150.0), (5, 480.0)][i % 3];
        let sketch = Sketch {
            bunkers: vec![Hazard::new(length - 14.0, -12.0)],
            water: if i.is_multiple_of(2) {
                vec![Hazard::new(length - 40.0, 18.0)]
            } else {
                Vec::new()
            },
            out_of_bounds: (i % 3 == 2).then_some(Bounds::Left),
            ..Sketch::new(par, length + i as f64)
        };
        Arc::new(Hole::sketch(&sketch).expect("a hole"))
    };
    let holes = (0..holes).map(hole).collect();
    Arc::new(Course::new("Heron Links", holes, None).expect("a course"))
}

fn field(course: &Arc<Course>, handicap: f64) -> Field {
    let player = Player::from_handicap(handicap).expect("a player");
    Field::new(course.clone(), &Arc::new(player.prepare())).expect("a field")
}

fn play(course: &Arc<Course>, handicap: f64, rounds: u64, wave: u64) -> PlayedRounds {
    let mut run =
        Rounds::new(field(course, handicap), Way::Direct, Seed(7), rounds).expect("a run");
    while !run.is_finished() {
        run.advance(wave);
    }
    run.played()
}

#[test]
fn a_round_is_the_recorded_plays_of_its_holes() {
    // The same plays through the recorder, hole by hole under the seed of each place, counted by hand.
    let course = course(3);
    let played = play(&course, 18.0, 60, 60);
    let bag = Arc::new(Player::from_handicap(18.0).expect("a player").prepare());
    let (mut totals, mut putts, mut greens, mut penalties, mut fairways) =
        (vec![0_u64; 60], 0, 0, 0, 0);
    for (place, hole) in course.holes().iter().enumerate() {
        let scene = Scene::new(hole.clone(), bag.clone()).expect("a scene");
        let plan = Plan::new("direct", Vec::new(), Then::Direct).expect("a plan");
        let mut question = Question::new(Seed(7).part(place as u64));
        question.length = Length::Plays(60);
        let mut recording = record(scene, &plan, &question).expect("a recording");
        recording.advance(60);
        let scores = recording.plays().iter().map(|play| u64::from(play.score));
        assert_eq!(recording.mean_score(), scores.sum::<u64>() as f64 / 60.0);
        for (i, play) in recording.plays().iter().enumerate() {
            totals[i] += u64::from(play.score);
            putts += u64::from(play.putts);
            penalties += u64::from(play.penalties);
            let rows = recording
                .strokes()
                .iter()
                .filter(|row| row.play == i as u64);
            let mut strokes = 0;
            let mut on = false;
            for row in rows {
                let lies = |lie| row.told.to.is_none_or(|to| to.lie == lie);
                strokes += 1 + row.told.penalty;
                on |= lies(Lie::Green) && strokes + 2 <= hole.par();
                if row.stroke == 1 && hole.par() > 3 {
                    let clean = !row.told.outcome.events.has(Events::OUT_OF_BOUNDS)
                        && row.told.penalty == 0;
                    fairways += u64::from(clean && (lies(Lie::Fairway) || lies(Lie::Green)));
                }
            }
            greens += u64::from(on);
        }
    }
    let sum: u64 = totals.iter().sum();
    let mean = played.mean().0.mean;
    assert!((mean - sum as f64 / 60.0).abs() < 1e-12);
    for (total, rounds) in played.totals() {
        let same = totals.iter().filter(|&&t| t == u64::from(total)).count() as u64;
        assert_eq!(rounds, same, "{total}");
    }
    let shares: Vec<_> = played.distribution().collect();
    assert!(shares.iter().all(|&(total, share)| {
        share * 60.0 == totals.iter().filter(|&&t| t == u64::from(total)).count() as f64
    }));
    assert!(
        shares.is_sorted_by(|a, b| a.0 < b.0) && (played.over_par() - (mean - 12.0)).abs() < 1e-12
    );
    let a_round = |statistic| played.a_round(statistic).mean * 60.0;
    for (statistic, count) in [
        (Statistic::Putts, putts),
        (Statistic::Greens, greens),
        (Statistic::Penalties, penalties),
        (Statistic::Fairways, fairways),
    ] {
        assert!(
            (a_round(statistic) - count as f64).abs() < 1e-9,
            "{}",
            statistic.name()
        );
    }
    assert!((played.chances(Statistic::Fairways) - 2.0).abs() < 1e-12);
    assert!(played.chances(Statistic::Putts).is_nan());
}

#[test]
fn waves_and_threads_change_no_bit() {
    let course = course(4);
    let at_once = play(&course, 12.0, 300, 300);
    for wave in [1, 7, 64] {
        assert_eq!(play(&course, 12.0, 300, wave), at_once);
    }
    for threads in [1, 2, 3] {
        let pool = rayon::ThreadPoolBuilder::new()
            .num_threads(threads)
            .build()
            .expect("a pool");
        assert_eq!(pool.install(|| play(&course, 12.0, 300, 50)), at_once);
    }
}

#[test]
fn totals_are_the_convolution_of_the_holes() {
    // Holes have luck of their own, so shares of totals are those of sums of independent hole scores. 20,000 rounds, compared at every
    // total within 4.5 binomial errors: a false-alarm rate of 7e-6 for each of some 40 totals.
    let course = course(6);
    let played = play(&course, 18.0, 20_000, 20_000);
    let mut sums = vec![1.0];
    for place in 0..6 {
        let mut next = vec![0.0; sums.len() + 61];
        for (so_far, share) in sums.iter().enumerate() {
            for (score, of_score) in played.hole_scores(place) {
                next[so_far + usize::from(score)] += share * of_score;
            }
        }
        sums = next;
    }
    let mut up_to = 0.0;
    for (total, share) in sums.iter().enumerate().take(80) {
        up_to += share;
        let told = played.at_most(total as u16).mean;
        let error = (up_to * (1.0_f64 - up_to)).max(1e-5) / 20_000.0;
        assert!(
            (told - up_to).abs() < 4.5 * error.sqrt(),
            "{total}: {told} {up_to}"
        );
    }
    // And the spread: the variances of the holes add up.
    let (mean, deviation) = played.mean();
    let variance: f64 = played
        .holes()
        .iter()
        .map(|h| h.mean.standard_error.powi(2))
        .sum();
    assert!(
        (mean.standard_error / variance.sqrt() - 1.0).abs() < 0.03,
        "{deviation}"
    );
}

#[test]
fn statistics_fit_together() {
    let course = course(6);
    let played = play(&course, 18.0, 2_000, 500);
    let of = |statistic| played.a_round(statistic).mean;
    use Statistic as S;
    // Every stroke is a putt, from a zone, or a penalty.
    let zones = of(S::Beyond200) + of(S::From100) + of(S::From50) + of(S::Within50);
    assert!((zones + of(S::Putts) + of(S::Penalties) - played.mean().0.mean).abs() < 1e-9);
    let kinds = of(S::PenaltyAreas) + of(S::OutOfBounds) + of(S::Lost) + of(S::Unplayable);
    assert!((kinds - of(S::Penalties)).abs() < 1e-9 && of(S::PenaltyAreas) > 0.0);
    let holes = of(S::Birdies) + of(S::Pars) + of(S::Bogeys) + of(S::Doubles);
    assert!((holes - 6.0).abs() < 1e-9);
    let doubles: f64 = played.holes().iter().map(|h| h.double_or_worse.mean).sum();
    assert!((doubles - of(S::Doubles)).abs() < 1e-9);
    assert!((played.blow_up_causes().iter().sum::<f64>() - of(S::Doubles)).abs() < 1e-9);
    let par: f64 = played.holes().iter().map(|h| h.par_or_better.mean).sum();
    assert!((par - of(S::Birdies) - of(S::Pars)).abs() < 1e-9);
    assert!(of(S::SandSaves) <= of(S::UpAndDowns) && played.share(S::Greens).mean < 1.0);
}

#[test]
fn the_error_of_a_share_is_that_of_fresh_rounds() {
    // Up and downs have another number of chances in every round. 60 runs of 200 rounds: their spread must be the error told,
    // within 4 standard errors of a standard deviation of 60 (4 / sqrt(118) = 0.37, false-alarm rate 6e-5).
    let course = course(3);
    let field = field(&course, 18.0);
    let shares: Vec<_> = (0..60)
        .map(|seed| {
            let mut run =
                Rounds::new(field.clone(), Way::Direct, Seed(100 + seed), 200).expect("a run");
            run.advance(200);
            run.played().share(Statistic::UpAndDowns)
        })
        .collect();
    let mean = shares.iter().map(|s| s.mean).sum::<f64>() / 60.0;
    let spread = shares.iter().map(|s| (s.mean - mean).powi(2)).sum::<f64>() / 59.0;
    let told = shares.iter().map(|s| s.standard_error.powi(2)).sum::<f64>() / 60.0;
    assert!(
        ((spread / told).sqrt() - 1.0).abs() < 0.37,
        "{spread} {told}"
    );
}

#[test]
fn a_rating_is_the_better_half_and_its_index_the_handicap() {
    let course = course(18);
    let mut run = RatingRun::new(&course, Reference::Men, Seed(3), 1_500).expect("a run");
    while !run.is_finished() {
        run.advance(400);
    }
    let rating = run.rating();
    // By hand from the scratch golfer's totals.
    let mut run = Rounds::new(field(&course, 0.0), Way::Direct, Seed(3), 1_500).expect("a run");
    run.advance(1_500);
    let mut totals: Vec<u16> = run
        .played()
        .totals()
        .flat_map(|(total, rounds)| std::iter::repeat_n(total, rounds as usize))
        .collect();
    totals.truncate(750);
    let half = totals.iter().map(|&t| f64::from(t)).sum::<f64>() / 750.0;
    assert!((rating.found.scratch.mean - half).abs() < 1e-9);
    let slope = 5.381 * (rating.found.bogey.mean - half);
    assert!((rating.found.slope.mean - slope.clamp(55.0, 155.0)).abs() < 1e-9);
    let mut indexes = rating.stroke_indexes();
    indexes.sort_unstable();
    assert_eq!(indexes, (1..=18).collect::<Vec<u8>>());
    // What a handicap means: the bogey golfer's rounds make an index of about 20 (published: 17.5 to 22.4 is a bogey golfer).
    let index = play(&course, 20.0, 1_000, 500)
        .index(&rating)
        .expect("an index");
    assert!((17.5..=22.4).contains(&index.mean), "{index:?}");
    assert!(index.standard_error > 0.0 && index.standard_error < 0.5);
}

/// A hundred ratings of a hundred rounds each: slopes spread as their error says, within 28 % (four standard errors of a
/// spread, false-alarm rate 6e-5). Both golfers meet the same luck; were that forgotten, the error would be a third too large.
#[test]
fn slopes_spread_as_their_error_says() {
    let course = course(9);
    let slopes: Vec<Estimate> = (0..100)
        .map(|seed| {
            let mut run = RatingRun::new(&course, Reference::Men, Seed(seed), 100).expect("a run");
            while !run.is_finished() {
                run.advance(100);
            }
            run.rating().found.slope
        })
        .collect();
    let n = slopes.len() as f64;
    let mean = slopes.iter().map(|s| s.mean).sum::<f64>() / n;
    let squares = slopes.iter().map(|s| (s.mean - mean).powi(2)).sum::<f64>() / (n - 1.0);
    let said = slopes.iter().map(|s| s.standard_error.powi(2)).sum::<f64>() / n;
    let ratio = (squares / said).sqrt();
    assert!((0.72..1.28).contains(&ratio), "{ratio}");
}

/// A slope is that of eighteen holes, whatever the course has, and that of whose golfers rate it.
#[test]
fn a_slope_of_nine_holes_is_that_of_eighteen() {
    for (reference, handicap, a_stroke) in [
        (Reference::Men, 20.0, 5.381),
        (Reference::Women, 24.0, 4.24),
    ] {
        let course = course(9);
        let mut run = RatingRun::new(&course, reference, Seed(3), 300).expect("a run");
        while !run.is_finished() {
            run.advance(300);
        }
        let found = run.rating().found;
        let slope: f64 = 2.0 * a_stroke * (found.bogey.mean - found.scratch.mean);
        assert!(
            (found.slope.mean - slope.clamp(55.0, 155.0)).abs() < 1e-9,
            "{reference:?}"
        );
        assert!((56.0..154.0).contains(&found.slope.mean), "{reference:?}");
        let golfer = Player::from_reference(reference, handicap).expect("a player");
        let field = Field::new(course, &Arc::new(golfer.prepare())).expect("a field");
        let mut rounds = Rounds::new(field, Way::Direct, Seed(3), 300).expect("a run");
        rounds.advance(300);
        let better = rounds
            .played()
            .totals()
            .fold((0, 0), |(count, sum), (total, rounds)| {
                let taken = (150 - count).min(rounds);
                (count + taken, sum + taken * u64::from(total))
            });
        assert!(
            (found.bogey.mean - better.1 as f64 / 150.0).abs() < 1e-9,
            "{reference:?}"
        );
    }
}

/// The index of forty rounds by hand: scores are cut at net double bogey by the index itself (Rules of Handicapping 3.1), so it is
/// put in until it stays.
#[test]
fn an_index_is_made_of_adjusted_scores() {
    let course = course(18);
    let mut run = RatingRun::new(&course, Reference::Men, Seed(3), 300).expect("a run");
    while !run.is_finished() {
        run.advance(300);
    }
    let rating = run.rating();
    let played = play(&course, 30.0, 40, 40);
    let (scratch, slope) = (rating.found.scratch.mean, rating.found.slope.mean);
    let index_of = |most: &[i32]| -> f64 {
        let of_round = |round: &[u8]| -> f64 {
            let cut = round.iter().zip(most).map(|(&s, &m)| i32::from(s).min(m));
            differential(f64::from(cut.sum::<i32>()), scratch, slope)
        };
        let all: Vec<f64> = played.scores().chunks(18).map(of_round).collect();
        assert_eq!(all.len(), 40);
        let of_twenty = |twenty: &[f64]| handicap_index(twenty).expect("an index");
        (of_twenty(&all[..20]) + of_twenty(&all[20..])) / 2.0
    };
    let pars: Vec<u8> = course.holes().iter().map(|hole| hole.par()).collect();
    let mut index = index_of(
        &pars
            .iter()
            .map(|&par| i32::from(par) + 5)
            .collect::<Vec<_>>(),
    );
    for _ in 0..8 {
        let handicap = course_handicap(index, slope, scratch, f64::from(course.par())).round();
        let received = strokes_received(handicap as i32, &rating.stroke_indexes());
        let most = pars
            .iter()
            .zip(received)
            .map(|(&par, r)| i32::from(par) + 2 + r);
        index = index_of(&most.collect::<Vec<_>>());
    }
    let told = played.index(&rating).expect("an index").mean;
    assert!((told - index).abs() < 1e-9, "{told} {index}");
    // Cut scores make a lower index than whole ones.
    assert!(index < index_of(&[200; 18]));
}

#[test]
fn what_cannot_be_played_is_refused() {
    let course = course(2);
    let field = field(&course, 18.0);
    let refused = |rounds| Rounds::new(field.clone(), Way::Direct, Seed(1), rounds).err();
    assert!(matches!(
        refused(0),
        Some(RoundFault::Range { field: "plays", .. })
    ));
    assert!(refused(u64::MAX).is_some() && refused(1).is_none());
    let plan = Plan::new("one", Vec::new(), Then::Steady).expect("a plan");
    let one = Rounds::of_plans(field.clone(), &[plan], Seed(1), 10).err();
    assert_eq!(one, Some(RoundFault::Plans { given: 1, holes: 2 }));
    let played = play(&course, 18.0, 30, 30);
    let mut run = RatingRun::new(&course, Reference::Women, Seed(1), 2).expect("a run");
    run.advance(2);
    run.advance(2);
    assert_eq!(
        played.index(&run.rating()),
        Err(RoundFault::NotEighteen { holes: 2 })
    );
}
