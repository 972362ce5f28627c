//! The planning problem of a farm: what is on the map and in the book, and nothing else.

use std::collections::BTreeMap;

use foldcourse::farm::{
    Closed, Farm, FixedPlace, Grazing, Ground, GroundId, Kind, MobId, Reading, Visit,
};
use foldcourse::geometry::Point;
use foldcourse::planning::{
    DaySpan, FarmProblem, FarmProblemError, Place, ProblemStrip, Season, Step, problem_from, replay,
};
use foldcourse::quantity::Day;
use proptest::prelude::*;

use crate::farm::sample::{day, empty_farm, ewes, line, put, rectangle, strip, two_strip_farm};

const EWES: MobId = MobId(90);

/// Two strips and forty ewes here from 1 April to 30 June 2027.
fn farm_with_ewes() -> (Farm, [GroundId; 2]) {
    let (mut farm, _, strips) = two_strip_farm();
    farm.mobs.insert(EWES, ewes());
    (farm, strips)
}

fn grazing_of(farm: &mut Farm, id: GroundId) -> &mut Grazing {
    let ground = farm.ground.get_mut(&id).unwrap();
    ground.grazing.get_or_insert_default()
}

fn read_cover(farm: &mut Farm, id: GroundId, on: &str, cover_kg_per_ha: f64) {
    let reading = Reading {
        day: day(on),
        cover_kg_per_ha,
    };
    grazing_of(farm, id).readings.push(reading);
}

fn live(farm: &mut Farm, mob: MobId, on: Day, place: Option<GroundId>) {
    farm.fixed
        .insert((mob, on), FixedPlace { place, lived: true });
}

fn strip_named<'a>(problem: &'a FarmProblem, name: &str) -> &'a ProblemStrip {
    problem
        .problem
        .strips
        .iter()
        .find(|strip| strip.name == name)
        .unwrap()
}

#[track_caller]
fn check_near(found: f64, expected: f64, tolerance: f64) {
    assert!(
        (found - expected).abs() <= tolerance,
        "{found} is not {expected}"
    );
}

#[test]
fn a_plain_farm_comes_out_as_drawn_and_said() {
    let (mut farm, [west, _]) = farm_with_ewes();
    farm.mobs.get_mut(&EWES).unwrap().yard = Some(Point::new(-5.0, 7.0));
    grazing_of(&mut farm, west).end_cover_kg_per_ha = Some(2000.0);
    grazing_of(&mut farm, west).leave_kg_per_ha = Some(1500.0);
    let made = problem_from(&farm, day("2027-04-20"), 30).unwrap();
    let problem = &made.problem;
    assert!(Season::compile(problem).is_ok());
    assert_eq!((problem.first_day, problem.days), (day("2027-04-20"), 30));
    let steps = |pairs: [(&str, f64); 2]| {
        pairs.map(|(from, value)| Step {
            from: day(from),
            value,
        })
    };
    assert_eq!(
        problem.growth,
        steps([("2027-04-20", 45.0), ("2027-05-01", 70.0)])
    );
    assert_eq!(
        problem.rest_days,
        steps([("2027-04-20", 28.0), ("2027-05-01", 21.0)])
    );
    assert_eq!(problem.longest_stay_days, 3);

    let found = strip_named(&made, "A1");
    check_near(found.area_ha, 0.4, 1e-7);
    assert_eq!(
        (found.leave, found.enter, found.ceiling),
        (1500.0, Some(2200.0), 3800.0)
    );
    assert_eq!(found.end_cover, Some(2000.0));
    check_near(found.at[0], 20.0, 1e-9);
    check_near(found.at[1], 50.0, 1e-9);
    assert_eq!(
        (found.rested_days, found.stood_days, found.rest_owed_days),
        (None, None, None)
    );

    let mob = &problem.mobs[0];
    assert_eq!(
        mob.visits,
        [DaySpan {
            first: day("2027-04-20"),
            last: day("2027-05-19")
        }]
    );
    // 40 ewes of 70 kg that eat 1.5 % of their weight.
    check_near(mob.demand[0].value, 42.0, 1e-9);
    assert_eq!((mob.yard, mob.stood.as_deref()), ([-5.0, 7.0], None));
    assert_eq!(made.ground_of["A1"], west);
    assert_eq!(made.mob_of["Ewes"], EWES);
}

