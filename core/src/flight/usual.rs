//! The launch of a club of which only the name and the carry are known.
use super::fault::check;
use super::{FlightFault, LaunchConditions};
use crate::figures::launch::{
    BY_LOFT, DRIVER_LOFT, FIVE_IRON_LOFT, HYBRID_LOFT, IRON_STEPS, LEAST_LAUNCH, Row,
    SLOWER_IS_HIGHER, SPIN_POWER, SPINS, UNNAMED_SHARE, WEDGE_LOFTS, WOOD_LOFT,
};
use crate::player::Club;

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
        let least = LEAST_LAUNCH * by_loft(|r| r.launch);
        LaunchConditions::new(launch.max(least), spin.clamp(SPINS.0, SPINS.1))
    }
}

/// A value at `x`, straight between the rows (whose keys times `sign` rise) and level beyond them.
fn between(x: f64, key: impl Fn(&Row) -> f64, sign: f64, value: impl Fn(&Row) -> f64) -> f64 {
    let x = x * sign;
    let place = BY_LOFT.iter().position(|r| !(key(r) < x));
    match place {
        None => value(&BY_LOFT[BY_LOFT.len() - 1]),
        Some(0) => value(&BY_LOFT[0]),
        Some(i) => {
            let (a, b) = (&BY_LOFT[i - 1], &BY_LOFT[i]);
            let t = (x - key(a)) / (key(b) - key(a));
            value(a) + t * (value(b) - value(a))
        }
    }
}

/// The loft that the name of a club tells, degrees.
fn loft_of(name: &str) -> Option<f64> {
    let plain: String = name
        .chars()
        .filter(|c| c.is_alphanumeric())
        .flat_map(char::to_lowercase)
        .collect();
    let number = f64::from(plain.chars().find_map(|c| c.to_digit(10)).unwrap_or(0));
    let within = |low: f64, high: f64| (low..=high).contains(&number);
    if plain.contains("driver") {
        Some(DRIVER_LOFT)
    } else if plain.contains("wood") && within(1.0, 11.0) {
        Some(WOOD_LOFT.0 + WOOD_LOFT.1 * number)
    } else if plain.contains("hybrid") && within(1.0, 7.0) {
        Some(HYBRID_LOFT.0 + HYBRID_LOFT.1 * number)
    } else if plain.contains("iron") && within(1.0, 9.0) {
        Some(if number < 5.0 {
            FIVE_IRON_LOFT - IRON_STEPS.0 * (5.0 - number)
        } else {
            FIVE_IRON_LOFT + IRON_STEPS.1 * (number - 5.0)
        })
    } else if plain.contains("wedge") {
        let kind = WEDGE_LOFTS.iter().find(|(kind, _)| plain.contains(kind));
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
        for pair in BY_LOFT.windows(2) {
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
