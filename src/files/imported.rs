//! What an exchange file brings in, before it is on a farm: ground without numbers, and what is to be told about it.
//!
//! Knows no format. Metres of the farm's plane.

use std::path::Path;

use crate::farm::{Farm, Ground, GroundId};
use crate::geometry::GroundFrame;
use crate::quantity::Day;

/// Farther than this from the origin no ground is taken in, metres: the saved layout holds no more.
pub(super) const FARTHEST_M: f64 = 2_000_000.0;

/// The most letters of a name.
pub(super) const LONGEST_NAME: usize = 120;

/// A farm made of what a file held.
#[derive(Debug, Clone, PartialEq)]
pub struct Imported {
    /// The farm, its origin in the middle of what came in.
    pub farm: Farm,
    /// What was left out or assumed, a sentence each.
    pub notes: Vec<String>,
}

/// Ground for a farm that is there already.
#[derive(Debug, Clone, PartialEq)]
pub struct ImportedGround {
    /// What came in, in the file's order.
    pub pieces: Vec<ImportedPiece>,
    /// What was left out or assumed, a sentence each.
    pub notes: Vec<String>,
}

/// One piece of ground that has no number yet.
#[derive(Debug, Clone, PartialEq)]
pub struct ImportedPiece {
    /// The ground; its `within` is not set.
    pub ground: Ground,
    /// The place in the list of the ley or plot that it is a strip of.
    pub strip_of: Option<usize>,
}

impl ImportedGround {
    /// A farm of nothing but this ground.
    pub(super) fn into_farm(
        self,
        name: String,
        frame: GroundFrame,
        season_first_day: Day,
    ) -> Imported {
        let mut farm = Farm::new(name, frame, season_first_day);
        let first_id = farm.next_id;
        let id_of = |place: usize| {
            u32::try_from(place)
                .ok()
                .and_then(|place| first_id.checked_add(place))
        };
        for (place, piece) in self.pieces.into_iter().enumerate() {
            let (Some(id), Some(next_id)) = (id_of(place), id_of(place + 1)) else {
                break;
            };
            let mut ground = piece.ground;
            ground.within = piece.strip_of.and_then(id_of).map(GroundId);
            farm.ground.insert(GroundId(id), ground);
            farm.next_id = next_id;
        }
        Imported {
            farm,
            notes: self.notes,
        }
    }
}

/// The name of a file without folder and ending.
pub(super) fn stem(source_name: &str) -> String {
    Path::new(source_name).file_stem().map_or_else(
        || source_name.to_owned(),
        |stem| stem.to_string_lossy().into_owned(),
    )
}
