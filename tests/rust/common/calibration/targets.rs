//! The published figures, each with its source, and whether players were fitted to it.
use super::Who::{self, Man, Professional, Woman};
use super::holes::Course;
use super::study::Asked;
use super::tour::{FROM_FAIRWAY, FROM_TEE};
use wideberth::player::Lie;

/// What a published figure was used for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Role {
    /// Players are built to meet it.
    Set,
    /// It is among the figures that the least squares of the script are taken over.
    Fitted,
    /// Nothing was fitted to it here.
    Checked,
}

impl Role {
    pub(crate) fn name(self) -> &'static str {
        match self {
            Role::Set => "set",
            Role::Fitted => "fitted",
            Role::Checked => "checked",
        }
    }
}

/// A published figure.
#[derive(Clone, Debug)]
pub(crate) struct Target {
    pub(crate) section: &'static str,
    pub(crate) who: Who,
    pub(crate) what: String,
    pub(crate) asked: Asked,
    pub(crate) want: f64,
    /// How close the players should come: the scale of a miss in the fit and in the report.
    pub(crate) close: f64,
    pub(crate) digits: usize,
    pub(crate) role: Role,
    pub(crate) source: &'static str,
}

impl Target {
    pub(crate) fn name(&self) -> String {
        format!("{}: {}", self.who.name(), self.what)
    }
}

const RATING: &str = "Course Rating System, published";
const MANUAL: &str = "Course Rating System Manual 2020, 4-4, published";
const BROADIE: &str = "Broadie, published";
const TABLES: &str = "Broadie 2012/2014, from memory";
const LINE: &str = "Broadie 2008, published";
const BOGEY_LINE: &str = "bogey length rating, from memory";
const WOMEN_LINE: &str = "women's length ratings, from memory";
const INDEX: &str = "Rules of Handicapping: lowest 8 of 20, published";
const STANDARD: &str = "Rules of Handicapping: a Slope Rating of 113 is standard, published";
const DRIVES: &str = "distance report 2018, published";
const DIRECTION: &str = "Broadie 2014, published; 90-golfers from memory";
const RICCIO: &str = "Riccio 1990, published, by average score";
const RECORDED: &str = "club golfers' rounds as they recorded them, from memory";
const COLUMN: &str = "Broadie, a column, published";
const CORRIDORS: &str = "an architect's figures, published";
const TOUR_MAKES: &str = "2016-18 data in Gelman's case study, published";

/// Course lengths, yards.
const MEN: [f64; 3] = [5_800.0, 6_400.0, 7_000.0];
const WOMEN: [f64; 3] = [4_600.0, 5_200.0, 5_800.0];
/// A course from which scratch and bogey rating and the slope between them are read.
pub(crate) const MIDDLE: f64 = 6_400.0;

/// "150 yards" is five distances: clubs are ten yards apart, and a figure must not hang on one.
pub(crate) const ABOUT_150: [f64; 5] = [140.0, 145.0, 150.0, 155.0, 160.0];
const FROM_150_TO_200: [f64; 5] = [155.0, 165.0, 175.0, 185.0, 195.0];

struct List {
    section: &'static str,
    all: Vec<Target>,
}

impl List {
    #[expect(clippy::too_many_arguments, reason = "the columns of a table")]
    fn add(
        &mut self,
        who: Who,
        what: impl Into<String>,
        asked: Asked,
        want: f64,
        close: f64,
        digits: usize,
        role: Role,
        source: &'static str,
    ) {
        self.all.push(Target {
            section: self.section,
            who,
            what: what.into(),
            asked,
            want,
            close,
            digits,
            role,
            source,
        });
    }
}

/// Every published figure.
pub(crate) fn all() -> Vec<Target> {
    let mut list = List {
        section: "",
        all: Vec::new(),
    };
    lengths(&mut list);
    areas(&mut list);
    ratings(&mut list);
    handicaps(&mut list);
    ordinary(&mut list);
    approaches(&mut list);
    short_game(&mut list);
    trouble(&mut list);
    putting(&mut list);
    tour(&mut list);
    others(&mut list);
    list.all
}

