//! Whole rounds of a course: what golfers keep count of, and which strokes the spread comes from.
use super::holes::Course;
use super::{deviation, mean, quantile};
use std::collections::BTreeMap;
use std::fmt;
use std::sync::Arc;
use wideberth::Run;
use wideberth::geometry::Point;
use wideberth::hole::{Hole, Surface};
use wideberth::noise::Seed;
use wideberth::plan::{Plan, Scene, Then};
use wideberth::player::{Lie, Player};
use wideberth::rank::{Length, Question, record};
use wideberth::shot::{Events, Stroke};
use wideberth::simulate::{Recording, Told};
use wideberth::solve::{Solving, Task};

/// The way rounds are played.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Way {
    /// Unadvised, with the habits of the player.
    Direct,
    /// Sensibly.
    Steady,
    /// The best that is found for every hole.
    Solved,
}

impl Way {
    fn on(self, scene: &Scene) -> Then {
        match self {
            Way::Direct => Then::Direct,
            Way::Steady => Then::Steady,
            Way::Solved => {
                let task = Task {
                    cell: 4.0,
                    ..Task::default()
                };
                let mut run = Solving::new(Arc::new(scene.clone()), task).expect("a task");
                while !run.is_finished() {
                    run.advance(1);
                }
                Then::Custom(Arc::new(run.solution().expect("a solution")))
            }
        }
    }
}

/// Counts in a round, by name; means over rounds.
#[derive(Clone, Debug, Default)]
pub(crate) struct Played {
    /// Scores of the rounds.
    pub(crate) scores: Vec<f64>,
    /// With no hole above net double bogey.
    pub(crate) adjusted: Vec<f64>,
    /// With the hole caps of the handicap system of 2016.
    pub(crate) capped: Vec<f64>,
    sums: BTreeMap<&'static str, f64>,
    /// Degrees by which tee shots of par 4 and 5 end off the line of play.
    pub(crate) directions: Vec<f64>,
    /// Variance of a round that strokes of a kind bring in.
    variance: BTreeMap<&'static str, f64>,
    /// Scores of holes to par, counted from three under on.
    to_par: [f64; 12],
    /// Putts of every round.
    pub(crate) putts: Vec<f64>,
}

/// Strokes expected from a kind of place on a hole: their sum and how many.
type Values = BTreeMap<(u8, u32), (f64, f64)>;

impl Played {
    /// Plays rounds; where their spread comes from is worked out only if it is to be `explained`.
    pub(crate) fn of(
        player: &Player,
        course: Course,
        length: f64,
        way: Way,
        rounds: u64,
        explained: bool,
    ) -> Self {
        let nothing = vec![0.0; rounds as usize];
        let mut all = Played {
            scores: nothing.clone(),
            adjusted: nothing.clone(),
            capped: nothing.clone(),
            putts: nothing,
            ..Played::default()
        };
        let handicap = player.handicap.unwrap_or(0.0);
        for (number, hole) in (0..).zip(course.holes(length)) {
            let par = f64::from(hole.par());
            let received = (handicap / 18.0 + 0.5).floor();
            let played = play(hole, player, way, 1_000 + number, rounds);
            for (i, play) in played.plays().iter().enumerate() {
                let score = f64::from(play.score);
                all.scores[i] += score;
                all.adjusted[i] += score.min(par + 2.0 + received);
                all.capped[i] += score.min(old_cap(handicap, par));
                all.putts[i] += f64::from(play.putts);
                all.add("three-putts", share(play.putts >= 3));
                all.add("penalties", f64::from(play.penalties));
                all.to_par[((score - par + 3.0) as usize).min(11)] += 1.0;
            }
            all.count(&played, hole_of(&played));
            if explained {
                all.spread(&played);
            }
        }
        for sum in all.sums.values_mut().chain(all.variance.values_mut()) {
            *sum /= rounds as f64;
        }
        all.to_par.iter_mut().for_each(|n| *n /= rounds as f64);
        all
    }

    /// A count in a round.
    pub(crate) fn each(&self, name: &str) -> f64 {
        self.sums.get(name).copied().unwrap_or(0.0)
    }

    /// Standard deviation of some capped rounds, read off the good days as if they were normal: off the best 3, 6 and 12 in a
    /// hundred. Whole strokes are spread evenly over half a stroke to either side.
    pub(crate) fn good_days(capped: &[f64]) -> f64 {
        let even = |i: usize| (i as f64 * 0.618_033_988_749_894_9).fract() - 0.5;
        let smooth: Vec<f64> = (0..)
            .zip(capped)
            .map(|(i, score)| score + even(i))
            .collect();
        let middle = quantile(&smooth, 0.5);
        let tails = [(0.03, 1.880_79), (0.06, 1.554_77), (0.12, 1.174_99)];
        let read = tails.map(|(share, away)| (middle - quantile(&smooth, share)) / away);
        read.iter().sum::<f64>() / 3.0
    }

