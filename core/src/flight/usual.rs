//! The launch of a club of which only the name and the carry are known.
use super::fault::check;
use super::{FlightFault, LaunchConditions};
use crate::player::Club;

/// One row of the usual launches: what a long hitter's full shot does with a club of a loft.
struct Row {
    loft: f64,
    launch: f64,
    spin: f64,
    carry: f64,
}

const fn row(loft: f64, launch: f64, spin: f64, carry: f64) -> Row {
    Row {
        loft,
        launch,
        spin,
        carry,
    }
}

/// Full shots of a tour professional by loft: commonly quoted averages, rounded (from memory); above 46
/// degrees common practice, no source.
const ROWS: [Row; 14] = [
    row(10.5, 11.0, 2700.0, 275.0),
    row(15.0, 9.6, 3650.0, 243.0),
    row(18.0, 9.8, 4300.0, 230.0),
    row(21.0, 10.6, 4550.0, 217.0),
    row(23.0, 11.2, 4850.0, 206.0),
    row(26.0, 12.3, 5400.0, 195.0),
    row(30.0, 14.2, 6200.0, 183.0),
    row(34.0, 16.4, 7000.0, 172.0),
    row(38.0, 18.3, 7900.0, 160.0),
    row(42.0, 20.5, 8600.0, 148.0),
    row(46.0, 24.0, 9200.0, 136.0),
    row(51.0, 27.0, 9600.0, 120.0),
    row(55.0, 30.0, 9900.0, 105.0),
    row(60.0, 33.0, 10_000.0, 88.0),
];

/// Spin grows with this power of the carry: spin is about in proportion to speed, and carry grows faster
/// than speed (mechanics of an oblique blow; the power is ours).
const SPIN_POWER: f64 = 0.7;
/// Degrees more launch for a player who hits the ball half as far: slower players hit it higher
/// (common practice, no source).
const SLOWER_IS_HIGHER: f64 = 4.0;
/// A club without a name we know is taken for that of a player who carries it this share of [`ROWS`].
const UNNAMED_SHARE: f64 = 0.8;

impl LaunchConditions {
    /// The launch of a full strike of a club that carries `carry` yards: the player's own angle and spin where the club
    /// tells them, else the usual ones.
    ///
    /// # Errors
    /// A carry outside 1 to 450 yards.
    pub fn of_club(club: &Club, carry: f64) -> Result<Self, FlightFault> {
        let usual = Self::usual(&club.name, carry)?;
        LaunchConditions::new(
            club.launch_deg.unwrap_or(usual.launch_deg),
            club.spin_rpm.unwrap_or(usual.spin_rpm),
        )
    }

    /// The usual launch of a full shot with a club of a name that carries `carry` yards.
    ///
    /// The name gives a loft (`driver`, `3-wood`, `4-hybrid`, `7-iron`, `pitching wedge`, `gap wedge`,
    /// `sand wedge`, `lob wedge`, any case; lofts are common practice), the loft the launch and spin of a long
    /// hitter, and the carry how far from a long hitter the player is. A name that tells nothing is read
    /// from the carry alone. Smooth in the carry.
    ///
    /// # Errors
    /// A carry outside 1 to 450 yards.
    pub fn usual(club_name: &str, carry: f64) -> Result<Self, FlightFault> {
        check("carry", carry, 1.0..=450.0, "1 to 450 yards")?;
        let loft = loft_of(club_name).unwrap_or_else(|| {
            let long = carry / UNNAMED_SHARE;
            between(long, |r| -r.carry, -1.0, |r| r.loft)
        });
        let by_loft = |value: fn(&Row) -> f64| between(loft, |r| r.loft, 1.0, value);
        let share = carry / by_loft(|r| r.carry);
        let launch = by_loft(|r| r.launch) + 2.0 * SLOWER_IS_HIGHER * (1.0 - share);
        let spin = by_loft(|r| r.spin) * libm::pow(share, SPIN_POWER);
        let least = 0.6 * by_loft(|r| r.launch);
        LaunchConditions::new(launch.max(least), spin.clamp(500.0, 12_000.0))
    }
}

/// A value at `x`, straight between the rows (whose keys times `sign` rise) and level beyond them.
fn between(x: f64, key: impl Fn(&Row) -> f64, sign: f64, value: impl Fn(&Row) -> f64) -> f64 {
    let x = x * sign;
    let place = ROWS.iter().position(|r| !(key(r) < x));
    match place {
        None => value(&ROWS[ROWS.len() - 1]),
        Some(0) => value(&ROWS[0]),
        Some(i) => {
            let (a, b) = (&ROWS[i - 1], &ROWS[i]);
            let t = (x - key(a)) / (key(b) - key(a));
            value(a) + t * (value(b) - value(a))
        }
    }
}

