//! Each act of reshaping does what it says, says why where it cannot, and is one step that undo takes back.

use std::collections::BTreeSet;

use foldcourse::farm::{
    Farm, FindingCode, FixedPlace, Ground, GroundId, HeadlandBecomes, HeadlandWish, History,
    HoleFill, Kind, MisfitKind, MobId, NeighbourMisfit, Neighbourhood, Reshaped, Shape, cut_out,
    findings, headland, hole_drawn, holes_filled, join, keep_out_round, mends, mirrored_across,
    split_along, turned_about, with_shared_corners,
};
use foldcourse::geometry::{Outline, Point, overlay};

use super::sample::{day, empty_farm, ewes, hens, line, put, rectangle, strip, two_strip_farm};

fn area(farm: &Farm, id: GroundId) -> f64 {
    farm.ground[&id].outline().unwrap().area_m2()
}

fn done(farm: &Farm, act: Reshaped) -> Farm {
    let mut history = History::new(farm.clone());
    history.commit(&act.label, act.edits).unwrap();
    let after = history.farm().clone();
    assert_eq!(history.steps_done(), 1, "one act, one step");
    history.undo().unwrap();
    assert_eq!(history.farm().ground, farm.ground, "undo leads back");
    assert_eq!(history.farm().fixed, farm.fixed);
    after
}

fn ids<const N: usize>(of: [GroundId; N]) -> BTreeSet<GroundId> {
    BTreeSet::from(of)
}

/// Two plots that share 2 m by 50 m.
fn overlapping() -> (Farm, GroundId, GroundId) {
    let mut farm = empty_farm();
    let west = put(
        &mut farm,
        Ground::new("West", Kind::Plot, rectangle(0.0, 0.0, 42.0, 50.0)),
    );
    let east = put(
        &mut farm,
        Ground::new("East", Kind::Plot, rectangle(40.0, 0.0, 40.0, 50.0)),
    );
    (farm, west, east)
}

/// A ley of two strips with a wedge of 0 to 0.4 m between it and a plot to the east.
fn gaping() -> (Farm, GroundId, GroundId) {
    let (mut farm, ley, _) = two_strip_farm();
    let corners = [(80.0, 0.0), (120.0, 0.0), (120.0, 100.0), (80.4, 100.0)];
    let ring = corners.map(|(east_m, north_m)| Point::new(east_m, north_m));
    let plot = put(
        &mut farm,
        Ground::new(
            "Leeks",
            Kind::Plot,
            Shape::Area(Outline::simple(ring.to_vec())),
        ),
    );
    (farm, ley, plot)
}

#[track_caller]
fn only_misfit(farm: &Farm) -> NeighbourMisfit {
    let all: Vec<NeighbourMisfit> = Neighbourhood::of(farm).misfits().collect();
    assert_eq!(all.len(), 1, "{all:?}");
    all.into_iter().next().unwrap()
}

#[test]
fn an_overlap_is_told_with_its_area_and_mended_in_three_ways() {
    let (farm, west, east) = overlapping();
    let found = findings(&farm);
    assert_eq!(found.len(), 1, "{found:?}");
    assert_eq!(found[0].code, FindingCode::AreasOverlap);
    assert!(found[0].what.contains("100 m²"), "{}", found[0].what);
    let misfit = only_misfit(&farm);
    let wanted = [(2050.0, 1950.0), (2100.0, 1900.0), (2000.0, 2000.0)];
    let choices = mends(&farm, &misfit);
    assert_eq!(choices.len(), 3, "{choices:?}");
    for (choice, (west_m2, east_m2)) in choices.into_iter().zip(wanted) {
        let changes = choice.reshaped.area_changes(&farm);
        assert!(!changes.is_empty());
        let after = done(&farm, choice.reshaped);
        assert!(
            (area(&after, west) - west_m2).abs() < 1e-6,
            "{}: {}",
            choice.words,
            area(&after, west)
        );
        assert!(
            (area(&after, east) - east_m2).abs() < 1e-6,
            "{}: {}",
            choice.words,
            area(&after, east)
        );
        assert_eq!(findings(&after), [], "{}", choice.words);
    }
}

