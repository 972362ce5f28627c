//! Faults of outlines against published cases, and each kind by itself.

use foldcourse::geometry::validity::{FaultKind, faults, is_sound};
use foldcourse::geometry::{Outline, Point, Polygon, Ring};

use super::shapes::{Chance, star_ring, star_with_holes};
use super::well_known_text::{cases, outline};

/// How the validity cases of a file went.
#[derive(Debug, Default, PartialEq)]
struct Tally {
    run: usize,
    agreeing: usize,
    /// Of those run, expected to be at fault.
    at_fault: usize,
    /// Points, lines and mixed collections, which are no outlines here.
    other_shapes: usize,
    /// Polygons with an empty ring, which cannot be drawn here.
    empty: usize,
}

fn run(text: &str) -> Tally {
    let mut tally = Tally::default();
    for case in cases(text) {
        for (_, expected) in case.tests.iter().filter(|(name, _)| name == "isValid") {
            let Some(shape) = outline(&case.a) else {
                tally.other_shapes += 1;
                continue;
            };
            if case.a.contains("EMPTY") {
                tally.empty += 1;
                continue;
            }
            tally.run += 1;
            tally.at_fault += usize::from(expected == "false");
            if is_sound(&shape) == (expected == "true") {
                tally.agreeing += 1;
            } else {
                eprintln!("{}: {expected}, but {:?}", case.description, faults(&shape));
            }
        }
    }
    tally
}

#[test]
fn published_validity_cases_agree() {
    let tally = run(include_str!("../../data/geometry/TestValid.xml"));
    let expected = Tally {
        run: 65,
        agreeing: 65,
        at_fault: 42,
        other_shapes: 19,
        empty: 3,
    };
    assert_eq!(tally, expected);
}

#[test]
fn the_larger_set_of_published_validity_cases_agrees() {
    let tally = run(include_str!("../../data/geometry/TestValid2.xml"));
    let expected = Tally {
        run: 253,
        agreeing: 253,
        at_fault: 5,
        other_shapes: 495,
        empty: 4,
    };
    assert_eq!(tally, expected);
}

fn ring(corners: &[(f64, f64)]) -> Ring {
    Ring::new(
        corners
            .iter()
            .map(|(east, north)| Point::new(*east, *north))
            .collect(),
    )
}

fn square(west: f64, south: f64, side: f64) -> Ring {
    ring(&[
        (west, south),
        (west + side, south),
        (west + side, south + side),
        (west, south + side),
    ])
}

fn kinds(outer: Ring, holes: Vec<Ring>) -> Vec<FaultKind> {
    let outline = Outline {
        parts: vec![Polygon { outer, holes }],
    };
    faults(&outline).iter().map(|fault| fault.kind).collect()
}

#[test]
fn a_crossing_is_told_with_its_place_and_in_plain_words() {
    let bow = Outline::simple(vec![
        Point::new(0.0, 0.0),
        Point::new(20.0, 20.0),
        Point::new(20.0, 0.0),
        Point::new(0.0, 20.0),
    ]);
    let found = faults(&bow);
    assert_eq!(found.len(), 1);
    assert_eq!(found[0].kind, FaultKind::CrossesItself);
    assert_eq!(found[0].place, Point::new(10.0, 10.0));
    assert_eq!((found[0].part, found[0].ring, found[0].corner), (0, 0, 0));
    assert_eq!(
        found[0].to_string(),
        "the boundary crosses itself, 10.0 m east and 10.0 m north of the farm's zero point"
    );
}

