//! Whatever acts follow each other, neighbours stay true: shared sides stay shared, pieces make up the whole to 1e-9,
//! what is kept up to date agrees with a look at the whole farm, and undo leads back to the very bytes.

use std::collections::BTreeSet;

use foldcourse::farm::{
    Edit, Farm, Ground, GroundId, HeadlandBecomes, HeadlandWish, History, HoleFill, Kind,
    Neighbourhood, Reshaped, Shape, cut_edits, headland, hole_drawn, holes_filled, join,
    split_along, strip_stem, with_shared_corners,
};
use foldcourse::files::farm_text;
use foldcourse::geometry::cut::strips_of_equal_area;
use foldcourse::geometry::neighbours::SAME_PLACE_M;
use foldcourse::geometry::{Outline, Point, Ring, validity};
use proptest::prelude::*;
use proptest::test_runner::RngSeed;

use super::sample::{empty_farm, put, rectangle};

#[derive(Debug, Clone)]
enum Act {
    Split(u8, f64, f64),
    Strips(u8, usize, f64),
    Join(u8, u8),
    Headland(u8, f64, u8, bool),
    Hole(u8, f64),
    Fill(u8),
    MoveCorner(u8, u8, f64, f64),
    Undo,
}

fn any_act() -> impl Strategy<Value = Act> {
    let byte = any::<u8>;
    prop_oneof![
        6 => (byte(), 0.0..360.0_f64, -8.0..8.0_f64).prop_map(|(a, b, c)| Act::Split(a, b, c)),
        2 => (byte(), 2..5_usize, 0.0..180.0_f64).prop_map(|(a, b, c)| Act::Strips(a, b, c)),
        4 => (byte(), byte()).prop_map(|(a, b)| Act::Join(a, b)),
        3 => (byte(), 0.5..6.0_f64, byte(), any::<bool>()).prop_map(|(a, b, c, d)| Act::Headland(a, b, c, d)),
        2 => (byte(), 0.5..4.0_f64).prop_map(|(a, b)| Act::Hole(a, b)),
        1 => byte().prop_map(Act::Fill),
        3 => (byte(), byte(), -4.0..4.0_f64, -4.0..4.0_f64).prop_map(|(a, b, c, d)| Act::MoveCorner(a, b, c, d)),
        1 => Just(Act::Undo),
    ]
}

/// Four fields that fill 120 m by 80 m, with a corner of one on the side of another.
fn four_fields() -> Farm {
    let mut farm = empty_farm();
    let fields = [
        ("Long Piece", Kind::Plot, rectangle(0.0, 0.0, 70.0, 40.0)),
        ("Bank", Kind::Ley, rectangle(70.0, 0.0, 50.0, 40.0)),
        ("Wether Ley", Kind::Ley, rectangle(0.0, 40.0, 50.0, 40.0)),
        ("Copse", Kind::Wood, rectangle(50.0, 40.0, 70.0, 40.0)),
    ];
    for (name, kind, shape) in fields {
        put(&mut farm, Ground::new(name, kind, shape));
    }
    let all: Vec<Edit> = farm
        .ground
        .iter()
        .map(|(id, ground)| Edit::add_ground(*id, ground.clone()))
        .collect();
    let mut empty = empty_farm();
    empty.next_id = farm.next_id;
    for edit in with_shared_corners(&empty, all) {
        if let Edit::Ground {
            id, new: Some(new), ..
        } = edit
        {
            farm.ground.insert(id, *new);
        }
    }
    farm
}

/// Pieces that cover the ground themselves, not as strips of another.
fn pieces(farm: &Farm) -> Vec<GroundId> {
    let whole = farm
        .ground
        .iter()
        .filter(|(_, ground)| ground.within.is_none());
    whole.map(|(id, _)| *id).collect()
}

fn pick(farm: &Farm, byte: u8) -> GroundId {
    let all = pieces(farm);
    all[usize::from(byte) % all.len()]
}

fn outline(farm: &Farm, id: GroundId) -> &Outline {
    farm.ground[&id].outline().unwrap()
}