#[test]
fn a_gap_is_told_and_closed_to_either_or_to_the_middle_and_strips_follow() {
    let (farm, ley, plot) = gaping();
    let misfit = only_misfit(&farm);
    assert_eq!(misfit.kind, MisfitKind::Gap);
    assert!(
        (misfit.ground.area_m2() - 20.0).abs() < 0.5,
        "{}",
        misfit.ground.area_m2()
    );
    let gap_m2 = misfit.ground.area_m2();
    let choices = mends(&farm, &misfit);
    let words: Vec<&str> = choices.iter().map(|choice| choice.words.as_str()).collect();
    assert_eq!(choices.len(), 3, "{words:?} {:?}", misfit.ground);
    let before_m2 = area(&farm, ley) + area(&farm, plot);
    for choice in choices {
        let after = done(&farm, choice.reshaped);
        let after_m2 = area(&after, ley) + area(&after, plot);
        assert!(
            (after_m2 - before_m2 - gap_m2).abs() < 0.1,
            "{}: {after_m2}",
            choice.words
        );
        let strips_m2: f64 = after.strips_of(ley).map(|(id, _)| area(&after, id)).sum();
        assert!(
            (strips_m2 - area(&after, ley)).abs() < 1e-6,
            "{}",
            choice.words
        );
        assert!(
            Neighbourhood::of(&after).misfits().next().is_none(),
            "{}",
            choice.words
        );
    }
}

#[test]
fn what_may_lie_on_other_ground_is_no_overlap() {
    let mut farm = empty_farm();
    put(
        &mut farm,
        Ground::new("Field", Kind::Plot, rectangle(0.0, 0.0, 100.0, 100.0)),
    );
    for (place, kind) in [
        Kind::Tunnel,
        Kind::Building,
        Kind::Water,
        Kind::Track,
        Kind::KeepOut,
        Kind::Hedge,
    ]
    .into_iter()
    .enumerate()
    {
        let east_m = 10.0 * f64::from(u8::try_from(place).unwrap());
        put(
            &mut farm,
            Ground::new(kind.name(), kind, rectangle(east_m, 10.0, 8.0, 30.0)),
        );
    }
    assert_eq!(findings(&farm), []);
    put(
        &mut farm,
        Ground::new("Barn", Kind::Building, rectangle(0.0, 30.0, 30.0, 20.0)),
    );
    let codes: Vec<_> = findings(&farm)
        .into_iter()
        .map(|finding| finding.code)
        .collect();
    assert_eq!(
        codes,
        [FindingCode::AreasOverlap; 3],
        "on the tunnel, the shed and the pond"
    );
}

#[test]
fn a_path_between_beds_or_a_hedge_in_the_gap_is_no_gap() {
    let beds = |gap_m: f64| {
        let mut farm = empty_farm();
        put(
            &mut farm,
            Ground::new("Bed 1", Kind::Plot, rectangle(0.0, 0.0, 10.0, 30.0)),
        );
        put(
            &mut farm,
            Ground::new(
                "Bed 2",
                Kind::Plot,
                rectangle(10.0 + gap_m, 0.0, 10.0, 30.0),
            ),
        );
        farm
    };
    assert_eq!(findings(&beds(0.4)), []);
    assert_eq!(only_misfit(&beds(0.2)).kind, MisfitKind::Gap);
    let mut hedged = beds(0.2);
    put(
        &mut hedged,
        Ground::new("Hedge", Kind::Hedge, line(&[(10.1, -1.0), (10.1, 31.0)])),
    );
    assert_eq!(findings(&hedged), []);
}

#[test]
fn a_split_puts_its_corners_into_the_neighbours_and_cuts_the_strips() {
    let (farm, ley, plot) = gaping();
    let closed = done(&farm, mends(&farm, &only_misfit(&farm)).remove(1).reshaped);
    let cut = [Point::new(-10.0, 60.0), Point::new(200.0, 60.0)];
    let mut split = split_along(&closed, ley, &cut).unwrap();
    split.edits = with_shared_corners(&closed, split.edits);
    let after = done(&closed, split);
    let on_boundary: Vec<Point> = after.ground[&plot]
        .shape
        .corners()
        .into_iter()
        .filter(|corner| (corner.north_m - 60.0).abs() < 1e-6)
        .collect();
    assert_eq!(on_boundary.len(), 1, "the plot has the corner of the cut");
    let leys: Vec<GroundId> = after
        .ground
        .iter()
        .filter(|(_, ground)| ground.kind == Kind::Ley)
        .map(|(id, _)| *id)
        .collect();
    assert_eq!(leys.len(), 2);
    for ley in leys {
        let strips: Vec<f64> = after
            .strips_of(ley)
            .map(|(id, _)| area(&after, id))
            .collect();
        assert_eq!(strips.len(), 2);
        assert!((strips.iter().sum::<f64>() - area(&after, ley)).abs() < 1e-6);
        assert!(after.ground[&ley].shape.corners().contains(&on_boundary[0]));
    }
}

