//! Corners that are known already: named after the ground they belong to, found by click, by text or in a list.

use crate::farm::{Farm, Ground, GroundId};
use crate::geometry::Point;
use crate::quantity::{UnitSystem, length_text};

/// A place that a measure starts from.
#[derive(Debug, Clone, PartialEq)]
pub struct KnownCorner {
    /// Where.
    pub place: Point,
    /// "Long Ley, corner 2", or how far from the farm's zero point.
    pub name: String,
}

/// Nearer than this a place is a corner, metres.
const SAME_M: f64 = 0.002;

/// The corner at a place, by the ground it belongs to; any other place by where it lies.
pub fn known_at(farm: &Farm, place: Point, units: UnitSystem) -> KnownCorner {
    let found = farm.ground.values().find_map(|ground| {
        let corners = ground.shape.corners();
        let number = corners
            .iter()
            .position(|corner| corner.distance_m(place) < SAME_M)?;
        Some(corner_name(ground, number, corners.len()))
    });
    let name = found.unwrap_or_else(|| {
        let (east, north) = (place.east_m, place.north_m);
        format!(
            "{} {}, {} {}",
            length_text(east.abs(), units),
            if east < 0.0 { "west" } else { "east" },
            length_text(north.abs(), units),
            if north < 0.0 { "south" } else { "north" },
        )
    });
    KnownCorner { place, name }
}

fn corner_name(ground: &Ground, index: usize, count: usize) -> String {
    let name = match ground.name.trim() {
        "" => ground.kind.name(),
        name => name,
    };
    if count == 1 {
        name.to_owned()
    } else {
        format!("{name}, corner {}", index + 1)
    }
}

/// The corners of every piece of ground, for a list: the ground's name, then its corners.
pub fn corner_lists(farm: &Farm, first: Option<GroundId>) -> Vec<(String, Vec<KnownCorner>)> {
    let mut ground: Vec<(&GroundId, &Ground)> = farm.ground.iter().collect();
    ground.sort_by_key(|(id, ground)| (Some(**id) != first, ground.name.to_lowercase()));
    ground
        .into_iter()
        .map(|(_, ground)| {
            let corners = ground.shape.corners();
            let count = corners.len();
            let known = corners.into_iter().enumerate();
            let known = known.map(|(index, place)| KnownCorner {
                place,
                name: corner_name(ground, index, count),
            });
            (corner_name(ground, 0, 1), known.collect())
        })
        .collect()
}

/// The corner meant by a text: "Long Ley 2", "Long Ley, corner 2", "corner 2 of Long Ley", or a gate's name.
///
/// # Errors
/// What was not found, in a sentence.
pub fn corner_typed(farm: &Farm, text: &str) -> Result<KnownCorner, String> {
    let lower = text.trim().to_lowercase();
    let lower = lower.strip_prefix("corner ").unwrap_or(&lower);
    let parted = lower
        .split_once(" of ")
        .map(|(number, name)| (name, number))
        .or_else(|| lower.rsplit_once([' ', ',']));
    let numbered = parted.and_then(|(name, number)| {
        let name = name
            .trim_end_matches("corner")
            .trim()
            .trim_end_matches(',')
            .trim();
        Some((name, number.trim().parse::<usize>().ok()?))
    });
    // A whole name comes first: "Plot 2" may be a gate of that name.
    if let Some(ground) = named(farm, lower)
        && let [place] = ground.shape.corners().as_slice()
    {
        return Ok(known(ground, 0, 1, *place));
    }
    let Some((name, number)) = numbered else {
        return Err(match named(farm, lower) {
            Some(ground) => format!(
                "Which corner of {}? Write it like {} 2.",
                ground.name, ground.name
            ),
            None => format!("No ground is called \"{}\".", text.trim()),
        });
    };
    let Some(ground) = named(farm, name) else {
        return Err(format!("No ground is called \"{name}\"."));
    };
    let corners = ground.shape.corners();
    match number.checked_sub(1).and_then(|index| corners.get(index)) {
        Some(place) => Ok(known(ground, number - 1, corners.len(), *place)),
        None => Err(format!(
            "{} has corners 1 to {}, not {number}.",
            ground.name,
            corners.len()
        )),
    }
}

fn known(ground: &Ground, index: usize, count: usize, place: Point) -> KnownCorner {
    KnownCorner {
        place,
        name: corner_name(ground, index, count),
    }
}

/// The ground of this name, or the only one whose name begins so; letters may be large or small.
fn named<'farm>(farm: &'farm Farm, lower: &str) -> Option<&'farm Ground> {
    if lower.is_empty() {
        return None;
    }
    let whole = farm
        .ground
        .values()
        .find(|ground| ground.name.to_lowercase() == lower);
    whole.or_else(|| {
        let mut alike = farm
            .ground
            .values()
            .filter(|ground| ground.name.to_lowercase().starts_with(lower));
        match (alike.next(), alike.next()) {
            (Some(only), None) => Some(only),
            _ => None,
        }
    })
}