/// What an act asks of the farm; none where it does not apply.
fn asked(farm: &Farm, act: &Act) -> Option<Reshaped> {
    match act {
        Act::Split(piece, bearing_deg, aside_m) => {
            let id = pick(farm, *piece);
            let middle = outline(farm, id)
                .centroid()?
                .towards(bearing_deg + 90.0, *aside_m);
            let line = [
                middle.towards(*bearing_deg, 300.0),
                middle.towards(bearing_deg + 180.0, 300.0),
            ];
            let mut split = split_along(farm, id, &line)?;
            split.edits = with_shared_corners(farm, split.edits);
            Some(split)
        }
        Act::Strips(piece, count, bearing_deg) => {
            let id = pick(farm, *piece);
            let ground = &farm.ground[&id];
            if !matches!(ground.kind, Kind::Plot | Kind::Ley) {
                return None;
            }
            let strips = strips_of_equal_area(outline(farm, id), *bearing_deg, *count).ok()?;
            let (label, edits) =
                cut_edits(farm, id, ground, &strips, &strip_stem(farm, id, ground));
            Some(Reshaped {
                label,
                edits,
                select: BTreeSet::new(),
            })
        }
        Act::Join(one, two) => {
            let ids = BTreeSet::from([pick(farm, *one), pick(farm, *two)]);
            join(farm, &ids, *ids.first()?).ok()
        }
        Act::Headland(piece, width_m, sides, is_own) => {
            let id = pick(farm, *piece);
            let count = outline(farm, id)
                .rings()
                .map(|ring| ring.corners.len())
                .sum::<usize>();
            let sides = (0..count.min(8))
                .filter(|side| sides >> side & 1 == 1)
                .collect();
            let becomes = if *is_own {
                HeadlandBecomes::OwnPiece(Kind::Wood)
            } else {
                HeadlandBecomes::OwnPiece(Kind::Plot)
            };
            headland(
                farm,
                &HeadlandWish {
                    id,
                    width_m: *width_m,
                    sides,
                    becomes,
                },
            )
            .ok()
        }
        Act::Hole(piece, reach_m) => {
            let id = pick(farm, *piece);
            let middle = outline(farm, id).centroid()?;
            let corners =
                [10.0, 130.0, 250.0].map(|bearing_deg| middle.towards(bearing_deg, *reach_m));
            hole_drawn(farm, &BTreeSet::from([id]), corners.to_vec()).ok()
        }
        Act::Fill(piece) => holes_filled(farm, pick(farm, *piece), Some(0), HoleFill::Given).ok(),
        Act::MoveCorner(piece, corner, east_m, north_m) => {
            moved_corner(farm, pick(farm, *piece), *corner, (*east_m, *north_m))
        }
        Act::Undo => None,
    }
}

/// A corner inside the whole moved with all that lie on it, as a drag does it; none where a shape would not be sound.
fn moved_corner(
    farm: &Farm,
    id: GroundId,
    corner: u8,
    (east_m, north_m): (f64, f64),
) -> Option<Reshaped> {
    let corners = farm.ground[&id].shape.corners();
    let from = corners[usize::from(corner) % corners.len()];
    let is_inside =
        from.east_m > 1.0 && from.east_m < 119.0 && from.north_m > 1.0 && from.north_m < 79.0;
    let to = from.moved(east_m, north_m).on_whole_mm();
    let mut edits = Vec::new();
    for (id, ground) in &farm.ground {
        let moves = |place: Point| place.distance_m(from) <= SAME_PLACE_M;
        if ground.shape.corners().into_iter().any(moves) {
            let shape = ground
                .shape
                .map_corners(|place| if moves(place) { to } else { place });
            let Shape::Area(outline) = &shape else {
                return None;
            };
            if !validity::faults(outline).is_empty() {
                return None;
            }
            edits.push(Edit::change_ground(
                *id,
                ground,
                Ground {
                    shape,
                    ..ground.clone()
                },
            ));
        }
    }
    let mut after = farm.clone();
    for edit in &edits {
        if let Edit::Ground {
            id, new: Some(new), ..
        } = edit
        {
            after.ground.insert(*id, (**new).clone());
        }
    }
    // A corner dragged over another boundary is a fault the person makes, not the program.
    let is_true = is_inside
        && Neighbourhood::of(&after).misfits().next().is_none()
        && touches_nothing_new(&after, to);
    is_true.then(|| Reshaped {
        label: "Move a corner".to_owned(),
        edits,
        select: BTreeSet::new(),
    })
}

/// Whether no side passes the place but those that have a corner there.
fn touches_nothing_new(farm: &Farm, to: Point) -> bool {
    let sides = farm
        .ground
        .values()
        .filter_map(Ground::outline)
        .flat_map(Outline::rings)
        .flat_map(Ring::sides);
    sides
        .filter(|(a, b)| a.distance_m(to) > SAME_PLACE_M && b.distance_m(to) > SAME_PLACE_M)
        .all(|(a, b)| to.distance_m(to.nearest_on_side(a, b)) > 0.2)
}

const WHOLE_M2: f64 = 120.0 * 80.0;

fn covered_m2(farm: &Farm) -> f64 {
    let pieces = pieces(farm);
    pieces.iter().map(|id| outline(farm, *id).area_m2()).sum()
}