#[test]
fn a_mob_without_a_yard_stands_in_the_middle_of_the_farm() {
    let (farm, _) = farm_with_ewes();
    let made = problem_from(&farm, day("2027-04-01"), 10).unwrap();
    assert_eq!(made.problem.mobs[0].yard, [40.0, 50.0]);
}

#[test]
fn cover_nobody_read_is_midway_on_the_first_day_and_that_is_said() {
    let (farm, _) = farm_with_ewes();
    let made = problem_from(&farm, day("2027-04-01"), 10).unwrap();
    assert_eq!(strip_named(&made, "A1").cover, 1900.0);
    assert!(
        made.assumptions[0].contains("A1, A2: taken as 1900 kg/ha on 1 April"),
        "{:?}",
        made.assumptions
    );
    // Ten days on it has grown ten days at 45, in a season that begins on 1 April.
    let made = problem_from(&farm, day("2027-04-11"), 10).unwrap();
    check_near(strip_named(&made, "A1").cover, 2350.0, 1e-9);
    assert!(
        made.assumptions
            .iter()
            .any(|text| text.contains("10 days of Ewes")),
        "{:?}",
        made.assumptions
    );
    // Before the season it is midway on the day asked for.
    let mut early = farm;
    early.mobs.get_mut(&EWES).unwrap().visits[0].from = day("2027-03-01");
    let made = problem_from(&early, day("2027-03-11"), 10).unwrap();
    assert_eq!(strip_named(&made, "A1").cover, 1900.0);
}

#[test]
fn the_latest_reading_counts_and_grows_to_its_ceiling_only() {
    let (mut farm, [west, east]) = farm_with_ewes();
    read_cover(&mut farm, west, "2027-04-01", 3000.0);
    read_cover(&mut farm, west, "2027-03-28", 1000.0);
    read_cover(&mut farm, west, "2027-04-06", 100.0);
    // Three days of March at 18, then April at 45, as far as the ceiling of 3800.
    read_cover(&mut farm, east, "2027-03-29", 3700.0);
    let made = problem_from(&farm, day("2027-04-05"), 10).unwrap();
    check_near(strip_named(&made, "A1").cover, 3000.0 + 4.0 * 45.0, 1e-9);
    check_near(strip_named(&made, "A2").cover, 3800.0, 1e-9);
    let made = problem_from(&farm, day("2027-04-02"), 10).unwrap();
    check_near(
        strip_named(&made, "A2").cover,
        3700.0 + 3.0 * 18.0 + 45.0,
        1e-9,
    );
}

#[test]
fn rest_so_far_comes_from_the_book_and_from_the_last_grazing_known() {
    let (mut farm, [west, east]) = farm_with_ewes();
    grazing_of(&mut farm, west).last_grazed = Some(day("2027-03-21"));
    let made = problem_from(&farm, day("2027-04-01"), 10).unwrap();
    let found = strip_named(&made, "A1");
    // 22 to 31 March are ten days of rest; a spell that ends in March owes 40.
    assert_eq!((found.rested_days, found.stood_days), (Some(10), None));
    assert_eq!(found.rest_owed_days, Some(40.0));
    for on in ["2027-04-03", "2027-04-04"] {
        live(&mut farm, EWES, day(on), Some(west));
    }
    live(&mut farm, EWES, day("2027-04-05"), Some(east));
    let made = problem_from(&farm, day("2027-04-05"), 10).unwrap();
    let found = strip_named(&made, "A1");
    assert_eq!((found.rested_days, found.stood_days), (None, Some(2)));
    assert_eq!(found.rest_owed_days, Some(28.0));
    assert_eq!(made.problem.mobs[0].stood.as_deref(), Some("A1"));
    let made = problem_from(&farm, day("2027-04-06"), 10).unwrap();
    assert_eq!(strip_named(&made, "A1").rested_days, Some(1));
    assert_eq!(strip_named(&made, "A2").stood_days, Some(1));
}

#[test]
fn a_visit_that_begins_today_comes_from_the_yard_whatever_was_lived_yesterday() {
    let (mut farm, [west, _]) = farm_with_ewes();
    let visit = |from: &str, to: &str| Visit {
        from: day(from),
        to: day(to),
    };
    farm.mobs.get_mut(&EWES).unwrap().visits = vec![
        visit("2027-04-01", "2027-04-04"),
        visit("2027-04-05", "2027-04-30"),
    ];
    live(&mut farm, EWES, day("2027-04-03"), Some(west));
    live(&mut farm, EWES, day("2027-04-04"), Some(west));
    let made = problem_from(&farm, day("2027-04-05"), 10).unwrap();
    assert_eq!(made.problem.mobs[0].stood, None);
    let made = problem_from(&farm, day("2027-04-04"), 10).unwrap();
    assert_eq!(made.problem.mobs[0].stood.as_deref(), Some("A1"));
}

