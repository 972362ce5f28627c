//! Filling triangles cover exactly the ground.

use foldcourse::geometry::triangulate::fill_mesh;
use foldcourse::geometry::{Outline, Point, Whereabouts};

use super::shapes::{Chance, comb, moved, star_ring, star_with_holes};

#[test]
fn triangles_cover_the_ground_and_nothing_else() {
    let mut chance = Chance(21);
    for round in 0..200 {
        let outline = match round % 2 {
            0 => star_with_holes(&mut chance, Point::default(), 100.0),
            _ => comb(&mut chance, Point::default(), 12, 100.0, 60.0),
        };
        let outline = moved(&outline, 1000.0 * f64::from(round), -500.0);
        let mesh = fill_mesh(&outline);
        assert!(
            (mesh.area_m2() / outline.area_m2() - 1.0).abs() < 1e-9,
            "round {round}"
        );
        for corners in mesh
            .corners()
            .filter(|corners| Outline::simple(corners.to_vec()).area_m2() > 1e-3)
        {
            let centre = corners[0]
                .between(corners[1], 0.5)
                .between(corners[2], 1.0 / 3.0);
            assert_eq!(
                outline.whereabouts(centre),
                Whereabouts::Inside,
                "round {round}"
            );
        }
    }
}

#[test]
fn a_boundary_of_fifteen_thousand_corners_is_filled_quickly() {
    let outline = Outline::simple(
        star_ring(&mut Chance(22), Point::default(), 14_741, 900.0, 1000.0).corners,
    );
    let begun = std::time::Instant::now();
    let mesh = fill_mesh(&outline);
    eprintln!("14 741 corners filled in {:?}", begun.elapsed());
    assert!((mesh.area_m2() / outline.area_m2() - 1.0).abs() < 1e-9);
    assert!(begun.elapsed().as_secs_f64() < 3.0);
}

#[test]
fn nothing_drawn_and_broken_figures_fill_nothing() {
    assert!(fill_mesh(&Outline::default()).triangles.is_empty());
    let broken = Outline::simple(vec![
        Point::default(),
        Point::new(f64::NAN, 1.0),
        Point::new(2.0, 2.0),
    ]);
    assert!(fill_mesh(&broken).triangles.is_empty());
    assert!(
        fill_mesh(&Outline::simple(vec![Point::default(); 2]))
            .triangles
            .is_empty()
    );
}
