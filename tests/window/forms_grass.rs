//! The grass of the strip or ley that is selected.

use foldcourse::farm::{Grazing, Kind};

use crate::forms_desk::{Bench, day, short_example};

fn grazing(bench: &Bench, name: &str) -> Grazing {
    let id = bench.ground(name);
    bench.farm().ground[&id].grazing.clone().unwrap_or_default()
}

fn strip() -> Bench {
    let mut bench = Bench::example();
    bench.select("W5");
    bench
}

const COVER: &str = "Cover read on 9 May, kg DM/ha";

#[test]
fn a_cover_read_today_is_added_changed_and_taken_away() {
    let mut bench = strip();
    let before = grazing(&bench, "W5").readings.len();
    bench.makes_one_step(COVER, "2 480");
    let readings = grazing(&bench, "W5").readings;
    assert_eq!(readings.len(), before + 1);
    assert_eq!(
        readings.last().map(|reading| reading.day),
        Some(day(2027, 5, 9))
    );
    bench.makes_one_step(COVER, "2500");
    assert_eq!(
        grazing(&bench, "W5").readings.len(),
        before + 1,
        "in its place"
    );
    bench.makes_one_step(COVER, "");
    assert_eq!(grazing(&bench, "W5").readings.len(), before);
    bench.press("Take the reading of 1 Apr 2027 away");
    assert!(grazing(&bench, "W5").readings.is_empty());
    assert!(bench.shows("No cover is read here yet."));
}

#[test]
fn figures_of_its_own_are_one_step_each_and_empty_means_the_farms() {
    let mut bench = strip();
    bench.makes_one_step("Growth against the farm's, × farm's", "1.2");
    bench.makes_one_step("Leave, kg DM/ha", "1700");
    bench.makes_one_step("Enter at, kg DM/ha", "2300");
    bench.makes_one_step("Growth stops at, kg DM/ha", "3400");
    bench.makes_one_step("Cover wanted at the season's end, kg DM/ha", "1900");
    bench.makes_one_step("Last grazed before the season", "12 march");
    let here = grazing(&bench, "W5");
    assert_eq!(here.leave_kg_per_ha, Some(1700.0));
    assert_eq!(here.last_grazed, Some(day(2027, 3, 12)));
    bench.makes_one_step("Leave, kg DM/ha", "");
    assert_eq!(grazing(&bench, "W5").leave_kg_per_ha, None);
}

#[test]
fn what_cannot_be_is_refused_in_words() {
    let mut bench = strip();
    bench.refuses(COVER, "tall", "not a number");
    bench.refuses(COVER, "99999", "cannot be");
    bench.refuses("Leave, kg DM/ha", "2400", "enter at what is left");
    bench.refuses("Last grazed before the season", "soon", "not a day");
    bench.press("Close it for some days");
    bench.refuses("Closed span 1, last day", "1 may", "before it closes");
}

#[test]
fn it_is_closed_from_the_day_in_view_and_opened_again() {
    let mut bench = strip();
    bench.press("Close it for some days");
    bench.makes_one_step("Closed span 1, last day", "30 may");
    bench.makes_one_step("Closed span 1, why", "hay");
    let closed = grazing(&bench, "W5").closed;
    let span = closed.first().expect("a span");
    assert_eq!((span.from, span.to), (day(2027, 5, 9), day(2027, 5, 30)));
    assert_eq!(span.why, "hay");
    bench.press("Open it again, span 1");
    assert!(grazing(&bench, "W5").closed.is_empty());
    assert_eq!(bench.steps(), 4);
}

#[test]
fn on_a_ley_one_step_goes_to_all_its_strips() {
    let mut bench = Bench::example();
    bench.select("Wether Ley");
    bench.makes_one_step("Leave, kg DM/ha", "1650");
    // Undo shows what it touched, which were the strips.
    bench.select("Wether Ley");
    bench.makes_one_step(COVER, "2400");
    bench.select("Wether Ley");
    for name in ["W1", "W2", "W3", "W4", "W5", "W6"] {
        let here = grazing(&bench, name);
        assert_eq!(here.leave_kg_per_ha, Some(1650.0), "{name}");
        assert_eq!(
            here.readings.last().map(|last| last.cover_kg_per_ha),
            Some(2400.0)
        );
    }
    assert_eq!(grazing(&bench, "Far Ley"), Grazing::default());
    bench.press("Close it for some days");
    assert_eq!(grazing(&bench, "W6").closed.len(), 1);
    assert_eq!(bench.steps(), 3);
}

#[test]
fn a_strip_that_was_never_read_says_so_with_one_field() {
    let mut farm = short_example();
    for ground in farm.ground.values_mut() {
        if ground.kind == Kind::Strip {
            ground.grazing = None;
        }
    }
    let mut bench = Bench::with(farm);
    bench.select("W5");
    assert!(bench.shows("No cover is read here yet."));
    bench.makes_one_step(COVER, "2300");
    assert!(!bench.shows("No cover is read here yet."));
}
