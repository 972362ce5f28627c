//! Ground in common, left over and joined, against published cases.

use foldcourse::geometry::overlay::{all_joined, in_both, joined, without};
use foldcourse::geometry::{Outline, cut, validity};

use super::shapes::{Chance, star_with_holes};
use super::well_known_text::{cases, ground, outline, outline_of_either};

#[test]
fn published_overlay_cases_agree() {
    let (mut run, mut worst) = (0, 0.0_f64);
    for case in cases(include_str!("../../data/geometry/TestOverlayAA.xml")) {
        let (a, b) = (
            outline(&case.a).expect("ground"),
            outline(&case.b).expect("ground"),
        );
        for (operation, expected) in &case.tests {
            let found = match operation.as_str() {
                "intersection" => in_both(&a, &b),
                "union" => joined(&a, &b),
                "difference" => without(&a, &b),
                // The ground in one but not both is not offered here; it is these two together.
                "symdifference" => joined(&without(&a, &b), &without(&b, &a)),
                other => panic!("an operation of another kind: {other}"),
            };
            // Answers that hold lines or points beside ground are compared by the ground alone.
            let expected = ground(expected);
            let off = without(&found, &expected).area_m2() + without(&expected, &found).area_m2();
            let size_m2 = a.area_m2() + b.area_m2();
            worst = worst.max((found.area_m2() - expected.area_m2()).abs() / size_m2);
            assert!(
                off <= 1e-6 * size_m2,
                "{} {operation}: {off}",
                case.description
            );
            assert!(
                (found.area_m2() - expected.area_m2()).abs() <= 1e-6 * size_m2,
                "{} {operation}",
                case.description
            );
            run += 1;
        }
    }
    eprintln!("{run} overlays agree, largest difference in area, as a share, {worst:.1e}");
    assert_eq!(run, 44);
}

/// Published inputs that once broke programs: nothing may be lost or won between the parts of two shapes.
#[test]
fn shapes_that_once_broke_programs_keep_their_areas() {
    let files = [
        include_str!("../../data/geometry/TestOverlay-37032.xml"),
        include_str!("../../data/geometry/TestOverlay-geos-275.xml"),
        include_str!("../../data/geometry/TestOverlay-geos-488.xml"),
        include_str!("../../data/geometry/TestOverlay-geos-599.xml"),
        include_str!("../../data/geometry/TestOverlay-geos-615.xml"),
        include_str!("../../data/geometry/TestOverlay-geos-838.xml"),
        include_str!("../../data/geometry/TestOverlay-jts-798.xml"),
        include_str!("../../data/geometry/TestOverlay-jts-808.xml"),
        include_str!("../../data/geometry/TestOverlay-pg-2176.xml"),
    ];
    let (mut run, mut left_out, mut worst) = (0, 0, 0.0_f64);
    for case in files.iter().flat_map(|text| cases(text)) {
        let (Some(a), Some(b)) = (outline_of_either(&case.a), outline_of_either(&case.b)) else {
            // Lines, or a case of one shape alone.
            left_out += 1;
            continue;
        };
        let (a_m2, b_m2) = (in_both(&a, &a).area_m2(), in_both(&b, &b).area_m2());
        let both_m2 = in_both(&a, &b).area_m2();
        let either_m2 = joined(&a, &b).area_m2();
        let (only_a_m2, only_b_m2) = (without(&a, &b).area_m2(), without(&b, &a).area_m2());
        let size = a_m2 + b_m2;
        for off in [
            either_m2 + both_m2 - a_m2 - b_m2,
            only_a_m2 + both_m2 - a_m2,
            only_b_m2 + both_m2 - b_m2,
        ] {
            worst = worst.max(off.abs() / size);
        }
        run += 1;
    }
    eprintln!("{run} pairs, {left_out} left out, largest share off {worst:.1e}");
    assert_eq!((run, left_out), (14, 2));
    assert!(worst < 1e-6, "{worst:e}");
}

#[test]
fn strips_joined_again_are_the_whole_with_its_own_corners() {
    let mut chance = Chance(51);
    for _ in 0..30 {
        let centre = foldcourse::geometry::Point::new(2000.0, -700.0);
        let whole = star_with_holes(&mut chance, centre, 100.0);
        let strips =
            cut::strips_of_equal_area(&whole, chance.between(0.0, 360.0), 7).expect("ground");
        let again = all_joined(strips.iter().map(|strip| &strip.outline));
        assert!((again.area_m2() / whole.area_m2() - 1.0).abs() < 1e-7);
        assert!(validity::is_sound(&again));
        assert_eq!(again.parts.len(), 1);
        let corners: Vec<_> = again
            .rings()
            .flat_map(|ring| ring.corners.clone())
            .collect();
        for corner in whole.rings().flat_map(|ring| ring.corners.clone()) {
            assert!(corners.contains(&corner), "{corner:?}");
        }
    }
}

#[test]
fn in_both_and_without_make_up_the_whole() {
    let mut chance = Chance(52);
    for _ in 0..50 {
        let one = star_with_holes(
            &mut chance,
            foldcourse::geometry::Point::new(0.0, 0.0),
            100.0,
        );
        let two = star_with_holes(
            &mut chance,
            foldcourse::geometry::Point::new(40.0, 25.0),
            100.0,
        );
        let parts_m2 = in_both(&one, &two).area_m2() + without(&one, &two).area_m2();
        assert!((parts_m2 / one.area_m2() - 1.0).abs() < 1e-7);
    }
    assert_eq!(
        in_both(&Outline::default(), &Outline::default()),
        Outline::default()
    );
}
