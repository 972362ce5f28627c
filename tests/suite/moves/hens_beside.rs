//! Two houses on the same rows: the second is led so that it keeps off the first one's hens.

use foldcourse::farm::{Farm, HenHouse, HenHouseId, LineOrder};
use foldcourse::planning::hen_order::OrderCost;
use foldcourse::planning::{HenWalks, hen_findings, hen_walk, hen_walks};

use super::hen_round::{HOUSE, farm_of};
use crate::farm::sample::day;

const SECOND: HenHouseId = HenHouseId(950);

/// Three rows of five places a day each, and a second house on them from the same day.
fn two_houses(change: impl Fn(&mut HenHouse)) -> Farm {
    let rows = [(0.0, 29.0), (20.0, 29.0), (40.0, 29.0)];
    let mut farm = farm_of(&rows, |house| house.rest_days_wanted = 4);
    farm.season.first_day = day("2027-04-01");
    farm.season.days = 15;
    let mut second = farm.hen_houses[&HOUSE].clone();
    "Second".clone_into(&mut second.name);
    change(&mut second);
    farm.hen_houses.insert(SECOND, second);
    farm
}

fn walks(farm: &Farm) -> HenWalks {
    hen_walks(farm, day("2027-04-01"), 15)
}

/// What the findings say of two houses on the same ground.
fn troubles(farm: &Farm) -> usize {
    let laid = walks(farm).into_iter();
    let laid = laid.map(|(id, walk)| (id, walk.unwrap())).collect();
    let found = hen_findings(farm, &laid).into_iter();
    found
        .filter(|finding| {
            finding.what.contains("same ground") || finding.what.contains("comes onto ground")
        })
        .count()
}

/// Days on one place and days of rest missing between the two, counted from their walks alone.
fn counted(farm: &Farm) -> (u64, u64) {
    let all = walks(farm);
    let (first, second) = (
        all[&HOUSE].as_ref().unwrap(),
        all[&SECOND].as_ref().unwrap(),
    );
    let (mut shared, mut missing) = (0, 0);
    for (place_number, place) in second.places.iter().enumerate() {
        // The rows are far apart: a place of each house is the other's only where their middles are one.
        let same = first
            .places
            .iter()
            .position(|there| there.middle.distance_m(place.middle) < 0.1);
        let days_on = |walk: &foldcourse::planning::HenWalk, number: usize| {
            let on = walk.days.iter().filter(|stand| stand.place == number + 1);
            on.map(|stand| stand.day).collect::<Vec<_>>()
        };
        for ours in days_on(second, place_number) {
            for theirs in days_on(first, same.unwrap()) {
                let apart = ours.days_since(theirs).abs();
                shared += u64::from(apart == 0);
                missing += u64::try_from(4 - (apart - 1)).unwrap_or(0) * u64::from(apart > 0);
            }
        }
    }
    (shared, missing)
}

#[test]
fn a_chosen_order_keeps_off_the_hens_of_the_house_before() {
    let listed = two_houses(|_| {});
    assert!(troubles(&listed) > 0, "both walk the same rows in step");
    assert_eq!(counted(&listed).0, 15);
    let chosen = two_houses(|house| house.handling.line_order = LineOrder::Chosen);
    assert_eq!(troubles(&chosen), 0);
    assert_eq!(counted(&chosen), (0, 0));
    let walk = hen_walk(&chosen, SECOND, day("2027-04-01"), 15).unwrap();
    let order = walk.order.as_ref().unwrap();
    assert!(order.is_proven);
    assert_eq!(order.heeded, ["Hens"]);
    // The first house is led as if it were alone.
    let alone = hen_walk(&chosen, HOUSE, day("2027-04-01"), 15).unwrap();
    assert!(alone.order.as_ref().unwrap().heeded.is_empty());
}

#[test]
fn the_cost_of_an_order_beside_another_house_is_what_its_days_show() {
    for begins in 0..6 {
        let farm = two_houses(|house| {
            house.first_day = house.first_day.plus_days(begins);
            house.lines.reverse();
        });
        let walk = hen_walk(&farm, SECOND, day("2027-04-01"), 15).unwrap();
        let OrderCost {
            closed_days,
            unrested_days,
            ..
        } = walk.order.as_ref().unwrap().cost;
        assert_eq!((closed_days, unrested_days), counted(&farm), "{begins}");
        // No order of three rows in two ways has less.
        let best = walk.order.as_ref().unwrap().best.unwrap();
        let mut least = (u64::MAX, u64::MAX);
        for order in [
            [0, 1, 2],
            [0, 2, 1],
            [1, 0, 2],
            [1, 2, 0],
            [2, 0, 1],
            [2, 1, 0],
        ] {
            let mut other = farm.clone();
            let rows = farm.hen_houses[&HOUSE].lines.clone();
            let house = other.hen_houses.get_mut(&SECOND).unwrap();
            house.lines = order.iter().map(|row| rows[*row]).collect();
            least = least.min(counted(&other));
        }
        assert!((best.closed_days, best.unrested_days) <= least, "{begins}");
    }
}
