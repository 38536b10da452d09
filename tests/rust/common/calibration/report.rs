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

- Golfers are played as they play when nobody advises them: `direct`, with their habits.
- Figures of play come before the areas of course rating, which do not say what they count: those are checked with a wide
  band.
- The spread of rounds is too wide for club golfers, by a tenth to a fifth. It is no matter of mishits alone. Most of it is the
  number of strokes around the green, of which four in five are to end on it (published), putts (published) and whether greens
  are hit (published), and none of that can be taken away. Of the figures that are fitted it gives way most, with one corridor.
- Fairways hit are those of straight fairways 32 yards wide. Counts of club golfers, the spread of their directions and an
  architect's corridor disagree: by the first the pattern is wider than by the last, and golfers lie between them.
- A golfer who scores about 90 plays more strokes from inside 60 yards than were counted, and fewer from farther off: greens in
  regulation, approaches and the short game are met, and leave no room for fewer. Some of it may be a matter of counting: on the
  course that comes with the library half of his strokes from short grass inside 20 yards (1.4 of 2.8 a round) are putts from the
  fringe, and the parts that were counted have no name for those.
- Length ratings are said to hold for a course without obstacles. Ours has rough around the greens, as the ordinary one has, and
  nothing else. By the rating that men of 0 and 20 give the ordinary course, whose obstacles are our own, men of 9
  to 54 play to their handicaps within a stroke.
- The tour's strokes by distance are played on holes with sand, woods, rough before the green and pins off the middle, but level
  ones; holes that a drive reaches have more in its way.
- The architect's wider corridors are said of the weakest class of golfers, which is taken to be the weakest index group.
- Patterns from a tee are no rounder than from a fairway: a lie acts on depth and width alike.
- A professional gets from a wood to a green within 100 yards too easily: a punch covers it.
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
