//! How the way to play a hole turns with the score, in a sentence.
use super::ways::HoleWay;
use std::cmp::Ordering;

/// What is played with so many strokes left for the holes to come.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Turn {
    pub(super) needed: usize,
    pub(super) way: HoleWay,
}

/// How the way turns on the hole with a number, with so many holes left (itself among them) and their par.
///
/// `turns` are the scores that a player may come with, most strokes left first.
pub(super) fn press(number: u8, holes: usize, par: usize, turns: &[Turn]) -> String {
    let mut runs: Vec<(usize, usize, HoleWay)> = Vec::new();
    for turn in turns {
        match runs.last_mut() {
            Some(run) if run.2 == turn.way => run.1 = turn.needed,
            _ => runs.push((turn.needed, turn.needed, turn.way)),
        }
    }
    let [(.., first)] = runs.as_slice() else {
        return turning(number, holes, par, &runs);
    };
    match first {
        HoleWay::Fewest => "Fewest strokes, whatever the score so far.".to_owned(),
        way => format!("{}, whatever the score so far.", capital(&told(*way))),
    }
}

fn turning(number: u8, holes: usize, par: usize, runs: &[(usize, usize, HoleWay)]) -> String {
    if runs.is_empty() {
        return "Fewest strokes, whatever the score so far.".to_owned();
    }
    let last = runs.len() - 1;
    let parts: Vec<String> = runs
        .iter()
        .enumerate()
        .map(|(i, &(high, low, way))| {
            let needed = match i {
                0 => format!("{low} or more ({} or worse)", over(low, holes, par)),
                _ if i == last => format!("{high} or fewer ({} or better)", over(high, holes, par)),
                _ if low == high => format!("{low} ({})", over(low, holes, par)),
                _ => format!(
                    "{low} to {high} ({} to {})",
                    brief(low, par),
                    over(high, holes, par)
                ),
            };
            format!("needing {needed} {}", told(way))
        })
        .collect();
    let whose = if holes == 1 {
        "this hole".to_owned()
    } else {
        format!("the last {holes} holes")
    };
    format!(
        "If you stand on {number} with {whose} to play: {}.",
        parts.join("; ")
    )
}

/// How far a number of strokes lies over the par of the holes left.
fn over(needed: usize, holes: usize, par: usize) -> String {
    let whose = if holes == 1 { "its par" } else { "their par" };
    if needed == par {
        whose.to_owned()
    } else {
        format!("{} {whose}", brief(needed, par))
    }
}

/// The same where more follows.
fn brief(needed: usize, par: usize) -> String {
    match needed.cmp(&par) {
        Ordering::Less => format!("{} under", par - needed),
        Ordering::Equal => "level".to_owned(),
        Ordering::Greater => format!("{} over", needed - par),
    }
}

/// A way, as what to do.
fn told(way: HoleWay) -> String {
    match way {
        HoleWay::Fewest => "play for fewest strokes".to_owned(),
        HoleWay::Safe => "keep the big number away".to_owned(),
        HoleWay::Birdie => "press for birdie".to_owned(),
        HoleWay::Par => "play for par first".to_owned(),
        HoleWay::Bogey => "play for bogey first".to_owned(),
        HoleWay::Double => "play for double bogey first".to_owned(),
    }
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters
        .next()
        .map_or(String::new(), |c| c.to_uppercase().chain(letters).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn turn(needed: usize, way: HoleWay) -> Turn {
        Turn { needed, way }
    }

    #[test]
    fn a_sentence_tells_where_the_way_turns() {
        let turns = [
            turn(16, HoleWay::Safe),
            turn(15, HoleWay::Safe),
            turn(14, HoleWay::Fewest),
            turn(13, HoleWay::Fewest),
            turn(12, HoleWay::Par),
        ];
        assert_eq!(
            press(16, 3, 12, &turns),
            "If you stand on 16 with the last 3 holes to play: needing 15 or more (3 over their par or worse) keep the big number \
             away; needing 13 to 14 (1 over to 2 over their par) play for fewest strokes; needing 12 or fewer (their par or \
             better) play for par first."
        );
        let same = [turn(5, HoleWay::Fewest), turn(4, HoleWay::Fewest)];
        assert_eq!(
            press(1, 18, 72, &same),
            "Fewest strokes, whatever the score so far."
        );
        assert_eq!(
            press(1, 18, 72, &[]),
            "Fewest strokes, whatever the score so far."
        );
        let bold = [turn(4, HoleWay::Par)];
        assert_eq!(
            press(1, 1, 4, &bold),
            "Play for par first, whatever the score so far."
        );
    }
}
