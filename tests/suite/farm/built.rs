//! What is built and planted: tunnels, beds, trees, fences, ponds; against printed figures, closed formulas and each
//! other.

use foldcourse::farm::{
    Basin, BedGap, Beds, FencePosts, FindingCode, Ground, Kind, Severity, Shape, TreeRow,
    TunnelEnds, TunnelFrame, TunnelGap, all_trees, built_sums, fence_posts, findings, lay_out_beds,
    measure_ground, plants_on, totals_by_variety, trees_on, tunnel_floor,
};
use foldcourse::geometry::prismoid::{basin_volume, prismoid_m3};
use foldcourse::geometry::{Bow, FourSided, GroundFrame, LonLat, Outline, Point};
use proptest::prelude::*;

use super::sample::{empty_farm, line, rectangle};

fn tunnel(width_m: f64, length_m: f64, height_m: f64, frame: TunnelFrame) -> Ground {
    Ground {
        height_m: Some(height_m),
        frame: Some(frame),
        ..Ground::new("T", Kind::Tunnel, rectangle(0.0, 0.0, width_m, length_m))
    }
}

const PLAIN: TunnelFrame = TunnelFrame {
    ends: TunnelEnds::Open,
    straight_side_m: 0.0,
    skirt_m: 0.0,
    hoop_spacing_m: 2.0,
};

fn near(found: f64, wanted: f64, within: f64) {
    assert!((found - wanted).abs() <= within, "{found}, not {wanted}");
}

#[test]
fn a_hoop_of_six_metres_by_two_forty_is_part_of_a_circle() {
    // Worked by R = (w²/4 + h²)/2h and arc = 2R·atan2(w/2, R − h).
    let bow = Bow::new(6.0, 2.4).unwrap();
    near(bow.radius_m(), 3.075, 1e-12);
    near(bow.arc_m(), 8.299, 0.0005);
    let wide = Bow::new(8.0, 3.0).unwrap();
    near(wide.radius_m(), 4.167, 0.0005);
    near(wide.arc_m(), 10.725, 0.0005);
}

#[test]
fn half_a_circle_is_pi() {
    let sums = built_sums(&empty_farm(), &tunnel(5.0, 20.0, 2.5, PLAIN));
    let sums = sums.tunnel.unwrap().unwrap();
    near(sums.hoop_m, 7.854, 0.0005);
    near(sums.cover_m2, 157.08, 0.005);
    near(2.0 * sums.end_wall_m2, 19.63, 0.005);
    assert!(!sums.bow.bulges());
    assert_eq!(sums.hoops, 11);
    near(sums.hoop_gap_m, 2.0, 1e-9);
}

#[test]
fn cover_is_sheet_by_length_and_the_ends_as_chosen() {
    let frame = TunnelFrame {
        ends: TunnelEnds::Covered,
        straight_side_m: 0.6,
        skirt_m: 0.4,
        hoop_spacing_m: 2.5,
    };
    let farm = empty_farm();
    let of = |ends| {
        let sums = built_sums(
            &farm,
            &tunnel(6.0, 24.0, 3.0, TunnelFrame { ends, ..frame }),
        );
        sums.tunnel.unwrap().unwrap()
    };
    let (covered, boarded) = (of(TunnelEnds::Covered), of(TunnelEnds::Boarded));
    // The bow above the straight side rises 2.4 m.
    near(covered.sheet_m, 8.299 + 2.0 * 0.6 + 2.0 * 0.4, 0.0005);
    near(boarded.cover_m2, boarded.sheet_m * 24.0, 1e-9);
    let ends_m2 = 2.0 * (covered.end_wall_m2 + 6.0 * 0.4);
    near(covered.cover_m2, boarded.cover_m2 + ends_m2, 1e-9);
    near(covered.air_m3, covered.end_wall_m2 * 24.0, 1e-9);
    near(covered.one_sheet_length_m.unwrap(), 24.0 + 2.0 * 3.4, 1e-9);
    assert_eq!(boarded.one_sheet_length_m, None);
    // 24 m in gaps of at most 2.5 m: ten gaps, eleven hoops.
    assert_eq!(covered.hoops, 11);
    near(covered.hoop_gap_m, 2.4, 1e-9);
}

