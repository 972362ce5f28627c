//! Walked boundaries: the stated error against simulated walks, and thinning.

use foldcourse::geometry::walked::{thinned_line, thinned_ring, walked_area};
use foldcourse::geometry::{Outline, Point, Ring};

use super::shapes::{Chance, square, star_ring};

/// A figure of the normal distribution (G. E. P. Box and M. E. Muller, *A note on the generation of random normal
/// deviates*, Annals of Mathematical Statistics 29, 1958).
fn normal(chance: &mut Chance) -> f64 {
    let radius = (-2.0 * (1.0 - chance.share()).ln()).sqrt();
    radius * (std::f64::consts::TAU * chance.share()).cos()
}

#[test]
fn the_standard_error_is_that_of_many_simulated_walks() {
    let mut chance = Chance(81);
    for (ring, error_m) in [
        (Ring::new(square(0.0, 0.0, 60.0)), 2.5),
        (
            star_ring(&mut Chance(82), Point::default(), 24, 30.0, 80.0),
            3.0,
        ),
        // Corners close together: the second term counts.
        (Ring::new(square(0.0, 0.0, 4.0)), 2.0),
    ] {
        let stated = walked_area(&ring, error_m);
        let walks = 20_000;
        let variance: f64 = (0..walks)
            .map(|_| {
                let corners = ring.corners.iter().map(|corner| {
                    corner.moved(error_m * normal(&mut chance), error_m * normal(&mut chance))
                });
                let walked = Ring::new(corners.collect());
                (walked.signed_area_m2() - ring.signed_area_m2()).powi(2)
            })
            .sum::<f64>()
            / f64::from(walks);
        // The standard error of a variance from 20 000 walks is 1 %, of its root half that.
        let ratio = stated.standard_error_m2 / variance.sqrt();
        eprintln!(
            "{} corners: stated {:.2} m², ratio to simulated {ratio:.4}",
            ring.corners.len(),
            stated.standard_error_m2
        );
        assert!((ratio - 1.0).abs() < 0.025, "{ratio}");
    }
}

#[test]
fn a_square_walked_with_error_is_as_sure_as_reckoned_by_hand() {
    // Four diagonals of 100·√2: σ²/4 · 4 · 20 000 + 4·σ⁴/2, with σ = 2.
    let stated = walked_area(&Ring::new(square(0.0, 0.0, 100.0)), 2.0);
    assert!((stated.standard_error_m2 - 80_032.0_f64.sqrt()).abs() < 1e-9);
    assert_eq!(stated.area_m2, 10_000.0);
    assert_eq!(walked_area(&Ring::default(), 2.0).standard_error_m2, 0.0);
}

#[test]
fn a_thinned_line_keeps_its_ends_and_stays_within_the_tolerance() {
    let mut chance = Chance(83);
    for _ in 0..50 {
        let mut line = vec![Point::default()];
        for _ in 0..400 {
            let last = line[line.len() - 1];
            line.push(last.moved(chance.between(-1.0, 3.0), chance.between(-2.0, 2.0)));
        }
        let thin = thinned_line(&line, 2.5);
        assert_eq!((thin.first(), thin.last()), (line.first(), line.last()));
        assert!(thin.len() < line.len() / 2, "{}", thin.len());
        // Every point lies within the tolerance of the stretch between the kept points round it.
        let mut stretch = 0;
        for point in &line {
            if stretch + 2 < thin.len() && *point == thin[stretch + 1] {
                stretch += 1;
            }
            let nearest = point.nearest_on_side(thin[stretch], thin[stretch + 1]);
            assert!(point.distance_m(nearest) <= 2.5 + 1e-9);
        }
    }
}

#[test]
fn thinning_leaves_standing_still_out_and_keeps_what_is_needed() {
    let line = [
        Point::default(),
        Point::default(),
        Point::new(5.0, 0.01),
        Point::new(10.0, 0.0),
        Point::new(10.0, 0.0),
    ];
    assert_eq!(
        thinned_line(&line, 0.1),
        [Point::default(), Point::new(10.0, 0.0)]
    );
    assert_eq!(thinned_line(&[], 1.0), []);
    let mut corners = Vec::new();
    for (from, to) in Ring::new(square(0.0, 0.0, 80.0)).sides() {
        corners.extend((0..20).map(|step| from.between(to, f64::from(step) / 20.0)));
    }
    let thin = thinned_ring(&Ring::new(corners), 0.01);
    assert_eq!(thin.corners.len(), 4);
    assert!((Outline::simple(thin.corners).area_m2() - 6400.0).abs() < 1e-9);
    // Too coarse a tolerance does not make the ring vanish.
    let small = Ring::new(square(0.0, 0.0, 1.0));
    assert_eq!(thinned_ring(&small, 50.0), small);
}
