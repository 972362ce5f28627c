//! A ley cut into strips: what they are called, what they reach, what becomes of what was there before.

use foldcourse::farm::{
    Farm, FixedPlace, Ground, GroundId, History, Kind, MobId, Shape, StripDirection, cut_edits,
    cut_ground, line_bearing_deg, reachable, replaced_by_cut, strip_stem, taken_strip_name,
};
use foldcourse::geometry::cut::{CutError, StripSize};
use foldcourse::geometry::{Outline, Point};

use super::sample::{day, empty_farm, ewes, line, put, rectangle, strip};

fn ley(farm: &mut Farm, name: &str, east_m: f64) -> GroundId {
    put(
        farm,
        Ground::new(name, Kind::Ley, rectangle(east_m, 0.0, 100.0, 50.0)),
    )
}

/// Cuts into so many, as the window does, and gives the farm with its history.
fn cut(farm: Farm, id: GroundId, count: usize) -> History {
    let ground = farm.ground[&id].clone();
    let outline = ground.outline().unwrap();
    let made = cut_ground(
        &farm,
        outline,
        StripSize::Count(count),
        StripDirection::AcrossLongestSide,
    );
    let stem = strip_stem(&farm, id, &ground);
    let (label, edits) = cut_edits(&farm, id, &ground, &made.unwrap().strips, &stem);
    let mut history = History::new(farm);
    history.commit(&label, edits).unwrap();
    history
}

fn names_within(farm: &Farm, id: GroundId) -> Vec<String> {
    farm.strips_of(id)
        .map(|(_, strip)| strip.name.clone())
        .collect()
}

#[test]
fn a_ley_lends_its_letter_and_the_next_of_that_letter_its_whole_name() {
    let mut farm = empty_farm();
    let long = ley(&mut farm, "Long Ley", 0.0);
    let lower = ley(&mut farm, "Lower Ley", 200.0);
    let farm = cut(farm, long, 2).farm().clone();
    let farm = cut(farm, lower, 2).farm().clone();
    assert_eq!(names_within(&farm, long), ["L1", "L2"]);
    assert_eq!(names_within(&farm, lower), ["Lower Ley 1", "Lower Ley 2"]);
}

#[test]
fn names_with_a_figure_of_their_own_keep_it_apart_by_a_point() {
    let mut farm = empty_farm();
    let one = ley(&mut farm, "Plot 1", 0.0);
    let two = ley(&mut farm, "Plot 2", 200.0);
    let farm = cut(farm, one, 2).farm().clone();
    let farm = cut(farm, two, 2).farm().clone();
    assert_eq!(names_within(&farm, one), ["Plot 1.1", "Plot 1.2"]);
    assert_eq!(names_within(&farm, two), ["Plot 2.1", "Plot 2.2"]);
}

#[test]
fn a_tunnel_of_the_same_letter_and_number_takes_the_letter() {
    let mut farm = empty_farm();
    put(
        &mut farm,
        Ground::new("t1", Kind::Tunnel, rectangle(300.0, 0.0, 20.0, 8.0)),
    );
    let top = ley(&mut farm, "Top Ley", 0.0);
    assert_eq!(strip_stem(&farm, top, &farm.ground[&top]), "Top Ley ");
    assert_eq!(taken_strip_name(&farm, top, "T", 3), Some("T1".to_owned()));
    assert_eq!(taken_strip_name(&farm, top, "Top ", 3), None);
}

#[test]
fn a_ley_that_is_cut_anew_keeps_the_stem_it_had() {
    let mut farm = empty_farm();
    let id = ley(&mut farm, "Long Ley", 0.0);
    for (index, east_m) in [0.0, 50.0].into_iter().enumerate() {
        put(
            &mut farm,
            strip(
                &format!("Bank {}", index + 1),
                rectangle(east_m, 0.0, 50.0, 50.0),
                id,
            ),
        );
    }
    let farm = cut(farm, id, 3).farm().clone();
    assert_eq!(names_within(&farm, id), ["Bank 1", "Bank 2", "Bank 3"]);
}

