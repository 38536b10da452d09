//! Players by level against the published figures that matter most, and the report on all of them.
use crate::common::calibration;
use calibration::report::{Row, rows};
use calibration::study::Study;
use calibration::targets::{Role, Target, all};
use calibration::{Measured, Who, mean, mean_of_lowest, measured};
use wideberth::player::{LevelFigures, Player, Reference};

const REPORT: &str = include_str!("../../docs/calibration.md");

/// Rounds of a course and strokes from a place.
const EFFORT: (u64, u64) = (240, 4_000);

/// The figures of some words in their names, measured anew.
#[track_caller]
fn found(words: &[&str]) -> Vec<Row> {
    let named = |t: &Target| {
        let name = format!("{}; {}", t.section, t.name());
        words.iter().all(|word| name.contains(word))
    };
    let targets: Vec<Target> = all().into_iter().filter(named).collect();
    assert!(!targets.is_empty(), "no figure of {words:?}");
    let study = Study::new(LevelFigures::FITTED, EFFORT.0, EFFORT.1);
    rows(&study, targets)
}

/// Passes rows that miss by no more than is allowed and 4.5 standard errors: a false alarm, were a miss right at what is
/// allowed, once in 300,000 rows.
#[track_caller]
fn near(words: &[&str], allowed: f64) {
    for row in found(words) {
        let most = allowed + 4.5 * row.found.error;
        let Measured { value, error } = row.found;
        assert!(
            row.miss().abs() <= most,
            "{}: {value:.3} +- {error:.3}, published {} ({}), allowed {allowed}",
            row.target.name(),
            row.target.want,
            row.target.source,
        );
    }
}

/// Published: Course Rating System, lengths of the reference golfers, played.
#[test]
fn reference_golfers_play_to_their_lengths() {
    near(&["Lengths of the reference golfers", "tee shot"], 3.0);
    near(&["Lengths of the reference golfers", "in two"], 6.0);
}

/// Published: Course Rating System. The better half of rounds of a course without obstacles comes near its length
/// ratings, and a stroke more goes with as many yards.
#[test]
fn rounds_come_near_the_length_ratings() {
    near(&["Better half", "man of 0: 6400"], 1.0);
    near(&["Better half", "man of 20: 6400"], 4.0);
    near(&["Better half", "man of 0: yards"], 15.0);
    near(&["Better half", "man of 20: yards"], 12.0);
}

/// By what a handicap means (Rules of Handicapping, published): the lowest 8 of 20 rounds are the rating and the handicap.
#[test]
fn handicaps_are_what_they_mean() {
    near(&["Lowest 8 of 20", "man of 9:"], 2.5);
    near(&["Lowest 8 of 20", "man of 27:"], 4.0);
}

/// On a course with ordinary obstacles golfers play to their handicaps (Rules of Handicapping, published), and bogey golfers
/// need as much more than scratch golfers as on a course of standard Slope Rating, or little less.
#[test]
fn golfers_play_to_their_handicaps_on_an_ordinary_course() {
    let played = |who| ["ordinary course", who, "handicap played to"];
    near(&played("man of 9:"), 1.5);
    near(&played("man of 17:"), 1.5);
    near(&played("man of 27:"), 2.0);
    near(&played("man of 36:"), 2.5);
    near(&["ordinary course", "better half over"], 2.0);
    near(&["ordinary course", "man of 17: score, 6400"], 2.0);
}

/// Published (Broadie; Riccio): off the tee and greens in regulation.
#[test]
fn rounds_look_as_golfers_rounds_do() {
    near(
        &["ordinary course", "man of 17: direction of tee shots"],
        0.8,
    );
    near(
        &["ordinary course", "professional: direction of tee shots"],
        0.4,
    );
    near(&["ordinary course", "man of 0: greens in regulation"], 1.3);
    near(&["ordinary course", "man of 17: greens in regulation"], 1.3);
    near(
        &[
            "ordinary course",
            "professional: standard deviation of rounds",
        ],
        0.35,
    );
}

/// Weaker golfers miss more fairways (Riccio, published: the fall with score is sure, the level is not). 240 rounds of 14 tee
/// shots: a share has a standard error below 0.01, two steps lie more than 4.5 of them apart.
#[test]
fn fairways_hit_fall_with_handicap() {
    let study = Study::new(LevelFigures::FITTED, EFFORT.0, EFFORT.1);
    let shares = [0.0, 9.0, 18.0, 27.0]
        .map(|h| study.answer(Who::Man(h), calibration::study::Asked::Fairways));
    assert!(
        shares.windows(3).all(|w| w[2].value < w[0].value - 0.03),
        "{shares:?}"
    );
}

/// Published (Broadie), from 150 yards of fairway.
#[test]
fn approaches_are_as_good_as_published() {
    near(&["150 yards", "man of 7.5: green hit"], 0.08);
    near(&["150 yards", "man of 17: green hit"], 0.04);
    near(&["150 yards", "man of 17: median"], 8.0);
    near(&["150 yards", "man of 17: centred short"], 3.5);
    near(&["150 yards", "man of 17: longer than wide"], 0.2);
    near(&["150 yards", "professional: green hit"], 0.11);
}

