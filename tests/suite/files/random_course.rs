//! Courses of crops of random steps and cells, all of them allowed.

use std::collections::BTreeMap;

use foldcourse::farm::{
    Contact, Course, CourseStep, Courses, Family, GroundId, HarvestRule, OwnCrop, OwnWait, Raised,
    Turn, Use,
};
use foldcourse::quantity::YearDay;
use proptest::collection::{btree_map, vec};
use proptest::option;
use proptest::prelude::*;

/// A course whose places are counted from 0 until the farm's numbers are known.
#[derive(Debug, Clone)]
pub(crate) struct CourseByPlace(Courses);

impl CourseByPlace {
    /// The same course on ground with these numbers; what has no ground is left out.
    pub(crate) fn on(mut self, ids: &[GroundId]) -> Courses {
        let id = |place: GroundId| ids.get(usize::try_from(place.0).unwrap()).copied();
        let courses = &mut self.0;
        courses.by_hand = std::mem::take(&mut courses.by_hand)
            .into_iter()
            .filter_map(|((place, year, crop), used)| Some(((id(place)?, year, crop), used)))
            .collect();
        courses.soil_ph = std::mem::take(&mut courses.soil_ph)
            .into_iter()
            .filter_map(|(place, ph)| Some((id(place)?, ph)))
            .collect();
        let mut free: Vec<GroundId> = ids.to_vec();
        for course in &mut courses.courses {
            let most = u8::try_from(course.steps.len()).unwrap();
            course.starts = std::mem::take(&mut course.starts)
                .into_values()
                .map_while(|start| Some((free.pop()?, start % most)))
                .collect();
        }
        self.0
    }
}

pub(crate) fn any_courses() -> impl Strategy<Value = CourseByPlace> {
    let spans = (
        option::of(1900_i16..=2199),
        option::of(1_u8..=40),
        option::of(0_u8..=9),
        option::of(any::<u16>()),
    );
    let hand = btree_map(
        ((0_u32..12).prop_map(GroundId), 1900_i16..=2199, 0_u8..4),
        any_use(),
        0..9,
    );
    let rule = (0_usize..8, any::<(u16, u16, u16)>());
    let own = (
        btree_map(any_family(), 0_u8..=99, 0..3),
        btree_map((0_u32..12).prop_map(GroundId), 0.0..=14.0, 0..3),
        btree_map(".*", any_own_crop(), 0..3),
    );
    let said = (spans, vec(any_course(), 0..3), hand, rule, own).prop_map(
        |(spans, courses, by_hand, (rule, wait), own)| Courses {
            first_year: spans.0,
            years: spans.1,
            courses,
            by_hand,
            ley_years_wanted: spans.2,
            own_intervals: own.0,
            soil_ph: own.1,
            own_crops: own.2,
            harvest_rule: HarvestRule::ALL[rule],
            own_wait: OwnWait {
                touching_days: wait.0,
                clear_days: wait.1,
                planting_days: wait.2,
            },
            clear_days: spans.3,
        },
    );
    prop_oneof![1 => Just(Courses::default()), 2 => said].prop_map(CourseByPlace)
}

fn any_course() -> impl Strategy<Value = Course> {
    let step = vec(any_use(), 0..=4).prop_map(|uses| CourseStep { uses });
    let starts = vec(any::<u8>(), 0..6).prop_map(|starts| {
        let numbered = starts.into_iter().enumerate();
        numbered
            .map(|(place, start)| (GroundId(u32::try_from(place).unwrap()), start))
            .collect::<BTreeMap<_, _>>()
    });
    (
        ".*",
        vec(step, 1..9),
        1900_i16..=2199,
        any::<bool>(),
        any::<bool>(),
        starts,
    )
        .prop_map(
            |(name, steps, first_year, moves_on, is_one_each, starts)| Course {
                name,
                steps,
                first_year,
                turn: if moves_on {
                    Turn::CropsMoveOn
                } else {
                    Turn::NextStep
                },
                is_one_each,
                starts,
            },
        )
}

fn any_family() -> impl Strategy<Value = Family> {
    (0_usize..Family::ALL.len()).prop_map(|place| Family::ALL[place])
}

fn any_use() -> impl Strategy<Value = Use> {
    prop_oneof![
        Just(Use::Unsaid),
        (".*", any_family()).prop_map(|(name, family)| Use::Crop { name, family }),
        option::of(1_u8..=99).prop_map(|year| Use::Ley { year }),
        Just(Use::Fallow),
        ".*".prop_map(Use::Cover),
    ]
}

fn any_own_crop() -> impl Strategy<Value = OwnCrop> {
    let day =
        || option::of((1_i8..=12, 1_i8..=31).prop_map(|(month, day)| YearDay::of(month, day)));
    let contact = prop_oneof![
        Just(Contact::TouchesSoil),
        Just(Contact::OffSoil),
        Just(Contact::NotFood)
    ];
    let raised = prop_oneof![Just(Raised::Seed), Just(Raised::Plugs), Just(Raised::Sets)];
    (
        (
            option::of(any_family()),
            option::of(contact),
            option::of(raised),
        ),
        option::of(0.01..9.0),
        option::of(0.001..9.0),
        (day(), day(), day()),
        option::of(0.0..99.0),
        (option::of(0.0..99.0), option::of(0.0..99.0)),
    )
        .prop_map(
            |(kind, row_m, plant_m, days, spare_percent, yields)| OwnCrop {
                family: kind.0,
                contact: kind.1,
                row_m,
                plant_m,
                raised: kind.2,
                planted: days.0,
                first_harvest: days.1,
                last_harvest: days.2,
                spare_percent,
                yield_kg_per_m2: yields.0,
                yield_kg_per_plant: yields.1,
            },
        )
}
