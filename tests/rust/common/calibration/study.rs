//! Golfers at play: what is asked of them, and the answers by simulation at fixed seeds.
use super::holes::{CLUB_GREEN, Course, PINS, TOUR_GREEN, beside, in_a_wood, level, meadow, tour};
use super::putts::{ALL_ROUND, Putts, played};
use super::rounds::{Played, Way};
use super::targets::MIDDLE;
use super::{Measured, Who, deviation, mean, mean_of_lowest, measured, quantile, swings};
use std::cell::RefCell;
use std::collections::BTreeMap;
use std::rc::Rc;
use std::sync::Arc;
use wideberth::Run;
use wideberth::around::{Around, AroundRanking};
use wideberth::geometry::Point;
use wideberth::hole::{Hole, Surface};
use wideberth::noise::{Noise, PlayNoise, Seed};
use wideberth::plan::{Plan, Scene, Then};
use wideberth::player::{LevelFigures, Lie, Player};
use wideberth::putting::Green;
use wideberth::rank::{Length, Question, record};
use wideberth::simulate::Recording;
use wideberth::situation::Situation;

/// A question about a golfer.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Asked {
    /// Mean length of a tee shot with the longest club on a level fairway, yards.
    TeeShot,
    /// Mean length of that and the longest stroke off the fairway together, yards.
    TwoShots,
    /// Share of the shots of a length that end in an area (width and depth, yards) around where solid ones do.
    Inside(f64, (f64, f64)),
    /// Share of tee shots within half of a width of the line of play.
    Corridor(f64),
    /// Mean of the better half of rounds of a course of a length.
    BetterHalf(Course, f64),
    /// Mean of the lowest 8 in 20 rounds of it.
    LowestEight(Course, f64),
    /// Mean of all rounds of it.
    Round(Course, f64),
    /// Yards of plain courses, from one length to another, for each stroke more in the better half of rounds.
    YardsPerStroke(f64, f64),
    /// By how much a man of 20 has a higher mean of the better half of rounds of a course than a man of 0.
    BogeyOverScratch(Course, f64),
    /// The handicap that the lowest 8 in 20 rounds come to by the ratings that men of 0 and 20 give the course.
    HandicapPlayed(Course, f64),
    /// Putts in a round of the ordinary course.
    PuttsPerRound,
    /// How often something happens in a round of the ordinary course.
    InARound(&'static str),
    /// Fairways hit in a round of it, as a share.
    Fairways,
    /// Standard deviation of the direction of tee shots of par 4 and 5 on it, degrees.
    TeeDirection,
    /// Standard deviation of rounds of it.
    RoundSpread,
    /// The same read off the good days, of differentials (113 over the Slope Rating times the score).
    GoodDays,
    /// Share of strokes at the pin from a lie and distances that finish on the green.
    GreenHit(Lie, &'static [f64]),
    /// Median feet that they leave.
    MedianLeft(Lie, &'static [f64]),
    /// Yards by which they finish short on average: where the pattern is centred.
    Short(Lie, &'static [f64]),
    /// Standard deviation in depth over that across.
    LongerThanWide(Lie, &'static [f64]),
    /// Share that finishes beyond the green.
    Over(Lie, &'static [f64]),
    /// Strokes to hole out from a lie and a distance, in yards.
    ToHoleOut(Lie, f64),
    /// Strokes from sand more than from rough, so many yards from the pin.
    SandOverRough(f64),
    /// Strokes of a hole of a length.
    Hole(f64),
    /// Share of holes finished in two strokes or fewer from so many yards of fairway.
    UpAndDown(f64),
    /// Share of strokes from off the green inside 60 yards that finish on it.
    ShortGame,
    /// Share of putts from so many feet that are holed.
    Makes(f64),
    /// Mean putts from so many feet.
    Putts(f64),
    /// Share of three putts or more.
    ThreePutts(f64),
    /// Share of putts that end short.
    LeftShort(f64),
}

/// Golfers made by some figures, with how much is played to answer a question.
pub(crate) struct Study {
    figures: LevelFigures,
    /// Rounds of a course.
    rounds: u64,
    /// Strokes from one place.
    strokes: u64,
    known: RefCell<BTreeMap<String, Rc<Played>>>,
}

impl Study {
    pub(crate) fn new(figures: LevelFigures, rounds: u64, strokes: u64) -> Self {
        Study {
            figures,
            rounds,
            strokes,
            known: RefCell::default(),
        }
    }

    /// The answer to a question about a golfer.
    pub(crate) fn answer(&self, who: Who, asked: Asked) -> Measured {
        let player = who.player(&self.figures).expect("a player");
        match asked {
            Asked::TeeShot => measured(&self.tee_shots(&player), mean),
            Asked::TwoShots => {
                let (tee, wood) = (self.tee_shots(&player), self.fairway_shots(&player));
                let both: Vec<f64> = tee.iter().zip(&wood).map(|(a, b)| a + b).collect();
                measured(&both, mean)
            }
            Asked::Inside(length, area) => {
                swings::inside(&self.figures, who, length, area, self.strokes)
            }
            Asked::Corridor(width) => self.corridor(&player, width),
            Asked::BetterHalf(course, length) => self.better_half(who, course, length),
            Asked::LowestEight(course, length) => self.lowest_eight(who, course, length),
            Asked::Round(course, length) => {
                measured(&self.rounds(who, course, length).scores, mean)
            }
            Asked::YardsPerStroke(from, to) => self.slope(who, from, to),
            Asked::BogeyOverScratch(course, length) => self.bogey_over_scratch(course, length),
            Asked::HandicapPlayed(course, length) => self.handicap_played(who, course, length),
            Asked::PuttsPerRound => measured(&self.ordinary(who).putts, mean),
            Asked::InARound(name) => self.in_a_round(who, name),
            Asked::Fairways => {
                let value =
                    self.ordinary(who).each("fairways") / self.ordinary(who).each("tee shots");
                let shots = 14.0 * self.rounds as f64;
                Measured {
                    value,
                    error: (value * (1.0 - value) / shots).sqrt(),
                }
            }
            Asked::TeeDirection => measured(&self.ordinary(who).directions, deviation),
            Asked::RoundSpread => measured(&self.ordinary(who).scores, deviation),
            Asked::GoodDays => {
                let bogey = self.bogey_over_scratch(Course::Ordinary, MIDDLE).value;
                let days = measured(&self.ordinary(who).capped, Played::good_days);
                let scale = 113.0 / (5.381 * bogey);
                Measured {
                    value: scale * days.value,
                    error: scale * days.error,
                }
            }
            Asked::GreenHit(lie, from) => self.approach(&player, lie, from, |ends| {
                mean(&ends.iter().map(|e| share(e.on)).collect::<Vec<_>>())
            }),
            Asked::MedianLeft(lie, from) => self.approach(&player, lie, from, |ends| {
                let left: Vec<f64> = ends.iter().map(|e| 3.0 * e.right.hypot(e.past)).collect();
                quantile(&left, 0.5)
            }),
            Asked::Short(lie, from) => self.approach(&player, lie, from, |ends| {
                -mean(&ends.iter().map(|e| e.past).collect::<Vec<_>>())
            }),
            Asked::LongerThanWide(lie, from) => self.approach(&player, lie, from, |ends| {
                let past: Vec<f64> = ends.iter().map(|e| e.past).collect();
                let right: Vec<f64> = ends.iter().map(|e| e.right).collect();
                deviation(&past) / deviation(&right)
            }),
            Asked::Over(lie, from) => self.approach(&player, lie, from, |ends| {
                let over = |e: &End| share(!e.on && e.past > 0.0 && e.right.abs() < e.past);
                mean(&ends.iter().map(over).collect::<Vec<_>>())
            }),
            Asked::ToHoleOut(lie, yards) => self.to_hole_out(who, &player, lie, yards),
            Asked::SandOverRough(yards) => {
                let from = |lie| self.to_hole_out(who, &player, lie, yards);
                let (sand, rough) = (from(Lie::Bunker), from(Lie::Rough));
                Measured {
                    value: sand.value - rough.value,
                    error: sand.error.hypot(rough.error),
                }
            }
            Asked::Hole(length) => self.hole(who, &player, length),
            Asked::UpAndDown(yards) => self.up_and_down(who, &player, yards),
            Asked::ShortGame => self.short_game(&player),
            Asked::Makes(ft) => self.putts(who, &player, ft, |p| p.makes),
            Asked::Putts(ft) => {
                let putts = self.putts(who, &player, ft, |p| p.mean);
                let error = 0.5 / (self.strokes as f64).sqrt();
                Measured { error, ..putts }
            }
            Asked::ThreePutts(ft) => self.putts(who, &player, ft, |p| p.three),
            Asked::LeftShort(ft) => self.putts(who, &player, ft, |p| p.short),
        }
    }

    fn better_half(&self, who: Who, course: Course, length: f64) -> Measured {
        let rounds = self.rounds(who, course, length);
        measured(&rounds.scores, |s| mean_of_lowest(s, 0.5))
    }

    fn lowest_eight(&self, who: Who, course: Course, length: f64) -> Measured {
        let rounds = self.rounds(who, course, length);
        measured(&rounds.scores, |s| mean_of_lowest(s, 0.4))
    }

    fn slope(&self, who: Who, from: f64, to: f64) -> Measured {
        let at = |length| self.better_half(who, Course::Plain, length);
        let (near, far) = (at(from), at(to));
        let strokes = far.value - near.value;
        let value = (to - from) / strokes;
        Measured {
            value,
            error: value * near.error.hypot(far.error) / strokes,
        }
    }

    fn bogey_over_scratch(&self, course: Course, length: f64) -> Measured {
        let [scratch, bogey] =
            [0.0, 20.0].map(|handicap| self.better_half(Who::Man(handicap), course, length));
        Measured {
            value: bogey.value - scratch.value,
            error: bogey.error.hypot(scratch.error),
        }
    }

    /// A score less the rating, over the Slope Rating of 5.381 for each stroke between bogey and scratch rating, times 113.
    /// A hole counts no more than net double bogey (Rules of Handicapping 3.1), strokes received shared out evenly.
    fn handicap_played(&self, who: Who, course: Course, length: f64) -> Measured {
        let rating = self.better_half(Who::Man(0.0), course, length);
        let between = self.bogey_over_scratch(course, length);
        let rounds = self.rounds(who, course, length);
        let played = measured(&rounds.adjusted, |s| mean_of_lowest(s, 0.4));
        let scale = 113.0 / (5.381 * between.value);
        let value = scale * (played.value - rating.value);
        let errors = [
            scale * played.error,
            scale * rating.error,
            value * between.error / between.value,
        ];
        Measured {
            value,
            error: errors.iter().map(|e| e * e).sum::<f64>().sqrt(),
        }
    }

    fn rounds(&self, who: Who, course: Course, length: f64) -> Rc<Played> {
        let key = format!("{who:?} {course:?} {length}");
        if let Some(rounds) = self.known.borrow().get(&key) {
            return rounds.clone();
        }
        let player = who.player(&self.figures).expect("a player");
        let played = Played::of(&player, course, length, Way::Direct, self.rounds, false);
        let rounds = Rc::new(played);
        self.known.borrow_mut().insert(key, rounds.clone());
        rounds
    }

    /// Rounds of the ordinary course at its middle length; a professional's at 7,000 yards.
    fn ordinary(&self, who: Who) -> Rc<Played> {
        let length = match who {
            Who::Professional => 7_000.0,
            Who::Man(_) => MIDDLE,
            Who::Woman(_) => 5_200.0,
        };
        self.rounds(who, Course::Ordinary, length)
    }

    fn in_a_round(&self, who: Who, name: &'static str) -> Measured {
        let value = self.ordinary(who).each(name);
        // Counts in a round scatter about as a Poisson law has it.
        Measured {
            value,
            error: (value / self.rounds as f64).sqrt(),
        }
    }

    /// Plays of a hole at the pin, from the tee or from elsewhere.
    fn record(
        &self,
        hole: Hole,
        player: &Player,
        from: Option<Situation>,
        seed: u64,
        plays: u64,
    ) -> Recording {
        let scene = Scene::new(Arc::new(hole), Arc::new(player.prepare())).expect("a scene");
        let plan = Plan::new("at the pin", vec![], Then::Direct).expect("a plan");
        let mut question = Question::new(Seed(20_261_125 + seed));
        question.length = Length::Plays(plays);
        question.start = from;
        let mut recording = record(scene, &plan, &question).expect("a recording");
        recording.advance(plays);
        recording
    }

    /// How far tee shots go.
    fn tee_shots(&self, player: &Player) -> Vec<f64> {
        let played = self.record(meadow(), player, None, 1, self.strokes);
        let firsts = played.strokes().iter().filter(|row| row.stroke == 1);
        firsts.map(|row| row.told.outcome.rest.y).collect()
    }

    /// How far the longest strokes off the fairway go.
    fn fairway_shots(&self, player: &Player) -> Vec<f64> {
        let from = Situation {
            at: Point::new(0.0, 100.0),
            lie: Lie::Fairway,
        };
        let played = self.record(meadow(), player, Some(from), 2, self.strokes);
        let firsts = played.strokes().iter().filter(|row| row.stroke == 1);
        firsts.map(|row| row.told.outcome.rest.y - 100.0).collect()
    }

    fn corridor(&self, player: &Player, width: f64) -> Measured {
        let played = self.record(meadow(), player, None, 1, self.strokes);
        let firsts = played.strokes().iter().filter(|row| row.stroke == 1);
        let kept: Vec<f64> = firsts
            .map(|row| share(row.told.outcome.rest.x.abs() <= 0.5 * width))
            .collect();
        measured(&kept, mean)
    }

    /// Strokes at a pin away from the middle of a green, from every one of some distances.
    fn approach(
        &self,
        player: &Player,
        lie: Lie,
        from: &[f64],
        statistic: impl Fn(&[End]) -> f64,
    ) -> Measured {
        const PARTS: u64 = 20;
        let mut parts: Vec<Vec<End>> = vec![Vec::new(); PARTS as usize];
        for (i, &yards) in (0..).zip(from) {
            let (back, right) = PINS[i % PINS.len()];
            let hole = meadow()
                .with_pin_at(back, right)
                .expect("a pin on the green");
            let pin = hole.pin();
            let start = Situation {
                at: Point::new(pin.x, pin.y - yards),
                lie,
            };
            let plays = self.strokes / from.len() as u64;
            let played = self.record(hole, player, Some(start), 3, plays);
            for row in played.strokes().iter().filter(|row| row.stroke == 1) {
                let outcome = &row.told.outcome;
                parts[(row.play % PARTS) as usize].push(End {
                    right: outcome.rest.x - pin.x,
                    past: outcome.rest.y - pin.y,
                    on: outcome.surface == Surface::Green,
                });
            }
        }
        let of_parts: Vec<f64> = parts.iter().map(|ends| statistic(ends)).collect();
        Measured {
            value: statistic(&parts.concat()),
            error: deviation(&of_parts) / (PARTS as f64 - 1.0).sqrt(),
        }
    }

    fn to_hole_out(&self, who: Who, player: &Player, lie: Lie, yards: f64) -> Measured {
        let surface = match lie {
            Lie::Rough => Surface::Rough,
            Lie::Bunker => Surface::Bunker,
            _ => Surface::Fairway,
        };
        if yards <= 60.0 {
            let found = self.around(player, surface, yards);
            let best = found.ranking.mean(found.ranking.order()[0]);
            return Measured {
                value: best.mean,
                error: best.standard_error,
            };
        }
        if lie == Lie::Trees {
            let (hole, at) = in_a_wood(420.0, yards);
            let start = Situation { at, lie };
            return scores(&self.record(hole, player, Some(start), 6, self.strokes));
        }
        self.over_pins(|pin| {
            let hole = self.long_hole(who, pin);
            let (at, lie) = (Point::new(0.0, hole.pin().y - yards), lie);
            self.record(
                hole,
                player,
                Some(Situation { at, lie }),
                4,
                self.strokes / 2,
            )
        })
    }

    /// Strokes over the pins of a green.
    fn over_pins(&self, of: impl Fn((f64, f64)) -> Recording) -> Measured {
        let [a, b] = PINS.map(|pin| scores(&of(pin)));
        Measured {
            value: 0.5 * (a.value + b.value),
            error: 0.5 * a.error.hypot(b.error),
        }
    }

    /// A hole to play from far off: a professional's has obstacles.
    fn long_hole(&self, who: Who, pin: (f64, f64)) -> Hole {
        match who {
            Who::Professional => tour(5, 620.0, pin),
            Who::Man(_) | Who::Woman(_) => level(5, 620.0, Some(35.0), CLUB_GREEN),
        }
    }

    fn hole(&self, who: Who, player: &Player, length: f64) -> Measured {
        let par = match length {
            l if l < 250.0 => 3,
            l if l < 470.0 => 4,
            _ => 5,
        };
        self.over_pins(|pin| {
            let hole = match who {
                Who::Professional => tour(par, length, pin),
                _ => level(par, length, (par > 3).then_some(35.0), CLUB_GREEN),
            };
            self.record(hole, player, None, 5, self.strokes / 2)
        })
    }

    fn up_and_down(&self, who: Who, player: &Player, yards: f64) -> Measured {
        if yards <= 60.0 {
            let found = self.around(player, Surface::Fairway, yards);
            let down = found.down_in(found.ranking.order()[0], 2);
            return Measured {
                value: down.mean,
                error: down.standard_error,
            };
        }
        let hole = self.long_hole(who, PINS[0]);
        let start = Situation {
            at: Point::new(0.0, hole.pin().y - yards),
            lie: Lie::Fairway,
        };
        let played = self.record(hole, player, Some(start), 4, self.strokes);
        let down: Vec<f64> = played.plays().iter().map(|p| share(p.score <= 2)).collect();
        measured(&down, mean)
    }

    /// The strokes around the green from a lie, as they are ranked.
    fn around(&self, player: &Player, surface: Surface, yards: f64) -> AroundRanking {
        let (hole, spot) = beside(surface, yards);
        let scene = Scene::new(Arc::new(hole), Arc::new(player.prepare())).expect("a scene");
        let mut question = Question::new(Seed(20_261_125));
        question.length = Length::Plays(self.strokes);
        let mut run = Around::new(scene, spot, &Then::Direct, question).expect("a question");
        while !run.is_finished() {
            run.advance(self.strokes);
        }
        run.found()
    }

    /// The best strokes from a mix of lies and distances that is ours.
    fn short_game(&self, player: &Player) -> Measured {
        const LIES: [(Surface, f64); 3] = [
            (Surface::Fairway, 0.45),
            (Surface::Rough, 0.42),
            (Surface::Bunker, 0.13),
        ];
        const FROM: [f64; 6] = [10.0, 15.0, 20.0, 30.0, 40.0, 60.0];
        let (mut value, mut square) = (0.0, 0.0);
        for (surface, part) in LIES {
            for yards in FROM {
                let found = self.around(player, surface, yards);
                let first = &found.firsts[found.ranking.order()[0]];
                let on = first.share(first.on_green);
                value += part / 6.0 * on.mean;
                square += (part / 6.0 * on.standard_error).powi(2);
            }
        }
        Measured {
            value,
            error: square.sqrt(),
        }
    }

    fn putts(&self, who: Who, player: &Player, ft: f64, of: impl Fn(Putts) -> f64) -> Measured {
        let luck: Vec<Noise> = (0..self.strokes)
            .map(|play| PlayNoise::new(Seed(20_261_125), play).stroke(0))
            .collect();
        let green = |_| Green::ordinary(green_speed(who));
        let value = of(played(&luck, &player.putting, green, ft, ALL_ROUND));
        Measured {
            value,
            error: (value * (1.0 - value).abs() / self.strokes as f64).sqrt(),
        }
    }
}

/// Where a stroke at a pin finished, yards from it.
#[derive(Clone, Copy, Debug)]
struct End {
    right: f64,
    past: f64,
    on: bool,
}

fn share(yes: bool) -> f64 {
    f64::from(u8::from(yes))
}

fn scores(played: &Recording) -> Measured {
    let scores: Vec<f64> = played.plays().iter().map(|p| f64::from(p.score)).collect();
    measured(&scores, mean)
}

fn green_speed(who: Who) -> f64 {
    match who {
        Who::Professional => TOUR_GREEN,
        Who::Man(_) | Who::Woman(_) => CLUB_GREEN,
    }
}