#[test]
fn joining_keeps_the_first_name_and_takes_strips_and_settled_days_along() {
    let (mut farm, ley, [west, east]) = two_strip_farm();
    let other = put(
        &mut farm,
        Ground::new("Bank", Kind::Ley, rectangle(80.0, 0.0, 30.0, 100.0)),
    );
    let bank_strip = put(
        &mut farm,
        strip("B1", rectangle(80.0, 0.0, 30.0, 100.0), other),
    );
    let after = done(&farm, join(&farm, &ids([ley, other]), ley).unwrap());
    assert_eq!(after.ground[&ley].name, "Long ley");
    assert!((area(&after, ley) - 11_000.0).abs() < 1e-6);
    assert_eq!(
        after.strips_of(ley).map(|(id, _)| id).collect::<Vec<_>>(),
        [west, east, bank_strip]
    );
    assert_eq!(findings(&after), []);

    farm.mobs.insert(MobId(90), ewes());
    let settled = FixedPlace {
        place: Some(east),
        lived: true,
    };
    farm.fixed.insert((MobId(90), day("2027-04-03")), settled);
    let after = done(&farm, join(&farm, &ids([west, east]), west).unwrap());
    assert!(!after.ground.contains_key(&east));
    assert_eq!(
        after.fixed[&(MobId(90), day("2027-04-03"))].place,
        Some(west)
    );
    assert_eq!(
        after.ground[&west].shape.corners().len(),
        4,
        "corners of the side that went are gone"
    );
}

#[test]
fn what_cannot_be_joined_says_why() {
    let (mut farm, ley, [west, _]) = two_strip_farm();
    let apart = put(
        &mut farm,
        Ground::new("Far", Kind::Ley, rectangle(300.0, 0.0, 30.0, 30.0)),
    );
    let corner = put(
        &mut farm,
        Ground::new("Corner", Kind::Ley, rectangle(80.0, 100.0, 30.0, 30.0)),
    );
    let hedge = put(
        &mut farm,
        Ground::new("Hedge", Kind::Hedge, line(&[(0.0, 0.0), (5.0, 0.0)])),
    );
    for (with, word) in [
        (apart, "touch"),
        (corner, "touch"),
        (hedge, "not an area"),
        (west, "strip of"),
    ] {
        let refused = join(&farm, &ids([ley, with]), ley).unwrap_err();
        assert!(
            refused.contains(word) && refused.ends_with('.'),
            "{refused}"
        );
    }
    assert!(join(&farm, &ids([ley]), ley).is_err());
}

#[test]
fn a_headland_and_what_it_leaves_make_up_the_whole() {
    let (farm, ley, _) = two_strip_farm();
    let wish = |sides: &[usize], becomes| HeadlandWish {
        id: ley,
        width_m: 6.0,
        sides: sides.iter().copied().collect(),
        becomes,
    };
    let own = HeadlandBecomes::OwnPiece(Kind::KeepOut);
    for (sides, inner_m2) in [
        (&[][..], 68.0 * 88.0),
        (&[0], 80.0 * 94.0),
        (&[0, 1], 74.0 * 94.0),
        (&[1, 3], 68.0 * 100.0),
    ] {
        let after = done(&farm, headland(&farm, &wish(sides, own)).unwrap());
        let (id, piece) = after
            .ground
            .iter()
            .find(|(_, ground)| ground.kind == Kind::KeepOut)
            .unwrap();
        assert_eq!(piece.name, "Long ley headland 1");
        assert!(
            (area(&after, ley) - inner_m2).abs() < 1e-6,
            "{sides:?}: {}",
            area(&after, ley)
        );
        assert!((area(&after, ley) + area(&after, *id) - 8000.0).abs() < 8e-6);
        let strips_m2: f64 = after.strips_of(ley).map(|(id, _)| area(&after, id)).sum();
        assert!(
            (strips_m2 - inner_m2).abs() < 1e-6,
            "strips are drawn in too"
        );
        assert_eq!(findings(&after), [], "{sides:?}");
    }
    let over = done(
        &farm,
        headland(&farm, &wish(&[], HeadlandBecomes::LaidOver(Kind::KeepOut))).unwrap(),
    );
    assert!((area(&over, ley) - 8000.0).abs() < 1e-9);
    let net_m2 = Neighbourhood::of(&over).net_area(ley).unwrap().net_m2;
    assert!((net_m2 - 68.0 * 88.0).abs() < 0.01, "{net_m2}");
    let too_wide = HeadlandWish {
        width_m: 41.0,
        ..wish(&[], own)
    };
    assert!(
        headland(&farm, &too_wide)
            .unwrap_err()
            .contains("leaves nothing")
    );
}