#[test]
fn a_strip_that_is_cut_again_gives_way_to_smaller_ones_of_its_ley() {
    let mut farm = empty_farm();
    let id = ley(&mut farm, "Long Ley", 0.0);
    let old = put(&mut farm, strip("L1", rectangle(0.0, 0.0, 50.0, 50.0), id));
    put(&mut farm, strip("L2", rectangle(50.0, 0.0, 50.0, 50.0), id));
    let farm = cut(farm, old, 2).farm().clone();
    assert_eq!(names_within(&farm, id), ["L2", "L1.1", "L1.2"]);
}

/// A ley in two strips with a lived day on each and a decided one on the second, and one lived on the whole.
fn settled() -> (Farm, GroundId, [GroundId; 2]) {
    let mut farm = empty_farm();
    let id = ley(&mut farm, "Long Ley", 0.0);
    let west = put(&mut farm, strip("L1", rectangle(0.0, 0.0, 50.0, 50.0), id));
    let east = put(&mut farm, strip("L2", rectangle(50.0, 0.0, 50.0, 50.0), id));
    let mob = MobId(farm.next_id);
    farm.next_id += 1;
    farm.mobs.insert(mob, ewes());
    for (on, place, lived) in [
        ("2027-04-01", id, true),
        ("2027-04-02", west, true),
        ("2027-04-03", east, true),
        ("2027-04-09", east, false),
    ] {
        let place = Some(place);
        farm.fixed
            .insert((mob, day(on)), FixedPlace { place, lived });
    }
    (farm, id, [west, east])
}

#[test]
fn lived_days_move_with_the_ground_decided_ones_are_let_go_and_undo_restores_all() {
    let (before, id, _) = settled();
    let ground = before.ground[&id].clone();
    let told = replaced_by_cut(&before, id, &ground);
    assert_eq!(
        (told.decided_days, told.moved_days, told.kept_days),
        (1, 2, 1)
    );
    assert_eq!(told.strips, ["L1", "L2"]);
    assert_eq!(told.told().len(), 4);
    let mut history = cut(before.clone(), id, 4);
    let farm = history.farm();
    let mob = *farm.mobs.keys().next().unwrap();
    let stood = |on: &str| farm.fixed.get(&(mob, day(on))).copied();
    assert_eq!(stood("2027-04-09"), None);
    assert_eq!(
        stood("2027-04-01"),
        Some(FixedPlace {
            place: Some(id),
            lived: true
        })
    );
    for (on, west_m) in [("2027-04-02", 0.0), ("2027-04-03", 50.0)] {
        let place = stood(on).unwrap().place.unwrap();
        let middle = farm.ground[&place].outline().unwrap().centroid().unwrap();
        assert!(
            (west_m..west_m + 50.0).contains(&middle.east_m),
            "{on}: {middle:?}"
        );
    }
    history.undo();
    assert_eq!(history.farm().ground, before.ground);
    assert_eq!(history.farm().fixed, before.fixed);
}

fn outline_of(farm: &Farm, id: GroundId) -> Outline {
    farm.ground[&id].outline().unwrap().clone()
}

#[test]
fn every_strip_reaches_a_trough_a_gate_a_pond_and_a_track_and_equal_are_they_all() {
    let mut farm = empty_farm();
    let id = ley(&mut farm, "Long Ley", 0.0);
    let goals = [
        put(
            &mut farm,
            Ground::new("", Kind::Trough, Shape::Place(Point::new(40.0, 20.0))),
        ),
        put(
            &mut farm,
            Ground::new("", Kind::Trough, Shape::Place(Point::new(40.0, 1.5))),
        ),
        put(
            &mut farm,
            Ground::new("Gate", Kind::Gate, line(&[(48.0, 50.4), (52.0, 50.4)])),
        ),
        put(
            &mut farm,
            Ground::new("Pond", Kind::Water, rectangle(60.0, 20.0, 6.0, 6.0)),
        ),
        put(
            &mut farm,
            Ground::new("Lane", Kind::Track, line(&[(-20.0, -3.0), (140.0, -3.0)])),
        ),
    ];
    let outline = outline_of(&farm, id);
    for (goal, count) in goals.into_iter().zip([5, 6, 7, 8, 9]) {
        let direction = StripDirection::Reaching(goal);
        let made = cut_ground(&farm, &outline, StripSize::Count(count), direction).unwrap();
        let reaching = made.reaching.clone().unwrap();
        assert!(reaching.out_of_reach.is_empty(), "{goal:?}: {reaching:?}");
        assert_eq!(
            made.told(|index| format!("L{}", index + 1)),
            Vec::<String>::new()
        );
        for strip in &made.strips {
            let off = strip.outline.area_m2() * count as f64 / 5000.0 - 1.0;
            assert!(off.abs() < 1e-9, "{goal:?}: {off:e}");
        }
    }
}

