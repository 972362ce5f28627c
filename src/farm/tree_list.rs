//! Every tree of a tree line by number: its variety, how far along it stands and where.
//!
//! Varieties come in the order they are said and begin again where they end. Metres; places on the plane.

use std::collections::BTreeMap;

use super::{Farm, Ground, GroundId};
use crate::geometry::line::{length_m, station_at};
use crate::geometry::{LonLat, Point, geodesic};

/// One tree of a line.
#[derive(Debug, Clone, PartialEq)]
pub struct Tree {
    /// Its number along the line, from 1.
    pub number: usize,
    /// What it is; empty where no variety is said.
    pub variety: String,
    /// Metres from the line's beginning, along it.
    pub along_m: f64,
    /// Where it stands.
    pub place: Point,
    /// The same on the earth, WGS 84.
    pub lonlat: LonLat,
}

/// The trees of a line in order; none for other ground or a line whose spacing is not said.
pub fn trees_on(farm: &Farm, ground: &Ground) -> Vec<Tree> {
    let (Some(line), Some(row)) = (ground.line(), &ground.trees) else {
        return Vec::new();
    };
    let told_m = geodesic::length_m(farm.frame, line);
    // The plane is a hair longer or shorter than the earth under it; the last tree must not fall off.
    let stretch = length_m(line) / told_m;
    let mut varieties = row.varieties.iter().cycle();
    let mut along_m = row.first_m;
    let mut trees = Vec::new();
    for number in 1..=row.count_along(line, told_m) {
        if let Some(station) = station_at(line, along_m * stretch) {
            trees.push(Tree {
                number,
                variety: varieties.next().cloned().unwrap_or_default(),
                along_m,
                place: station.place,
                lonlat: farm.frame.lonlat_from_point(station.place),
            });
        }
        along_m = row.spacing_m.mul_add(counted(number), row.first_m);
    }
    trees
}

/// Every tree line that has trees, with them, in the order of the ground.
pub fn all_trees(farm: &Farm) -> Vec<(GroundId, Vec<Tree>)> {
    farm.ground
        .iter()
        .map(|(id, ground)| (*id, trees_on(farm, ground)))
        .filter(|(_, trees)| !trees.is_empty())
        .collect()
}

/// How many of each variety, by name; those without one under an empty name.
pub fn totals_by_variety<'a>(trees: impl IntoIterator<Item = &'a Tree>) -> BTreeMap<String, usize> {
    let mut totals = BTreeMap::new();
    for tree in trees {
        *totals.entry(tree.variety.clone()).or_default() += 1;
    }
    totals
}

#[expect(clippy::cast_precision_loss, reason = "100 000 trees at most")]
fn counted(number: usize) -> f64 {
    number as f64
}