    fn add(&mut self, name: &'static str, value: f64) {
        *self.sums.entry(name).or_default() += value;
    }

    fn count(&mut self, played: &Recording, hole: &Hole) {
        let pin = hole.pin();
        let mut on_green = BTreeMap::new();
        for row in played.strokes() {
            let told = &row.told;
            let outcome = &told.outcome;
            let far = (pin - told.from.at).norm();
            let is_green = told.from.lie == Lie::Green;
            if row.stroke == 1 && hole.par() > 3 {
                self.off_the_tee(told, hole);
            }
            if outcome.events.has(Events::MISHIT) && matches!(told.shot.stroke, Stroke::Swing(_)) {
                self.add("mishits with a club", 1.0);
            }
            if !is_green && far <= 60.0 {
                self.add("off the green inside 60", 1.0);
                self.add(zone(told.from.lie, far), 1.0);
                self.add("... on the green", share(ended_on_green(told)));
            }
            if told.from.lie == Lie::Trees {
                self.add("from trees", 1.0);
            }
            if told.from.lie == Lie::Bunker {
                self.add("from sand", 1.0);
            }
            if (60.0..100.0).contains(&far) && !is_green {
                self.add("from 60 to 100", 1.0);
            }
            if far < 100.0 {
                self.add("inside 100 yd", 1.0);
                self.add("inside 100 yd but 2.5 ft", share(far > 2.5 / 3.0));
            }
            if (100.0..160.0).contains(&far) && !is_green && told.from.lie != Lie::Trees {
                self.add("from 100 to 160", 1.0);
                if outcome.surface == Surface::Green {
                    self.add("... green hit", 1.0);
                } else {
                    let way = (pin - told.from.at) / far;
                    let past = (outcome.rest - pin).dot(&way);
                    let aside = (outcome.rest - pin).norm_squared() - past * past;
                    let kind = if past < -aside.max(0.0).sqrt() {
                        "... missed short"
                    } else if past > aside.max(0.0).sqrt() {
                        "... missed long"
                    } else {
                        "... missed aside"
                    };
                    self.add(kind, 1.0);
                }
            }
            let strokes = score_before(&mut on_green, row.play, told.penalty);
            if told.to.is_none_or(|to| to.lie == Lie::Green)
                && !is_green
                && strokes <= f64::from(hole.par()) - 2.0
            {
                self.add("greens in regulation", 1.0);
            }
        }
    }

    fn off_the_tee(&mut self, told: &Told, hole: &Hole) {
        let way = told.outcome.rest - told.from.at;
        let line = told.shot.target - told.from.at;
        let forward = line / line.norm();
        let (along, right) = (way.dot(&forward), way.x * forward.y - way.y * forward.x);
        self.directions
            .push(right.atan2(along.max(1.0)).to_degrees());
        self.add("tee shots", 1.0);
        let on = hole.surface_of(hole.feature_at(told.outcome.rest));
        self.add(
            "fairways",
            share(on == Surface::Fairway || on == Surface::Green),
        );
    }

    /// Adds to what each kind of stroke brings to the variance of a round: strokes left are a martingale, so the squares of
    /// its steps add up to the variance. What is left from a kind of place is estimated by the plays themselves.
    fn spread(&mut self, played: &Recording) {
        let pin = played.scene().hole().pin();
        let place = |at: Point, lie: Lie| {
            let far = (pin - at).norm();
            let step = if lie == Lie::Green { 12.0 } else { 7.0 };
            (lie as u8, ((far + 0.3).ln() * step).round().max(0.0) as u32)
        };
        let rows: Vec<_> = played.strokes().iter().collect();
        let scores = played.plays();
        let mut values = Values::new();
        let mut so_far = BTreeMap::new();
        for row in &rows {
            let before = so_far.entry(row.play).or_insert(0.0);
            let left = f64::from(scores[row.play as usize].score) - *before;
            let entry = values
                .entry(place(row.told.from.at, row.told.from.lie))
                .or_default();
            *entry = (entry.0 + left, entry.1 + 1.0);
            *before += 1.0 + f64::from(row.told.penalty);
        }
        let value = |at: Point, lie: Lie| values.get(&place(at, lie)).map(|v| v.0 / v.1);
        for row in rows {
            let told = &row.told;
            let from = value(told.from.at, told.from.lie);
            let to = match told.to {
                None => Some(0.0),
                Some(to) => value(to.at, to.lie),
            };
            if let (Some(from), Some(to)) = (from, to) {
                let step = 1.0 + f64::from(told.penalty) + to - from;
                let kind = kind(told, row.stroke == 1, (pin - told.from.at).norm());
                *self.variance.entry(kind).or_default() += step * step;
                if told.penalty > 0 {
                    *self
                        .variance
                        .entry("(of these with a penalty)")
                        .or_default() += step * step;
                }
                if told.outcome.events.has(Events::MISHIT) {
                    *self.variance.entry("(of these mishit)").or_default() += step * step;
                }
                if told.from.lie == Lie::Trees {
                    *self.variance.entry("(of these from trees)").or_default() += step * step;
                }
            }
        }
    }
}

