//! Fits the putting model to published makes by distance and prints target and achieved.
//!
//! `cargo run --release -p wideberth --example fit_putting`
//!
//! Three parameters (direction, misreading, pace) are fitted to each of two data sets of professional putts in A. Gelman's
//! golf putting case study (2019; `tests/data/makes.csv`): 31 rows supplied by M. Broadie (PGA TOUR 2016-18) and 19 rows
//! from D. Berry's textbook. Everything printed after the makes was not fitted. Amateur parameters are fitted to the make
//! anchors named in the code and checked on the others.
//!
//! All of that is on greens whose slope is not told. What follows holds greens whose slope is told to the same figures:
//! planes that fall 2 % in all directions alike.
#![expect(
    clippy::print_stdout,
    clippy::unwrap_used,
    reason = "a script for the terminal"
)]

#[path = "../../tests/rust/common/luck.rs"]
mod luck;
#[path = "../../tests/rust/common/putts.rs"]
mod putts;

use luck::lattice;
use putts::{ACROSS, ALL_ROUND, DOWN, Makes, Putts, UP, played, published_makes};
use wideberth::geometry::Vector;
use wideberth::noise::Noise;
use wideberth::player::{Player, Putting};
use wideberth::putting::{Green, ORDINARY_GRADE, putt};

struct Ground<'a> {
    luck: &'a [Noise],
    speed: f64,
}

impl Ground<'_> {
    fn makes(&self, skill: &Putting, ft: f64) -> f64 {
        let holed = self
            .luck
            .iter()
            .filter(|n| putt(skill, self.speed, ft / 3.0, n).holed)
            .count();
        holed as f64 / self.luck.len() as f64
    }

    /// Makes and mean putts at every quarter foot to `to` feet.
    fn tables(&self, skill: &Putting, to: f64) -> Vec<(f64, f64)> {
        let mut table: Vec<(f64, f64)> = vec![(1.0, 1.0)];
        let mut ft = 0.25;
        while ft <= to {
            let makes = self.makes(skill, ft);
            let mut mean = 0.0;
            // A miss may end further away than this row: use this row's own makes for those few.
            for n in self.luck {
                let r = putt(skill, self.speed, ft / 3.0, n);
                mean += if r.holed {
                    1.0
                } else {
                    1.0 + look(&table, r.past.hypot(r.right) * 3.0).1
                };
            }
            table.push((makes, mean / self.luck.len() as f64));
            ft += 0.25;
        }
        table
    }

    /// Chances of three putts or more, of a miss that is short, and mean feet left by a miss.
    fn misses(&self, skill: &Putting, table: &[(f64, f64)], ft: f64) -> (f64, f64) {
        let (mut three, mut short) = (0.0, 0.0);
        for n in self.luck {
            let r = putt(skill, self.speed, ft / 3.0, n);
            if !r.holed {
                three += 1.0 - look(table, r.past.hypot(r.right) * 3.0).0;
                short += f64::from(u8::from(r.past < 0.0));
            }
        }
        let n = self.luck.len() as f64;
        (three / n, short / n)
    }
}

fn look(table: &[(f64, f64)], ft: f64) -> (f64, f64) {
    let at = (ft / 0.25).min((table.len() - 1) as f64);
    let i = (at as usize).min(table.len().saturating_sub(2));
    let t = at - i as f64;
    let (a, b) = (table[i], table[(i + 1).min(table.len() - 1)]);
    (a.0 + t * (b.0 - a.0), a.1 + t * (b.1 - a.1))
}