#[test]
fn a_strip_that_does_not_reach_is_named() {
    let mut farm = empty_farm();
    let id = ley(&mut farm, "Long Ley", 0.0);
    let goal = put(
        &mut farm,
        Ground::new("Lane", Kind::Track, line(&[(0.0, -2.0), (45.0, -2.0)])),
    );
    let outline = outline_of(&farm, id);
    let made = cut_ground(
        &farm,
        &outline,
        StripSize::Count(4),
        StripDirection::Reaching(goal),
    )
    .unwrap();
    let told = made.told(|index| format!("L{}", index + 1));
    assert_eq!(told, ["L3 and L4 do not reach Lane."]);
    let far = put(
        &mut farm,
        Ground::new("", Kind::Trough, Shape::Place(Point::new(50.0, 90.0))),
    );
    let made = cut_ground(
        &farm,
        &outline,
        StripSize::Count(4),
        StripDirection::Reaching(far),
    )
    .unwrap();
    let told = made.told(|index| format!("L{}", index + 1));
    assert!(told[0].starts_with("The trough lies 40 m off"), "{told:?}");
}

#[test]
fn what_may_be_reached_is_listed_nearest_first() {
    let mut farm = empty_farm();
    let id = ley(&mut farm, "Long Ley", 0.0);
    let far = put(
        &mut farm,
        Ground::new("", Kind::Trough, Shape::Place(Point::new(150.0, 20.0))),
    );
    let near = put(
        &mut farm,
        Ground::new("", Kind::Gate, Shape::Place(Point::new(0.0, 20.0))),
    );
    put(
        &mut farm,
        Ground::new("Barn", Kind::Building, rectangle(0.0, 60.0, 5.0, 5.0)),
    );
    let found = reachable(&farm, &outline_of(&farm, id));
    assert_eq!(found, [(near, 0.0), (far, 50.0)]);
}

#[test]
fn a_line_has_no_front_so_its_bearing_stays_below_half_a_turn() {
    for (given, shown) in [
        (263.0, 83.0),
        (180.0, 0.0),
        (-10.0, 170.0),
        (179.99, 0.0),
        (75.0, 75.0),
    ] {
        assert!((line_bearing_deg(given) - shown).abs() < 1e-9, "{given}");
    }
}

#[test]
fn a_long_side_with_corners_on_it_is_still_the_longest() {
    // As a ley has it whose strips end in corners of its own.
    let corners = [
        (0.0, 0.0),
        (30.0, 0.01),
        (60.0, 0.0),
        (90.0, 0.0),
        (90.0, 50.0),
        (0.0, 50.0),
        (0.0, 25.0),
    ];
    let ring = corners.map(|(east_m, north_m)| Point::new(east_m, north_m));
    let outline = Outline::simple(ring.to_vec());
    let farm = empty_farm();
    let made = cut_ground(
        &farm,
        &outline,
        StripSize::Count(3),
        StripDirection::AcrossLongestSide,
    );
    assert!(made.unwrap().bearing_deg.unwrap() < 0.1);
}

#[test]
fn a_side_that_is_not_there_is_refused() {
    let mut farm = empty_farm();
    let id = ley(&mut farm, "Long Ley", 0.0);
    let outline = outline_of(&farm, id);
    let made = cut_ground(
        &farm,
        &outline,
        StripSize::Count(3),
        StripDirection::AlongSide(4),
    );
    assert_eq!(made.unwrap_err(), CutError::NoSuchSide);
    let made = cut_ground(
        &farm,
        &outline,
        StripSize::Count(3),
        StripDirection::Reaching(GroundId(999)),
    );
    assert_eq!(made.unwrap_err(), CutError::NothingToReach);
}
