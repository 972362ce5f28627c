//! Ground at a distance from lines and boundaries.

use foldcourse::geometry::buffer::{LineEnds, drawn_in, drawn_out, line_with_width};
use foldcourse::geometry::nearest::nearest_on_line;
use foldcourse::geometry::{Outline, Point, Whereabouts, validity};

use super::shapes::{Chance, moved, square, star_with_holes};

#[test]
fn a_straight_track_covers_its_length_times_its_width() {
    let line = [Point::new(5.0, 5.0), Point::new(35.0, 45.0)];
    let track = line_with_width(&line, 3.0, LineEnds::Flat);
    assert!(
        (track.area_m2() - 150.0).abs() < 1e-4,
        "{}",
        track.area_m2()
    );
    let round = line_with_width(&line, 3.0, LineEnds::Round);
    let expected_m2 = 150.0 + std::f64::consts::PI * 2.25;
    assert!(
        (round.area_m2() / expected_m2 - 1.0).abs() < 1e-3,
        "{}",
        round.area_m2()
    );
}

#[test]
fn a_bent_track_is_as_wide_as_it_should_be_everywhere() {
    let mut chance = Chance(41);
    for _ in 0..30 {
        let mut line = vec![Point::default()];
        let mut bearing_deg = 0.0;
        for _ in 0..12 {
            bearing_deg += chance.between(-60.0, 60.0);
            let last = line[line.len() - 1];
            line.push(last.towards(bearing_deg, chance.between(20.0, 60.0)));
        }
        let track = line_with_width(&line, 4.0, LineEnds::Round);
        for _ in 0..2000 {
            let stretch = chance.count(0, line.len() - 2);
            let near = line[stretch].between(line[stretch + 1], chance.share());
            let place = near.towards(chance.between(0.0, 360.0), chance.between(0.0, 5.0));
            let off_m = nearest_on_line(&line, place).expect("a line").distance_m;
            let inside = track.whereabouts(place) == Whereabouts::Inside;
            assert!(off_m > 1.99 || inside, "{off_m}");
            assert!(off_m < 2.001 || !inside, "{off_m}");
        }
    }
}

#[test]
fn ground_drawn_in_is_all_that_lies_deeper_than_the_distance() {
    let mut chance = Chance(42);
    for round in 0..30 {
        let outline = moved(
            &star_with_holes(&mut chance, Point::default(), 100.0),
            3000.0,
            2000.0,
        );
        let inner = drawn_in(&outline, 6.0);
        assert!(
            validity::is_sound(&inner),
            "round {round}: {:?}",
            validity::faults(&inner)
        );
        let bounds = outline.bounds().expect("corners");
        for _ in 0..2000 {
            let place = bounds.least.moved(
                chance.share() * bounds.width_m(),
                chance.share() * bounds.height_m(),
            );
            let depth_m = outline.nearest_side(place).expect("sides").distance_m;
            let deep = outline.whereabouts(place) == Whereabouts::Inside;
            let kept = inner.whereabouts(place) == Whereabouts::Inside;
            assert!(
                !kept || (deep && depth_m > 5.97),
                "round {round}: {depth_m}"
            );
            assert!(kept || !deep || depth_m < 6.001, "round {round}: {depth_m}");
        }
    }
}

#[test]
fn squares_drawn_in_and_out_measure_what_they_should() {
    let field = Outline::simple(square(1000.0, 1000.0, 100.0));
    assert!((drawn_in(&field, 10.0).area_m2() - 6400.0).abs() < 1e-3);
    assert!(drawn_in(&field, 50.1).parts.is_empty());
    let out_m2 = 10_000.0 + 4000.0 + std::f64::consts::PI * 100.0;
    assert!((drawn_out(&field, 10.0).area_m2() / out_m2 - 1.0).abs() < 1e-4);
    assert_eq!(drawn_in(&field, 0.0), field);
    assert_eq!(drawn_out(&field, -1.0), field);
}

#[test]
fn what_has_no_length_or_width_covers_nothing() {
    let line = [Point::default(), Point::new(10.0, 0.0)];
    for (line, width_m) in [
        (&line[..1], 3.0),
        (&line[..], 0.0),
        (&line[..], -2.0),
        (&line[..], f64::NAN),
        (&[], 3.0),
    ] {
        assert!(
            line_with_width(line, width_m, LineEnds::Flat)
                .parts
                .is_empty()
        );
    }
}