/// Nelder and Mead (1965), in logarithms so that every parameter stays positive.
fn minimise(start: [f64; 3], f: impl Fn([f64; 3]) -> f64) -> ([f64; 3], f64) {
    let up = |p: [f64; 3]| p.map(f64::exp);
    let at = |p: [f64; 3]| f(up(p));
    let start = start.map(f64::ln);
    let mut s: Vec<([f64; 3], f64)> = vec![(start, at(start))];
    for i in 0..3 {
        let mut p = start;
        p[i] += 0.2;
        s.push((p, at(p)));
    }
    for _ in 0..120 {
        s.sort_by(|a, b| a.1.total_cmp(&b.1));
        let mid: [f64; 3] = std::array::from_fn(|k| (s[0].0[k] + s[1].0[k] + s[2].0[k]) / 3.0);
        let go =
            |t: f64| -> [f64; 3] { std::array::from_fn(|k| mid[k] + t * (s[3].0[k] - mid[k])) };
        let r = go(-1.0);
        let fr = at(r);
        if fr < s[0].1 {
            let e = go(-2.0);
            let fe = at(e);
            s[3] = if fe < fr { (e, fe) } else { (r, fr) };
        } else if fr < s[2].1 {
            s[3] = (r, fr);
        } else {
            let c = go(0.5);
            let fc = at(c);
            if fc < s[3].1 {
                s[3] = (c, fc);
            } else {
                for i in 1..4 {
                    let p: [f64; 3] = std::array::from_fn(|k| 0.5 * (s[0].0[k] + s[i].0[k]));
                    s[i] = (p, at(p));
                }
            }
        }
    }
    s.sort_by(|a, b| a.1.total_cmp(&b.1));
    (up(s[0].0), s[0].1)
}

/// Greens that fall by a grade, or whose slope is not told, by the direction of steepest rise.
fn green_of(speed: f64, grade: Option<f64>) -> impl Fn(Vector) -> Green {
    move |uphill| {
        grade.map_or(Green::ordinary(speed), |grade| {
            Green::plane(speed, uphill * grade)
        })
    }
}

/// Published figures: what, feet, value, source.
type Row = (&'static str, f64, f64, &'static str);
const TOUR_14: &str = "2016-18 data in Gelman's case study, published";
const BROADIE: &str = "Broadie, published";
const MEMORY: &str = "from memory";

/// Handicap (none: professional), green speed and what is known of such players.
fn known() -> Vec<(Option<f64>, f64, Vec<Row>)> {
    let mut tour: Vec<Row> = published_makes("tour-2016-18")
        .into_iter()
        .filter(|r| (2.9..41.0).contains(&r.0))
        .map(|r| ("makes", r.0, r.2 / r.1, TOUR_14))
        .collect();
    tour.extend([
        ("mean", 33.0, 2.0, BROADIE),
        ("three", 20.0, 0.02, BROADIE),
        ("three", 32.0, 0.06, BROADIE),
        ("three", 40.0, 0.10, BROADIE),
        ("short", 10.0, 0.07, BROADIE),
        ("mean", 5.0, 1.23, MEMORY),
        ("mean", 10.0, 1.61, MEMORY),
        ("mean", 15.0, 1.78, MEMORY),
        ("mean", 20.0, 1.87, MEMORY),
        ("mean", 30.0, 1.98, MEMORY),
        ("mean", 40.0, 2.06, MEMORY),
        ("mean", 50.0, 2.14, MEMORY),
        ("mean", 60.0, 2.21, MEMORY),
    ]);
    let eighty = vec![
        ("makes", 6.0, 0.50, BROADIE),
        ("short", 10.0, 0.12, BROADIE),
    ];
    let ninety = vec![
        ("makes", 3.0, 0.84, BROADIE),
        ("makes", 5.0, 0.50, BROADIE),
        ("makes", 8.0, 0.26, BROADIE),
        ("mean", 19.0, 2.0, BROADIE),
        ("short", 10.0, 0.17, BROADIE),
        ("makes", 10.0, 0.20, MEMORY),
        ("makes", 15.0, 0.11, MEMORY),
        ("makes", 20.0, 0.06, MEMORY),
        ("makes", 30.0, 0.02, MEMORY),
    ];
    vec![
        (None, 11.0, tour),
        (Some(7.5), 10.0, eighty),
        (Some(17.0), 10.0, ninety),
    ]
}

fn player(handicap: Option<f64>) -> (String, Putting) {
    let player = handicap
        .map_or_else(Player::professional, Player::from_handicap)
        .unwrap();
    (player.name.clone(), player.putting)
}

/// Target, achieved and source on greens whose slope is not told and on those that fall 2 %.
fn targets(luck: &[Noise]) {
    for (handicap, speed, rows) in known() {
        let (name, skill) = player(handicap);
        println!("\n{name}, Stimp {speed}:                 target   not told   falls 2 %   source");
        for (what, ft, target, source) in rows {
            let pick = |p: Putts| match what {
                "makes" => p.makes,
                "mean" => p.mean,
                "three" => p.three,
                _ => p.short,
            };
            let plain = pick(played(luck, &skill, green_of(speed, None), ft, ALL_ROUND));
            let told = pick(played(
                luck,
                &skill,
                green_of(speed, Some(ORDINARY_GRADE)),
                ft,
                ALL_ROUND,
            ));
            println!("  {what:5} {ft:5.2} ft  {target:.3}  {plain:.3}  {told:.3}  {source}");
        }
    }
}

