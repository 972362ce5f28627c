//! Volumes between level areas, as printed.

use foldcourse::geometry::prismoid::prismoid_m3;

use super::{Row, row};

const BOOK: &str = "Practices of Irrigation and On-farm Water Management, equation 6.5, worked in a library's check";
const PONDS: &str = "Ponds: Planning, Design, Construction, Agriculture Handbook 590, Natural Resources Conservation Service, excavated pond (from memory)";

/// Cubic feet in a cubic yard.
const CUBIC_FEET: f64 = 27.0;

pub(super) fn rows() -> Vec<Row> {
    vec![
        row(
            "areas 10, 18 and 20 over 10",
            BOOK,
            || prismoid_m3(10.0, 10.0, 18.0, 20.0),
            170.0,
            0.05,
        ),
        row(
            "pond 12 ft deep, bottom 40 by 100 ft, sides 2 to 1 and one end 4 to 1, cubic yards",
            PONDS,
            || prismoid_m3(12.0, 88.0 * 172.0, 64.0 * 136.0, 40.0 * 100.0) / CUBIC_FEET,
            3996.0,
            0.5,
        ),
    ]
}
