//! The grazier's sums: paddocks, areas, days, growth and stocking.

use foldcourse::farm::{Mob, StockClass};
use foldcourse::planning::grazing_sums::{
    PLATE_FORMULAS, area_for_days_ha, cover_from_plate, days_lasting, days_lasting_with_growth,
    days_to_grow, feed_by_height_kg_per_ha, feed_kg, growth_between, head_per_ha,
    head_to_match_growth, mean_cover_kg_per_ha, paddock_area_ha, paddocks_needed, supply_kg_per_ha,
    used_feed_kg,
};
use foldcourse::quantity::{M2_PER_ACRE, acres_from_m2, hectares_from_m2};

use super::stock::mob;
use super::{Row, row};

const FOUR_STEPS: &str =
    "Four steps to rotational grazing, Pennsylvania State University, Agronomy Facts 43";
const AGRONOMY_GUIDE: &str =
    "Penn State Agronomy Guide, Pennsylvania State University, table 1.8-9";
const GRAZING_PLAN: &str = "Set up a grazing plan, AHDB Beef and Lamb, grazing days";
const MORE_FROM_SHEEP: &str = "Making More from Sheep, Australian Wool Innovation and Meat & Livestock Australia, Tool 8.4, question 1";
const SHEEPNET: &str = "A simple approach to rotational grazing, SRUC / EU SheepNet (P. Frater, R. Ruiz), via The Scottish Farmer";
const MAINE: &str = "Pasture course, University of Maine, lesson 1, appendix D";
const UTILISATION: &str = "AHDB utilisation table as printed by SRUC";
const EWE_DAYS: &str = "Farmers Weekly, January 2014, ewe days";

/// Kilograms in a pound, exact (International yard and pound agreement, 1959).
const KG_PER_POUND: f64 = 0.453_592_37;
const CM_PER_INCH: f64 = 2.54;

/// Pounds to the acre as kilograms to the hectare.
fn kg_per_ha(lb_per_acre: f64) -> f64 {
    lb_per_acre * KG_PER_POUND / hectares_from_m2(M2_PER_ACRE)
}

fn lb_per_acre(kg_per_ha: f64) -> f64 {
    kg_per_ha / KG_PER_POUND * hectares_from_m2(M2_PER_ACRE)
}

fn found(value: Option<f64>) -> f64 {
    value.unwrap_or(f64::NAN)
}

fn paddocks(rest_days: u32, stay_days: u32) -> f64 {
    paddocks_needed(rest_days, stay_days).map_or(f64::NAN, f64::from)
}

/// Acres for an animal unit that eats 25 lb a day.
fn acres_per_unit(days: f64, used_percent: f64, lb: f64) -> f64 {
    let area_ha = area_for_days_ha(
        25.0 * KG_PER_POUND,
        days,
        kg_per_ha(lb),
        used_percent / 100.0,
    );
    acres_from_m2(found(area_ha) * 10_000.0)
}

/// 60 cattle of 650 kg that eat 2.5 % of their weight.
fn cattle() -> Mob {
    Mob {
        eats_kg_per_head: Some(0.025 * 650.0),
        ..mob(60, StockClass::DryEwes, 650.0)
    }
}

fn feed_of_inches(from: f64, to: f64, lb_per_inch: f64) -> f64 {
    let kg_per_ha_cm = kg_per_ha(lb_per_inch) / CM_PER_INCH;
    lb_per_acre(found(feed_by_height_kg_per_ha(
        from * CM_PER_INCH,
        to * CM_PER_INCH,
        kg_per_ha_cm,
    )))
}

fn sheep_supply() -> f64 {
    found(supply_kg_per_ha(1700.0, 1500.0, 40.0, 42.0))
}

fn ewes_per_ha() -> f64 {
    found(head_per_ha(sheep_supply(), 2.9, 0.15, 42.0))
}

pub(super) fn rows() -> Vec<Row> {
    let mut rows = paddock_rows();
    rows.extend(area_rows());
    rows.extend(feed_rows());
    rows.extend(cover_rows());
    rows.extend(growth_rows());
    rows
}