fn lengths(list: &mut List) {
    list.section = "Lengths of the reference golfers, yards";
    for (who, tee, two) in [
        (Man(0.0), 250.0, 470.0),
        (Man(20.0), 200.0, 370.0),
        (Woman(0.0), 210.0, 400.0),
        (Woman(24.0), 150.0, 280.0),
    ] {
        list.add(
            who,
            "tee shot",
            Asked::TeeShot,
            tee,
            4.0,
            1,
            Role::Set,
            RATING,
        );
        list.add(
            who,
            "in two",
            Asked::TwoShots,
            two,
            8.0,
            1,
            Role::Set,
            RATING,
        );
    }
}

/// Areas that hold two thirds of the shots of 90, 110, 130, ... yards.
const AREAS: [(Who, &[(f64, f64)]); 4] = [
    (
        Man(0.0),
        &[
            (11.0, 14.0),
            (12.0, 15.0),
            (13.0, 15.0),
            (15.0, 16.0),
            (18.0, 17.0),
            (23.0, 18.0),
            (29.0, 19.0),
            (35.0, 20.0),
            (41.0, 21.0),
        ],
    ),
    (
        Man(20.0),
        &[
            (16.0, 19.0),
            (17.0, 21.0),
            (18.0, 23.0),
            (20.0, 25.0),
            (24.0, 28.0),
            (29.0, 34.0),
        ],
    ),
    (
        Woman(0.0),
        &[
            (12.0, 15.0),
            (14.0, 16.0),
            (17.0, 17.0),
            (20.0, 18.0),
            (26.0, 20.0),
            (30.0, 24.0),
            (34.0, 28.0),
        ],
    ),
    (
        Woman(24.0),
        &[(17.0, 22.0), (19.0, 24.0), (21.0, 27.0), (24.0, 30.0)],
    ),
];

fn areas(list: &mut List) {
    list.section = "Share of all shots of a length in the published area";
    for (who, rows) in AREAS {
        for (i, &area) in rows.iter().enumerate() {
            let length = 90.0 + 20.0 * i as f64;
            let what = format!("{length} yd, {} by {} yd", area.0, area.1);
            let asked = Asked::Inside(length, area);
            list.add(who, what, asked, 2.0 / 3.0, 0.25, 3, Role::Checked, MANUAL);
        }
    }
}

/// Length ratings of a course without obstacles: scratch and bogey.
fn rating(length: f64) -> (f64, f64) {
    (length / 220.0 + 40.9, length / 160.0 + 50.7)
}

/// Of three lengths of a course the middle one is fitted, the others are checked.
fn fitted_in_the_middle(length: f64) -> Role {
    if length == MIDDLE {
        Role::Fitted
    } else {
        Role::Checked
    }
}

fn ratings(list: &mut List) {
    list.section = "Better half of rounds on a course without obstacles";
    for length in MEN {
        let role = fitted_in_the_middle(length);
        let (scratch, bogey) = rating(length);
        let (asked, what) = (
            Asked::BetterHalf(Course::Plain, length),
            format!("{length} yd"),
        );
        list.add(Man(0.0), &what, asked, scratch, 1.0, 2, role, RATING);
        list.add(Man(20.0), what, asked, bogey, 2.0, 2, role, BOGEY_LINE);
    }
    let slope = Asked::YardsPerStroke(MEN[0], MEN[2]);
    let what = "yards for a stroke more";
    list.add(Man(0.0), what, slope, 220.0, 15.0, 0, Role::Checked, RATING);
    list.add(
        Man(20.0),
        what,
        slope,
        160.0,
        10.0,
        0,
        Role::Checked,
        RATING,
    );
    for length in WOMEN {
        let (asked, what) = (
            Asked::BetterHalf(Course::Plain, length),
            format!("{length} yd"),
        );
        let (scratch, bogey) = (length / 180.0 + 40.1, length / 120.0 + 51.3);
        let close = 2.0;
        list.add(
            Woman(0.0),
            &what,
            asked,
            scratch,
            close,
            2,
            Role::Checked,
            WOMEN_LINE,
        );
        list.add(
            Woman(24.0),
            what,
            asked,
            bogey,
            close,
            2,
            Role::Checked,
            WOMEN_LINE,
        );
    }
    let slope = Asked::YardsPerStroke(WOMEN[0], WOMEN[2]);
    list.add(
        Woman(0.0),
        what,
        slope,
        180.0,
        15.0,
        0,
        Role::Checked,
        WOMEN_LINE,
    );
    list.add(
        Woman(24.0),
        what,
        slope,
        120.0,
        10.0,
        0,
        Role::Checked,
        WOMEN_LINE,
    );
}

