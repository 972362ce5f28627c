//! Places as keys of ordered maps: equal only where every digit is.

use std::cmp::Ordering;

use super::Point;

/// A place ordered by east, then north.
#[derive(Debug, Clone, Copy)]
pub(super) struct PlaceKey(pub(super) Point);

impl Ord for PlaceKey {
    fn cmp(&self, other: &Self) -> Ordering {
        // Adding zero makes the two zeros one.
        let key = |point: Point| (point.east_m + 0.0, point.north_m + 0.0);
        let ((east, north), (other_east, other_north)) = (key(self.0), key(other.0));
        east.total_cmp(&other_east)
            .then(north.total_cmp(&other_north))
    }
}

impl PartialOrd for PlaceKey {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl PartialEq for PlaceKey {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other).is_eq()
    }
}

impl Eq for PlaceKey {}