fn paddock_rows() -> Vec<Row> {
    vec![
        row(
            "paddocks for 35 days' rest and 3 days' stay",
            FOUR_STEPS,
            || paddocks(35, 3),
            13.0,
            0.0,
        ),
        row(
            "paddocks for 3 weeks' rest and 3 days' stay",
            SHEEPNET,
            || paddocks(21, 3),
            8.0,
            0.0,
        ),
        row(
            "acres of each of 13 paddocks of 60 acres",
            FOUR_STEPS,
            || {
                let total_ha = hectares_from_m2(60.0 * M2_PER_ACRE);
                acres_from_m2(found(paddock_area_ha(total_ha, 13)) * 10_000.0)
            },
            4.6,
            0.05,
        ),
        row(
            "hectares of each of 8 paddocks for 250 ewes at 11 to the hectare",
            SHEEPNET,
            || found(paddock_area_ha(250.0 / 11.0, 8)),
            2.8,
            0.05,
        ),
        row(
            "hectares of each of 5 divisions for 100 ewes at 10 to the hectare",
            "Temporary fencing for sheep, Teagasc (C. Lynch)",
            || found(paddock_area_ha(100.0 / 10.0, 5)),
            2.0,
            0.05,
        ),
    ]
}

/// The whole table of acres for an animal unit: days, share used, and the acres where 750, 1,000 and 1,500 lb are
/// available to the acre.
const ACRES_FOR_A_UNIT: [(f64, f64, [f64; 3]); 7] = [
    (1.0, 80.0, [0.042, 0.031, 0.021]),
    (2.0, 75.0, [0.089, 0.067, 0.044]),
    (3.0, 75.0, [0.133, 0.100, 0.067]),
    (4.0, 70.0, [0.190, 0.143, 0.095]),
    (5.0, 65.0, [0.256, 0.192, 0.128]),
    (6.0, 60.0, [0.333, 0.250, 0.167]),
    (7.0, 60.0, [0.389, 0.292, 0.194]),
];

fn area_rows() -> Vec<Row> {
    let mut rows = Vec::new();
    for (days, used_percent, printed) in ACRES_FOR_A_UNIT {
        for (lb, acres) in [750.0, 1000.0, 1500.0].into_iter().zip(printed) {
            let name = format!("acres for {days} days with {lb} lb to the acre");
            let find = move || acres_per_unit(days, used_percent, lb);
            rows.push(row(&name, AGRONOMY_GUIDE, find, acres, 0.0005));
        }
    }
    rows
}

fn feed_rows() -> Vec<Row> {
    vec![
        row(
            "feed of 2 ha from 2,500 to 1,600",
            GRAZING_PLAN,
            || found(feed_kg(2.0, 2500.0, 1600.0)),
            1800.0,
            0.5,
        ),
        row(
            "what 60 cattle of 650 kg eat",
            GRAZING_PLAN,
            || cattle().demand_kg(),
            975.0,
            0.5,
        ),
        row(
            "days 60 cattle have on 2 ha, \"about two\"",
            GRAZING_PLAN,
            || {
                found(days_lasting(
                    found(feed_kg(2.0, 2500.0, 1600.0)),
                    cattle().demand_kg(),
                ))
            },
            2.0,
            0.2,
        ),
        row(
            "days 700 ewes have on 1,400 kg",
            EWE_DAYS,
            || found(days_lasting(1400.0, 700.0 * 2.0)),
            1.0,
            0.05,
        ),
        row(
            "days 350 ewes have on 1,400 kg",
            EWE_DAYS,
            || found(days_lasting(1400.0, 350.0 * 2.0)),
            2.0,
            0.05,
        ),
    ]
}

