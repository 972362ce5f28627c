//! Walks rings that touch anew, so that each comes to go round one piece of ground.
//!
//! A hole that touches the boundary of a strip twice cuts it in two, though each ring by itself is sound. At a place
//! that rings pass more than once the walk takes the leftmost way on; ground lies to the left of every side.

use std::collections::BTreeMap;

use super::super::Point;
use super::super::place_key::PlaceKey;
use super::leftmost_turn;

/// A side from place to place.
type Side = (Point, Point);

/// The rings round the faces of these rings; the rings themselves where none of them touch.
/// Sides walked both ways, as spikes are, fall away.
pub(super) fn faces(rings: Vec<Vec<Point>>) -> Vec<Vec<Point>> {
    if !any_place_twice(&rings) {
        return rings;
    }
    let sides = sides_walked_once(&rings);
    let mut ways_from: BTreeMap<PlaceKey, Vec<usize>> = BTreeMap::new();
    for (index, side) in sides.iter().enumerate() {
        ways_from.entry(PlaceKey(side.0)).or_default().push(index);
    }
    let mut walked = vec![false; sides.len()];
    let mut faces = Vec::new();
    for start in 0..sides.len() {
        let mut face = Vec::new();
        let mut at = Some(start);
        while let Some(index) = at {
            let (Some(done @ false), Some(side)) = (walked.get_mut(index), sides.get(index)) else {
                break;
            };
            *done = true;
            face.push(side.0);
            at = next_way(*side, &sides, &ways_from, &walked, start);
        }
        if face.len() > 2 {
            faces.push(face);
        }
    }
    faces
}

fn any_place_twice(rings: &[Vec<Point>]) -> bool {
    let mut places: Vec<PlaceKey> = rings
        .iter()
        .flatten()
        .map(|place| PlaceKey(*place))
        .collect();
    places.sort_unstable();
    places.windows(2).any(|pair| pair.first() == pair.last())
}

/// The sides of all rings, without those that another one walks back.
fn sides_walked_once(rings: &[Vec<Point>]) -> Vec<Side> {
    let sides: Vec<Side> = rings
        .iter()
        .flat_map(|ring| ring.iter().zip(ring.iter().cycle().skip(1)))
        .map(|(from, to)| (*from, *to))
        .filter(|(from, to)| PlaceKey(*from) != PlaceKey(*to))
        .collect();
    let mut balance: BTreeMap<(PlaceKey, PlaceKey), usize> = BTreeMap::new();
    for (from, to) in &sides {
        *balance.entry((PlaceKey(*from), PlaceKey(*to))).or_default() += 1;
    }
    let mut to_drop: BTreeMap<(PlaceKey, PlaceKey), usize> = balance
        .iter()
        .filter_map(|((from, to), count)| {
            let back = balance.get(&(*to, *from))?;
            Some(((*from, *to), *count.min(back)))
        })
        .collect();
    let mut kept = sides;
    kept.retain(
        |(from, to)| match to_drop.get_mut(&(PlaceKey(*from), PlaceKey(*to))) {
            Some(left) if *left > 0 => {
                *left -= 1;
                false
            }
            _ => true,
        },
    );
    kept
}

/// The way on from the end of a side; none where the walk is round.
fn next_way(
    side: Side,
    sides: &[Side],
    ways_from: &BTreeMap<PlaceKey, Vec<usize>>,
    walked: &[bool],
    start: usize,
) -> Option<usize> {
    let ways = ways_from.get(&PlaceKey(side.1))?;
    let turn = |index: &usize| {
        let way = sides.get(*index).copied().unwrap_or(side);
        leftmost_turn(side.0, side.1, way.1)
    };
    let leftmost = ways
        .iter()
        .copied()
        .min_by(|one, two| turn(one).total_cmp(&turn(two)))?;
    if leftmost == start || walked.get(leftmost) == Some(&false) {
        return Some(leftmost);
    }
    // Only rounding of angles leads here; any way left over still closes the walk.
    ways.iter()
        .copied()
        .find(|index| walked.get(*index) == Some(&false))
}