#[test]
fn a_tunnel_without_height_or_bow_says_what_is_missing() {
    let farm = empty_farm();
    let mut ground = tunnel(6.0, 24.0, 3.0, PLAIN);
    ground.height_m = None;
    assert_eq!(
        built_sums(&farm, &ground).tunnel,
        Some(Err(TunnelGap::NoHeight))
    );
    let high = TunnelFrame {
        straight_side_m: 3.0,
        ..PLAIN
    };
    let ground = tunnel(6.0, 24.0, 3.0, high);
    assert_eq!(
        built_sums(&farm, &ground).tunnel,
        Some(Err(TunnelGap::NoBow))
    );
}

#[test]
fn plants_per_area_are_those_of_the_tables() {
    // Square grid: area by row spacing times plant spacing.
    assert_eq!(plants_on(100.0, 0.45, 0.45), 493);
    assert_eq!(plants_on(10_000.0, 5.0, 4.0), 500);
    let (foot, acre_m2) = (0.3048, 4046.856_422_4);
    assert_eq!(plants_on(acre_m2, 3.0 * foot, 1.5 * foot), 9680);
}

#[test]
fn an_acre_a_hundred_feet_deep_holds_the_printed_beds() {
    // Teaching Organic Farming and Gardening, University of California Santa Cruz, unit 1.5, appendix 13, prints 218
    // beds two feet apart and 100 ft long to an acre; exactly it is 217.8, and 217 whole ones fit.
    let foot = 0.3048;
    let outline = Outline::simple(rectangle(0.0, 0.0, 435.6 * foot, 100.0 * foot).corners());
    let beds = Beds {
        bed_width_m: 2.0 * foot,
        path_width_m: 0.0,
        bearing_deg: Some(0.0),
        rows: 1,
        plant_spacing_m: 0.3,
    };
    let layout = lay_out_beds(&outline, beds).unwrap();
    assert_eq!(layout.middles.len(), 217);
    let length_m: f64 = layout.middles.iter().map(|(a, b)| a.distance_m(*b)).sum();
    near(length_m / foot, 21_700.0, 0.01);
    near(outline.area_m2() / (2.0 * foot) / foot, 21_800.0, 50.0);
}

#[test]
fn beds_lie_in_the_middle_with_paths_only_between() {
    // Ten metres hold seven beds of 1.0 m with six paths of 0.4 m, 0.3 m left at either side.
    let farm = empty_farm();
    let ground = Ground {
        beds: Some(Beds {
            bed_width_m: 1.0,
            path_width_m: 0.4,
            bearing_deg: None,
            rows: 2,
            plant_spacing_m: 0.25,
        }),
        ..Ground::new("P", Kind::Plot, rectangle(0.0, 0.0, 10.0, 50.0))
    };
    let sums = built_sums(&farm, &ground).beds.unwrap().unwrap();
    assert_eq!(sums.beds, 7);
    near(sums.length_m, 350.0, 1e-4);
    near(sums.area_m2, 350.0, 1e-4);
    near(sums.share, 0.7, 1e-6);
    assert_eq!(sums.plants, 2800);
    let layout = lay_out_beds(ground.outline().unwrap(), ground.beds.unwrap()).unwrap();
    near(
        layout.left_edges_m[0]
            .abs()
            .min((layout.left_edges_m[0] + 10.0).abs()),
        0.3,
        1e-9,
    );
}

#[test]
fn a_bed_that_the_boundary_cuts_counts_its_middle() {
    // A right triangle of 10 m by 10 m: the middle line of a bed along its upright leg is as long as it is off the tip.
    let corners = [(0.0, 0.0), (10.0, 0.0), (0.0, 10.0)].map(|(e, n)| Point::new(e, n));
    let outline = Outline::simple(corners.to_vec());
    let beds = Beds {
        bed_width_m: 2.0,
        path_width_m: 0.0,
        bearing_deg: Some(0.0),
        rows: 1,
        plant_spacing_m: 1.0,
    };
    let layout = lay_out_beds(&outline, beds).unwrap();
    let mut lengths_m: Vec<f64> = layout
        .middles
        .iter()
        .map(|(a, b)| a.distance_m(*b))
        .collect();
    lengths_m.sort_by(f64::total_cmp);
    for (found, wanted) in lengths_m.iter().zip([1.0, 3.0, 5.0, 7.0, 9.0]) {
        near(*found, wanted, 1e-9);
    }
    near(layout.ground.area_m2(), 50.0, 1e-6);
    let broad = Beds {
        bed_width_m: 11.0,
        ..beds
    };
    assert_eq!(lay_out_beds(&outline, broad), Err(BedGap::NoRoom));
    let fine = Beds {
        bed_width_m: 0.001,
        ..beds
    };
    assert_eq!(lay_out_beds(&outline, fine), Err(BedGap::TooMany));
}