/// By what a handicap means: the lowest 8 of 20 rounds are, on average, the rating and the handicap stretched by the
/// Slope Rating over 113.
fn handicaps(list: &mut List) {
    list.section = "Lowest 8 of 20 rounds, 6400 yd without obstacles";
    let (scratch, bogey) = rating(MIDDLE);
    let slope = 5.381 * (bogey - scratch) / 113.0;
    for (handicap, role) in [
        (9.0, Role::Checked),
        (18.0, Role::Checked),
        (27.0, Role::Checked),
        (36.0, Role::Checked),
        (45.0, Role::Checked),
        (54.0, Role::Fitted),
    ] {
        let want = scratch + slope * handicap;
        let asked = Asked::LowestEight(Course::Plain, MIDDLE);
        list.add(Man(handicap), "score", asked, want, 2.0, 1, role, INDEX);
    }
}

/// What handicaps and ratings say of golfers on any course, asked of one with ordinary obstacles.
fn ordinary(list: &mut List) {
    list.section = "Rounds of an ordinary course";
    let course = Course::Ordinary;
    list.add(
        Man(20.0),
        "better half over that of a man of 0, 6400 yd",
        Asked::BogeyOverScratch(course, MIDDLE),
        113.0 / 5.381,
        2.0,
        1,
        Role::Fitted,
        STANDARD,
    );
    for handicap in [9.0, 17.0, 27.0, 36.0, 54.0] {
        list.add(
            Man(handicap),
            "handicap played to, 6400 yd",
            Asked::HandicapPlayed(course, MIDDLE),
            handicap,
            2.0,
            1,
            if handicap == 36.0 {
                Role::Fitted
            } else {
                Role::Checked
            },
            INDEX,
        );
    }
    for length in MEN {
        list.add(
            Man(17.0),
            format!("score, {length} yd"),
            Asked::Round(course, length),
            18.0 * 2.79 + 0.0066 * length,
            2.0,
            1,
            fitted_in_the_middle(length),
            LINE,
        );
    }
    spread(list);
    off_the_tee(list);
    greens(list);
    near_the_green(list);
}

/// The spread of rounds by index group, read off the good days, and a professional's.
fn spread(list: &mut List) {
    let source = "USGA Handicap System Manual, Appendix E, computed from it";
    for (handicap, want, role) in [
        (3.0, 2.7, Role::Checked),
        (9.5, 2.9, Role::Checked),
        (17.0, 3.1, Role::Fitted),
        (26.5, 3.8, Role::Fitted),
        (36.0, 4.7, Role::Checked),
    ] {
        let what = "standard deviation of good days";
        let asked = Asked::GoodDays;
        list.add(Man(handicap), what, asked, want, 0.35, 2, role, source);
    }
    let what = "standard deviation of rounds, 7000 yd";
    let asked = Asked::RoundSpread;
    list.add(
        Professional,
        what,
        asked,
        2.75,
        0.25,
        2,
        Role::Checked,
        "from memory",
    );
}

