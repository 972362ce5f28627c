//! Plants and beds to the area, and nitrogen of hens and ewes, as others print them.

use foldcourse::farm::{Beds, StockClass, plants_on};
use foldcourse::planning::{
    EWES_PER_HA, HENS_PER_HA, MOST_N_KG_PER_HA, NitrogenSet, bed_length_m, visit_kg_per_ha,
    with_spare,
};

use super::{Row, row};

const M_PER_FOOT: f64 = 0.3048;
const M2_PER_ACRE: f64 = 4_046.856_422_4;
const SANTA_CRUZ: &str = "Teaching Organic Farming and Gardening, University of California Santa Cruz, Unit 1.5, Appendix 13";
const NITRATES: &str =
    "Council Directive 91/676/EEC, Annex III, with Regulation (EC) 889/2008, Annex IV";

#[expect(clippy::cast_precision_loss, reason = "counts of plants")]
fn plants(area_m2: f64, row_m: f64, plant_m: f64) -> f64 {
    plants_on(area_m2, row_m, plant_m) as f64
}

pub(super) fn rows() -> Vec<Row> {
    let mut rows = plant_rows();
    rows.extend(nitrogen_rows());
    rows
}

fn plant_rows() -> Vec<Row> {
    vec![
        row(
            "bed-feet to the acre, beds two feet apart",
            SANTA_CRUZ,
            || {
                let beds = Beds {
                    bed_width_m: 1.5 * M_PER_FOOT,
                    path_width_m: 0.5 * M_PER_FOOT,
                    bearing_deg: None,
                    rows: 1,
                    plant_spacing_m: 0.3,
                };
                bed_length_m(M2_PER_ACRE, beds).unwrap() / M_PER_FOOT
            },
            21_800.0,
            50.0,
        ),
        row(
            "plants to the acre at 3 ft by 1.5 ft",
            "arithmetic of the acre of 43,560 square feet over 4.5 square feet each",
            || plants(M2_PER_ACRE, 3.0 * M_PER_FOOT, 1.5 * M_PER_FOOT),
            9_680.0,
            0.0,
        ),
        row(
            "plants on 100 m² at 0.45 m each way",
            "arithmetic: 100 over 0.2025 is 493.8, of which whole plants count",
            || plants(100.0, 0.45, 0.45),
            493.0,
            0.0,
        ),
        row(
            "trees to the hectare at 5 m by 4 m",
            "arithmetic: 10,000 over 20",
            || plants(10_000.0, 5.0, 4.0),
            500.0,
            0.0,
        ),
    ]
}

fn nitrogen_rows() -> Vec<Row> {
    vec![
        row(
            "hens to the hectare times nitrogen of a hen",
            NITRATES,
            || HENS_PER_HA * NitrogenSet::EuOrganic.hen_kg_a_year(),
            170.0,
            0.0,
        ),
        row(
            "nitrogen of a hen to two places",
            NITRATES,
            || NitrogenSet::EuOrganic.hen_kg_a_year(),
            0.74,
            0.005,
        ),
        row(
            "ewes to the hectare times nitrogen of a ewe",
            NITRATES,
            || EWES_PER_HA * NitrogenSet::EuOrganic.sheep_kg_a_year(StockClass::DryEwes, 70.0),
            MOST_N_KG_PER_HA,
            0.0,
        ),
        row(
            "nitrogen of a ewe of 60 kg in a year, England",
            "Nitrate Pollution Prevention Regulations 2008 (SI 2008/2349), Schedule 1: 33 g a day",
            || NitrogenSet::England.sheep_kg_a_year(StockClass::EwesWithLambs, 60.0),
            12.0,
            0.05,
        ),
        row(
            "nitrogen of a ewe below 60 kg in a year, England",
            "Nitrate Pollution Prevention Regulations 2008 (SI 2008/2349), Schedule 1: 21 g a day",
            || NitrogenSet::England.sheep_kg_a_year(StockClass::EwesWithLambs, 55.0),
            7.7,
            0.05,
        ),
        row(
            "fifty hens for a day on 100 m², kg N/ha",
            "arithmetic of 0.739 kg N a hen and year over 365 days and 100 square metres",
            || {
                let each = NitrogenSet::EuOrganic.hen_kg_a_year() / 365.0;
                visit_kg_per_ha(50.0 * each, 1.0, 100.0).unwrap()
            },
            10.1,
            0.05,
        ),
        row(
            "forty ewes for three days on 0.28 ha at 33 g, kg N/ha",
            "arithmetic of 33 g a ewe and day (SI 2008/2349, Schedule 1) over the strip",
            || visit_kg_per_ha(40.0 * 0.033, 3.0, 2_800.0).unwrap(),
            14.1,
            0.05,
        ),
    ]
}

#[test]
fn what_is_to_spare_is_rounded_up_and_nothing_is_planted_on_nothing() {
    assert_eq!(with_spare(493, 10.0), 543);
    assert_eq!(with_spare(500, 10.0), 550);
    assert_eq!(with_spare(500, 0.0), 500);
    assert_eq!(plants_on(0.0, 0.45, 0.45), 0);
    assert_eq!(plants_on(100.0, 0.0, 0.45), 0);
    assert_eq!(plants_on(f64::NAN, 0.45, 0.45), 0);
    // 0.3 and 0.1 are no exact numbers: ten rows of thirty stay ten rows of thirty.
    assert_eq!(plants_on(9.0, 0.3, 0.1), 300);
}