fn row_of(varieties: &[&str]) -> Ground {
    Ground {
        trees: Some(TreeRow {
            spacing_m: 4.0,
            first_m: 0.0,
            crown_m: 3.0,
            varieties: varieties.iter().map(|name| (*name).to_owned()).collect(),
        }),
        ..Ground::new(
            "Row",
            Kind::TreeLine,
            line(&[(0.0, 0.0), (48.0, 0.0), (48.0, 40.0)]),
        )
    }
}

#[test]
fn a_row_of_88_metres_at_four_holds_23_trees_that_repeat_their_varieties() {
    let farm = empty_farm();
    let trees = trees_on(&farm, &row_of(&["Egremont", "Bramley", "Bramley"]));
    assert_eq!(trees.len(), 23);
    assert_eq!(trees[0].place, Point::new(0.0, 0.0));
    let last = trees.last().unwrap();
    assert_eq!((last.number, last.variety.as_str()), (23, "Bramley"));
    near(last.place.distance_m(Point::new(48.0, 40.0)), 0.0, 1e-6);
    near(trees[13].place.distance_m(Point::new(48.0, 4.0)), 0.0, 1e-6);
    near(trees[13].along_m, 52.0, 1e-9);
    let back = farm.frame.point_from_lonlat(trees[13].lonlat).unwrap();
    near(back.distance_m(trees[13].place), 0.0, 1e-6);
    let totals = totals_by_variety(&trees);
    assert_eq!((totals["Bramley"], totals["Egremont"]), (15, 8));
    // 87 m at 4 m holds 22.
    let short = TreeRow {
        spacing_m: 4.0,
        first_m: 0.0,
        crown_m: 3.0,
        varieties: Vec::new(),
    };
    assert_eq!(short.count_on(87.0), 22);
}

#[test]
fn a_fence_has_a_post_at_each_corner_and_rolls_are_whole() {
    let farm = empty_farm();
    let ground = Ground {
        posts: Some(FencePosts {
            spacing_m: 3.0,
            roll_m: 100.0,
            strands: 2,
        }),
        ..Ground::new(
            "F",
            Kind::Fence,
            line(&[(0.0, 0.0), (30.0, 0.0), (30.0, 10.0)]),
        )
    };
    let sums = built_sums(&farm, &ground).fence.unwrap();
    // Ten gaps of 3 m, four of 2.5 m, and the last post.
    assert_eq!((sums.posts, sums.corner_posts), (15, 3));
    near(sums.wire_m, 80.0, 1e-4);
    assert_eq!(sums.rolls, 1);
    assert_eq!(fence_posts(ground.line().unwrap(), 3.0).len(), 15);
    let round = [(0.0, 0.0), (9.0, 0.0), (9.0, 9.0), (0.0, 9.0), (0.0, 0.0)];
    let closed = Ground {
        shape: line(&round),
        ..ground
    };
    assert_eq!(built_sums(&farm, &closed).fence.unwrap().posts, 12);
}

fn pond(depth_m: f64, side_run: f64) -> Ground {
    Ground {
        basin: Some(Basin { depth_m, side_run }),
        ..Ground::new("Pond", Kind::Water, rectangle(0.0, 0.0, 20.0, 10.0))
    }
}

#[test]
fn a_pit_of_20_by_10_above_14_by_4_holds_183_cubic_metres() {
    let sums = built_sums(&empty_farm(), &pond(1.5, 2.0)).basin.unwrap();
    near(sums.volume_m3, 183.0, 1e-4);
    near(sums.floor_m2, 56.0, 1e-4);
    assert!(!sums.is_closed);
    // Practices of Irrigation and On-farm Water Management, equation 6.5, worked with areas 10, 18 and 20 over 10 m.
    near(prismoid_m3(10.0, 10.0, 18.0, 20.0), 170.0, 1e-12);
}

#[test]
fn sides_that_meet_end_the_pond_there() {
    // Sides of 2 to 1 meet half of 10 m in: at 2.5 m, over a ridge 10 m long. A wedge with hipped ends:
    // depth · width · (2 · length + ridge) / 6.
    let sums = built_sums(&empty_farm(), &pond(4.0, 2.0)).basin.unwrap();
    assert!(sums.is_closed);
    near(sums.depth_m, 2.5, 0.002);
    near(sums.volume_m3, 2.5 * 10.0 * (2.0 * 20.0 + 10.0) / 6.0, 0.2);
    assert!(sums.floor_m2.abs() < f64::EPSILON);
}

