//! How a ball leaves the club where a player's own launch is not known.

/// A full shot of a long hitter with a club of a loft: degrees of loft, degrees of launch, rpm of backspin, yards of carry.
pub(crate) struct Row {
    pub(crate) loft: f64,
    pub(crate) launch: f64,
    pub(crate) spin: f64,
    pub(crate) carry: f64,
}

const fn row(loft: f64, launch: f64, spin: f64, carry: f64) -> Row {
    Row {
        loft,
        launch,
        spin,
        carry,
    }
}

/// Full shots of a tour professional by loft: commonly quoted averages, rounded; above 46 degrees common practice, no source.
///
/// Degrees of loft, degrees of launch, rpm of backspin, yards of carry. From memory: commonly quoted averages.
pub(crate) const BY_LOFT: [Row; 14] = [
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

/// Loft of a driver.
///
/// Degrees. Common practice, no source.
pub(crate) const DRIVER_LOFT: f64 = 10.5;

/// Loft of a wood: so many degrees, and so many more for each of its number.
///
/// Degrees. Common practice, no source.
pub(crate) const WOOD_LOFT: (f64, f64) = (10.5, 1.5);

/// The same of a hybrid.
///
/// Degrees. Common practice, no source.
pub(crate) const HYBRID_LOFT: (f64, f64) = (12.0, 2.5);

/// Loft of a 5-iron, from which those of the other irons are told.
///
/// Degrees. Common practice, no source.
pub(crate) const FIVE_IRON_LOFT: f64 = 26.0;

/// Lofts from iron to iron: before the 5-iron, and from it on.
///
/// Degrees. Common practice, no source.
pub(crate) const IRON_STEPS: (f64, f64) = (3.0, 4.0);

/// Lofts of wedges.
///
/// Degrees. Common practice, no source.
pub(crate) const WEDGE_LOFTS: [(&str, f64); 4] = [
    ("pitching", 46.0),
    ("gap", 51.0),
    ("sand", 55.0),
    ("lob", 60.0),
];

/// Spin grows with this power of the carry: spin is about in proportion to speed, and carry grows faster than speed
/// (mechanics of an oblique blow; the power is ours).
///
/// Number. Chosen, no source.
pub(crate) const SPIN_POWER: f64 = 0.7;

/// How much more launch a player has who hits the ball half as far: slower players hit it higher.
///
/// Degrees. Common practice, no source.
pub(crate) const SLOWER_IS_HIGHER: f64 = 4.0;

/// A club without a name we know is taken for that of a player who carries it this share of [`BY_LOFT`].
///
/// Share. Chosen, no source.
pub(crate) const UNNAMED_SHARE: f64 = 0.8;

/// However far a player hits a club, its launch is no lower than this share of that of its loft.
///
/// Share. Chosen, no source.
pub(crate) const LEAST_LAUNCH: f64 = 0.6;

/// However far a player hits a club, its spin stays between these.
///
/// Revolutions a minute. Chosen, no source.
pub(crate) const SPINS: (f64, f64) = (500.0, 12_000.0);

/// Launch of a chip: low, most of the way along the ground.
///
/// Degrees of launch, rpm of backspin. Common practice, no source.
pub(crate) const CHIP: (f64, f64) = (20.0, 2000.0);

/// Launch of a pitch: high, most of the way through the air.
///
/// Degrees of launch, rpm of backspin. Common practice, no source.
pub(crate) const PITCH: (f64, f64) = (36.0, 5500.0);

/// Launch of a lob: as high as it goes.
///
/// Degrees of launch, rpm of backspin. Common practice, no source.
pub(crate) const LOB: (f64, f64) = (52.0, 5500.0);

/// Launch of a splash from a bunker near the green.
///
/// Degrees of launch, rpm of backspin. Common practice, no source.
pub(crate) const BUNKER_SHOT: (f64, f64) = (45.0, 4500.0);

/// What a punch, a low swing under branches or wind, keeps of the launch angle and of the spin.
///
/// Shares. Common practice, no source.
pub(crate) const PUNCHED: (f64, f64) = (0.5, 0.75);