/// Published (Broadie): strokes from off the green inside 60 yards.
#[test]
fn short_games_are_as_good_as_published() {
    near(&["on the green in one from inside 60"], 0.05);
}

/// From memory (Broadie): strokes of a professional, whose holes have obstacles that ours have not.
#[test]
fn a_professional_needs_little_less_than_is_known() {
    near(
        &["Strokes of a tour professional", "140 yd of fairway"],
        0.1,
    );
    near(
        &["Strokes of a tour professional", "200 yd of fairway"],
        0.15,
    );
    near(
        &["Strokes of a tour professional", "420 yd from the tee"],
        0.12,
    );
}

/// Better players are better all along the scale, men and women. 240 rounds; steps are of 6 strokes and more, and a mean has
/// a standard error below 0.5.
#[test]
fn scores_rise_with_handicap() {
    let study = Study::new(LevelFigures::FITTED, EFFORT.0, EFFORT.1);
    let asked = calibration::study::Asked::Round(calibration::holes::Course::Plain, 6_000.0);
    for golfer in [Who::Man as fn(f64) -> Who, Who::Woman] {
        let scores =
            [0.0, 9.0, 18.0, 27.0, 36.0, 45.0, 54.0].map(|h| study.answer(golfer(h), asked));
        let rises = scores.windows(2).all(|w| w[1].value > w[0].value + 4.0);
        assert!(rises, "{scores:?}");
    }
    let professional = study.answer(Who::Professional, asked).value;
    assert!(professional < study.answer(Who::Man(0.0), asked).value - 2.0);
}

/// The figures make the players that are handed out.
#[test]
fn players_are_made_by_the_figures_in_use() {
    let figures = LevelFigures::FITTED;
    for handicap in [0.0, 13.5, 54.0] {
        assert_eq!(
            figures.player(Reference::Women, handicap),
            Player::from_reference(Reference::Women, handicap)
        );
        assert_eq!(
            figures.player(Reference::Men, handicap),
            Player::from_handicap(handicap)
        );
    }
    assert_eq!(figures.professional(), Player::professional());
    let refused = figures.player(Reference::Men, f64::NAN).map(|_| ());
    assert!(refused.is_err_and(|fault| fault.to_string() == "handicap is NaN; it must be 0 to 54"));
}

/// The report is of these figures and tells of every target, with its role and source; where it is stale,
/// `cargo run --release --example calibrate > docs/calibration.md` writes it anew.
#[test]
fn the_report_is_of_these_figures_and_targets() {
    let figures = format!("{:#?}", LevelFigures::FITTED);
    assert!(
        REPORT.contains(&figures),
        "other figures are in use: {figures}"
    );
    let rows = |line: &&str| {
        line.starts_with("| ") && !line.starts_with("| golfer") && !line.starts_with("| ---")
    };
    assert_eq!(REPORT.lines().filter(rows).count(), all().len());
    for target in all() {
        assert!(
            REPORT.contains(&format!("\n## {}\n", target.section)),
            "{}",
            target.section
        );
        let start = format!(
            "| {} | {:.d$} | ",
            target.name(),
            target.want,
            d = target.digits
        );
        let end = format!(" | {} | {} |", target.role.name(), target.source);
        let told = REPORT
            .lines()
            .any(|l| l.starts_with(&start) && l.ends_with(&end));
        assert!(told, "{start}...{end}");
    }
    for role in [Role::Set, Role::Fitted, Role::Checked] {
        assert!(all().iter().any(|t| t.role == role));
    }
}

/// A standard error from parts against the closed form: the mean of 20,000 even steps from 0 to 1, shuffled.
#[test]
fn standard_errors_are_those_of_the_closed_form() {
    let n = 20_000_u32;
    let values: Vec<f64> = (0..n)
        .map(|i| (f64::from(i) * 0.618_033_988_749_894_9 * 1e3).fract())
        .map(|u| if u < 0.5 { 0.0 } else { 1.0 })
        .collect();
    assert!((measured(&values, mean).value - 0.5).abs() < 0.01);
    assert!((mean_of_lowest(&values, 0.5)).abs() < 0.02);
    let luck: Vec<f64> = (0..20_000)
        .map(|play| {
            wideberth::noise::PlayNoise::new(wideberth::noise::Seed(4), play)
                .stroke(0)
                .depth
        })
        .collect();
    let Measured { value, error } = measured(&luck, mean);
    let exact = (1.0 / 20_000.0_f64).sqrt();
    assert!(value.abs() < 4.5 * exact);
    // Twenty parts know an error to a sixth of it: 4 of those.
    assert!((error / exact - 1.0).abs() < 0.65, "{error} {exact}");
}