fn cover_rows() -> Vec<Row> {
    vec![
        row(
            "pounds used of 550 acres of range at 45 %",
            "University of Idaho (K. Launchbaugh), range supply example",
            || {
                let area_ha = hectares_from_m2(550.0 * M2_PER_ACRE);
                found(used_feed_kg(area_ha, kg_per_ha(800.0), 0.45)) / KG_PER_POUND
            },
            198_000.0,
            0.5,
        ),
        row(
            "tonnes used of 10.2 at 65 %",
            UTILISATION,
            || found(used_feed_kg(1.0, 10.2, 0.65)),
            6.6,
            0.05,
        ),
        row(
            "tonnes used of 10.2 at 80 %",
            UTILISATION,
            || found(used_feed_kg(1.0, 10.2, 0.80)),
            8.2,
            0.05,
        ),
        row(
            "feed of 7 in to 3 in at 300 lb",
            MAINE,
            || feed_of_inches(7.0, 3.0, 300.0),
            1200.0,
            0.5,
        ),
        row(
            "feed of 7 in to 3 in at 350 lb",
            MAINE,
            || feed_of_inches(7.0, 3.0, 350.0),
            1400.0,
            0.5,
        ),
        row(
            "feed of 8 in grazed to half at 150 lb",
            "Forage by height, United States small-farm press: 8 in, graze half, 150 lb/ac to the inch",
            || feed_of_inches(8.0, 4.0, 150.0),
            600.0,
            0.5,
        ),
        row(
            "mean cover of 75 ha with 165,000 kg, 6,250 kg of it on 2.5 ha",
            "Grass guide of a British farmers' co-operative, average cover",
            || {
                found(mean_cover_kg_per_ha(&[
                    (2.5, 6250.0 / 2.5),
                    (72.5, (165_000.0 - 6250.0) / 72.5),
                ]))
            },
            2200.0,
            0.5,
        ),
        row(
            "cover at a plate reading of 6.68",
            "Using a plate meter, DairyCo (AHDB)",
            || found(cover_from_plate(&PLATE_FORMULAS[0], 6.68)),
            1475.0,
            0.5,
        ),
    ]
}

fn growth_rows() -> Vec<Row> {
    vec![
        row(
            "supply of a hectare over 42 days",
            MORE_FROM_SHEEP,
            sheep_supply,
            1880.0,
            0.5,
        ),
        row(
            "ewes that it keeps to the hectare",
            MORE_FROM_SHEEP,
            ewes_per_ha,
            13.4,
            0.05,
        ),
        // The source multiplies its own rounded 13.4.
        row(
            "ewes that 40 ha keep",
            MORE_FROM_SHEEP,
            || ewes_per_ha() * 40.0,
            536.0,
            2.0,
        ),
        row(
            "days that 40 ha keep them, solved the other way round",
            MORE_FROM_SHEEP,
            || {
                let spare_kg = found(feed_kg(40.0, 1700.0, 1500.0));
                found(days_lasting_with_growth(
                    spare_kg,
                    536.87 * 2.9 * 1.15,
                    40.0,
                    40.0,
                ))
            },
            42.0,
            0.05,
        ),
        row(
            "eaten of 24.7 kg a day, a quarter wasted",
            "Farm Advisory Service Scotland, September 2020, stocking to match growth",
            || found(head_to_match_growth(24.7, 0.25, 1.0)),
            18.5,
            0.05,
        ),
        row(
            "ewes of 1.5 kg a day to match 24.7 kg, a quarter wasted",
            "Farm Advisory Service Scotland, September 2020, stocking to match growth",
            || found(head_to_match_growth(24.7, 0.25, 1.5)),
            12.0,
            0.5,
        ),
        row(
            "days from 1,500 to 3,000 at 60 a day",
            "Farmers Weekly, August 1997 (P. Bird), rest from growth",
            || found(days_to_grow(1500.0, 3000.0, 60.0)),
            25.0,
            0.5,
        ),
        row(
            "growth of 2 cm in 7 days at 250 kg to the centimetre",
            "Irish Farmers Journal, 2016, growth from height",
            || {
                let (first, second) = (
                    feed_by_height_kg_per_ha(8.0, 4.0, 250.0),
                    feed_by_height_kg_per_ha(10.0, 4.0, 250.0),
                );
                found(growth_between(found(first), found(second), 7.0))
            },
            71.0,
            0.5,
        ),
    ]
}