fn off_the_tee(list: &mut List) {
    let what = "direction of tee shots, degrees";
    for (who, want, close, role) in [
        (Professional, 3.4, 0.3, Role::Fitted),
        (Man(7.5), 5.5, 1.0, Role::Checked),
        (Man(17.0), 6.5, 0.7, Role::Fitted),
        (Man(27.0), 8.0, 1.2, Role::Checked),
    ] {
        list.add(
            who,
            what,
            Asked::TeeDirection,
            want,
            close,
            2,
            role,
            DIRECTION,
        );
    }
    // By average score the level is doubtful, so wide; the fall with score is not.
    for (handicap, want, close, role, source) in [
        (0.0, 0.72, 0.2, Role::Checked, RICCIO),
        (8.0, 0.58, 0.2, Role::Checked, RICCIO),
        (17.0, 0.34, 0.2, Role::Checked, RICCIO),
        (0.0, 0.61, 0.05, Role::Fitted, RECORDED),
        (9.0, 0.53, 0.05, Role::Fitted, RECORDED),
        (18.0, 0.47, 0.05, Role::Fitted, RECORDED),
        (27.0, 0.42, 0.05, Role::Checked, RECORDED),
    ] {
        let (what, asked) = ("fairways hit", Asked::Fairways);
        list.add(Man(handicap), what, asked, want, close, 2, role, source);
    }
}

fn greens(list: &mut List) {
    let name = "greens in regulation";
    for (handicap, want, close, role) in [
        (0.0, 10.5, 1.2, Role::Fitted),
        (4.0, 8.8, 1.2, Role::Checked),
        (8.0, 7.2, 1.2, Role::Fitted),
        (12.0, 5.2, 1.2, Role::Checked),
        (17.0, 2.8, 1.2, Role::Fitted),
    ] {
        let asked = Asked::InARound(name);
        list.add(Man(handicap), name, asked, want, close, 1, role, RICCIO);
    }
}

fn near_the_green(list: &mut List) {
    for (what, name, want, close) in [
        (
            "strokes off the green inside 60 yd",
            "off the green inside 60",
            13.0,
            1.5,
        ),
        (
            "... from rough, 20 to 60 yd",
            "... rough 20 to 60",
            3.9,
            1.2,
        ),
        (
            "... from rough, inside 20 yd",
            "... rough inside 20",
            3.3,
            1.2,
        ),
        ("... from sand", "... from sand", 2.6, 0.8),
        (
            "... from fairway, 20 to 60 yd",
            "... fairway 20 to 60",
            2.4,
            1.2,
        ),
        (
            "... from fairway, inside 20 yd",
            "... fairway inside 20",
            1.1,
            1.2,
        ),
        ("strokes from 60 to 100 yd", "from 60 to 100", 3.2, 1.0),
    ] {
        let asked = Asked::InARound(name);
        list.add(
            Man(17.0),
            what,
            asked,
            want,
            close,
            1,
            Role::Checked,
            COLUMN,
        );
    }
    list.add(
        Man(17.0),
        "putts",
        Asked::PuttsPerRound,
        33.0,
        1.0,
        1,
        Role::Checked,
        BROADIE,
    );
}

fn approaches(list: &mut List) {
    use Role::{Checked, Fitted};
    list.section = "From 150 yards of fairway";
    let (fairway, tee) = (Lie::Fairway, Lie::Tee);
    let hit = Asked::GreenHit(fairway, &ABOUT_150);
    let left = Asked::MedianLeft(fairway, &ABOUT_150);
    let (what, feet) = ("green hit", "median left, feet");
    list.add(Professional, what, hit, 0.745, 0.04, 3, Fitted, BROADIE);
    list.add(Professional, feet, left, 23.0, 3.0, 1, Fitted, BROADIE);
    list.add(Man(7.5), what, hit, 0.50, 0.04, 3, Fitted, BROADIE);
    list.add(Man(7.5), feet, left, 40.0, 4.0, 1, Fitted, BROADIE);
    list.add(Man(17.0), what, hit, 0.325, 0.03, 3, Fitted, BROADIE);
    list.add(Man(17.0), feet, left, 57.0, 4.0, 1, Fitted, BROADIE);
    let short = Asked::Short(fairway, &ABOUT_150);
    let long = Asked::LongerThanWide(fairway, &ABOUT_150);
    list.add(
        Man(17.0),
        "centred short, yards",
        short,
        13.0,
        3.0,
        1,
        Fitted,
        BROADIE,
    );
    list.add(
        Man(17.0),
        "longer than wide, times",
        long,
        1.5,
        0.15,
        2,
        Fitted,
        BROADIE,
    );
    let round = Asked::LongerThanWide(tee, &ABOUT_150);
    list.add(
        Man(17.0),
        "the same from a tee",
        round,
        1.0,
        0.3,
        2,
        Checked,
        BROADIE,
    );
    let hit = Asked::GreenHit(fairway, &FROM_150_TO_200);
    let what = "green hit from 150 to 200 yd";
    list.add(Professional, what, hit, 0.71, 0.05, 3, Checked, BROADIE);
    list.add(Man(15.0), what, hit, 0.22, 0.04, 3, Checked, BROADIE);
    let over = Asked::Over(fairway, &ABOUT_150);
    let manual = "Course Rating System Manual, 8-9, published: fewer than 10 %";
    list.add(
        Man(0.0),
        "over the green",
        over,
        0.05,
        0.05,
        3,
        Checked,
        manual,
    );
    list.add(
        Man(20.0),
        "over the green",
        over,
        0.05,
        0.05,
        3,
        Checked,
        manual,
    );
}

