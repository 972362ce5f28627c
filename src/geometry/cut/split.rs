//! Splits ground along a drawn line.
//!
//! The line is cut where it meets the boundary; the stretches of it inside the ground become new sides, walked both
//! ways, and the pieces are the faces of the net of old and new sides. Stretches that end inside the ground, or lead
//! only to a hole, cut nothing and are left out. Metres.

use super::super::sides::{Meeting, meeting};
use super::super::{Outline, Point, Polygon, Ring, Whereabouts};
use super::cross_section::wound_rings;
use super::split_faces::{Net, Stretch};
use super::{CutError, figure};
use super::{assemble, relink};

/// How near a drawn point must come to the boundary, or a crossing to a corner, to be taken as lying on it. Above the
/// rounding of drawn corners to whole millimetres, below anything a person would draw.
const TOUCH_M: f64 = 0.002;

/// A place where the line meets the boundary.
#[derive(Clone, Copy)]
struct Contact {
    place: Point,
    ring: usize,
    side: usize,
    /// How far along the side, 0 up to 1.
    share: f64,
    /// How far along the line: whole stretches, then the share of the next.
    on_line: f64,
    /// Whether a drawn point lies here, not merely a stretch between two.
    drawn: bool,
}

/// The pieces of `outline` cut along `line`, each one polygon; parts the line does not cut come whole, last.
///
/// Points of the line within 2 mm of the boundary are taken as lying on it, so a line snapped to a corner or a side
/// cuts there. The pieces share the very same new corners.
///
/// # Errors
/// A line too short or crossing itself, no ground, or a line that does not cut any part in two.
pub fn split_by_line(outline: &Outline, line: &[Point]) -> Result<Vec<Outline>, CutError> {
    let rings = wound_rings(outline);
    let whole_m2: f64 = rings.iter().map(Ring::signed_area_m2).sum();
    if !(whole_m2 > 0.0 && whole_m2.is_finite()) {
        return Err(CutError::NoGround);
    }
    let line = checked_line(line)?;
    let (line, contacts) = contacts(&rings, &line);
    let stretches = stretches_inside(outline, &rings, &line, &contacts);
    let on_rings: Vec<(usize, usize, f64, Point)> = contacts
        .iter()
        .map(|contact| (contact.ring, contact.side, contact.share, contact.place))
        .collect();
    let net = Net::new(&rings, &on_rings, stretches);
    let (faces, untouched) = net.faces().ok_or(CutError::LineDoesNotCross)?;
    let speck_m2 = whole_m2 * 1e-15;
    let mut loose = faces;
    loose.extend(untouched);
    // A hole left whole may touch the new sides or its neighbours so that it cuts a piece apart.
    let parts: Vec<Polygon> = assemble::polygons(loose, speck_m2)
        .into_iter()
        .flat_map(|part| {
            let rings = part.rings().map(|ring| ring.corners.clone()).collect();
            assemble::polygons(relink::faces(rings), speck_m2)
        })
        .collect();
    if parts.len() <= outline.parts.len() {
        return Err(CutError::LineDoesNotCross);
    }
    Ok(parts
        .into_iter()
        .map(|part| Outline { parts: vec![part] })
        .collect())
}

fn checked_line(line: &[Point]) -> Result<Vec<Point>, CutError> {
    let mut line = line.to_vec();
    line.dedup();
    if line.len() < 2 || !line.iter().all(|point| point.is_finite()) {
        return Err(CutError::LineTooShort);
    }
    let stretches: Vec<(Point, Point)> = pairs(&line).collect();
    // A point that lies on another stretch, as where the line doubles back, leaves no room for a piece between.
    for (index, (from, to)) in stretches.iter().enumerate() {
        let others = line
            .iter()
            .enumerate()
            .filter(|(at, _)| *at != index && *at != index + 1);
        for (_, point) in others {
            if point.distance_m(point.nearest_on_side(*from, *to)) <= TOUCH_M {
                return Err(CutError::LineCrossesItself);
            }
        }
    }
    for (index, (from, to)) in stretches.iter().enumerate() {
        for (ahead, (other_from, other_to)) in stretches.iter().skip(index + 1).enumerate() {
            match meeting(*from, *to, *other_from, *other_to) {
                Meeting::Apart => {}
                Meeting::Touch(_) if ahead == 0 => {}
                _ => return Err(CutError::LineCrossesItself),
            }
        }
    }
    Ok(line)
}

fn pairs(line: &[Point]) -> impl Iterator<Item = (Point, Point)> + '_ {
    line.iter()
        .zip(line.iter().skip(1))
        .map(|(from, to)| (*from, *to))
}

/// The line with its near points pulled onto the boundary, and every contact in order along it.
fn contacts(rings: &[Ring], line: &[Point]) -> (Vec<Point>, Vec<Contact>) {
    let mut found: Vec<Contact> = Vec::new();
    let mut pulled: Vec<Point> = Vec::with_capacity(line.len());
    for (index, point) in line.iter().enumerate() {
        let contact = nearest_contact(rings, *point, figure(index));
        pulled.push(contact.map_or(*point, |contact| contact.place));
        found.extend(contact);
    }
    for (index, stretch) in pairs(&pulled).enumerate() {
        if stretch.0 != stretch.1 {
            add_contacts_of_stretch(rings, index, stretch, &mut found);
        }
    }
    found.sort_by(|one, two| {
        one.on_line
            .total_cmp(&two.on_line)
            .then((one.ring, one.side).cmp(&(two.ring, two.side)))
    });
    let kept = without_echoes(rings, &pulled, found);
    (pulled, kept)
}