#[test]
fn planned_days_that_were_not_lived_leave_no_mark() {
    let (mut farm, [west, _]) = farm_with_ewes();
    let planned = FixedPlace {
        place: Some(west),
        lived: false,
    };
    farm.fixed.insert((EWES, day("2027-04-04")), planned);
    let made = problem_from(&farm, day("2027-04-05"), 10).unwrap();
    assert_eq!(strip_named(&made, "A1").stood_days, None);
    assert_eq!(made.problem.mobs[0].stood, None);
    assert_eq!(made.problem.fixed, []);
}

#[test]
fn closed_spans_visits_and_settled_days_are_cut_to_the_days_asked_for() {
    let (mut farm, [west, _]) = farm_with_ewes();
    let span = |from: &str, to: &str| Closed {
        from: day(from),
        to: day(to),
        why: String::new(),
    };
    grazing_of(&mut farm, west).closed = vec![
        span("2027-03-01", "2027-04-02"),
        span("2027-04-09", "2027-05-30"),
        span("2027-06-01", "2027-06-02"),
        span("2027-04-05", "2027-04-04"),
    ];
    let visit = |from: &str, to: &str| Visit {
        from: day(from),
        to: day(to),
    };
    farm.mobs.get_mut(&EWES).unwrap().visits = vec![
        visit("2027-03-01", "2027-04-03"),
        visit("2027-04-06", "2027-04-30"),
        visit("2027-06-01", "2027-06-02"),
    ];
    let settled = |place, lived| FixedPlace { place, lived };
    farm.fixed
        .insert((EWES, day("2027-04-02")), settled(None, true));
    farm.fixed
        .insert((EWES, day("2027-04-03")), settled(Some(west), false));
    farm.fixed
        .insert((EWES, day("2027-04-05")), settled(Some(west), false));
    farm.fixed.insert(
        (EWES, day("2027-04-06")),
        settled(Some(GroundId(777)), false),
    );
    farm.fixed
        .insert((MobId(999), day("2027-04-06")), settled(None, false));
    farm.fixed
        .insert((EWES, day("2027-04-11")), settled(None, false));
    let made = problem_from(&farm, day("2027-04-01"), 10).unwrap();
    let spans = |list: &[DaySpan]| -> Vec<(String, String)> {
        list.iter()
            .map(|span| (span.first.to_string(), span.last.to_string()))
            .collect()
    };
    let pairs = |list: &[(&str, &str)]| -> Vec<(String, String)> {
        list.iter()
            .map(|(a, b)| ((*a).to_owned(), (*b).to_owned()))
            .collect()
    };
    let closed = spans(&strip_named(&made, "A1").closed);
    assert_eq!(
        closed,
        pairs(&[("2027-04-01", "2027-04-02"), ("2027-04-09", "2027-04-10")])
    );
    let visits = spans(&made.problem.mobs[0].visits);
    assert_eq!(
        visits,
        pairs(&[("2027-04-01", "2027-04-03"), ("2027-04-06", "2027-04-10")])
    );
    let fixed: Vec<(String, Option<&str>, bool)> = made
        .problem
        .fixed
        .iter()
        .map(|fixed| (fixed.day.to_string(), fixed.strip.as_deref(), fixed.lived))
        .collect();
    let expected = [
        ("2027-04-02".to_owned(), None, true),
        ("2027-04-03".to_owned(), Some("A1"), false),
    ];
    assert_eq!(fixed, expected);
    for cause in ["the mob is gone", "not on the farm then", "ground is gone"] {
        assert!(
            made.assumptions.iter().any(|text| text.contains(cause)),
            "{cause}: {:?}",
            made.assumptions
        );
    }
}

#[test]
fn things_of_one_name_get_their_number_behind() {
    let (mut farm, [west, east]) = farm_with_ewes();
    farm.ground.get_mut(&east).unwrap().name = "A1".to_owned();
    farm.mobs.insert(MobId(95), ewes());
    let made = problem_from(&farm, day("2027-04-01"), 10).unwrap();
    assert!(Season::compile(&made.problem).is_ok());
    let names: Vec<String> = made
        .problem
        .strips
        .iter()
        .map(|strip| strip.name.clone())
        .collect();
    assert_eq!(
        names,
        [format!("A1 (#{})", west.0), format!("A1 (#{})", east.0)]
    );
    assert_eq!(made.ground_of[&names[1]], east);
    assert_eq!(made.mob_of["Ewes (#95)"], MobId(95));
}

