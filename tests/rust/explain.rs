//! A player explained: against the kernel, against published areas, and against what must come out.
#![expect(clippy::unwrap_used, reason = "a test fails by panicking")]
use wideberth::explain::{BagTable, Explaining};
use wideberth::noise::Seed;
use wideberth::player::Player;

#[test]
fn look() {
    for h in [0.0, 18.0, 36.0] {
        let p = Player::from_handicap(h).unwrap();
        let t = std::time::Instant::now();
        let table = BagTable::of(&p).unwrap();
        eprintln!("table {:?}", t.elapsed());
        for c in &table.clubs {
            eprintln!(
                "{} {:.0} {:.0} {:.0} depth {:.0} ({:.0}-{:.0}) width {:.0} mis {:.2} solid {:.0} {:.0}",
                c.club,
                c.carry,
                c.total,
                c.average,
                c.depth.size(),
                c.depth.low,
                c.depth.high,
                c.width.size(),
                c.mishit_share,
                c.solid_depth.size(),
                c.solid_width.size()
            );
        }
        let t = std::time::Instant::now();
        let mut e = Explaining::new(&p, 2000, Seed(1)).unwrap();
        eprintln!("new {:?}", t.elapsed());
        let t = std::time::Instant::now();
        e.advance(2000);
        eprintln!("advance {:?}", t.elapsed());
        let t = std::time::Instant::now();
        let f = e.found().unwrap();
        eprintln!("found {:?} {f:#?}", t.elapsed());
    }
}
