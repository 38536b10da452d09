//! The skills of a player that can be practised, and where each stands among the levels.
use crate::hole::Hole;
use crate::player::{
    Change, Club, ClubSkill, Lie, Player, PlayerFault, PuttSkill, Reference, Skill, Touch,
};
use crate::situation::Situation;

/// A band of distances to the pin, yards, from which approaches are practised together: those of published tables of strokes
/// gained (Broadie).
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Band {
    from: f64,
    /// Not in it any more.
    to: f64,
}

impl Band {
    const ALL: [Band; 4] = [
        Band::of(0.0, 100.0),
        Band::of(100.0, 150.0),
        Band::of(150.0, 200.0),
        Band::of(200.0, f64::INFINITY),
    ];

    const fn of(from: f64, to: f64) -> Self {
        Band { from, to }
    }

    fn name(self) -> String {
        let Band { from, to } = self;
        if from == 0.0 {
            format!("inside {to} yd")
        } else if to.is_infinite() {
            format!("{from} yd and more")
        } else {
            format!("{from} to {to} yd")
        }
    }

    /// True of a stroke from there that is an approach: of any but the tee shot of a par 4 or longer.
    pub(super) fn holds(self, hole: &Hole, ball: Situation) -> bool {
        let tee_shot = ball.lie == Lie::Tee && hole.par() > 3;
        let to_pin = ball.to_pin(hole);
        !tee_shot && self.from <= to_pin && to_pin < self.to
    }

    /// The clubs that carry so far, or the one that comes nearest to it.
    fn clubs(self, player: &Player) -> Vec<&Club> {
        let off = |club: &Club| (self.from - club.carry).max(club.carry - self.to).max(0.0);
        let least = player.clubs.iter().map(off).fold(f64::INFINITY, f64::min);
        let clubs = player.clubs.iter();
        clubs.filter(|club| off(club) <= least).collect()
    }
}

/// A group of clubs that are practised together.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Group {
    /// The longest club.
    Driver,
    /// Those that carry at least seven tenths as far.
    Long,
    /// Those that carry at least half as far.
    Irons,
    /// The others.
    Wedges,
}

impl Group {
    const ALL: [Group; 4] = [Group::Driver, Group::Long, Group::Irons, Group::Wedges];

    fn name(self) -> &'static str {
        match self {
            Group::Driver => "driver",
            Group::Long => "long clubs",
            Group::Irons => "irons",
            Group::Wedges => "wedges",
        }
    }

    /// The clubs of a player in it; the parts are common practice, no source.
    fn clubs(self, player: &Player) -> impl Iterator<Item = &Club> {
        let longest = player.clubs.first().map_or(0.0, |club| club.carry);
        let of = move |(place, club): (usize, &Club)| match club.carry / longest {
            _ if place == 0 => Group::Driver,
            share if share >= 0.7 => Group::Long,
            share if share >= 0.5 => Group::Irons,
            _ => Group::Wedges,
        };
        let clubs = player.clubs.iter().enumerate();
        clubs.filter_map(move |(place, club)| (of((place, club)) == self).then_some(club))
    }
}

/// Something to practise.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Practice {
    /// A skill with a group of clubs.
    Clubs(ClubSkill, Group),
    /// All that makes full strokes tight, in approaches from a band of distances.
    Approaches(Band),
    /// Strokes from bad lies.
    BadLies,
    /// A stroke around the green.
    Touch(Touch),
    /// A part of putting.
    Putt(PuttSkill),
}

impl Practice {
    /// Everything that a player can practise: what touches no club of the bag is left out.
    pub(super) fn all(player: &Player) -> Vec<Practice> {
        use ClubSkill::{Depth, Direction, Length, Mishits};
        let clubs = [Length, Direction, Depth, Mishits]
            .into_iter()
            .flat_map(|skill| Group::ALL.map(|group| Practice::Clubs(skill, group)))
            // How far a driver or a wedge carries exactly, and how far a wedge carries at all, is no matter.
            .filter(|p| !matches!(p, Practice::Clubs(Depth, Group::Driver)))
            .filter(|p| !matches!(p, Practice::Clubs(Length, Group::Wedges)))
            .filter(|p| match p {
                Practice::Clubs(_, group) => group.clubs(player).next().is_some(),
                _ => true,
            });
        let touches = [
            Touch::Chip,
            Touch::Pitch,
            Touch::Lob,
            Touch::BunkerShot,
            Touch::Putter,
        ];
        clubs
            .chain(Band::ALL.map(Practice::Approaches))
            .chain([Practice::BadLies])
            .chain(touches.map(Practice::Touch))
            .chain(PuttSkill::ALL.map(Practice::Putt))
            .collect()
    }

    /// The name used in tables.
    pub(super) fn name(self) -> String {
        match self {
            Practice::Clubs(ClubSkill::Length, group) => format!("longer {}", group.name()),
            Practice::Clubs(ClubSkill::Direction, group) => format!("straighter {}", group.name()),
            Practice::Clubs(ClubSkill::Depth, group) => {
                format!("distance control, {}", group.name())
            }
            Practice::Clubs(ClubSkill::Mishits, group) => {
                format!("fewer mishits, {}", group.name())
            }
            Practice::Approaches(band) => format!("tighter from {}", band.name()),
            Practice::BadLies => "rough, sand and trees".to_owned(),
            Practice::Touch(Touch::Putter) => "putter from off the green".to_owned(),
            Practice::Touch(touch) => touch.spoken(),
            Practice::Putt(PuttSkill::Line) => "putting: line (short putts)".to_owned(),
            Practice::Putt(PuttSkill::Reading) => "putting: reading (middle putts)".to_owned(),
            Practice::Putt(PuttSkill::Pace) => "putting: pace (long putts)".to_owned(),
        }
    }