#[test]
fn a_farm_with_nothing_to_plan_says_what_is_wanting() {
    let (farm, _) = farm_with_ewes();
    let from = day("2027-04-01");
    let mut bare = farm.clone();
    bare.ground.clear();
    assert_eq!(
        problem_from(&bare, from, 10),
        Err(FarmProblemError::NothingToGraze)
    );
    let mut alone = farm.clone();
    alone.mobs.clear();
    assert_eq!(
        problem_from(&alone, from, 10),
        Err(FarmProblemError::NoMobs)
    );
    let winter = problem_from(&farm, day("2027-11-01"), 10).unwrap_err();
    assert!(
        winter
            .to_string()
            .contains("no sheep are here from 2027-11-01 to 2027-11-10"),
        "{winter}"
    );
    for days in [0, u32::MAX] {
        assert_eq!(
            problem_from(&farm, from, days),
            Err(FarmProblemError::Days { days })
        );
    }
}

#[test]
fn the_middle_of_a_bent_ley_lies_on_the_ley() {
    let mut farm = empty_farm();
    farm.mobs.insert(EWES, ewes());
    let corners = [
        (0.0, 0.0),
        (100.0, 0.0),
        (100.0, 10.0),
        (10.0, 10.0),
        (10.0, 100.0),
        (0.0, 100.0),
    ];
    let corners = corners
        .map(|(east, north)| Point::new(east, north))
        .to_vec();
    let shape = foldcourse::farm::Shape::Area(foldcourse::geometry::Outline::simple(corners));
    let id = put(&mut farm, Ground::new("Elbow", Kind::Ley, shape));
    put(
        &mut farm,
        Ground::new("Row", Kind::Hedge, line(&[(0.0, 0.0), (9.0, 0.0)])),
    );
    let made = problem_from(&farm, day("2027-04-01"), 10).unwrap();
    let [east, north] = strip_named(&made, "Elbow").at;
    assert!(
        farm.ground[&id]
            .outline()
            .unwrap()
            .contains(Point::new(east, north)),
        "{east} {north}"
    );
}

/// Four strips, two mobs, covers read on the first day, one strip closed for hay in between.
fn four_strip_farm(covers: [f64; 4]) -> (Farm, Vec<GroundId>) {
    let mut farm = empty_farm();
    let ley = put(
        &mut farm,
        Ground::new("Ley", Kind::Ley, rectangle(0.0, 0.0, 160.0, 50.0)),
    );
    let ids: Vec<GroundId> = (0..4)
        .map(|number| {
            let shape = rectangle(40.0 * f64::from(number), 0.0, 40.0, 50.0);
            let id = put(&mut farm, strip(&format!("S{number}"), shape, ley));
            read_cover(
                &mut farm,
                id,
                "2027-04-25",
                covers[usize::try_from(number).unwrap()],
            );
            id
        })
        .collect();
    let hay = Closed {
        from: day("2027-04-29"),
        to: day("2027-05-03"),
        why: "hay".to_owned(),
    };
    grazing_of(&mut farm, ids[2]).closed.push(hay);
    grazing_of(&mut farm, ids[3]).growth_factor = 0.6;
    grazing_of(&mut farm, ids[3]).end_cover_kg_per_ha = Some(2500.0);
    farm.season.first_day = day("2027-04-25");
    for (id, name, head, from) in [
        (90, "Ewes", 40, "2027-04-01"),
        (91, "Lambs", 25, "2027-04-28"),
    ] {
        let mut mob = ewes();
        (mob.name, mob.head) = (name.to_owned(), head);
        mob.visits[0].from = day(from);
        farm.mobs.insert(MobId(id), mob);
    }
    (farm, ids)
}

/// The places of a mob on the farm's strips from a list of choices; what is no strip is the yard.
fn place_of(choice: u8, strips: usize) -> Place {
    match usize::from(choice) {
        choice if choice < strips => Place::Strip(choice),
        _ => Place::Yard,
    }
}

