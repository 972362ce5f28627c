//! Makes polygons of loose rings: loops taken apart, specks dropped, holes put into the ground they are cut from.

use std::collections::BTreeMap;

use super::super::place_key::PlaceKey;
use super::super::{Point, Polygon, Ring, Whereabouts};

/// Polygons of rings whose ground lies to their left; rings of `speck_m2` or less are dropped.
/// Outer rings keep the order in which they come.
pub(super) fn polygons(rings: Vec<Vec<Point>>, speck_m2: f64) -> Vec<Polygon> {
    let mut polygons: Vec<(f64, Polygon)> = Vec::new();
    let mut holes: Vec<Ring> = Vec::new();
    for ring in rings.into_iter().flat_map(loops) {
        let area_m2 = ring.signed_area_m2();
        if ring.corners.len() < 3 || area_m2.abs() <= speck_m2 {
            continue;
        }
        if area_m2 > 0.0 {
            let polygon = Polygon {
                outer: ring,
                holes: Vec::new(),
            };
            polygons.push((area_m2, polygon));
        } else {
            holes.push(ring);
        }
    }
    for hole in holes {
        let around = polygons
            .iter_mut()
            .filter(|(_, polygon)| holds(&polygon.outer, &hole))
            .min_by(|one, two| one.0.total_cmp(&two.0));
        if let Some((_, polygon)) = around {
            polygon.holes.push(hole);
        }
    }
    polygons.into_iter().map(|(_, polygon)| polygon).collect()
}

/// Takes a ring that passes through a place twice apart into rings that do not.
fn loops(places: Vec<Point>) -> Vec<Ring> {
    let mut rings = Vec::new();
    let mut walked: Vec<Point> = Vec::with_capacity(places.len());
    let mut seen: BTreeMap<PlaceKey, usize> = BTreeMap::new();
    for place in places {
        if let Some(&start) = seen.get(&PlaceKey(place)) {
            let round: Vec<Point> = walked.drain(start..).collect();
            for passed in &round {
                seen.remove(&PlaceKey(*passed));
            }
            rings.push(Ring { corners: round });
        }
        seen.insert(PlaceKey(place), walked.len());
        walked.push(place);
    }
    rings.push(Ring { corners: walked });
    rings
}

/// Whether a ring known not to cross `outer` lies within it.
fn holds(outer: &Ring, ring: &Ring) -> bool {
    let corners = ring.corners.iter().copied();
    let middles = ring.sides().map(|(from, to)| from.between(to, 0.5));
    let decided = corners
        .chain(middles)
        .map(|place| outer.whereabouts(place))
        .find(|whereabouts| *whereabouts != Whereabouts::OnBoundary);
    decided == Some(Whereabouts::Inside)
}
