//! Mirroring and turning everything that is selected, together. Lengths and areas stay: nothing is ever stretched.
//!
//! Strips go with their ley. Corners keep their own precision, so that shared ones stay shared. Metres, degrees.

use std::collections::BTreeSet;

use super::Reshaped;
use super::join::names_text;
use crate::farm::{Edit, Farm, Ground, GroundId, HenHouse, LineSide, Shape};
use crate::geometry::Point;

/// Everything mirrored across the line through two places.
///
/// # Errors
/// A sentence, where the two are one place or nothing is selected.
pub fn mirrored_across(
    farm: &Farm,
    ids: &BTreeSet<GroundId>,
    from: Point,
    to: Point,
) -> Result<Reshaped, String> {
    let length_m = from.distance_m(to);
    if !(length_m > 0.001 && length_m.is_finite()) {
        return Err("The line to mirror across needs two ends that differ.".to_owned());
    }
    let unit = (
        (to.east_m - from.east_m) / length_m,
        (to.north_m - from.north_m) / length_m,
    );
    let flip = |corner: Point| {
        let (east, north) = (corner.east_m - from.east_m, corner.north_m - from.north_m);
        let along = east * unit.0 + north * unit.1;
        Point::new(
            from.east_m + 2.0 * along * unit.0 - east,
            from.north_m + 2.0 * along * unit.1 - north,
        )
    };
    let mut reshaped = all_changed(farm, ids, "Mirror", |shape| {
        let mut flipped = shape.map_corners(flip);
        if let Shape::Area(outline) = &mut flipped {
            // A mirrored ring runs the other way round; it is kept running as it was drawn.
            for ring in outline.rings_mut() {
                ring.corners.reverse();
            }
        }
        flipped
    })?;
    reshaped.edits.extend(hens_changed_sides(farm, ids));
    Ok(reshaped)
}

/// Everything turned clockwise about a place.
///
/// # Errors
/// A sentence, where the turn is not a number or nothing is selected.
pub fn turned_about(
    farm: &Farm,
    ids: &BTreeSet<GroundId>,
    about: Point,
    by_deg: f64,
) -> Result<Reshaped, String> {
    if !by_deg.is_finite() {
        return Err("The turn is not a number of degrees.".to_owned());
    }
    let (sine, cosine) = exact_at_quarters(by_deg);
    all_changed(farm, ids, "Turn", |shape| {
        shape.map_corners(|corner| {
            let (east, north) = (corner.east_m - about.east_m, corner.north_m - about.north_m);
            about.moved(east * cosine + north * sine, north * cosine - east * sine)
        })
    })
}

/// Sine and cosine of a turn; quarters come out whole, so that four of them lead back.
fn exact_at_quarters(by_deg: f64) -> (f64, f64) {
    let turn_deg = by_deg.rem_euclid(360.0);
    let is = |deg: f64| (turn_deg - deg).abs() < 1e-12;
    if is(0.0) || is(360.0) {
        (0.0, 1.0)
    } else if is(90.0) {
        (1.0, 0.0)
    } else if is(180.0) {
        (0.0, -1.0)
    } else if is(270.0) {
        (-1.0, 0.0)
    } else {
        turn_deg.to_radians().sin_cos()
    }
}

/// The selected pieces and the strips of selected leys.
pub(crate) fn with_strips(farm: &Farm, ids: &BTreeSet<GroundId>) -> BTreeSet<GroundId> {
    farm.ground
        .iter()
        .filter(|(id, ground)| {
            ids.contains(id) || ground.within.is_some_and(|ley| ids.contains(&ley))
        })
        .map(|(id, _)| *id)
        .collect()
}

fn all_changed(
    farm: &Farm,
    ids: &BTreeSet<GroundId>,
    act: &str,
    change: impl Fn(&Shape) -> Shape,
) -> Result<Reshaped, String> {
    let edits: Vec<Edit> = with_strips(farm, ids)
        .into_iter()
        .filter_map(|id| Some((id, farm.ground.get(&id)?)))
        .map(|(id, ground)| {
            let new = Ground {
                shape: change(&ground.shape),
                ..ground.clone()
            };
            Edit::change_ground(id, ground, new)
        })
        .collect();
    if edits.is_empty() {
        return Err("Select something first.".to_owned());
    }
    let names = ids
        .iter()
        .filter_map(|id| farm.ground.get(id))
        .map(|ground| ground.name.as_str());
    Ok(Reshaped {
        label: format!("{act} {}", names_text(names)),
        edits,
        select: ids.clone(),
    })
}

/// Hens whose every line is mirrored walk on the other hand of it.
fn hens_changed_sides(farm: &Farm, ids: &BTreeSet<GroundId>) -> Vec<Edit> {
    farm.hen_houses
        .iter()
        .filter(|(_, house)| {
            !house.lines.is_empty() && house.lines.iter().all(|line| ids.contains(line))
        })
        .map(|(id, house)| Edit::HenHouse {
            id: *id,
            old: Some(Box::new(house.clone())),
            new: Some(Box::new(HenHouse {
                side: match house.side {
                    LineSide::Left => LineSide::Right,
                    LineSide::Right => LineSide::Left,
                    LineSide::Both => LineSide::Both,
                },
                ..house.clone()
            })),
        })
        .collect()
}