fn stands_in(season: &Season, choices: &[Vec<u8>], skip: usize) -> Vec<Vec<Place>> {
    season
        .mobs
        .iter()
        .zip(choices)
        .map(|(mob, choices)| {
            let days = mob.present.iter().zip(choices.iter().skip(skip));
            days.map(|(here, choice)| {
                if *here {
                    place_of(*choice, season.strips.len())
                } else {
                    Place::Away
                }
            })
            .collect()
        })
        .collect()
}

/// Days since anyone stood on a strip and days stood in a row, counted back from a day.
fn spell_before(
    choices: &[Vec<u8>],
    lambs_from: usize,
    strip: u8,
    end: usize,
) -> (Option<u32>, Option<u32>) {
    let stood =
        |on: usize| choices[0][on] == strip || (on >= lambs_from && choices[1][on] == strip);
    let idle = (0..end).rev().take_while(|on| !stood(*on)).count();
    if idle == end {
        return (None, None);
    }
    let count = |days: usize| u32::try_from(days).unwrap();
    if idle > 0 {
        return (Some(count(idle)), None);
    }
    (
        None,
        Some(count((0..end).rev().take_while(|on| stood(*on)).count())),
    )
}

proptest! {
    /// Whatever was lived in the first days, going on from there costs what the whole would have cost: covers, short
    /// feed, lost growth, walks and moves.
    #[test]
    fn stopping_and_going_on_changes_nothing(
        covers in prop::array::uniform4(1500.0..4200.0_f64),
        choices in prop::collection::vec(prop::collection::vec(0_u8..6, 14), 2),
        split in 1_usize..14,
    ) {
        let (mut farm, ids) = four_strip_farm(covers);
        let first = day("2027-04-25");
        let whole = Season::compile(&problem_from(&farm, first, 14).unwrap().problem).unwrap();
        let whole_lived = replay(&whole, &stands_in(&whole, &choices, 0));
        let split_days = u32::try_from(split).unwrap();
        let head = Season::compile(&problem_from(&farm, first, split_days).unwrap().problem).unwrap();
        // Before the lambs come the first days have the ewes alone.
        let head_lived = replay(&head, &stands_in(&head, &choices, 0));

        for (mob, choices) in [(MobId(90), &choices[0]), (MobId(91), &choices[1])] {
            for (on, choice) in choices.iter().enumerate().take(split) {
                let on = first.plus_days(i64::try_from(on).unwrap());
                if farm.mobs[&mob].is_here(on) {
                    live(&mut farm, mob, on, ids.get(usize::from(*choice)).copied());
                }
            }
        }
        let rest = problem_from(&farm, first.plus_days(i64::from(split_days)), 14 - split_days);
        prop_assert_eq!(rest.as_ref().err(), None);
        let rest = rest.unwrap();
        prop_assert_eq!(&rest.assumptions, &Vec::<String>::new());
        let tail = Season::compile(&rest.problem).unwrap();
        let tail_lived = replay(&tail, &stands_in(&tail, &choices, split));

        for (index, strip) in rest.problem.strips.iter().enumerate() {
            let expected = whole_lived.cover[index][split];
            prop_assert!((strip.cover - expected).abs() <= 1e-9 * expected, "{} {}", strip.cover, expected);
            let spell = spell_before(&choices, 3, u8::try_from(index).unwrap(), split);
            prop_assert_eq!((strip.rested_days, strip.stood_days), spell, "{}", index);
        }
        let sums = |pick: fn(&foldcourse::planning::Figures) -> f64| {
            (pick(&whole_lived.figures), pick(&head_lived.figures) + pick(&tail_lived.figures))
        };
        for (once, twice) in [
            sums(|figures| figures.short_kg),
            sums(|figures| figures.lost_kg),
            sums(|figures| figures.walk_m),
            (whole_lived.figures.bare_kg, tail_lived.figures.bare_kg),
        ] {
            prop_assert!((once - twice).abs() <= 1e-6 * once.abs().max(1.0), "{once} {twice}");
        }
        prop_assert_eq!(
            whole_lived.figures.moves,
            head_lived.figures.moves + tail_lived.figures.moves
        );
    }
}

#[test]
fn names_lead_back_to_ground_and_mob() {
    let (farm, ids) = four_strip_farm([2000.0; 4]);
    let made = problem_from(&farm, day("2027-04-25"), 14).unwrap();
    let expected: BTreeMap<String, GroundId> = ids
        .iter()
        .enumerate()
        .map(|(number, id)| (format!("S{number}"), *id))
        .collect();
    assert_eq!(made.ground_of, expected);
    assert_eq!(made.assumptions, Vec::<String>::new());
}
