//! Floor 4: farms on disk, seen from outside.