/// The loft that the name of a club tells, degrees (common practice, no source).
fn loft_of(name: &str) -> Option<f64> {
    let plain: String = name
        .chars()
        .filter(|c| c.is_alphanumeric())
        .flat_map(char::to_lowercase)
        .collect();
    let number = f64::from(plain.chars().find_map(|c| c.to_digit(10)).unwrap_or(0));
    let within = |low: f64, high: f64| (low..=high).contains(&number);
    if plain.contains("driver") {
        Some(10.5)
    } else if plain.contains("wood") && within(1.0, 11.0) {
        Some(10.5 + 1.5 * number)
    } else if plain.contains("hybrid") && within(1.0, 7.0) {
        Some(12.0 + 2.5 * number)
    } else if plain.contains("iron") && within(1.0, 9.0) {
        // Four degrees apart from the 5-iron on, three before it.
        Some(if number < 5.0 {
            26.0 - 3.0 * (5.0 - number)
        } else {
            26.0 + 4.0 * (number - 5.0)
        })
    } else if plain.contains("wedge") {
        let kinds = [
            ("pitching", 46.0),
            ("gap", 51.0),
            ("sand", 55.0),
            ("lob", 60.0),
        ];
        let kind = kinds.iter().find(|(kind, _)| plain.contains(kind));
        kind.map(|&(_, loft)| loft)
    } else {
        None
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::player::ClubParts;

    #[test]
    fn names_tell_lofts() {
        for (name, loft) in [
            ("Driver", Some(10.5)),
            ("3-wood", Some(15.0)),
            ("5 wood", Some(18.0)),
            ("4-hybrid", Some(22.0)),
            ("7-iron", Some(34.0)),
            ("9 Iron", Some(42.0)),
            ("3-iron", Some(20.0)),
            ("sand wedge", Some(55.0)),
            ("old faithful", None),
            ("wedge", None),
            ("0-iron", None),
        ] {
            assert_eq!(loft_of(name), loft, "{name}");
        }
    }

    #[test]
    fn rows_rise_in_loft_and_fall_in_carry() {
        for pair in ROWS.windows(2) {
            assert!(pair[0].loft < pair[1].loft && pair[0].carry > pair[1].carry);
        }
    }

    #[test]
    fn a_long_hitter_gets_the_row_itself() {
        let seven = LaunchConditions::usual("7-iron", 172.0).unwrap();
        assert_eq!((seven.launch_deg, seven.spin_rpm), (16.4, 7000.0));
        let slower = LaunchConditions::usual("7-iron", 132.0).unwrap();
        assert!(slower.launch_deg > seven.launch_deg && slower.spin_rpm < seven.spin_rpm);
    }

    #[test]
    fn launch_and_spin_are_smooth_in_the_carry() {
        for name in ["driver", "7-iron", "lob wedge", "unknown"] {
            let at = |carry: f64| LaunchConditions::usual(name, carry).unwrap();
            for carry in 20..300 {
                let (a, b) = (at(f64::from(carry)), at(f64::from(carry) + 0.01));
                assert!((a.launch_deg - b.launch_deg).abs() < 0.01, "{name} {carry}");
                assert!((a.spin_rpm - b.spin_rpm).abs() < 5.0, "{name} {carry}");
            }
        }
    }

    #[test]
    fn a_club_may_tell_its_own_launch() {
        let club = |launch_deg, spin_rpm| {
            let parts = ClubParts {
                launch_deg,
                spin_rpm,
                ..ClubParts::exact("7-iron", 172.0)
            };
            LaunchConditions::of_club(&Club::new(parts).unwrap(), 172.0).unwrap()
        };
        let of = LaunchConditions::of;
        assert_eq!(club(None, None), of(16.4, 7000.0));
        assert_eq!(club(Some(19.0), None), of(19.0, 7000.0));
        assert_eq!(club(Some(19.0), Some(6000.0)), of(19.0, 6000.0));
    }

    #[test]
    fn absurd_carries_are_refused() {
        for carry in [0.0, -5.0, f64::NAN, 451.0] {
            assert!(LaunchConditions::usual("7-iron", carry).is_err());
        }
    }
}
