//! A few small pictures of the whole window: full and empty, by day and by night, at one and two pixels a point.

use foldcourse::app::settings::LightChoice;
use foldcourse::farm::{
    Basin, Beds, Farm, FencePosts, FixedPlace, Ground, Kind, Shape, TreeRow, TunnelEnds,
    TunnelFrame, Visit,
};
use foldcourse::files::farm_from_text;
use foldcourse::geometry::Point;

use super::picture::check;
use super::sitting::{Sitting, day, empty_farm, farm_of};

/// A sitting in a window of a given size, its season planned.
fn seen(farm: Farm, size: [f32; 2], scale: f32, light: LightChoice) -> Sitting {
    let mut sitting = Sitting::sized(farm, size.into(), scale, light);
    sitting.wait_for_plan();
    sitting
}

#[track_caller]
fn check_picture(mut sitting: Sitting, name: &str) {
    sitting.harness.remove_cursor();
    sitting.settle();
    check(
        &sitting.harness.render().unwrap(),
        sitting.harness.ctx.pixels_per_point(),
        name,
    );
}

/// A farm of the tests' own on which every day of the flock's visit is lived, two on each strip: neither a change of
/// the shipped example nor a better plan is a change of the window.
fn hollin_fold() -> Farm {
    let mut farm = farm_from_text(include_str!("hollin-fold.ron"), "hollin-fold.ron").unwrap();
    let (from, to) = (day("2027-04-12"), day("2027-05-16"));
    let is_strip = |ground: &Ground| ground.kind == Kind::Strip;
    let strips = farm.ground.iter().filter(|(_, ground)| is_strip(ground));
    let days = strips.flat_map(|(id, _)| [*id, *id]).zip(0..);
    farm.fixed = days
        .map(|(id, after)| (from.plus_days(after), id))
        .filter(|(day, _)| *day <= to)
        .map(|(day, id)| {
            let place = Some(id);
            let mob = *farm.mobs.keys().next().unwrap();
            ((mob, day), FixedPlace { place, lived: true })
        })
        .collect();
    for mob in farm.mobs.values_mut() {
        mob.visits = vec![Visit { from, to }];
    }
    farm
}

/// Names that no column was made for.
fn long_names() -> Farm {
    farm_of(&[
        (
            "The piece behind the old dairy that floods in a wet February",
            Kind::Plot,
            (-60.0, -25.0),
            (50.0, 50.0),
        ),
        (
            "Großvaters Obstwiese an der Straße nach Żółkiew",
            Kind::Ley,
            (-5.0, -25.0),
            (50.0, 50.0),
        ),
        ("", Kind::Water, (50.0, -25.0), (20.0, 50.0)),
    ])
}

#[test]
fn a_full_farm_by_day() {
    let mut sitting = seen(hollin_fold(), [1000.0, 640.0], 1.0, LightChoice::Day);
    let (strip, _) = sitting.ground("W5");
    sitting.desk_mut().select_only(strip);
    check_picture(sitting, "full-day");
}

#[test]
fn a_full_farm_by_night() {
    let sitting = seen(hollin_fold(), [1000.0, 640.0], 1.0, LightChoice::Night);
    check_picture(sitting, "full-night");
}

#[test]
fn a_small_window_at_twice_the_scale() {
    let sitting = seen(hollin_fold(), [860.0, 560.0], 2.0, LightChoice::Day);
    check_picture(sitting, "small-twice");
}

#[test]
fn an_empty_farm_says_what_to_do_first() {
    let sitting = seen(empty_farm(), [860.0, 560.0], 1.0, LightChoice::Day);
    check_picture(sitting, "empty-day");
}

#[test]
fn long_names_keep_to_their_columns() {
    let mut sitting = seen(long_names(), [860.0, 560.0], 1.0, LightChoice::Night);
    sitting.press("Großvaters Obstwiese an der Straße nach Żółkiew, ley, 0.2500 ha");
    check_picture(sitting, "long-names-night");
}

#[test]
fn a_plot_under_the_pen_shows_its_figures() {
    let mut sitting = Sitting::at(empty_farm());
    sitting.key(egui::Key::R);
    sitting.click((-40.0, -25.0));
    sitting.click((40.0, -25.0));
    sitting.point((40.0, 25.0));
    sitting.wait_for_plan();
    check(&sitting.harness.render().unwrap(), 1.0, "drawing-day");
}

#[test]
fn the_question_for_strips_shows_them() {
    let mut sitting = seen(hollin_fold(), [1000.0, 640.0], 1.0, LightChoice::Day);
    let (ley, _) = sitting.ground("Far Ley");
    sitting.desk_mut().select_only(ley);
    sitting.key(egui::Key::S);
    check_picture(sitting, "strips-question-day");
}