fn short_game(list: &mut List) {
    list.section = "Around the green";
    let what = "on the green in one from inside 60 yd";
    for (who, want) in [
        (Professional, 0.94),
        (Man(7.5), 0.87),
        (Man(17.0), 0.80),
        (Man(27.0), 0.73),
    ] {
        list.add(
            who,
            what,
            Asked::ShortGame,
            want,
            0.03,
            3,
            Role::Fitted,
            BROADIE,
        );
    }
    for (yards, want) in [(40.0, 0.45), (100.0, 0.30)] {
        let what = format!("up and down from {yards} yd of fairway");
        let asked = Asked::UpAndDown(yards);
        list.add(
            Professional,
            what,
            asked,
            want,
            0.05,
            3,
            Role::Checked,
            BROADIE,
        );
    }
    for (lie, yards, want) in [
        (Lie::Rough, 20.0, 2.59),
        (Lie::Rough, 40.0, 2.78),
        (Lie::Bunker, 20.0, 2.53),
        (Lie::Bunker, 40.0, 2.82),
        (Lie::Bunker, 60.0, 3.15),
        (Lie::Bunker, 80.0, 3.24),
        (Lie::Bunker, 100.0, 3.23),
        (Lie::Bunker, 140.0, 3.22),
        (Lie::Bunker, 180.0, 3.40),
        (Lie::Bunker, 220.0, 3.70),
    ] {
        let what = format!("strokes from {yards} yd of {}", lie.name());
        let asked = Asked::ToHoleOut(lie, yards);
        list.add(
            Professional,
            what,
            asked,
            want,
            0.1,
            2,
            Role::Checked,
            TABLES,
        );
    }
}

/// Out of the woods, and sand against rough.
fn trouble(list: &mut List) {
    list.section = "Trouble";
    for (yards, want) in [(100.0, 3.80), (140.0, 3.80), (180.0, 3.82), (220.0, 3.92)] {
        let what = format!("strokes from the edge of a wood, {yards} yd out");
        let asked = Asked::ToHoleOut(Lie::Trees, yards);
        let role = Role::Checked;
        list.add(Professional, what, asked, want, 0.25, 2, role, TABLES);
    }
    for (handicap, want) in [(0.0, 0.0), (17.0, 0.15), (27.0, 0.25)] {
        for yards in [10.0, 20.0] {
            let what = format!("sand over rough, {yards} yd, strokes");
            let asked = Asked::SandOverRough(yards);
            let source = "sand is the harder for club golfers, common practice, no source";
            list.add(
                Man(handicap),
                what,
                asked,
                want,
                0.15,
                2,
                Role::Checked,
                source,
            );
        }
    }
}

