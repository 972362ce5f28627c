//! The page of the hens.

use egui::Key;
use foldcourse::app::forms::Page;
use foldcourse::app::season_acts;
use foldcourse::farm::{HenHouseId, LineOrder, LineSide, StopKind, StretchTrouble, TowSide};
use foldcourse::quantity::Day;

use crate::forms_desk::{Bench, day, short_example};

const HOUSE: HenHouseId = HenHouseId(48);

fn hens() -> Bench {
    let mut bench = Bench::example();
    bench.key(Key::H);
    assert_eq!(bench.desk().forms.page, Some(Page::Hens));
    bench
}

#[test]
fn each_figure_of_a_hen_house_is_one_step() {
    let mut bench = hens();
    bench.makes_one_step("Name", "Wagon");
    bench.makes_one_step("Hens", "80");
    bench.makes_one_step("Length with run, m", "5.5");
    bench.makes_one_step("Width with run, m", "3 m");
    bench.makes_one_step("Gap between places, m", "0");
    bench.makes_one_step("Line to its middle, m", "5");
    bench.makes_one_step("First day out", "3 april");
    bench.makes_one_step("Last day out", "1 may");
    bench.makes_one_step("On one place, days", "2");
    bench.makes_one_step("Rest wanted, days", "60");
    let house = &bench.farm().hen_houses[&HOUSE];
    assert_eq!((house.hens, house.days_per_place), (80, 2));
    assert_eq!(house.last_day, Some(day(2027, 5, 1)));
}

#[test]
fn what_no_house_has_is_refused_in_words() {
    let mut bench = hens();
    bench.refuses("Hens", "-3", "cannot be");
    bench.refuses("Length with run, m", "0", "cannot be");
    bench.refuses("Width with run, m", "wide", "not a length");
    bench.refuses("Gap between places, m", "2 furlongs", "not a length");
    bench.refuses("On one place, days", "0", "cannot be");
    bench.refuses("Last day out", "1 january 2027", "before they come out");
}

#[test]
fn the_walk_is_told_anew_with_every_figure() {
    let mut bench = hens();
    assert!(bench.shows("0.40 m²"), "24 m² for 60 hens");
    bench.enter("Hens", "30");
    assert!(bench.shows("0.80 m²"), "24 m² for 30 hens");
    bench.enter("Rest wanted, days", "90");
    assert!(bench.shows("90 are wanted"));
    bench.wait_for_plan();
    bench.harness.run_steps(2);
    assert!(bench.shows("Each of these would do"), "remedies were tried");
}

#[test]
fn lines_are_put_in_order_added_and_taken_out() {
    let mut bench = hens();
    let (pear, cobnut, apple) = (
        bench.ground("Pear line"),
        bench.ground("Cobnut line"),
        bench.ground("Apple line"),
    );
    assert_eq!(bench.farm().hen_houses[&HOUSE].lines, [pear, cobnut]);
    bench.press("Walk Cobnut line sooner");
    assert_eq!(bench.farm().hen_houses[&HOUSE].lines, [cobnut, pear]);
    bench.press("Add a line");
    bench.press("Apple line  –  tree line");
    assert_eq!(bench.farm().hen_houses[&HOUSE].lines, [cobnut, pear, apple]);
    bench.press("Take Pear line out of the walk");
    assert_eq!(bench.farm().hen_houses[&HOUSE].lines, [cobnut, apple]);
    bench.press("both");
    assert_eq!(bench.farm().hen_houses[&HOUSE].side, LineSide::Both);
    bench.press("left");
    assert_eq!(bench.farm().hen_houses[&HOUSE].side, LineSide::Left);
    assert_eq!(bench.steps(), 5);
}

#[test]
fn a_house_without_a_line_says_what_to_choose() {
    let mut bench = hens();
    bench.press("Take Cobnut line out of the walk");
    bench.press("Take Pear line out of the walk");
    assert!(bench.shows("No line yet"));
    assert!(bench.shows("nowhere to stand"));
}

#[test]
fn a_farm_without_hens_gets_a_house_along_a_tree_line() {
    let mut farm = short_example();
    farm.hen_houses.clear();
    let mut bench = Bench::with(farm);
    bench.key(Key::H);
    bench.press("Add a hen house");
    let pear = bench.ground("Pear line");
    let house = bench.farm().hen_houses.values().next().expect("a house");
    assert_eq!(house.lines, [pear]);
    assert_eq!(bench.steps(), 1);
    bench.press("Remove Hens");
    assert!(bench.farm().hen_houses.is_empty());
}

#[test]
fn how_it_is_towed_and_who_orders_its_lines_are_steps() {
    let mut bench = hens();
    bench.makes_one_step("House alone, long, m", "3");
    bench.makes_one_step("House alone, wide, m", "2");
    bench.makes_one_step("Gap between places, m", "-0.5");
    bench.refuses("Gap between places, m", "-50", "overlap");
    bench.makes_one_step("Last hens along Pear line before this walk", "1 march");
    bench.press("one end");
    bench.makes_one_step("Radius of its turn, m", "2");
    bench.refuses("Radius of its turn, m", "51", "51 cannot be");
    bench.press("the program");
    let house = &bench.farm().hen_houses[&HOUSE];
    assert_eq!(house.handling.tow_side, TowSide::OneEnd);
    assert_eq!(house.handling.line_order, LineOrder::Chosen);
    assert_eq!(house.handling.house_width_m, Some(2.0));
    assert_eq!(house.handling.turn_radius_m, Some(2.0));
    assert!((house.gap_m + 0.5).abs() < 1e-12);
    assert!(bench.shows("this is proven"), "why the order is so");
    assert!(bench.shows("Nitrogen, a stay"));
    assert!(bench.shows("Home Hen Handbook"), "where feed stands");
}