/// Overlays are worked out on a grid, and each may shift a side by a hair; cuts alone keep the sum to 1e-9.
fn slack_m2(overlays: u32) -> f64 {
    WHOLE_M2 * (1e-9 + 1e-8 * f64::from(overlays))
}

/// `opened_m2` is what the holes drawn so far have left to nobody: a cut may have opened them to the outside since.
fn check_true(farm: &Farm, act: &Act, opened_m2: f64, slack_m2: f64) {
    let lacks_m2 = WHOLE_M2 - covered_m2(farm);
    assert!(
        lacks_m2 > -slack_m2 && lacks_m2 <= opened_m2 + slack_m2,
        "{act:?}: {lacks_m2} m² belong to nobody, of {opened_m2} m² that holes have opened"
    );
    for (id, ground) in &farm.ground {
        let shape = outline(farm, *id);
        let faults: Vec<_> = validity::faults(shape)
            .into_iter()
            .filter(|fault| !fault.kind.is_harmless())
            .collect();
        assert!(faults.is_empty(), "{act:?}: {} {faults:?}", ground.name);
        let strips_m2: Vec<f64> = farm
            .strips_of(*id)
            .map(|(strip, _)| outline(farm, strip).area_m2())
            .collect();
        if !strips_m2.is_empty() {
            let sum_m2: f64 = strips_m2.iter().sum();
            assert!(
                (sum_m2 - shape.area_m2()).abs() <= slack_m2,
                "{act:?}: strips {sum_m2} of {}",
                shape.area_m2()
            );
        }
    }
    check_shared(farm, act);
}

/// Every corner that lies on a side of another area is, to the last digit, a corner of that area too.
fn check_shared(farm: &Farm, act: &Act) {
    for (id, ground) in &farm.ground {
        for corner in ground.shape.corners() {
            for (other, neighbour) in farm.ground.iter().filter(|(other, _)| *other != id) {
                let theirs = neighbour.shape.corners();
                let passes = neighbour
                    .outline()
                    .unwrap()
                    .rings()
                    .flat_map(Ring::sides)
                    .any(|(a, b)| {
                        corner.distance_m(corner.nearest_on_side(a, b)) <= SAME_PLACE_M / 2.0
                    });
                assert!(
                    !passes || theirs.contains(&corner),
                    "{act:?}: a corner of {} at {corner:?} lies on a side of {} {other:?} without being its own",
                    ground.name,
                    neighbour.name
                );
            }
        }
    }
}

/// Kind, neighbours and area to the square decimetre of every misfit; where its ring begins does not matter.
fn misfits(neighbourhood: &Neighbourhood) -> Vec<String> {
    let words = neighbourhood.misfits().map(|misfit| {
        let area_m2 = misfit.ground.area_m2();
        format!("{:?} {:?} {area_m2:.2}", misfit.kind, misfit.between)
    });
    words.collect()
}

proptest! {
    // The same acts on every machine.
    #![proptest_config(ProptestConfig {
        cases: 120,
        rng_seed: RngSeed::Fixed(20_270_514),
        ..ProptestConfig::default()
    })]

    #[test]
    fn neighbours_stay_true_under_any_acts(acts in prop::collection::vec(any_act(), 1..14)) {
        let first = four_fields();
        let bytes = farm_text(&first);
        let mut history = History::new(first);
        let mut kept = Neighbourhood::of(history.farm());
        let mut opened_m2 = 0.0;
        let mut overlays = 0;
        for act in &acts {
            let before_m2 = covered_m2(history.farm());
            let touched = if matches!(act, Act::Undo) {
                history.undo().map(|(_, touched)| touched)
            } else {
                asked(history.farm(), act).map(|act| history.commit(&act.label, act.edits).unwrap())
            };
            let Some(touched) = touched else { continue };
            // A corner that is moved may be one of a hole, which then grows.
            let may_open = matches!(act, Act::Hole(..))
                || opened_m2 > 0.0 && matches!(act, Act::MoveCorner(..));
            if may_open {
                opened_m2 += (before_m2 - covered_m2(history.farm())).max(0.0);
            }
            if matches!(act, Act::Headland(..) | Act::Join(..) | Act::Hole(..)) {
                overlays += 1;
            }
            check_true(history.farm(), act, opened_m2, slack_m2(overlays));
            kept.renew(history.farm(), &touched.ground);
            let fresh = Neighbourhood::of(history.farm());
            prop_assert_eq!(misfits(&kept), misfits(&fresh));
            for id in history.farm().ground.keys() {
                prop_assert_eq!(kept.net_area(*id), fresh.net_area(*id));
            }
        }
        while history.undo().is_some() {}
        prop_assert!(farm_text(&Farm { next_id: 5, ..history.farm().clone() }) == bytes, "undo does not lead back");
    }
}
