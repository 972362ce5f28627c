//! Farms to try things on, built in metres about one place.

use foldcourse::farm::{
    Edit, Farm, Ground, GroundId, HenHandling, HenHouse, Kind, LineSide, Mob, Shape, StockClass,
    Visit,
};
use foldcourse::geometry::{GroundFrame, LonLat, Outline, Point};
use foldcourse::quantity::Day;

pub(crate) fn day(text: &str) -> Day {
    Day::parse_iso(text).unwrap()
}

/// An empty farm on the 52nd parallel, planned from 1 April 2027.
pub(crate) fn empty_farm() -> Farm {
    let frame = GroundFrame::new(LonLat::new(-1.0, 52.0)).unwrap();
    Farm::new("Sample", frame, day("2027-04-01"))
}

/// A rectangle by its south-west corner and sides, metres.
pub(crate) fn rectangle(east_m: f64, north_m: f64, width_m: f64, depth_m: f64) -> Shape {
    Shape::Area(Outline::simple(vec![
        Point::new(east_m, north_m),
        Point::new(east_m + width_m, north_m),
        Point::new(east_m + width_m, north_m + depth_m),
        Point::new(east_m, north_m + depth_m),
    ]))
}

pub(crate) fn line(corners: &[(f64, f64)]) -> Shape {
    Shape::Line(
        corners
            .iter()
            .map(|(east, north)| Point::new(*east, *north))
            .collect(),
    )
}

/// Puts a piece of ground onto the farm and gives its number.
pub(crate) fn put(farm: &mut Farm, ground: Ground) -> GroundId {
    let id = GroundId(farm.next_id);
    farm.next_id += 1;
    farm.ground.insert(id, ground);
    id
}

pub(crate) fn strip(name: &str, shape: Shape, ley: GroundId) -> Ground {
    Ground {
        within: Some(ley),
        ..Ground::new(name, Kind::Strip, shape)
    }
}

/// Forty dry ewes of 70 kg here from 1 April to 30 June 2027.
pub(crate) fn ewes() -> Mob {
    Mob {
        name: "Ewes".to_owned(),
        class: StockClass::DryEwes,
        head: 40,
        liveweight_kg: 70.0,
        eats_kg_per_head: None,
        gain_g_per_day: 0.0,
        lambed_on: None,
        changes: Vec::new(),
        visits: vec![Visit {
            from: day("2027-04-01"),
            to: day("2027-06-30"),
        }],
        yard: None,
        follows: None,
    }
}

/// Fifty hens in a house 5 m by 3 m with 1 m between places, a place a day, along these lines.
pub(crate) fn hens(lines: Vec<GroundId>) -> HenHouse {
    HenHouse {
        name: "Hens".to_owned(),
        hens: 50,
        length_m: 5.0,
        width_m: 3.0,
        gap_m: 1.0,
        lines,
        side: LineSide::Left,
        offset_m: 3.0,
        first_day: day("2027-04-01"),
        last_day: None,
        days_per_place: 1,
        rest_days_wanted: 14,
        handling: HenHandling::default(),
    }
}

/// A ley of two strips 40 m by 100 m, with nothing to be said against it.
pub(crate) fn two_strip_farm() -> (Farm, GroundId, [GroundId; 2]) {
    let mut farm = empty_farm();
    let ley = put(
        &mut farm,
        Ground::new("Long ley", Kind::Ley, rectangle(0.0, 0.0, 80.0, 100.0)),
    );
    let west = put(
        &mut farm,
        strip("A1", rectangle(0.0, 0.0, 40.0, 100.0), ley),
    );
    let east = put(
        &mut farm,
        strip("A2", rectangle(40.0, 0.0, 40.0, 100.0), ley),
    );
    (farm, ley, [west, east])
}

/// The edit that changes one piece of ground as `change` says.
pub(crate) fn changed(farm: &Farm, id: GroundId, change: impl Fn(&mut Ground)) -> Edit {
    let old = &farm.ground[&id];
    let mut new = old.clone();
    change(&mut new);
    Edit::change_ground(id, old, new)
}