/// Every contact of one stretch of the line: where it meets sides, and corners it passes as near as makes no odds.
fn add_contacts_of_stretch(
    rings: &[Ring],
    index: usize,
    (from, to): (Point, Point),
    found: &mut Vec<Contact>,
) {
    let length_m = from.distance_m(to);
    for (ring_index, ring) in rings.iter().enumerate() {
        for (side, (corner, next)) in ring.sides().enumerate() {
            let mut places = match meeting(from, to, corner, next) {
                Meeting::Apart => vec![],
                Meeting::Cross(place) | Meeting::Touch(place) => vec![place],
                Meeting::Along(first, last) => vec![first, last],
            };
            // A line along a side may miss the side's end by rounding alone.
            if corner.distance_m(corner.nearest_on_side(from, to)) <= TOUCH_M {
                places.push(corner);
            }
            for place in places {
                let on_line = figure(index) + (from.distance_m(place) / length_m).min(1.0);
                let at = (ring_index, side);
                found.push(contact_on_side(at, (corner, next), place, on_line));
            }
        }
    }
}

/// A contact at a place on a side; near a corner it is the corner itself.
fn contact_on_side(
    (ring, side): (usize, usize),
    (corner, next): (Point, Point),
    place: Point,
    on_line: f64,
) -> Contact {
    let (place, share) = if place.distance_m(corner) <= TOUCH_M {
        (corner, 0.0)
    } else if place.distance_m(next) <= TOUCH_M {
        (next, 1.0)
    } else {
        (place, corner.distance_m(place) / corner.distance_m(next))
    };
    Contact {
        place,
        ring,
        side,
        share,
        on_line,
        drawn: false,
    }
}

/// The contact of a point of the line that lies on, or all but on, the boundary.
fn nearest_contact(rings: &[Ring], point: Point, on_line: f64) -> Option<Contact> {
    let mut nearest: Option<(f64, Contact)> = None;
    for (ring_index, ring) in rings.iter().enumerate() {
        for (side, (corner, next)) in ring.sides().enumerate() {
            let place = point.nearest_on_side(corner, next);
            let contact = contact_on_side((ring_index, side), (corner, next), place, on_line);
            let off_m = point.distance_m(contact.place);
            let is_nearer = nearest.is_none_or(|(nearest_m, _)| off_m < nearest_m);
            if point.distance_m(place) <= TOUCH_M && is_nearer {
                nearest = Some((off_m, contact));
            }
        }
    }
    nearest.map(|(_, contact)| Contact {
        drawn: true,
        ..contact
    })
}

/// Drops contacts that repeat one just before along the line on the same ring, on the same side or round the same
/// corner; of the two the drawn one stays, since the line bends there.
fn without_echoes(rings: &[Ring], line: &[Point], contacts: Vec<Contact>) -> Vec<Contact> {
    let mut kept: Vec<Contact> = Vec::with_capacity(contacts.len());
    for contact in contacts {
        let count = rings.get(contact.ring).map_or(1, |ring| ring.corners.len());
        let echo = kept.iter_mut().rev().take(4).find(|earlier| {
            let apart = earlier.side.abs_diff(contact.side);
            let beside = apart <= 1 || apart + 1 == count;
            earlier.ring == contact.ring
                && beside
                && earlier.place.distance_m(contact.place) <= TOUCH_M
                && length_between_m(line, earlier.on_line, contact.on_line) <= 2.0 * TOUCH_M
        });
        match echo {
            Some(earlier) if contact.drawn && !earlier.drawn => *earlier = contact,
            Some(_) => {}
            None => kept.push(contact),
        }
    }
    kept
}

/// Length of the line between two places on it, given as whole stretches and the share of the next, metres.
fn length_between_m(line: &[Point], from: f64, to: f64) -> f64 {
    let passed = pairs(line).enumerate().map(|(index, (start, end))| {
        let share = |at: f64| (at - figure(index)).clamp(0.0, 1.0);
        start.distance_m(end) * (share(to) - share(from))
    });
    passed.sum()
}

/// The stretches of the line between contacts that run inside the ground.
fn stretches_inside(
    outline: &Outline,
    rings: &[Ring],
    line: &[Point],
    contacts: &[Contact],
) -> Vec<Stretch> {
    let mut stretches = Vec::new();
    for (from, to) in contacts.iter().zip(contacts.iter().skip(1)) {
        let between = line
            .iter()
            .enumerate()
            .filter(|(index, _)| {
                let at = figure(*index);
                from.on_line < at && at < to.on_line
            })
            .map(|(_, point)| *point);
        let mut places = vec![from.place];
        places.extend(between);
        places.push(to.place);
        places.dedup();
        let longest =
            pairs(&places).max_by(|(a, b), (c, d)| a.distance_m(*b).total_cmp(&c.distance_m(*d)));
        let Some((start, end)) = longest else {
            continue;
        };
        let middle = start.between(end, 0.5);
        let clear = rings.iter().flat_map(Ring::sides).all(|(corner, next)| {
            middle.distance_m(middle.nearest_on_side(corner, next)) > TOUCH_M / 2.0
        });
        if clear && outline.whereabouts(middle) == Whereabouts::Inside {
            stretches.push(places);
        }
    }
    stretches
}
