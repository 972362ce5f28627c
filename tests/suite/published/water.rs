//! What sheep drink, in the gallons that the table prints.

use foldcourse::planning::grazing_sums::{WaterNeed, water_litres_a_day};

use super::{Row, row};

const TABLE: &str = "Water for sheep, South Dakota State University Extension, table after Nutrient Requirements of Small Ruminants, National Research Council, 2007";

const L_PER_US_GALLON: f64 = 3.785_411_784;
const KG_PER_POUND: f64 = 0.453_592_37;

fn gallons(need: WaterNeed, lb: f64) -> (f64, f64) {
    water_litres_a_day(need, lb * KG_PER_POUND).map_or((f64::NAN, f64::NAN), |range| {
        (
            range.least_l / L_PER_US_GALLON,
            range.most_l / L_PER_US_GALLON,
        )
    })
}

fn cell(name: &str, find: fn() -> f64, printed: f64) -> Row {
    row(name, TABLE, find, printed, 0.005)
}

pub(super) fn rows() -> Vec<Row> {
    use WaterNeed::{InLamb, Maintenance, Milking};
    vec![
        cell("130 lb, least", || gallons(Maintenance, 130.0).0, 0.60),
        cell("130 lb, most", || gallons(Maintenance, 130.0).1, 0.82),
        cell("130 lb in lamb, least", || gallons(InLamb, 130.0).0, 1.21),
        cell("130 lb in lamb, most", || gallons(InLamb, 130.0).1, 1.63),
        cell("130 lb milking", || gallons(Milking, 130.0).1, 2.02),
        cell("160 lb, least", || gallons(Maintenance, 160.0).0, 0.70),
        cell("160 lb, most", || gallons(Maintenance, 160.0).1, 0.96),
        cell("160 lb in lamb, least", || gallons(InLamb, 160.0).0, 1.41),
        cell("160 lb in lamb, most", || gallons(InLamb, 160.0).1, 1.90),
        cell("160 lb milking", || gallons(Milking, 160.0).0, 2.36),
        cell("200 lb, least", || gallons(Maintenance, 200.0).0, 0.83),
        cell("200 lb, most", || gallons(Maintenance, 200.0).1, 1.13),
        cell("200 lb in lamb, least", || gallons(InLamb, 200.0).0, 1.67),
        cell("200 lb in lamb, most", || gallons(InLamb, 200.0).1, 2.25),
        cell("200 lb milking", || gallons(Milking, 200.0).1, 2.79),
    ]
}
