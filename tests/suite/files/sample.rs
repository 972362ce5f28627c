//! A small farm that uses every field of the document, and folders to write in.

use std::path::PathBuf;

use foldcourse::farm::{
    Closed, Farm, FixedPlace, Grazing, Ground, GroundId, HenHandling, HenHouse, HenHouseId, Kind,
    LineSide, Mob, MobId, Reading, Shape, StockClass, TreeRow, Visit,
};
use foldcourse::geometry::{GroundFrame, LonLat, Outline, Point, Polygon, Ring};
use foldcourse::quantity::Day;

pub(crate) fn day(text: &str) -> Day {
    Day::parse_iso(text).unwrap()
}

fn ring(corners: &[(f64, f64)]) -> Ring {
    Ring::new(
        corners
            .iter()
            .map(|(east, north)| Point::new(*east, *north))
            .collect(),
    )
}

/// Every field set, every form used: a ley with a hole and two parts, a strip, a tree line, a trough.
pub(crate) fn full_farm() -> Farm {
    let frame = GroundFrame::new(LonLat::new(-2.123_456_7, 52.25)).unwrap();
    let mut farm = Farm::new("Marlpit \"Upper\" Holding", frame, day("2027-04-01"));
    farm.note = String::from("Two lines\nand a tab\there, ümlaut ✓");
    farm.ground.insert(GroundId(1), ley());
    let mut strip = Ground::new(
        "W1",
        Kind::Strip,
        Shape::Area(Outline {
            parts: vec![Polygon {
                outer: ring(&[(0.0, 0.0), (12.0, 0.0), (12.0, 30.0)]),
                holes: vec![],
            }],
        }),
    );
    strip.within = Some(GroundId(1));
    farm.ground.insert(GroundId(2), strip);
    let mut pears = Ground::new(
        "Pear row",
        Kind::TreeLine,
        Shape::Line(vec![Point::new(-4.0, 0.0), Point::new(-4.0, 90.25)]),
    );
    pears.width_m = Some(4.5);
    pears.height_m = Some(6.0);
    pears.trees = Some(TreeRow {
        spacing_m: 8.0,
        first_m: 2.5,
        crown_m: 5.0,
        varieties: Vec::new(),
    });
    pears.note = String::from("perry");
    farm.ground.insert(GroundId(3), pears);
    farm.ground.insert(
        GroundId(4),
        Ground::new("Trough", Kind::Trough, Shape::Place(Point::new(6.0, -1.5))),
    );
    farm.mobs.insert(MobId(5), mob());
    farm.hen_houses.insert(HenHouseId(6), hen_house());
    for (text, place, lived) in [
        ("2027-04-11", Some(2), true),
        ("2027-04-12", None, true),
        ("2027-04-13", Some(2), false),
        ("2027-04-14", None, false),
    ] {
        let fixed = FixedPlace {
            place: place.map(GroundId),
            lived,
        };
        farm.fixed.insert((MobId(5), day(text)), fixed);
    }
    farm.season.seed = u64::MAX;
    farm.next_id = 9;
    farm
}

/// Two parts, one with a hole, and every figure of the grazing.
fn ley() -> Ground {
    let ley = Outline {
        parts: vec![
            Polygon {
                outer: ring(&[(0.0, 0.0), (12.345, 0.1), (12.4, 90.0), (-0.0, 90.5)]),
                holes: vec![ring(&[(2.0, 2.0), (3.0, 2.0), (3.0, 3.0)])],
            },
            Polygon::simple(vec![
                Point::new(50.0, 0.0),
                Point::new(60.0, 0.0),
                Point::new(60.0, 1.0 / 3.0),
            ]),
        ],
    };
    let mut wether = Ground::new("Wether Ley", Kind::Ley, Shape::Area(ley));
    wether.crop = String::from("herb ley, year 2");
    wether.grazing = Some(Grazing {
        growth_factor: 1.1,
        leave_kg_per_ha: Some(1500.0),
        enter_kg_per_ha: Some(2300.0),
        ceiling_kg_per_ha: Some(3500.0),
        end_cover_kg_per_ha: Some(2000.0),
        readings: vec![Reading {
            day: day("2027-04-03"),
            cover_kg_per_ha: 2480.0,
        }],
        last_grazed: Some(day("2026-11-02")),
        closed: vec![Closed {
            from: day("2027-05-20"),
            to: day("2027-07-05"),
            why: "hay".to_owned(),
        }],
    });
    wether
}

fn mob() -> Mob {
    Mob {
        name: "Ewes".to_owned(),
        class: StockClass::EwesWithLambs,
        head: 36,
        liveweight_kg: 72.5,
        eats_kg_per_head: Some(2.2),
        gain_g_per_day: 0.0,
        lambed_on: None,
        changes: Vec::new(),
        visits: vec![
            Visit {
                from: day("2027-04-11"),
                to: day("2027-06-01"),
            },
            Visit {
                from: day("2027-08-01"),
                to: day("2027-08-01"),
            },
        ],
        yard: Some(Point::new(-20.0, -20.0)),
        follows: None,
    }
}

fn hen_house() -> HenHouse {
    HenHouse {
        name: "Hens".to_owned(),
        hens: 60,
        length_m: 4.0,
        width_m: 2.4,
        gap_m: 0.5,
        lines: vec![GroundId(3)],
        side: LineSide::Right,
        offset_m: 3.0,
        first_day: day("2027-04-01"),
        last_day: Some(day("2027-10-31")),
        days_per_place: 1,
        rest_days_wanted: 120,
        handling: HenHandling::default(),
    }
}

/// The text of a file that lies under `tests/data`.
pub(crate) fn data_text(path: &str) -> String {
    let file = PathBuf::from(env!("CARGO_MANIFEST_DIR"))
        .join("tests/data")
        .join(path);
    std::fs::read_to_string(&file).unwrap_or_else(|error| panic!("{}: {error}", file.display()))
}