/// All levels: makes, mean putts and feet left where the slope is not told and on planes of 2, 0, 1, 3 and 4 %.
fn levels(luck: &[Noise]) {
    let handicaps = [0.0, 5.0, 10.0, 15.0, 20.0, 27.0, 36.0, 45.0, 54.0];
    for handicap in std::iter::once(None).chain(handicaps.map(Some)) {
        let (name, skill) = player(handicap);
        let speed = if handicap.is_none() { 11.0 } else { 10.0 };
        println!(
            "\n{name}, Stimp {speed}: makes/mean putts/feet left not told, falling 2 %; makes and feet left at 0, 1, 3, 4 %"
        );
        for ft in [3.0, 5.0, 8.0, 10.0, 15.0, 20.0, 30.0, 40.0, 60.0] {
            let at = |grade: f64| played(luck, &skill, green_of(speed, Some(grade)), ft, ALL_ROUND);
            let (plain, told) = (
                played(luck, &skill, green_of(speed, None), ft, ALL_ROUND),
                at(ORDINARY_GRADE),
            );
            print!("  {ft:4} ft");
            for p in [plain, told] {
                print!("  {:.3} {:.3} {:5.2}", p.makes, p.mean, p.left);
            }
            for p in [0.0, 0.01, 0.03, 0.04].map(at) {
                print!("  {:.3} {:5.2}", p.makes, p.left);
            }
            println!();
        }
    }
}

/// How the rate at which slopes are misread was found: misreading all of it more or less, what is the sum of squares over
/// all levels of makes (in points) and mean putts (in hundredths) on planes of 2 % against greens not told?
fn rate(luck: &[Noise]) {
    println!("\nmisreading of known slopes over that of the core, and the misfit:");
    for q in [0.7, 0.8, 0.9, 1.0, 1.1, 1.2, 1.3] {
        let mut sum = [0.0, 0.0];
        for handicap in [
            None,
            Some(0.0),
            Some(10.0),
            Some(17.0),
            Some(27.0),
            Some(40.0),
        ] {
            let (_, skill) = player(handicap);
            let speed = if handicap.is_none() { 11.0 } else { 10.0 };
            let m = 3.1 * ORDINARY_GRADE * speed / 0.783;
            let pace = ((0.7 + 0.3 * (q * m).powi(2)) / (0.7 + 0.3 * m * m)).sqrt();
            let other = Putting {
                misread_deg: q * skill.misread_deg,
                pace: pace * skill.pace,
                ..skill
            };
            for ft in [3.0, 4.0, 5.0, 7.0, 10.0, 15.0, 20.0, 30.0, 40.0] {
                let plain = played(luck, &skill, green_of(speed, None), ft, ALL_ROUND);
                let told = played(
                    luck,
                    &other,
                    green_of(speed, Some(ORDINARY_GRADE)),
                    ft,
                    ALL_ROUND,
                );
                sum[0] += (100.0 * (told.makes - plain.makes)).powi(2);
                sum[1] += (100.0 * (told.mean - plain.mean)).powi(2);
            }
        }
        println!("  {q:.1}: {:.1} {:.1}", sum[0], sum[1]);
    }
}

/// Faster greens and above the hole: makes, mean putts, three-putts.
fn slopes(luck: &[Noise]) {
    let (_, skill) = player(Some(17.0));
    println!(
        "\nhandicap 17, makes/mean/three/feet left by quarter on 2 % and Stimp 10: up, across, down"
    );
    for ft in [3.0, 4.0, 6.0, 8.0, 10.0, 12.0, 20.0, 30.0] {
        print!("  {ft:4} ft");
        for part in [UP, ACROSS, DOWN] {
            let p = played(luck, &skill, green_of(10.0, Some(0.02)), ft, part);
            print!(
                "  {:.3} {:.3} {:.3} {:5.2}",
                p.makes, p.mean, p.three, p.left
            );
        }
        println!();
    }
    println!("\nhandicap 17, makes/mean/three by Stimp: not told, falls 2 %, falls 3 %");
    for ft in [5.0, 20.0, 40.0] {
        for speed in [7.0, 9.0, 10.0, 11.0, 13.0] {
            print!("  {ft:4} ft, {speed:4}:");
            for grade in [None, Some(0.02), Some(0.03)] {
                let p = played(luck, &skill, green_of(speed, grade), ft, ALL_ROUND);
                print!("  {:.3} {:.3} {:.3}", p.makes, p.mean, p.three);
            }
            println!();
        }
    }
}

