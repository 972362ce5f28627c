//! The question of strips: every way of asking, by pointer and by keys, what it tells, and how it is taken back.

use egui::Key;
use egui_kittest::kittest::Queryable as _;
use foldcourse::farm::{FixedPlace, Ground, GroundId, Kind, Mob, MobId, Shape, StockClass, Visit};
use foldcourse::geometry::Point;

use super::sitting::{Sitting, day, farm_of, one_ley};

/// A ley of 80 m by 50 m with a trough at the middle of its south side, and forty ewes that eat 88 kg a day.
fn ley_with_ewes() -> Sitting {
    let mut farm = one_ley();
    let trough = Ground::new("Trough", Kind::Trough, Shape::Place(Point::new(0.0, -24.0)));
    farm.ground
        .insert(foldcourse::farm::GroundId(farm.next_id), trough);
    farm.mobs.insert(
        MobId(farm.next_id + 1),
        Mob {
            name: "Ewes".to_owned(),
            class: StockClass::DryEwes,
            head: 40,
            liveweight_kg: 70.0,
            eats_kg_per_head: Some(2.2),
            gain_g_per_day: 0.0,
            lambed_on: None,
            changes: Vec::new(),
            visits: vec![Visit {
                from: day("2027-04-01"),
                to: day("2027-06-30"),
            }],
            yard: None,
            follows: None,
        },
    );
    farm.next_id += 2;
    let mut sitting = Sitting::at(farm);
    sitting.wait_for_plan();
    let (ley, _) = sitting.ground("Home Ley");
    sitting.desk_mut().select_only(ley);
    sitting.settle();
    sitting
}

fn strips_m2(sitting: &Sitting) -> Vec<f64> {
    let (ley, _) = sitting.ground("Home Ley");
    let strips = sitting.desk().farm().strips_of(ley);
    strips
        .map(|(id, _)| sitting.desk().measures(id).area_m2.unwrap())
        .collect()
}

#[track_caller]
fn says(sitting: &Sitting, part: &str) {
    assert!(
        sitting.harness.query_by_label_contains(part).is_some(),
        "\"{part}\" is not on screen"
    );
}

#[test]
fn strips_that_last_a_mob_some_days_are_cut_from_cover_and_residual() {
    let mut sitting = ley_with_ewes();
    sitting.key(Key::S);
    sitting.fill("Days on a strip", "1");
    sitting.fill("Cover, kg DM/ha", "2100");
    sitting.fill("Residual, kg DM/ha", "1500");
    says(
        &sitting,
        "40 dry ewes eat 88 kg DM a day; 2100 − 1500 = 600 kg DM/ha may be eaten",
    );
    says(
        &sitting,
        "3 strips × 1 day: each rests 2 × 1 = 2 days; wanted in May: 21.",
    );
    sitting.press("Cut");
    let areas = strips_m2(&sitting);
    assert_eq!(areas.len(), 3);
    for (area_m2, wanted) in
        areas
            .iter()
            .zip([88.0 / 0.06, 88.0 / 0.06, 4000.0 - 2.0 * 88.0 / 0.06])
    {
        assert!((area_m2 - wanted).abs() < 1.0, "{areas:?}");
    }
    assert_eq!(sitting.steps(), 1);
}

#[test]
fn every_strip_reaches_the_trough_by_keys_alone() {
    let mut sitting = ley_with_ewes();
    sitting.key(Key::S);
    sitting.type_text("5");
    sitting.press("Every strip reaches");
    let (_, preview) = shown(&sitting);
    assert!(
        preview
            .cut
            .meets_at
            .unwrap()
            .distance_m(Point::new(0.0, -25.0))
            < 1e-6
    );
    sitting.press("Cut");
    let (ley, _) = sitting.ground("Home Ley");
    for (_, strip) in sitting.desk().farm().strips_of(ley) {
        let outline = strip.outline().unwrap();
        assert!(outline.distance_m(Point::new(0.0, -25.0)) < 1e-6);
        assert!((outline.area_m2() / 800.0 - 1.0).abs() < 1e-9);
    }
    assert_eq!(sitting.desk().farm().strips_of(ley).count(), 5);
}

#[test]
fn the_farthest_of_many_troughs_is_found_by_a_part_of_its_name() {
    let mut farm = one_ley();
    for number in 0..80_u32 {
        let at = Point::new(0.0, -30.0 - f64::from(number));
        let trough = Ground::new(format!("Trough {number}"), Kind::Trough, Shape::Place(at));
        farm.ground.insert(GroundId(farm.next_id), trough);
        farm.next_id += 1;
    }
    let mut sitting = Sitting::at(farm);
    let (ley, _) = sitting.ground("Home Ley");
    sitting.desk_mut().select_only(ley);
    sitting.settle();
    sitting.key(Key::S);
    sitting.press("What every strip reaches");
    let farthest = |sitting: &Sitting| {
        let rows = sitting.harness.query_all_by_label_contains("Trough 79");
        rows.count()
    };
    assert_eq!(farthest(&sitting), 0);
    sitting.fill("Part of its name", "trough 79");
    assert_eq!(farthest(&sitting), 1);
}

fn shown(
    sitting: &Sitting,
) -> (
    foldcourse::farm::GroundId,
    &foldcourse::app::panels::strips_form::StripsPreview,
) {
    match &sitting.desk().dialog {
        Some(foldcourse::app::dialogs::Dialog::Strips(form)) => form.shown().unwrap(),
        other => panic!("{other:?}"),
    }
}

