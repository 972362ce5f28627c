//! Hens that follow sheep: where they stand, and what was settled about their days.

use foldcourse::farm::{Farm, FollowsSheep, GroundId, HenMark, HenSpot, MobId};
use foldcourse::geometry::Point;
use foldcourse::planning::{
    FlockOnWay, HenWalk, Stand, flock_on_way_told, flocks_on_way, hen_walk_after, live_season,
};
use foldcourse::quantity::Day;

use super::hen_round::HOUSE;
use crate::farm::sample::{day, hens};

const MOB: MobId = MobId(901);

fn sheep_farm() -> (Farm, [GroundId; 2]) {
    let (mut farm, _, strips) = crate::farm::sample::two_strip_farm();
    let mut house = hens(Vec::new());
    house.handling.follows = Some(FollowsSheep {
        mob: MOB,
        days_after: 3,
    });
    farm.hen_houses.insert(HOUSE, house);
    farm.mobs.insert(MOB, crate::farm::sample::ewes());
    (farm, strips)
}

#[test]
fn hens_stand_where_the_mob_stood_three_days_before() {
    let (farm, [west, east]) = sheep_farm();
    let stood = |_: MobId, on: Day| match on.days_since(day("2027-04-01")) {
        0..=2 => Some(west),
        3..=5 => Some(east),
        _ => None,
    };
    let walk = hen_walk_after(&farm, HOUSE, (day("2027-04-01"), 12), &stood).unwrap();
    assert_eq!(
        walk.days[0].day,
        day("2027-04-04"),
        "not out before the first forerunner"
    );
    for stand in &walk.days {
        let wanted = stood(MOB, stand.day.plus_days(-3));
        let place = walk.place(stand.place).unwrap();
        match wanted {
            Some(strip) => assert_eq!(place.line, strip, "{}", stand.day),
            None => assert!(stand.is_waiting && !stand.is_moved, "{}", stand.day),
        }
    }
    let note = walk.notes.join("; ");
    assert!(note.contains("stood on no strip"), "{note}");
    let used: Vec<usize> = walk.days[..6].iter().map(|day| day.place).collect();
    let mut once = used.clone();
    once.dedup();
    assert_eq!(once.len(), 6, "a place a day: {used:?}");
}

#[test]
fn hens_that_follow_stand_where_they_were_settled_and_go_on_from_there() {
    let (mut farm, [west, east]) = sheep_farm();
    let stood = |_: MobId, on: Day| match on.days_since(day("2027-04-01")) {
        0..=5 => Some(west),
        6..=12 => Some(east),
        _ => None,
    };
    let walk = |farm: &Farm| hen_walk_after(farm, HOUSE, (day("2027-04-01"), 15), &stood).unwrap();
    let place_on = |walk: &HenWalk, on: &str| {
        let stand = walk.days.iter().find(|stand| stand.day == day(on)).unwrap();
        walk.place(stand.place).unwrap().spot()
    };
    let plain = walk(&farm);
    let planned = |on: &str| place_on(&plain, on);
    let (second, fifth) = (planned("2027-04-05"), planned("2027-04-08"));
    assert_eq!((second.line, fifth.line), (west, west));
    let mut marked = |mark: HenMark| {
        let house = farm.hen_houses.get_mut(&HOUSE).unwrap();
        house.handling.marks = [(day("2027-04-05"), mark)].into();
        walk(&farm)
    };
    let at = |spot: HenSpot| HenMark::At { spot, lived: false };
    // Fixed on the fifth place on the second day: it stands there, and the sixth comes next.
    let fixed = marked(at(fifth));
    assert_eq!(place_on(&fixed, "2027-04-05"), fifth);
    assert_eq!(place_on(&fixed, "2027-04-06"), planned("2027-04-09"));
    // A place left out: the next but one.
    let skipped = marked(HenMark::Skipped);
    assert_eq!(place_on(&skipped, "2027-04-05"), planned("2027-04-06"));
    // Not moved: it stays a day.
    let late = marked(HenMark::Late);
    assert_eq!(place_on(&late, "2027-04-05"), planned("2027-04-04"));
    assert_eq!(place_on(&late, "2027-04-06"), second);
    // A place that is not there is told, and the walk goes on.
    let told = marked(at(HenSpot {
        number: 999,
        ..second
    }));
    assert_eq!(place_on(&told, "2027-04-05"), second);
    let notes = told.notes.join("; ");
    assert!(notes.contains("settled for"), "{notes}");
}

#[test]
fn a_flock_on_the_way_of_a_house_is_told_and_no_other() {
    let (mut farm, _, strips) = crate::farm::sample::two_strip_farm();
    farm.mobs.insert(MOB, crate::farm::sample::ewes());
    let plan = live_season(&farm, &mut |_| true).unwrap();
    let across = |strip: GroundId, aside_m: f64| {
        let corners = farm.ground[&strip].shape.corners();
        let moved = |corner: Point| Point::new(corner.east_m, corner.north_m + aside_m);
        [moved(corners[0]), moved(corners[2])]
    };
    let mut told = 0;
    for index in 0..plan.days {
        let day = plan.day_at(index);
        for strip in strips {
            let found = flocks_on_way(&farm, &plan, &across(strip, 0.0), day);
            let stood = |day| plan.stand_on(MOB, day) == Stand::On(strip);
            let is_there = stood(day);
            let told_of = |is_moved_off| {
                let flock = FlockOnWay {
                    mob: MOB,
                    ground: strip,
                    is_moved_off,
                };
                found.contains(&flock)
            };
            // A corner that two strips share may lie on the boundary of the other.
            assert!(!is_there || told_of(false), "{day}");
            // The house may be towed before the flock is moved.
            let is_moved_off = !is_there && stood(day.plus_days(-1));
            assert!(!is_moved_off || told_of(true), "{day}");
            assert!(flocks_on_way(&farm, &plan, &across(strip, 5000.0), day).is_empty());
            told += usize::from(is_there);
        }
    }
    assert!(told > 0, "the ewes never stood on a strip");
    let words = |is_moved_off| {
        let flock = FlockOnWay {
            mob: MOB,
            ground: strips[0],
            is_moved_off,
        };
        flock_on_way_told(&farm, flock)
    };
    assert!(words(false).contains("current off"), "{}", words(false));
    assert!(words(true).contains("move them first"), "{}", words(true));
}
