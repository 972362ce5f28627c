//! Ground in common, left over and joined, against published cases.

use foldcourse::geometry::overlay::{all_joined, in_both, joined, without};
use foldcourse::geometry::{Outline, cut, validity};

use super::shapes::{Chance, star_with_holes};
use super::well_known_text::{cases, outline};

#[test]
fn published_overlay_cases_agree() {
    let (mut run, mut left_out) = (0, 0);
    for case in cases(include_str!("../../data/geometry/TestOverlayAA.xml")) {
        let (Some(a), Some(b)) = (outline(&case.a), outline(&case.b)) else {
            left_out += case.tests.len();
            continue;
        };
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
            let expected = outline(expected).unwrap_or_default();
            let off = without(&found, &expected).area_m2() + without(&expected, &found).area_m2();
            let size_m2 = a.area_m2() + b.area_m2();
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
    eprintln!("{run} overlays agree, {left_out} left out");
    assert_eq!((run, left_out), (44, 0));
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
