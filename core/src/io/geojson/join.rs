//! Lines joined end to end, as the ways that a longer line or a ring was drawn in.
use super::shape::Position;
use std::collections::BTreeMap;

/// Joins lines at the positions they share. With `directed` a line is joined only by its end to the start of the next one.
pub(super) fn joined(parts: Vec<Vec<Position>>, directed: bool) -> Vec<Vec<Position>> {
    let mut parts: Vec<Option<Vec<Position>>> = parts
        .into_iter()
        .map(|part| Some(part).filter(|p| p.len() > 1))
        .collect();
    // The parts that begin or end at a position.
    let mut at: BTreeMap<(u64, u64), Vec<usize>> = BTreeMap::new();
    for (i, part) in parts.iter().enumerate() {
        for end in part.iter().flat_map(|p| [p[0], p[p.len() - 1]]) {
            at.entry(end.key()).or_default().push(i);
        }
    }
    let mut lines = Vec::new();
    for i in 0..parts.len() {
        let Some(mut line) = parts[i].take() else {
            continue;
        };
        extend(&mut line, &mut parts, &at, directed, false);
        line.reverse();
        extend(&mut line, &mut parts, &at, directed, true);
        line.reverse();
        lines.push(line);
    }
    lines
}

/// Adds what goes on at the end of a line, until it is closed; `backwards` for a line that was turned round.
fn extend(
    line: &mut Vec<Position>,
    parts: &mut [Option<Vec<Position>>],
    at: &BTreeMap<(u64, u64), Vec<usize>>,
    directed: bool,
    backwards: bool,
) {
    while let (Some(&first), Some(&last)) = (line.first(), line.last()) {
        if first == last {
            return;
        }
        let fits = |part: &Vec<Position>, turned: bool| {
            let end = if turned { part.last() } else { part.first() };
            end == Some(&last) && (!directed || turned == backwards)
        };
        let next = at.get(&last.key()).into_iter().flatten().find_map(|&i| {
            let part = parts[i].as_ref()?;
            let turned = [backwards, !backwards]
                .into_iter()
                .find(|&t| fits(part, t))?;
            Some((i, turned))
        });
        let Some((i, turned)) = next else { return };
        let mut part = parts[i].take().unwrap_or_default();
        if turned {
            part.reverse();
        }
        line.extend(part.into_iter().skip(1));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn line(list: &[(i8, i8)]) -> Vec<Position> {
        let place = |&(x, y): &(i8, i8)| Position {
            longitude: f64::from(x),
            latitude: f64::from(y),
        };
        list.iter().map(place).collect()
    }

    #[test]
    fn ways_of_a_ring_are_joined_in_any_order_and_direction() {
        let ways = vec![
            line(&[(0, 0), (1, 0)]),
            line(&[(1, 1), (0, 1), (0, 0)]),
            line(&[(1, 1), (1, 0)]),
            line(&[(5, 5), (6, 6)]),
        ];
        let found = joined(ways, false);
        assert_eq!(found.len(), 2);
        assert_eq!((found[0].len(), found[0].first()), (5, found[0].last()));
    }

    #[test]
    fn directed_lines_keep_their_direction() {
        let found = joined(
            vec![
                line(&[(1, 0), (2, 0)]),
                line(&[(0, 0), (1, 0)]),
                line(&[(2, 0), (2, 1)]),
            ],
            true,
        );
        assert_eq!(found, [line(&[(0, 0), (1, 0), (2, 0), (2, 1)])]);
        let opposed = joined(vec![line(&[(1, 0), (2, 0)]), line(&[(1, 0), (0, 0)])], true);
        assert_eq!(opposed.len(), 2);
    }
}