    /// The part of the game it belongs to.
    pub(super) fn part(self) -> &'static str {
        match self {
            Practice::Clubs(_, Group::Driver) => "tee shots",
            Practice::Clubs(..) | Practice::BadLies => "approaches",
            Practice::Approaches(_) => BY_DISTANCE,
            Practice::Touch(_) => "around the green",
            Practice::Putt(_) => "putting",
        }
    }

    /// The strokes in which alone the practice is used, if not in all.
    pub(super) fn band(self) -> Option<Band> {
        match self {
            Practice::Approaches(band) => Some(band),
            _ => None,
        }
    }

    /// The player after practice: so much of the way to another in this alone.
    pub(super) fn practised(
        self,
        player: &Player,
        toward: &Player,
        share: f64,
    ) -> Result<Player, PlayerFault> {
        let change = Change::Toward(toward, share);
        let skills: Vec<Skill> = match self {
            // Length is read against the other's club of the same name: those that the other has not stay as they are.
            Practice::Clubs(skill, group) => group
                .clubs(player)
                .filter(|club| skill != ClubSkill::Length || toward.club(&club.name).is_ok())
                .map(|club| Skill::Club(skill, club.name.clone()))
                .collect(),
            Practice::Approaches(_) => {
                let all = player.clubs.iter();
                all.flat_map(|club| TIGHT.map(|skill| Skill::Club(skill, club.name.clone())))
                    .collect()
            }
            Practice::BadLies => vec![Skill::BadLies],
            Practice::Touch(touch) => vec![Skill::Touch(touch)],
            Practice::Putt(part) => vec![Skill::Putt(part)],
        };
        let changes = skills.into_iter().map(|skill| (skill, change));
        player.clone().with_changes(changes)
    }

    /// The figures of a player in it, each the larger the worse.
    fn figures(self, player: &Player) -> Vec<f64> {
        match self {
            Practice::Clubs(skill, group) => vec![mean(group.clubs(player), skill)],
            Practice::Approaches(band) => {
                let clubs = band.clubs(player);
                TIGHT
                    .map(|skill| mean(clubs.iter().copied(), skill))
                    .to_vec()
            }
            Practice::BadLies => {
                let bad = Lie::ALL.into_iter().filter(|lie| lie.is_bad());
                bad.map(|lie| player.lies[lie as usize].spread).collect()
            }
            Practice::Touch(touch) => {
                let skill = player.short_game.touch(touch);
                vec![skill.depth, skill.direction_deg, skill.duffs + skill.thins]
            }
            Practice::Putt(PuttSkill::Line) => vec![player.putting.direction_deg],
            Practice::Putt(PuttSkill::Reading) => vec![player.putting.misread_deg],
            Practice::Putt(PuttSkill::Pace) => vec![player.putting.pace],
        }
    }
}

/// The part of the game of approaches told by distance. Each counts what others count as well: three skills of many clubs.
pub(super) const BY_DISTANCE: &str = "approaches by distance";

/// What makes full strokes tight.
const TIGHT: [ClubSkill; 3] = [ClubSkill::Direction, ClubSkill::Depth, ClubSkill::Mishits];

/// The mean over clubs of the figure of a skill, the larger the worse.
fn mean<'a>(clubs: impl Iterator<Item = &'a Club>, skill: ClubSkill) -> f64 {
    let figure = |club: &Club| match skill {
        ClubSkill::Length => 1.0 / club.carry,
        ClubSkill::Direction => libm::hypot(club.lateral_sd, club.lateral_bias) / club.carry,
        ClubSkill::Depth => club.carry_sd / club.carry,
        ClubSkill::Mishits => club.mishit_share,
    };
    let all: Vec<f64> = clubs.map(figure).collect();
    #[expect(clippy::cast_precision_loss, reason = "at most 13 clubs")]
    let count = all.len() as f64;
    all.iter().sum::<f64>() / count
}

/// Players of all levels, to be compared with.
pub(super) struct Levels(Vec<(f64, Player)>);

impl Levels {
    /// Handicaps 0 to 54, one by one.
    pub(super) fn new(reference: Reference) -> Result<Self, PlayerFault> {
        let level = |handicap: u8| {
            let handicap = f64::from(handicap);
            Ok((handicap, Player::from_reference(reference, handicap)?))
        };
        Ok(Levels((0..=54).map(level).collect::<Result<_, _>>()?))
    }

    /// The scratch golfer.
    pub(super) fn scratch(&self) -> &Player {
        &self.0[0].1
    }

    /// The handicap of the level whose figures in a skill are most like a player's: the shares by which they differ, squared and
    /// added up, are fewest.
    pub(super) fn like(&self, practice: Practice, player: &Player) -> f64 {
        let own = practice.figures(player);
        let off = |(_, level): &&(f64, Player)| -> f64 {
            let theirs = practice.figures(level);
            own.iter()
                .zip(&theirs)
                .map(|(a, b)| libm::log(a.max(1e-9) / b.max(1e-9)).powi(2))
                .sum()
        };
        self.0
            .iter()
            .min_by(|a, b| off(a).total_cmp(&off(b)))
            .map_or(f64::NAN, |level| level.0)
    }
}