fn score_before(so_far: &mut BTreeMap<u64, f64>, play: u64, penalty: u8) -> f64 {
    let score = so_far.entry(play).or_insert(0.0);
    *score += 1.0 + f64::from(penalty);
    *score
}

fn kind(told: &Told, tee: bool, far: f64) -> &'static str {
    match (told.from.lie, far) {
        (Lie::Green, f) if f < 2.0 => "putts under 6 ft",
        (Lie::Green, f) if f < 7.0 => "putts 6 to 20 ft",
        (Lie::Green, _) => "putts over 20 ft",
        _ if tee && far > 250.0 => "tee shots of par 4 and 5",
        (Lie::Bunker, f) if f <= 60.0 => "greenside sand",
        (_, f) if f <= 60.0 => "inside 60 yd",
        (_, f) if f <= 100.0 => "60 to 100 yd",
        (_, f) if f <= 200.0 => "100 to 200 yd",
        _ => "over 200 yd",
    }
}

/// The most that a hole counted by handicap before 2020 (USGA Handicap System Manual, section 4-3, from memory).
fn old_cap(handicap: f64, par: f64) -> f64 {
    match handicap {
        h if h < 9.5 => par + 2.0,
        h if h < 19.5 => 7.0,
        h if h < 29.5 => 8.0,
        h if h < 39.5 => 9.0,
        _ => 10.0,
    }
}

/// The parts that golfers' strokes near the green were counted by: with no name for it, a first cut is rough.
fn zone(lie: Lie, far: f64) -> &'static str {
    match (lie, far) {
        (Lie::Bunker, _) => "... from sand",
        (Lie::Fairway | Lie::Fringe | Lie::Tee, f) if f < 20.0 => "... fairway inside 20",
        (Lie::Fairway | Lie::Fringe | Lie::Tee, _) => "... fairway 20 to 60",
        (_, f) if f < 20.0 => "... rough inside 20",
        _ => "... rough 20 to 60",
    }
}

fn ended_on_green(told: &Told) -> bool {
    told.to.is_none_or(|to| to.lie == Lie::Green)
}

fn share(yes: bool) -> f64 {
    f64::from(u8::from(yes))
}

fn hole_of(played: &Recording) -> &Hole {
    played.scene().hole()
}

fn play(hole: Hole, player: &Player, way: Way, seed: u64, plays: u64) -> Recording {
    let scene = Scene::new(Arc::new(hole), Arc::new(player.prepare())).expect("a scene");
    let plan = Plan::new("the way", vec![], way.on(&scene)).expect("a plan");
    let mut question = Question::new(Seed(20_261_125 + seed));
    question.length = Length::Plays(plays);
    let mut recording = record(scene, &plan, &question).expect("a recording");
    recording.advance(plays);
    recording
}

impl fmt::Display for Played {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let sd = deviation(&self.directions);
        let away: Vec<f64> = self.directions.iter().map(|d| d.abs()).collect();
        writeln!(
            f,
            "score {:.2}, sd {:.2}, capped sd {:.2}, good days {:.2}",
            mean(&self.scores),
            deviation(&self.scores),
            deviation(&self.capped),
            Self::good_days(&self.capped)
        )?;
        writeln!(f, "putts {:.2}", mean(&self.putts))?;
        writeln!(
            f,
            "tee shots: sd {sd:.2} deg, two thirds within {:.2}, 95 % within {:.1}; fairways {:.2}",
            quantile(&away, 2.0 / 3.0),
            quantile(&away, 0.95),
            self.each("fairways") / self.each("tee shots")
        )?;
        for (name, value) in &self.sums {
            writeln!(f, "{name:<28}{value:>8.2}")?;
        }
        writeln!(f, "holes to par from -3: {:.2?}", self.to_par)?;
        writeln!(f, "variance of a round by kind of stroke:")?;
        for (name, value) in &self.variance {
            writeln!(f, "  {name:<28}{value:>8.2}")?;
        }
        Ok(())
    }
}
