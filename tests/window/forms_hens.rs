//! The page of the hens.

use egui::Key;
use foldcourse::app::forms::Page;
use foldcourse::farm::{HenHouseId, LineSide};

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
    assert!(bench.shows("The rest wanted is not reached."));
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
    bench.press("left");
    assert_eq!(bench.farm().hen_houses[&HOUSE].side, LineSide::Left);
    assert_eq!(bench.steps(), 4);
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