/// On a field with a blunt corner the headland along one side runs up to the neighbouring side.
#[test]
fn a_headland_along_one_side_leaves_no_tooth_at_a_blunt_corner() {
    let mut farm = empty_farm();
    let corners = [(0.0, 0.0), (100.0, 0.0), (120.0, 60.0), (0.0, 60.0)];
    let ring = corners
        .map(|(east_m, north_m)| Point::new(east_m, north_m))
        .to_vec();
    let field = put(
        &mut farm,
        Ground::new("Field", Kind::Plot, Shape::Area(Outline::simple(ring))),
    );
    let wish = HeadlandWish {
        id: field,
        width_m: 6.0,
        sides: BTreeSet::from([0]),
        becomes: HeadlandBecomes::OwnPiece(Kind::Plot),
    };
    let after = done(&farm, headland(&farm, &wish).unwrap());
    let lowest = after.ground[&field]
        .shape
        .corners()
        .into_iter()
        .map(|corner| corner.north_m)
        .fold(f64::INFINITY, f64::min);
    assert!((lowest - 6.0).abs() < 1e-6, "{lowest}");
    assert_eq!(after.ground[&field].shape.corners().len(), 4);
}

#[test]
fn ground_kept_clear_reaches_as_far_on_each_side_of_a_line_with_its_width() {
    let mut farm = empty_farm();
    let hedge = put(
        &mut farm,
        Ground::new("Hedge", Kind::Hedge, line(&[(0.0, 0.0), (50.0, 0.0)])),
    );
    let pond = put(
        &mut farm,
        Ground::new("Pond", Kind::Water, rectangle(100.0, 0.0, 10.0, 10.0)),
    );
    let act = keep_out_round(&farm, &ids([hedge, pond]), 3.0, false, Kind::KeepOut).unwrap();
    let after = done(&farm, act);
    let kept: Vec<&Ground> = after
        .ground
        .values()
        .filter(|ground| ground.kind == Kind::KeepOut)
        .collect();
    // A hedge is 2 m wide where nothing is said.
    assert!((kept[0].outline().unwrap().area_m2() - 50.0 * 8.0).abs() < 1e-6);
    let ring_m2 = 4.0 * 10.0 * 3.0 + std::f64::consts::PI * 9.0;
    assert!(
        (kept[1].outline().unwrap().area_m2() - ring_m2).abs() < 0.2,
        "rounded in chords"
    );
    assert!(keep_out_round(&farm, &ids([hedge]), 0.0, false, Kind::KeepOut).is_err());
    assert!(keep_out_round(&farm, &ids([hedge]), 3.0, false, Kind::Fence).is_err());
}

#[test]
fn a_hole_is_taken_from_ley_and_strips_and_given_back() {
    let (farm, ley, _) = two_strip_farm();
    let pond = [(30.0, 40.0), (50.0, 40.0), (50.0, 60.0), (30.0, 60.0)]
        .map(|(east_m, north_m)| Point::new(east_m, north_m));
    let holed = done(
        &farm,
        hole_drawn(&farm, &BTreeSet::new(), pond.to_vec()).unwrap(),
    );
    assert!((area(&holed, ley) - 7600.0).abs() < 1e-6);
    let strips_m2: f64 = holed.strips_of(ley).map(|(id, _)| area(&holed, id)).sum();
    assert!((strips_m2 - 7600.0).abs() < 1e-6);
    let filled = done(
        &holed,
        holes_filled(&holed, ley, None, HoleFill::Given).unwrap(),
    );
    assert!((area(&filled, ley) - 8000.0).abs() < 1e-6);
    let drawn = done(
        &holed,
        holes_filled(&holed, ley, Some(0), HoleFill::Drawn(Kind::Water)).unwrap(),
    );
    let water = drawn
        .ground
        .values()
        .find(|ground| ground.kind == Kind::Water)
        .unwrap();
    assert!((water.outline().unwrap().area_m2() - 400.0).abs() < 1e-6);
    assert!(
        holes_filled(&farm, ley, None, HoleFill::Given)
            .unwrap_err()
            .contains("no hole")
    );
}

