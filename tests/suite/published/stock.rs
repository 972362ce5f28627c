//! Livestock units, what animals eat, ground for hens.

use foldcourse::farm::{Ground, HenHouseId, Kind, LivestockUnitSet, Mob, StockClass, density_on};
use foldcourse::planning::grazing_sums::{animal_units, demand_kg_per_ha};
use foldcourse::planning::hen_walk;

use super::{Row, row};
use crate::farm::sample::{day, empty_farm, ewes, hens, line, put};

const STEWARDSHIP: &str =
    "Countryside Stewardship Higher Tier manual, Defra and Rural Payments Agency, 2023, Annex 8C";
const INTAKE: &str =
    "All grass wintering of sheep, EBLEX/AHDB and SAC, intake table as printed by Farmers Weekly";
const FOUR_STEPS: &str = "Four steps to rotational grazing, Pennsylvania State University, Agronomy Facts 43, table 1 and step 1";

pub(super) fn mob(head: u32, class: StockClass, liveweight_kg: f64) -> Mob {
    Mob {
        head,
        class,
        liveweight_kg,
        ..ewes()
    }
}

fn units_per_ha(mob: &Mob, area_m2: f64, set: LivestockUnitSet) -> f64 {
    density_on(mob, area_m2, set).map_or(f64::NAN, |density| density.livestock_units_per_ha)
}

fn eats_kg(class: StockClass, liveweight_kg: f64) -> f64 {
    mob(1, class, liveweight_kg).demand_kg()
}

/// Ground for each hen where 2,500 of them have the hectare.
fn m2_per_hen_at_2500_per_ha() -> f64 {
    let mut farm = empty_farm();
    let row = put(
        &mut farm,
        Ground::new("Row", Kind::Hedge, line(&[(0.0, 0.0), (100.0, 0.0)])),
    );
    let mut house = hens(vec![row]);
    (house.hens, house.length_m, house.width_m, house.offset_m) = (2500, 100.0, 100.0, 60.0);
    farm.hen_houses.insert(HenHouseId(50), house);
    hen_walk(&farm, HenHouseId(50), day("2027-04-01"), 1)
        .ok()
        .and_then(|walk| walk.facts.m2_per_hen)
        .unwrap_or(f64::NAN)
}

pub(super) fn rows() -> Vec<Row> {
    let mut rows = unit_rows();
    rows.extend(intake_rows());
    rows
}

fn unit_rows() -> Vec<Row> {
    vec![
        row(
            "livestock units of 100 sheep in farm statistics",
            "Regulation (EC) 1200/2009, European Commission, 2009, coefficients annex",
            || {
                units_per_ha(
                    &mob(100, StockClass::DryEwes, 70.0),
                    10_000.0,
                    LivestockUnitSet::EuFarmStatistics,
                )
            },
            10.0,
            0.05,
        ),
        row(
            "livestock units of 100 sheep in rural development",
            "Regulation (EU) 808/2014, European Commission, 2014, Annex II",
            || {
                units_per_ha(
                    &mob(100, StockClass::Rams, 90.0),
                    10_000.0,
                    LivestockUnitSet::EuRuralDevelopment,
                )
            },
            15.0,
            0.05,
        ),
        row(
            "livestock units to the hectare of 40 ewes with lambs on 2.5 ha",
            STEWARDSHIP,
            || {
                units_per_ha(
                    &mob(40, StockClass::EwesWithLambs, 70.0),
                    25_000.0,
                    LivestockUnitSet::England2023,
                )
            },
            1.92,
            0.005,
        ),
        row(
            "livestock units of 60 store lambs",
            STEWARDSHIP,
            || {
                units_per_ha(
                    &mob(60, StockClass::Lambs, 35.0),
                    10_000.0,
                    LivestockUnitSet::England2023,
                )
            },
            4.8,
            0.05,
        ),
    ]
}

fn intake_rows() -> Vec<Row> {
    vec![
        row(
            "what a ewe of 70 kg eats in early milk",
            INTAKE,
            || eats_kg(StockClass::EwesWithLambs, 70.0),
            2.1,
            0.05,
        ),
        row(
            "what a growing lamb of 30 kg eats",
            INTAKE,
            || eats_kg(StockClass::Lambs, 30.0),
            1.2,
            0.05,
        ),
        row(
            "what 20 head of 480 kg at 2 % take off 4 ha",
            "Irish Farmers Journal, 2016, demand per hectare",
            || {
                let cattle = Mob {
                    eats_kg_per_head: Some(0.02 * 480.0),
                    ..mob(20, StockClass::DryEwes, 480.0)
                };
                demand_kg_per_ha(cattle.demand_kg(), 4.0).unwrap_or(f64::NAN)
            },
            48.0,
            0.5,
        ),
        row(
            "animal units of 30 cows and a bull",
            FOUR_STEPS,
            || animal_units([(30, 1.6), (1, 1.7)]).unwrap_or(f64::NAN),
            49.7,
            0.05,
        ),
        row(
            "animal units of 50 ewes of 175 lb",
            FOUR_STEPS,
            || animal_units([(50, 0.20)]).unwrap_or(f64::NAN),
            10.0,
            0.5,
        ),
        row(
            "square metres for each of 2,500 hens on a hectare",
            "Regulation (EC) 589/2008, European Commission, 2008, Annex II 1(c)",
            m2_per_hen_at_2500_per_ha,
            4.0,
            0.05,
        ),
    ]
}
