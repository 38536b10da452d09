//! A tour professional's expected strokes to hole out by distance, from memory of Broadie's tables (2012, 2014; PGA TOUR
//! 2003 to 2010).

/// Yards of a hole, and strokes from its tee.
pub(crate) const FROM_TEE: [(f64, f64); 13] = [
    (100.0, 2.92),
    (140.0, 2.97),
    (180.0, 3.05),
    (220.0, 3.17),
    (260.0, 3.45),
    (300.0, 3.71),
    (340.0, 3.86),
    (380.0, 3.96),
    (420.0, 4.02),
    (460.0, 4.17),
    (500.0, 4.41),
    (540.0, 4.65),
    (580.0, 4.79),
];

/// Yards to the hole, and strokes from the fairway.
pub(crate) const FROM_FAIRWAY: [(f64, f64); 17] = [
    (10.0, 2.18),
    (20.0, 2.40),
    (40.0, 2.60),
    (60.0, 2.70),
    (80.0, 2.75),
    (100.0, 2.80),
    (120.0, 2.85),
    (140.0, 2.91),
    (160.0, 2.98),
    (180.0, 3.08),
    (200.0, 3.19),
    (220.0, 3.32),
    (240.0, 3.45),
    (280.0, 3.69),
    (340.0, 3.88),
    (420.0, 4.15),
    (500.0, 4.53),
];