#[test]
fn nothing_is_reckoned_of_ground_that_says_nothing() {
    let farm = empty_farm();
    for kind in Kind::ALL {
        let ground = Ground::new("X", kind, rectangle(0.0, 0.0, 5.0, 9.0));
        assert!(built_sums(&farm, &ground).is_empty(), "{}", kind.name());
    }
}

#[test]
fn an_askew_or_bent_tunnel_still_has_a_floor() {
    let askew = [(0.0, 0.0), (8.0, 1.0), (3.0, 31.0), (-5.0, 30.0)];
    let askew = Outline::simple(askew.map(|(e, n)| Point::new(e, n)).to_vec());
    let floor = tunnel_floor(&askew).unwrap();
    assert!(
        floor
            .rectangle
            .is_some_and(|four| four.out_of_square_deg() > 1.0)
    );
    let bent = [
        (0.0, 0.0),
        (8.0, 0.0),
        (8.0, 40.0),
        (4.0, 41.0),
        (0.0, 40.0),
    ];
    let bent = Outline::simple(bent.map(|(e, n)| Point::new(e, n)).to_vec());
    let floor = tunnel_floor(&bent).unwrap();
    assert_eq!(floor.rectangle, None);
    near(floor.width_m, 8.0, 1e-9);
    near(floor.length_m, 41.0, 1e-9);
}

#[test]
fn unusual_sizes_are_notes_and_usual_ones_are_silent() {
    let said = |ground: Ground| {
        let mut farm = empty_farm();
        super::sample::put(&mut farm, ground);
        findings(&farm)
    };
    assert_eq!(said(tunnel(6.0, 24.0, 2.6, PLAIN)), []);
    let cases = [
        (
            tunnel(3.0, 24.0, 2.0, PLAIN),
            FindingCode::TunnelUnusual,
            "3.0 m wide",
        ),
        (
            tunnel(6.0, 60.0, 2.6, PLAIN),
            FindingCode::TunnelUnusual,
            "60.0 m long",
        ),
        (
            tunnel(5.0, 24.0, 1.6, PLAIN),
            FindingCode::TunnelUnusual,
            "lower than 1.83 m",
        ),
        (
            tunnel(5.0, 24.0, 4.0, PLAIN),
            FindingCode::TunnelUnusual,
            "bulge",
        ),
        (pond(4.0, 2.0), FindingCode::BasinCloses, "meet 2.50 m down"),
    ];
    for (ground, code, words) in cases {
        let found = said(ground);
        let found = found
            .iter()
            .find(|finding| finding.what.contains(words))
            .unwrap();
        assert_eq!((found.code, found.severity), (code, Severity::Note));
    }
    // How it is built is not said yet: an outline alone is not judged.
    let bare = Ground::new("T", Kind::Tunnel, rectangle(0.0, 0.0, 2.0, 90.0));
    assert_eq!(said(bare), []);
    let mut unfit = Ground::new("P", Kind::Plot, rectangle(0.0, 0.0, 5.0, 9.0));
    unfit.beds = Some(Beds {
        bed_width_m: 6.0,
        path_width_m: 0.4,
        bearing_deg: None,
        rows: 1,
        plant_spacing_m: 0.3,
    });
    assert_eq!(said(unfit)[0].code, FindingCode::BedsUnfit);
}

fn frame() -> GroundFrame {
    GroundFrame::new(LonLat::new(-1.0, 52.0)).unwrap()
}

