//! Strips whose ends lie along a track: equal, nothing lost, every one touches the track where it runs along.

use foldcourse::geometry::cut::{
    CutError, LineCourse, StripSize, gap_to_line_m, gap_to_outline_m, strips_square_to_line,
};
use foldcourse::geometry::{Outline, Point};

use super::shapes::{Chance, square};

/// Ground of a depth to the north of a line, its far side straight.
fn ground_north_of(line: &[Point], far_north_m: f64) -> Outline {
    let mut corners = line.to_vec();
    for end in [line.last(), line.first()].into_iter().flatten() {
        corners.push(Point::new(end.east_m, far_north_m));
    }
    Outline::simple(corners)
}

#[test]
fn along_a_straight_track_cuts_are_square_to_it_in_its_order() {
    let outline = Outline::simple(square(0.0, 0.0, 100.0));
    let track = [Point::new(-300.0, -2.0), Point::new(500.0, -2.0)];
    let cut = strips_square_to_line(&outline, &track, 3.0, StripSize::Count(4))
        .expect("ground")
        .expect("a course");
    assert_eq!(cut.course, LineCourse::Straight);
    for (index, strip) in cut.strips.iter().enumerate() {
        let bounds = strip.outline.bounds().expect("corners");
        assert!((bounds.least.east_m - 25.0 * index as f64).abs() < 1e-9);
        assert!((gap_to_line_m(&strip.outline, &track) - 2.0).abs() < 1e-9);
    }
}

#[test]
fn along_a_track_that_bends_gently_every_strip_is_equal_and_touches_it() {
    let mut chance = Chance(31);
    let mut bent = 0;
    for round in 0..100 {
        let corners = chance.count(3, 9);
        let line: Vec<Point> = (0..corners)
            .map(|index| {
                Point::new(
                    200.0 * index as f64 / (corners - 1) as f64,
                    chance.between(-5.0, 5.0),
                )
            })
            .collect();
        let outline = ground_north_of(&line, 40.0);
        let count = chance.count(2, 12);
        let cut = strips_square_to_line(&outline, &line, 3.0, StripSize::Count(count))
            .expect("ground")
            .expect("a course");
        assert_eq!(cut.strips.len(), count);
        bent += usize::from(cut.course == LineCourse::Bent);
        let whole_m2 = outline.area_m2();
        let mut sum_m2 = 0.0;
        for strip in &cut.strips {
            let area_m2 = strip.outline.area_m2();
            sum_m2 += area_m2;
            assert!(
                (area_m2 * count as f64 / whole_m2 - 1.0).abs() < 1e-9,
                "round {round}"
            );
            assert!(gap_to_line_m(&strip.outline, &line) < 1e-9, "round {round}");
        }
        assert!((sum_m2 / whole_m2 - 1.0).abs() < 1e-9, "round {round}");
    }
    assert!(bent > 40, "{bent}");
}

#[test]
fn where_cuts_of_their_own_would_meet_all_run_square_to_the_mean_course() {
    // A right-angled bend round two sides of the ground.
    let line = [
        Point::new(0.0, 100.0),
        Point::new(0.0, 0.0),
        Point::new(100.0, 0.0),
    ];
    let outline = Outline::simple(square(0.0, 0.0, 100.0));
    let cut = strips_square_to_line(&outline, &line, 3.0, StripSize::Count(6))
        .expect("ground")
        .expect("a course");
    assert_eq!(cut.course, LineCourse::Mean);
    for strip in &cut.strips {
        assert!((strip.outline.area_m2() - 10_000.0 / 6.0).abs() < 1e-6);
        assert!(gap_to_line_m(&strip.outline, &line) < 1e-9);
    }
}

#[test]
fn a_track_that_ends_at_the_ground_has_no_course_along_it() {
    let outline = Outline::simple(square(0.0, 0.0, 100.0));
    let track = [Point::new(50.0, -200.0), Point::new(50.0, -0.5)];
    let cut = strips_square_to_line(&outline, &track, 0.2, StripSize::Count(3));
    assert_eq!(cut, Ok(None));
}

#[test]
fn a_strip_past_the_end_of_the_track_is_seen_not_to_reach_it() {
    let outline = Outline::simple(square(0.0, 0.0, 100.0));
    let track = [Point::new(-5.0, 0.0), Point::new(40.0, 0.0)];
    let cut = strips_square_to_line(&outline, &track, 3.0, StripSize::Count(5))
        .expect("ground")
        .expect("a course");
    let gaps: Vec<f64> = cut
        .strips
        .iter()
        .map(|strip| gap_to_line_m(&strip.outline, &track))
        .collect();
    assert!(gaps[0] < 1e-9 && gaps[1] < 1e-9, "{gaps:?}");
    assert!((gaps[4] - 40.0).abs() < 1e-9, "{gaps:?}");
}

#[test]
fn a_gap_is_nothing_where_ground_meets_and_the_shortest_way_elsewhere() {
    let one = Outline::simple(square(0.0, 0.0, 10.0));
    for (west_m, gap_m) in [(2.0, 0.0), (10.0, 0.0), (13.0, 3.0)] {
        let other = Outline::simple(square(west_m, 2.0, 5.0));
        assert!((gap_to_outline_m(&one, &other) - gap_m).abs() < 1e-12);
        assert!((gap_to_outline_m(&other, &one) - gap_m).abs() < 1e-12);
    }
    let through = [Point::new(-5.0, 5.0), Point::new(15.0, 5.0)];
    assert_eq!(gap_to_line_m(&one, &through), 0.0);
}

#[test]
fn a_line_of_one_place_is_refused() {
    let outline = Outline::simple(square(0.0, 0.0, 100.0));
    let cut = strips_square_to_line(&outline, &[Point::default()], 3.0, StripSize::Count(3));
    assert_eq!(cut, Err(CutError::LineTooShort));
}