#[test]
fn each_kind_of_fault_is_found_by_name() {
    use FaultKind as Kind;
    let big = || square(0.0, 0.0, 100.0);
    assert_eq!(kinds(big(), vec![]), []);
    assert_eq!(
        kinds(ring(&[(0.0, 0.0), (1.0, 0.0)]), vec![]),
        [Kind::TooFewCorners]
    );
    assert_eq!(
        kinds(ring(&[(0.0, 0.0), (1.0, 1.0), (3.0, 3.0)]), vec![]),
        [Kind::NoArea]
    );
    assert_eq!(
        kinds(ring(&[(0.0, f64::NAN), (1.0, 1.0), (3.0, 3.0)]), vec![]),
        [Kind::NotFinite]
    );
    assert_eq!(
        kinds(
            ring(&[(0.0, 0.0), (9.0, 0.0), (9.0, 0.0), (9.0, 9.0)]),
            vec![]
        ),
        [Kind::RepeatedCorner]
    );
    assert_eq!(
        kinds(
            ring(&[(0.0, 0.0), (9.0, 0.0), (15.0, 0.0), (9.0, 0.0), (9.0, 9.0)]),
            vec![]
        ),
        [Kind::Spike, Kind::TouchesItself]
    );
    assert_eq!(
        kinds(
            ring(&[(0.0, 0.0), (9.0, 0.0), (9.0, 9.0), (4.0, 0.0), (0.0, 9.0)]),
            vec![]
        ),
        [Kind::TouchesItself]
    );
    assert_eq!(
        kinds(big(), vec![square(200.0, 0.0, 9.0)]),
        [Kind::HoleOutside]
    );
    assert_eq!(
        kinds(big(), vec![square(95.0, 5.0, 9.0)]),
        [Kind::HoleCrosses, Kind::HoleCrosses]
    );
    assert_eq!(
        kinds(big(), vec![square(0.0, 5.0, 9.0)]),
        [Kind::HoleAlongBoundary]
    );
    assert_eq!(
        kinds(big(), vec![square(5.0, 5.0, 20.0), square(9.0, 9.0, 5.0)]),
        [Kind::HolesOverlap]
    );
    let diamond = ring(&[(0.0, 50.0), (50.0, 0.0), (100.0, 50.0), (50.0, 99.0)]);
    assert!(
        kinds(big(), vec![diamond])
            .iter()
            .all(|kind| *kind == Kind::CutApart)
    );
    assert_eq!(faults(&Outline::default())[0].kind, Kind::NothingDrawn);
    let parts = |two: Ring| {
        let polygon = |outer| Polygon {
            outer,
            holes: vec![],
        };
        let outline = Outline {
            parts: vec![polygon(big()), polygon(two)],
        };
        faults(&outline)
            .iter()
            .map(|fault| (fault.kind, fault.part))
            .collect::<Vec<_>>()
    };
    assert_eq!(parts(square(200.0, 0.0, 9.0)), []);
    assert_eq!(parts(square(10.0, 10.0, 9.0)), [(Kind::PartsOverlap, 1)]);
    assert_eq!(parts(square(100.0, 10.0, 9.0)), [(Kind::PartsShareSide, 1)]);
}

#[test]
fn random_stars_are_sound_and_a_pulled_corner_is_caught() {
    let mut chance = Chance(3);
    for _ in 0..200 {
        let centre = Point::new(chance.between(-1e4, 1e4), chance.between(-1e4, 1e4));
        let sound = star_with_holes(&mut chance, centre, 80.0);
        assert_eq!(faults(&sound), []);
        let mut pulled = sound;
        // Corner 0 pulled through the centre and out of the far side must cross the boundary there.
        let corner = &mut pulled.parts[0].outer.corners[0];
        *corner = corner.between(centre, 4.0);
        assert!(!is_sound(&pulled));
    }
}

#[test]
fn a_boundary_of_fifteen_thousand_corners_is_quick() {
    let ring = star_ring(&mut Chance(4), Point::new(0.0, 0.0), 14_741, 900.0, 1000.0);
    let outline = Outline::simple(ring.corners);
    let begun = std::time::Instant::now();
    assert_eq!(faults(&outline), []);
    eprintln!("14 741 corners in {:?}", begun.elapsed());
    assert!(begun.elapsed().as_secs_f64() < 2.0);
}