/// A tunnel with hoops and beds, a bedded plot, trees, a fence and a pond, near enough to be told apart.
fn built() -> Farm {
    let mut farm = farm_of(&[
        ("Tunnel", Kind::Tunnel, (-34.0, -16.0), (8.0, 30.0)),
        ("Salad plot", Kind::Plot, (-20.0, -16.0), (18.0, 24.0)),
        ("Pond", Kind::Water, (14.0, -14.0), (16.0, 12.0)),
        ("Row", Kind::TreeLine, (0.0, 0.0), (1.0, 1.0)),
        ("Fence", Kind::Fence, (0.0, 0.0), (1.0, 1.0)),
    ]);
    let line = |corners: &[(f64, f64)]| {
        let corners = corners
            .iter()
            .map(|(east, north)| Point::new(*east, *north));
        Shape::Line(corners.collect())
    };
    let beds = Beds {
        bed_width_m: 1.2,
        path_width_m: 0.5,
        bearing_deg: None,
        rows: 3,
        plant_spacing_m: 0.3,
    };
    for ground in farm.ground.values_mut() {
        match ground.kind {
            Kind::Tunnel => {
                ground.height_m = Some(3.0);
                ground.frame = Some(TunnelFrame {
                    ends: TunnelEnds::Covered,
                    straight_side_m: 0.5,
                    skirt_m: 0.5,
                    hoop_spacing_m: 2.0,
                });
                ground.beds = Some(beds);
            }
            Kind::Plot => {
                ground.beds = Some(Beds {
                    bearing_deg: Some(20.0),
                    ..beds
                });
            }
            Kind::Water => {
                ground.basin = Some(Basin {
                    depth_m: 1.5,
                    side_run: 2.0,
                });
            }
            Kind::TreeLine => {
                ground.shape = line(&[(4.0, -16.0), (9.0, 16.0)]);
                ground.trees = Some(TreeRow {
                    spacing_m: 5.0,
                    first_m: 1.0,
                    crown_m: 4.0,
                    varieties: ["Egremont", "Bramley"].map(str::to_owned).to_vec(),
                });
            }
            _ => {
                ground.shape = line(&[(14.0, 4.0), (30.0, 4.0), (32.0, 16.0)]);
                ground.posts = Some(FencePosts {
                    spacing_m: 3.0,
                    roll_m: 50.0,
                    strands: 1,
                });
            }
        }
    }
    farm
}

#[track_caller]
fn check_built(light: LightChoice, selected: &str, name: &str) {
    let mut sitting = seen(built(), [1000.0, 700.0], 1.0, light);
    let (id, _) = sitting.ground(selected);
    let desk = sitting.desk_mut();
    desk.select_only(id);
    desk.view.middle = Point::new(0.0, 0.0);
    desk.view.m_per_point = 0.16;
    desk.is_fitted = false;
    sitting.settle();
    check_picture(sitting, name);
}

#[test]
fn what_is_built_is_drawn_to_scale_by_day() {
    check_built(LightChoice::Day, "Tunnel", "built-day");
}

#[test]
fn trees_are_named_close_up_by_night() {
    check_built(LightChoice::Night, "Row", "built-trees-night");
}

#[test]
fn a_walk_with_compass_and_tape_is_seen_as_it_is_typed() {
    let mut sitting = seen(hollin_fold(), [1000.0, 700.0], 1.0, LightChoice::Day);
    sitting.desk_mut().taping.way = foldcourse::app::taping::Way::WalkRound;
    sitting.key(egui::Key::K);
    sitting.type_text("far ley 1");
    sitting.key(egui::Key::Enter);
    for text in ["60", "95", "42", "184", "63", "274", "38", "6"] {
        sitting.type_text(text);
        sitting.key(egui::Key::Enter);
    }
    check_picture(sitting, "compass-walk-day");
}

#[test]
fn two_tapes_show_both_corners_by_night() {
    let mut sitting = seen(hollin_fold(), [1000.0, 640.0], 1.0, LightChoice::Night);
    sitting.key(egui::Key::K);
    for text in ["far ley 1", "far ley 2", "60"] {
        sitting.type_text(text);
        sitting.key(egui::Key::Enter);
    }
    sitting.type_text("120");
    check_picture(sitting, "two-tapes-night");
}

/// The shipped example has a course; a change of its figures is a change of these pictures.
fn with_course(light: LightChoice, scale: f32) -> Sitting {
    let farm = foldcourse::files::example_farm().unwrap();
    let mut sitting = seen(farm, [1000.0, 640.0], scale, light);
    sitting.key(egui::Key::Y);
    sitting
}

#[test]
fn the_course_stands_as_a_table_by_day() {
    check_picture(with_course(LightChoice::Day, 1.0), "course-day");
}

#[test]
fn clean_ground_stands_as_a_table_by_night() {
    let mut sitting = with_course(LightChoice::Night, 1.0);
    sitting.press("Clean ground");
    check_picture(sitting, "clean-ground-night");
}

#[test]
fn the_map_has_a_year_of_the_course() {
    let mut sitting = with_course(LightChoice::Day, 1.0);
    sitting.press("2029");
    sitting.press("On the map");
    check_picture(sitting, "course-map-day");
}