#[test]
fn a_slip_is_told_beside_its_field_and_nothing_is_cut() {
    let mut sitting = ley_with_ewes();
    sitting.key(Key::S);
    for (field, text, told) in [
        (
            "Number of strips",
            "many",
            "\"many\" is not a count of strips.",
        ),
        (
            "Area of a strip",
            "0.1 rods",
            "\"rods\" is not a unit known here",
        ),
        ("Width of a strip", "wide", "\"wide\" is not a number"),
        ("Days on a strip", "0", "\"0\" is not a number of days"),
    ] {
        sitting.fill(field, text);
        says(&sitting, told);
        sitting.key(Key::Enter);
        assert!(sitting.desk().dialog.is_some(), "{field}");
    }
    sitting.fill("Days on a strip", "2");
    sitting.fill("Cover, kg DM/ha", "1500");
    sitting.fill("Residual, kg DM/ha", "1600");
    says(&sitting, "Nothing may be eaten");
    sitting.fill("Number of strips", "4");
    sitting.fill("Names begin with", " ");
    says(&sitting, "Give the strips a name to begin with");
    assert_eq!(sitting.steps(), 0);
}

#[test]
fn the_stem_is_shown_with_the_first_and_last_name_and_may_be_changed() {
    let mut sitting = ley_with_ewes();
    sitting.key(Key::S);
    says(&sitting, "H1 to H6");
    sitting.fill("Names begin with", "Bank ");
    says(&sitting, "Bank 1 to Bank 6");
    sitting.key(Key::Enter);
    assert!(sitting.names().contains(&"Bank 6"));
}

#[test]
fn a_ley_cut_anew_tells_what_goes_and_undo_brings_it_back() {
    let mut sitting = ley_with_ewes();
    sitting.key(Key::S);
    sitting.press("Cut");
    let (strip, _) = sitting.ground("H2");
    let mob = *sitting.desk().farm().mobs.keys().next().unwrap();
    let key = (mob, day("2027-05-20"));
    let new = FixedPlace {
        place: Some(strip),
        lived: false,
    };
    sitting.desk_mut().commit(
        "Decide a day",
        vec![foldcourse::farm::Edit::Fixed {
            key,
            old: None,
            new: Some(new),
        }],
    );
    sitting.key(Key::S);
    says(
        &sitting,
        "The 6 strips that are there now, H1 to H6, are replaced.",
    );
    says(&sitting, "1 day decided on this ground is let go");
    sitting.fill("Number of strips", "3");
    sitting.press("Cut");
    assert_eq!(strips_m2(&sitting).len(), 3);
    assert!(!sitting.desk().farm().fixed.contains_key(&key));
    sitting.key_with(egui::Modifiers::COMMAND, Key::Z);
    assert_eq!(strips_m2(&sitting).len(), 6);
    assert_eq!(sitting.desk().farm().fixed.get(&key), Some(&new));
}

#[test]
fn what_was_chosen_last_stands_there_the_next_time() {
    let mut sitting = ley_with_ewes();
    sitting.key(Key::S);
    sitting.fill("Width of a strip", "16 m");
    sitting.press("Cut");
    assert_eq!(strips_m2(&sitting).len(), 5);
    sitting.key(Key::S);
    let (_, preview) = shown(&sitting);
    assert_eq!(preview.drawn.len(), 5);
}

#[test]
fn the_strips_on_the_map_keep_clear_of_the_question_and_the_view_comes_back() {
    let mut sitting = ley_with_ewes();
    sitting.desk_mut().view.middle = Point::new(-60.0, 10.0);
    sitting.settle();
    let before = sitting.desk().view;
    sitting.key(Key::S);
    let cut = sitting.harness.get_by_label("Cut").rect();
    let view = sitting.desk().view;
    for (east_m, north_m) in [(-40.0, -25.0), (40.0, 25.0)] {
        let at = view.screen_from_ground(Point::new(east_m, north_m));
        assert!(view.screen.contains(at) && at.x < cut.left(), "{at:?}");
    }
    sitting.press("Cancel");
    assert_eq!(sitting.desk().view, before);
}

#[test]
fn a_bearing_is_shown_below_half_a_turn_however_it_is_turned() {
    let mut sitting = Sitting::at(farm_of(&[(
        "Home Ley",
        Kind::Ley,
        (-40.0, -25.0),
        (80.0, 50.0),
    )]));
    let (ley, _) = sitting.ground("Home Ley");
    sitting.desk_mut().select_only(ley);
    sitting.settle();
    sitting.key(Key::S);
    for _ in 0..3 {
        sitting.press("Turn");
        let field = sitting
            .harness
            .get_by_role_and_label(egui::accesskit::Role::TextInput, "Bearing, degrees");
        let shown: f64 = field.value().unwrap().parse().unwrap();
        assert!((0.0..180.0).contains(&shown), "{shown}");
    }
}

#[test]
fn the_question_stands_beside_a_fan_of_strips() {
    let mut sitting = ley_with_ewes();
    sitting.key(Key::S);
    sitting.fill("Days on a strip", "1");
    sitting.fill("Cover, kg DM/ha", "2000");
    sitting.fill("Residual, kg DM/ha", "1500");
    sitting.press("Every strip reaches");
    sitting.harness.remove_cursor();
    sitting.settle();
    let scale = sitting.harness.ctx.pixels_per_point();
    super::picture::check(&sitting.harness.render().unwrap(), scale, "strips-fan-day");
}
