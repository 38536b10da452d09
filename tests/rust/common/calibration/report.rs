//! The report: every figure, what the players come to, and by how much they miss it.
use super::Measured;
use super::study::Study;
use super::targets::{Role, Target};
use std::fmt::Write;

const HEAD: &str = "# Calibration of players by level

Written by `cargo run --release --example calibrate > docs/calibration.md`. Every published figure that players by level
are held to, what they come to, and by how much they miss it. **Set**: players are built to meet it. **Fitted**: it is
among the figures over which `cargo run --release --example calibrate -- fit` takes its least squares. **Checked**:
nothing was fitted to it here. *Off* is the miss over what would count as close (the scale of the fit): beyond 1 it is a
miss worth knowing, beyond 2 it is in bold.

";

const READING: &str = "
## How to read the misses

- Length ratings are said to hold for a course without obstacles. Ours is as plain as can be, and bogey golfers score
  about two and a half strokes better on it than their length rating, which is from memory. On our ordinary course, whose
  obstacles are our own, they lie as far behind scratch golfers as on a course of standard Slope Rating, but for two
  strokes; and by the rating that men of 0 and 20 give it, men of 9 to 36 play to their handicaps within a stroke and a
  half.
- Published figures disagree. The areas of course rating hold two thirds of *all* shots of the reference golfers, and
  those areas are tighter than the greens hit and the feet left in play. The areas are met, played on level ground.
- The tour's strokes by distance were counted on courses with sand, water, slopes and holes near the edge of greens. Ours
  are level and plain, so a professional who needs about a tenth of a stroke less is right. A par 4 of 260 to 300 yards and
  a par 5 in two have most obstacles to lose, and there the miss is largest.
- \"Centred\" is read as the median: the mean of a pattern with duffs in it lies yards shorter.
- The bogey golfer's shortfall is not the fit's (0.10) but set by hand (0.092): with the fit's a golfer who scores
  about 90 hits too few greens from 150 yards.
- Drivers of the weakest are a little straighter than corridors of courses suggest: the areas bind here too.
- Within the areas, scores near the ratings leave much to bad lies. That price is high, nothing published checks it, and
  who takes a shorter club from rough than `direct` does saves strokes.
";

/// A target and what was measured.
pub(crate) struct Row {
    pub(crate) target: Target,
    pub(crate) found: Measured,
}

impl Row {
    pub(crate) fn miss(&self) -> f64 {
        self.found.value - self.target.want
    }

    /// The miss over what would count as close.
    pub(crate) fn off(&self) -> f64 {
        self.miss() / self.target.close
    }
}

/// Asks about every target of a list.
pub(crate) fn rows(study: &Study, targets: Vec<Target>) -> Vec<Row> {
    let ask = |target: Target| Row {
        found: study.answer(target.who, target.asked),
        target,
    };
    targets.into_iter().map(ask).collect()
}

/// The rows as a document in Markdown.
pub(crate) fn markdown(rows: &[Row], figures: &str, effort: &str) -> String {
    let mut text = HEAD.to_owned();
    let _ = writeln!(
        text,
        "{effort}\n\n## The figures in use\n\n```text\n{figures}\n```"
    );
    let mut section = "";
    for row in rows {
        if row.target.section != section {
            section = row.target.section;
            let _ = write!(
                text,
                "\n## {section}\n\n| golfer: figure | target | achieved | s.e. | miss | off | role | source |\n\
                 | --- | ---: | ---: | ---: | ---: | ---: | --- | --- |\n"
            );
        }
        text.push_str(&line(row));
    }
    text.push_str(&misses(rows));
    text.push_str(READING);
    text
}

fn line(row: &Row) -> String {
    let (t, d) = (&row.target, row.target.digits);
    let bold = if row.off().abs() > 2.0 { "**" } else { "" };
    format!(
        "| {} | {:.d$} | {:.d$} | {:.e$} | {bold}{:+.d$}{bold} | {bold}{:+.1}{bold} | {} | {} |\n",
        t.name(),
        t.want,
        row.found.value,
        row.found.error,
        row.miss(),
        row.off(),
        t.role.name(),
        t.source,
        e = d + 1,
    )
}

/// The figures that are missed by more than would count as close, worst first.
fn misses(rows: &[Row]) -> String {
    let mut missed: Vec<&Row> = rows.iter().filter(|row| row.off().abs() > 1.0).collect();
    missed.sort_by(|a, b| b.off().abs().total_cmp(&a.off().abs()));
    let count = |role: Role| rows.iter().filter(|r| r.target.role == role).count();
    let within = |role: Role| {
        let of_role = rows.iter().filter(|r| r.target.role == role);
        of_role.filter(|r| r.off().abs() <= 1.0).count()
    };
    let mut text = "\n## What is missed\n\n".to_owned();
    for role in [Role::Set, Role::Fitted, Role::Checked] {
        let _ = writeln!(
            text,
            "Of {} figures {}, {} are close.",
            count(role),
            role.name(),
            within(role)
        );
    }
    text.push_str("\nThe others, worst first:\n\n");
    for row in missed {
        let (t, d) = (&row.target, row.target.digits);
        let _ = writeln!(
            text,
            "- {}, {}: {:+.d$} from {:.d$} ({})",
            t.section,
            t.name(),
            row.miss(),
            t.want,
            t.role.name()
        );
    }
    text
}