proptest! {
    #[test]
    fn a_basin_under_a_rectangle_is_its_frustum(
        length_m in 4.0..80.0, width_m in 4.0..80.0, run in 0.0..4.0, share in 0.05..0.95,
    ) {
        let (length_m, width_m, run): (f64, f64, f64) = (length_m, width_m, run);
        let depth_m = share * length_m.min(width_m) / 2.0 / run.max(0.2);
        let outline = Outline::simple(rectangle(3.0, 5.0, width_m, length_m).corners());
        let found = basin_volume(frame(), &outline, depth_m, run).unwrap();
        // The integral of (length − 2·run·z)(width − 2·run·z) over the depth.
        let wanted = length_m * width_m * depth_m
            - run * (length_m + width_m) * depth_m * depth_m
            + 4.0 / 3.0 * run * run * depth_m * depth_m * depth_m;
        prop_assert!((found.volume_m3 - wanted).abs() <= 1e-6 * wanted + 1e-6, "{} {wanted}", found.volume_m3);
    }

    #[test]
    fn beds_never_cover_more_than_their_ground(
        corners in prop::collection::vec((20.0..60.0f64, 0.0..0.5f64), 5..9),
        bed_m in 0.3..6.0, path_m in 0.0..3.0, bearing in prop::option::of(0.0..360.0),
    ) {
        // Round the origin in turn, so that no side crosses another.
        let step_deg = 360.0 / f64::from(u32::try_from(corners.len()).unwrap());
        let ring: Vec<Point> = corners
            .iter()
            .zip(0_u32..)
            .map(|((far_m, more), place)| Point::default().towards((f64::from(place) + more) * step_deg, *far_m))
            .collect();
        let outline = Outline::simple(ring);
        let beds = Beds {
            bed_width_m: bed_m, path_width_m: path_m, bearing_deg: bearing, rows: 1, plant_spacing_m: 0.3,
        };
        if let Ok(layout) = lay_out_beds(&outline, beds) {
            let whole_m2 = outline.area_m2();
            prop_assert!(layout.ground.area_m2() <= whole_m2 * (1.0 + 1e-7) + 1e-3);
            for (from, to) in &layout.middles {
                prop_assert!(outline.contains(from.between(*to, 0.5)));
            }
        }
    }

    #[test]
    fn the_list_of_trees_is_as_long_as_their_count(
        length_m in 0.5..400.0f64, spacing_m in 0.5..30.0, first_m in 0.0..20.0, bend in 0.1..0.9,
    ) {
        let mut farm = empty_farm();
        let shape = Shape::Line(vec![
            Point::new(0.0, 0.0), Point::new(length_m * bend, 0.0), Point::new(length_m * bend, length_m),
        ]);
        let ground = Ground {
            trees: Some(TreeRow { spacing_m, first_m, crown_m: 3.0, varieties: vec!["a".to_owned(), "b".to_owned()] }),
            ..Ground::new("Row", Kind::TreeLine, shape)
        };
        let counted = measure_ground(&farm, &ground).trees.unwrap();
        let listed = trees_on(&farm, &ground);
        prop_assert_eq!(listed.len(), counted);
        prop_assert_eq!(totals_by_variety(&listed).values().sum::<usize>(), counted);
        for pair in listed.windows(2) {
            let apart_m = pair[0].place.distance_m(pair[1].place);
            prop_assert!(apart_m <= spacing_m + 1e-6);
        }
        let id = super::sample::put(&mut farm, ground);
        prop_assert_eq!(all_trees(&farm).len(), usize::from(counted > 0));
        prop_assert!(all_trees(&farm).iter().all(|(found, _)| *found == id));
    }

    #[test]
    fn a_rectangle_takes_the_sizes_and_bearing_it_is_given(
        length_m in 10.0..90.0f64, width_m in 2.0..9.9f64, bearing in 0.0..180.0f64,
        new_length_m in 10.0..90.0f64, new_width_m in 2.0..9.9f64, turned in 0.0..180.0f64, flips in any::<bool>(),
    ) {
        let sized = foldcourse::geometry::construct::rectangle(Point::new(7.0, -3.0), bearing, length_m, width_m).unwrap();
        let mut corners = sized.parts[0].outer.corners.clone();
        if flips { corners.rotate_left(1); }
        let four = FourSided::of(&Outline::simple(corners.clone())).unwrap();
        prop_assert!(four.out_of_square_deg() < 1e-6);
        let resized = four.with_sizes(new_length_m, new_width_m);
        prop_assert_eq!(resized.parts[0].outer.corners[0], corners[0].on_whole_mm());
        let resized = FourSided::of(&resized).unwrap();
        prop_assert!((resized.length_m() - new_length_m).abs() < 0.002);
        prop_assert!((resized.width_m() - new_width_m).abs() < 0.002);
        let apart = |a: f64, b: f64| { let d = (a - b).rem_euclid(180.0); d.min(180.0 - d) };
        prop_assert!(apart(resized.bearing_deg(), bearing) < 0.02);
        let turned_four = FourSided::of(&four.turned_to(turned)).unwrap();
        prop_assert!(apart(turned_four.bearing_deg(), turned) < 0.02);
        prop_assert!((turned_four.length_m() - length_m).abs() < 0.003);
    }
}