#[test]
fn a_stop_is_put_in_changed_and_taken_away() {
    let mut bench = hens();
    bench.press("Add a stop");
    bench.makes_one_step("Stop 1, first day", "20 may");
    bench.makes_one_step("Stop 1, last day", "30 may");
    bench.makes_one_step("Stop 1, why", "bird flu");
    bench.refuses("Stop 1, last day", "1 may", "later day");
    bench.press("Stop 1, what it forbids");
    bench.press("hens shut in");
    let stop = bench.farm().hen_houses[&HOUSE].handling.stops[0].clone();
    assert_eq!(stop.kind, StopKind::Housed);
    assert_eq!((stop.from, stop.to), (day(2027, 5, 20), day(2027, 5, 30)));
    bench.wait_for_plan();
    let plan = bench.desk().plan.clone().expect("a plan");
    let stand = plan.hens[&HOUSE].on(day(2027, 5, 25)).expect("there").0;
    assert!(stand.is_housed && !stand.is_moved);
    bench.press("Take stop 1 away");
    assert!(bench.farm().hen_houses[&HOUSE].handling.stops.is_empty());
}

#[test]
fn a_day_is_fixed_late_left_out_and_freed_and_what_was_lived_stays() {
    let mut bench = hens();
    bench.wait_for_plan();
    let today = day(2027, 5, 9);
    let place_on = |bench: &Bench, day: Day| {
        let plan = bench.desk().plan.clone().expect("a plan");
        plan.hens[&HOUSE].on(day).expect("it is out").0.place
    };
    let before = place_on(&bench, today);
    bench.press("Not moved this day");
    bench.wait_for_plan();
    assert_eq!(place_on(&bench, today), before - 1);
    assert_eq!(place_on(&bench, today.plus_days(1)), before);
    bench.press("Leave this place out");
    bench.wait_for_plan();
    assert_eq!(place_on(&bench, today), before + 1);
    bench.press("Free this day of the hens");
    bench.wait_for_plan();
    assert_eq!(place_on(&bench, today), before);
    bench.makes_one_step("Fix at place", "2");
    bench.wait_for_plan();
    assert_eq!(place_on(&bench, today), 2);
    assert_eq!(place_on(&bench, today.plus_days(1)), 3);
    bench.refuses("Fix at place", "9999", "cannot be");
    let spot_on = |bench: &Bench, day: Day| {
        let plan = bench.desk().plan.clone().expect("a plan");
        plan.hens[&HOUSE].on(day).expect("it is out").1.spot()
    };
    let yesterday = spot_on(&bench, today.plus_days(-1));
    let steps = bench.steps();
    let act = season_acts::log_done(bench.desk()).expect("there is something to log");
    bench.desk_mut().commit(&act.0, act.1);
    assert_eq!(bench.steps(), steps + 1);
    bench.press("Walk Cobnut line sooner");
    bench.wait_for_plan();
    assert_eq!(spot_on(&bench, today.plus_days(-1)), yesterday);
}

#[test]
fn a_steep_stretch_is_left_out_of_a_line() {
    let mut bench = hens();
    let line = bench.farm().hen_houses[&HOUSE].lines[0];
    let name = bench.farm().ground[&line].name.clone();
    bench.press("Leave out a stretch");
    bench.press(&format!("of {name}"));
    bench.makes_one_step("Stretch 1, to, m", "25");
    bench.makes_one_step("Stretch 1, from, m", "12.5");
    bench.refuses("Stretch 1, to, m", "9", "later end");
    bench.press("too narrow");
    let stretch = bench.farm().hen_houses[&HOUSE].handling.left_stretches[0];
    assert_eq!((stretch.from_m, stretch.to_m), (12.5, 25.0));
    assert_eq!(stretch.why, StretchTrouble::Narrow);
    bench.wait_for_plan();
    bench.harness.run_steps(2);
    assert!(bench.shows("too narrow by your word"));
    bench.press("Use stretch 1 again");
    let house = &bench.farm().hen_houses[&HOUSE];
    assert!(house.handling.left_stretches.is_empty());
}

#[test]
fn it_follows_a_flock_and_birds_grow() {
    let mut bench = hens();
    bench.press("It walks after");
    let flock = bench
        .farm()
        .mobs
        .values()
        .next()
        .expect("a flock")
        .name
        .clone();
    bench.press(&flock);
    bench.makes_one_step("So much later, days", "5");
    bench.wait_for_plan();
    let plan = bench.desk().plan.clone().expect("a plan");
    let walk = &plan.hens[&HOUSE];
    assert!(walk.order.is_none() && !walk.days.is_empty());
    assert!(bench.shows("It follows the sheep"));
    let today = bench.desk().today;
    let place_on = |bench: &Bench| {
        let plan = bench.desk().plan.clone().expect("a plan");
        plan.hens[&HOUSE].on(today).expect("it is out").0.place
    };
    let planned = place_on(&bench);
    let other = if planned > 1 { planned - 1 } else { 2 };
    bench.makes_one_step("Fix at place", &other.to_string());
    bench.wait_for_plan();
    assert_eq!(place_on(&bench), other);
    bench.press("Free this day of the hens");
    bench.wait_for_plan();
    assert_eq!(place_on(&bench), planned);
    bench.press("Birds and room from this day");
    bench.makes_one_step("Step 1, birds", "70");
    bench.makes_one_step("Step 1, each wants, m² a day", "0.6");
    bench.wait_for_plan();
    bench.harness.run_steps(2);
    assert!(bench.shows("too little room as the birds grow"));
    bench.press("Take step 1 away");
    assert!(
        bench.farm().hen_houses[&HOUSE]
            .handling
            .flock_steps
            .is_empty()
    );
}