#[test]
fn a_hole_that_is_not_inside_is_refused() {
    let (farm, ..) = two_strip_farm();
    let at = |corners: &[(f64, f64)]| {
        let ring = corners
            .iter()
            .map(|(east_m, north_m)| Point::new(*east_m, *north_m))
            .collect();
        hole_drawn(&farm, &BTreeSet::new(), ring)
    };
    for (corners, word) in [
        (
            &[(70.0, 10.0), (90.0, 10.0), (90.0, 20.0)][..],
            "wholly inside",
        ),
        (&[(0.0, 10.0), (20.0, 10.0), (20.0, 20.0)], "wholly inside"),
        (
            &[(10.0, 10.0), (20.0, 20.0), (20.0, 10.0), (10.0, 20.0)],
            "crosses itself",
        ),
        (&[(10.0, 10.0), (20.0, 20.0)], "three corners"),
    ] {
        let refused = at(corners).unwrap_err();
        assert!(refused.contains(word), "{refused}");
    }
}

#[test]
fn a_pond_is_taken_out_of_the_ley_under_it() {
    let (mut farm, ley, _) = two_strip_farm();
    let pond = put(
        &mut farm,
        Ground::new("Pond", Kind::Water, rectangle(35.0, 40.0, 10.0, 10.0)),
    );
    let after = done(&farm, cut_out(&farm, &ids([pond])).unwrap());
    assert!((area(&after, ley) - 7900.0).abs() < 1e-6);
    assert_eq!(
        after.ground[&ley].outline().unwrap().parts[0].holes.len(),
        1
    );
    assert!(
        overlay::in_both(
            after.ground[&pond].outline().unwrap(),
            after.ground[&ley].outline().unwrap()
        )
        .area_m2()
            < 1e-6
    );
    let lonely = put(
        &mut farm,
        Ground::new("Tarn", Kind::Water, rectangle(335.0, 40.0, 10.0, 10.0)),
    );
    assert!(cut_out(&farm, &ids([lonely])).is_err());
}

#[test]
fn turning_and_mirroring_keep_every_length_and_lead_back() {
    let (mut farm, ley, _) = two_strip_farm();
    let row = put(
        &mut farm,
        Ground::new(
            "Apples",
            Kind::TreeLine,
            line(&[(0.0, 120.0), (80.0, 130.0)]),
        ),
    );
    farm.hen_houses
        .insert(foldcourse::farm::HenHouseId(91), hens(vec![row]));
    let both = ids([ley, row]);
    let about = Point::new(40.0, 50.0);
    let mut turned = farm.clone();
    for _ in 0..4 {
        turned = done(&turned, turned_about(&turned, &both, about, 90.0).unwrap());
    }
    assert_eq!(
        turned.ground, farm.ground,
        "four quarters lead back to the last digit"
    );
    let once = done(&farm, turned_about(&farm, &both, about, 33.0).unwrap());
    for (id, ground) in &once.ground {
        let (before, after) = (farm.ground[id].shape.corners(), ground.shape.corners());
        for (a, b) in before.iter().zip(&after).skip(1) {
            assert!((a.distance_m(before[0]) - b.distance_m(after[0])).abs() < 1e-9);
        }
        let bearing = before[0].bearing_deg(before[1]) + 33.0 - after[0].bearing_deg(after[1]);
        assert!(
            (bearing + 180.0).rem_euclid(360.0) - 180.0 < 1e-9,
            "clockwise"
        );
    }
    let (from, to) = (Point::new(100.0, 0.0), Point::new(100.0, 50.0));
    let mirrored = done(&farm, mirrored_across(&farm, &both, from, to).unwrap());
    assert!(
        mirrored.ground[&ley]
            .shape
            .corners()
            .contains(&Point::new(200.0, 0.0))
    );
    let sign = |farm: &Farm| {
        farm.ground[&ley].outline().unwrap().parts[0]
            .outer
            .signed_area_m2()
    };
    assert!(
        (sign(&mirrored) - sign(&farm)).abs() < 1e-6,
        "runs the same way round"
    );
    assert_ne!(
        mirrored.hen_houses, farm.hen_houses,
        "the hens walk on the other hand of their line"
    );
    let back = done(
        &mirrored,
        mirrored_across(&mirrored, &both, from, to).unwrap(),
    );
    assert_eq!(back.ground, farm.ground);
    assert!(mirrored_across(&farm, &both, from, from).is_err());
}