/// Putting is fitted by `fit_putting`; here it is only looked at again.
fn putting(list: &mut List) {
    use Role::Checked;
    list.section = "Putting";
    for (ft, want) in [
        (2.92, 0.963),
        (4.94, 0.766),
        (7.95, 0.499),
        (9.95, 0.386),
        (14.43, 0.238),
        (20.44, 0.145),
        (28.40, 0.078),
        (40.37, 0.041),
    ] {
        let what = format!("makes from {ft} ft");
        list.add(
            Professional,
            what,
            Asked::Makes(ft),
            want,
            0.01,
            3,
            Checked,
            TOUR_MAKES,
        );
    }
    for (ft, want) in [(20.0, 0.02), (32.0, 0.06), (40.0, 0.10)] {
        let what = format!("three putts from {ft} ft");
        list.add(
            Professional,
            what,
            Asked::ThreePutts(ft),
            want,
            0.02,
            3,
            Checked,
            BROADIE,
        );
    }
    for (who, ft, want) in [
        (Man(4.5), 6.0, 0.50),
        (Man(17.0), 3.0, 0.84),
        (Man(17.0), 5.0, 0.50),
        (Man(17.0), 8.0, 0.26),
    ] {
        let what = format!("makes from {ft} ft");
        list.add(who, what, Asked::Makes(ft), want, 0.04, 3, Checked, BROADIE);
    }
    for (who, ft) in [(Professional, 33.0), (Man(17.0), 19.0)] {
        let what = format!("putts from {ft} ft");
        list.add(who, what, Asked::Putts(ft), 2.0, 0.04, 2, Checked, BROADIE);
    }
    for (who, want) in [(Professional, 0.07), (Man(7.5), 0.12), (Man(17.0), 0.17)] {
        let what = "left short from 10 ft";
        list.add(
            who,
            what,
            Asked::LeftShort(10.0),
            want,
            0.03,
            3,
            Checked,
            BROADIE,
        );
    }
}

fn tour(list: &mut List) {
    list.section = "Strokes of a tour professional by distance";
    for (length, want) in FROM_TEE {
        let what = format!("{length} yd from the tee");
        list.add(
            Professional,
            what,
            Asked::Hole(length),
            want,
            0.15,
            2,
            Role::Fitted,
            TABLES,
        );
    }
    for (yards, want) in FROM_FAIRWAY {
        let what = format!("{yards} yd of fairway");
        let asked = Asked::ToHoleOut(Lie::Fairway, yards);
        list.add(
            Professional,
            what,
            asked,
            want,
            0.15,
            2,
            Role::Fitted,
            TABLES,
        );
    }
    for (yards, want) in [(100.0, 3.02), (140.0, 3.15), (180.0, 3.31)] {
        let what = format!("{yards} yd of rough");
        let asked = Asked::ToHoleOut(Lie::Rough, yards);
        let source = "Broadie 2012, from memory: 0.2 more than the fairway";
        list.add(
            Professional,
            what,
            asked,
            want,
            0.15,
            2,
            Role::Checked,
            source,
        );
    }
}

fn others(list: &mut List) {
    use Role::{Checked, Fitted};
    list.section = "Other figures";
    for (handicap, want) in [(3.0, 240.0), (9.0, 220.0), (16.5, 204.0), (27.0, 187.0)] {
        list.add(
            Man(handicap),
            "tee shot",
            Asked::TeeShot,
            want,
            6.0,
            1,
            Checked,
            DRIVES,
        );
    }
    for (handicap, want) in [
        (3.0, 196.0),
        (9.0, 178.0),
        (16.5, 153.0),
        (24.5, 138.0),
        (36.0, 118.0),
    ] {
        list.add(
            Woman(handicap),
            "tee shot",
            Asked::TeeShot,
            want,
            12.0,
            1,
            Checked,
            DRIVES,
        );
    }
    // "Weaker players", and for the wider ones "the weakest class", taken to be the weakest of the index groups.
    let corridors = [
        (27.0, 35.0, 0.67),
        (36.0, 63.0, 0.75),
        (36.0, 75.0, 0.80),
        (36.0, 86.0, 0.90),
    ];
    for (handicap, width, want) in corridors {
        let what = format!("tee shots within {width} yd");
        list.add(
            Man(handicap),
            what,
            Asked::Corridor(width),
            want,
            0.07,
            2,
            Fitted,
            CORRIDORS,
        );
    }
}
