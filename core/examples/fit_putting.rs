//! Fits the putting model to published makes by distance and prints target and achieved.
//!
//! `cargo run --release -p wideberth --example fit_putting`
//!
//! Three parameters (direction, misreading, pace) are fitted to each of two data sets of professional
//! putts in A. Gelman's golf putting case study (2019): 31 rows supplied by M. Broadie (PGA TOUR 2016-18) and
//! 19 rows from D. Berry's textbook. Everything printed after the makes was not fitted. Amateur
//! parameters are fitted to the make anchors named in the code and checked on the others.
#![expect(
    clippy::print_stdout,
    clippy::unwrap_used,
    reason = "a script for the terminal"
)]

use statrs::distribution::{ContinuousCDF, Normal};
use wideberth::noise::Noise;
use wideberth::player::Putting;
use wideberth::putting::putt;

/// Feet, tries, made: 2016-18.
const TOUR: [(f64, f64, f64); 31] = [
    (0.28, 45198.0, 45183.0),
    (0.97, 183020.0, 182899.0),
    (1.93, 169503.0, 168594.0),
    (2.92, 113094.0, 108953.0),
    (3.93, 73855.0, 64740.0),
    (4.94, 53659.0, 41106.0),
    (5.94, 42991.0, 28205.0),
    (6.95, 37050.0, 21334.0),
    (7.95, 33275.0, 16615.0),
    (8.95, 30836.0, 13503.0),
    (9.95, 28637.0, 11060.0),
    (10.95, 26239.0, 9032.0),
    (11.95, 24636.0, 7687.0),
    (12.95, 22876.0, 6432.0),
    (14.43, 41267.0, 9813.0),
    (16.43, 35712.0, 7196.0),
    (18.44, 31573.0, 5290.0),
    (20.44, 28280.0, 4086.0),
    (21.95, 13238.0, 1642.0),
    (24.39, 46570.0, 4767.0),
    (28.40, 38422.0, 2980.0),
    (32.39, 31641.0, 1996.0),
    (36.39, 25604.0, 1327.0),
    (40.37, 20366.0, 834.0),
    (44.38, 15977.0, 559.0),
    (48.37, 11770.0, 311.0),
    (52.36, 8708.0, 231.0),
    (57.25, 8878.0, 204.0),
    (63.23, 5492.0, 103.0),
    (69.18, 3087.0, 35.0),
    (75.19, 1742.0, 24.0),
];

/// Feet, tries, made: Berry.
const BERRY: [(f64, f64, f64); 19] = [
    (2.0, 1443.0, 1346.0),
    (3.0, 694.0, 577.0),
    (4.0, 455.0, 337.0),
    (5.0, 353.0, 208.0),
    (6.0, 272.0, 149.0),
    (7.0, 256.0, 136.0),
    (8.0, 240.0, 111.0),
    (9.0, 217.0, 69.0),
    (10.0, 200.0, 67.0),
    (11.0, 237.0, 75.0),
    (12.0, 202.0, 52.0),
    (13.0, 192.0, 46.0),
    (14.0, 174.0, 54.0),
    (15.0, 167.0, 28.0),
    (16.0, 201.0, 27.0),
    (17.0, 195.0, 31.0),
    (18.0, 191.0, 33.0),
    (19.0, 147.0, 20.0),
    (20.0, 152.0, 24.0),
];

/// Evenly spread luck: a rank-one lattice mapped to normals.
fn lattice(n: u32) -> Vec<Noise> {
    let normal = Normal::standard();
    (0..n)
        .map(|i| {
            let u = (f64::from(i) + 0.5) / f64::from(n);
            let v = (f64::from(i) * 0.618_033_988_749_894_9 + 0.5 / f64::from(n)).fract();
            Noise {
                depth: normal.inverse_cdf(u),
                side: normal.inverse_cdf(v.max(1e-12)),
                ..Noise::NONE
            }
        })
        .collect()
}

struct Green<'a> {
    luck: &'a [Noise],
    speed: f64,
}

impl Green<'_> {
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
fn misfit(green: &Green<'_>, s: &Putting, rows: &[(f64, f64, f64)], extra: f64) -> f64 {
    rows.iter()
        .map(|&(ft, n, made)| {
            let (p, o) = (green.makes(s, ft), made / n);
            (p - o).powi(2) / (extra * extra + o * (1.0 - o) / n)
        })
        .sum()
}

fn report(name: &str, green: &Green<'_>, s: &Putting, rows: &[(f64, f64, f64)]) {
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

fn after(green: &Green<'_>, s: &Putting) {
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
    for (name, rows, extra) in [("2016-18", &TOUR[..], 0.003), ("Berry", &BERRY[..], 0.01)] {
        let green = Green {
            luck: &coarse,
            speed,
        };
        let (p, f) = minimise([1.1, 1.0, 0.075], |p| {
            misfit(&green, &skill(p, past), rows, extra)
        });
        println!("misfit {f:.1}");
        report(name, &Green { luck: &fine, speed }, &skill(p, past), rows);
    }

    let green = Green {
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
        &Green {
            luck: &fine,
            speed: 10.0,
        },
        &skill(p, past),
    );
}