fn skill(p: [f64; 3], past_ft: f64) -> Putting {
    Putting {
        direction_deg: p[0],
        misread_deg: p[1],
        pace: p[2],
        past_ft,
        read: 1.0,
    }
}

/// Weighted least squares with an error of 0.3 points beside the binomial one (the case study fits 0.28).
fn misfit(green: &Ground<'_>, s: &Putting, rows: &[Makes], extra: f64) -> f64 {
    rows.iter()
        .map(|&(ft, n, made)| {
            let (p, o) = (green.makes(s, ft), made / n);
            (p - o).powi(2) / (extra * extra + o * (1.0 - o) / n)
        })
        .sum()
}

fn report(name: &str, green: &Ground<'_>, s: &Putting, rows: &[Makes]) {
    println!("\n{name}: {s:?}, Stimp {}", green.speed);
    for &(ft, n, made) in rows {
        let (p, o) = (green.makes(s, ft), made / n);
        println!(
            "  {ft:5.2} ft  target {o:.4}  model {p:.4}  off {:+.4}",
            p - o
        );
    }
    after(green, s);
}

fn after(green: &Ground<'_>, s: &Putting) {
    let table = green.tables(s, 62.0);
    for ft in [
        3.0, 5.0, 8.0, 10.0, 15.0, 19.0, 20.0, 30.0, 32.0, 33.0, 40.0, 50.0, 60.0,
    ] {
        let (three, short) = green.misses(s, &table, ft);
        let (make, mean) = look(&table, ft);
        println!(
            "  {ft:4} ft: makes {make:.3} putts {mean:.3} three or more {three:.3} short {short:.3}"
        );
    }
    let half = (0..240).find(|&i| table[i as usize].0 < 0.5).unwrap();
    println!("  half holed from {:.2} ft", f64::from(half) * 0.25);
}

fn main() {
    let coarse = lattice(1 << 13);
    let fine = lattice(1 << 16);
    let args: Vec<f64> = std::env::args()
        .skip(1)
        .map(|a| a.parse().unwrap())
        .collect();
    let (speed, past) = (
        args.first().copied().unwrap_or(11.0),
        args.get(1).copied().unwrap_or(1.25),
    );
    for (name, sample, extra) in [("2016-18", "tour-2016-18", 0.003), ("Berry", "berry", 0.01)] {
        let rows = &published_makes(sample);
        let green = Ground {
            luck: &coarse,
            speed,
        };
        let (p, f) = minimise([1.1, 1.0, 0.075], |p| {
            misfit(&green, &skill(p, past), rows, extra)
        });
        println!("misfit {f:.1}");
        report(name, &Ground { luck: &fine, speed }, &skill(p, past), rows);
    }

    let green = Ground {
        luck: &coarse,
        speed: 10.0,
    };
    let (p, f) = minimise([1.3, 3.0, 0.11], |p| {
        let s = skill(p, past);
        let table = green.tables(&s, 24.0);
        let makes = [(3.0, 0.84), (5.0, 0.50), (8.0, 0.265)];
        let makes: f64 = makes
            .iter()
            .map(|a| ((look(&table, a.0).0 - a.1) / 0.02).powi(2))
            .sum();
        let mean = (look(&table, 19.0).1 - 2.0) / 0.03;
        let short = (green.misses(&s, &table, 10.0).1 - 0.17) / 0.02;
        makes + mean * mean + short * short
    });
    println!("\n90-golfer, misfit {f:.2}: {:?}", skill(p, past));
    after(
        &Ground {
            luck: &fine,
            speed: 10.0,
        },
        &skill(p, past),
    );
    let even = lattice(1 << 14);
    rate(&even);
    targets(&even);
    levels(&even);
    slopes(&even);
}
