//! Farms of random ground, stock and days, all of them allowed.

use super::random_course::any_courses;
use super::random_handling;
use foldcourse::farm::{
    Basin, Beds, Closed, ComesBehind, Farm, FencePosts, FixedPlace, Grazing, Ground, GroundId,
    HenHandling, HenHouse, HenHouseId, Kind, LineSide, Mob, MobChange, MobId, Reading, Shape,
    StockClass, TreeRow, TunnelEnds, TunnelFrame, Visit,
};
use foldcourse::geometry::{GroundFrame, LonLat, Outline, Point, Polygon, Ring};
use foldcourse::quantity::Day;
use proptest::collection::{btree_map, vec};
use proptest::option;
use proptest::prelude::*;

pub(crate) fn any_farm() -> impl Strategy<Value = Farm> {
    let about = (
        ".*",
        ".*",
        -180.0..180.0,
        -90.0..=90.0,
        any_day(),
        1_u32..=3660,
        any::<u64>(),
    );
    let things = (
        vec(any_ground(), 0..12),
        vec(any_mob(), 0..4),
        vec(any_house(), 0..3),
        btree_map(
            (0_usize..4, any_day()),
            (option::of(0_usize..12), any::<bool>()),
            0..20,
        ),
        0_u32..5,
        any_courses(),
    );
    (about, things).prop_map(|(about, things)| {
        let (name, note, lon_deg, lat_deg, first_day, days, seed) = about;
        let (grounds, mobs, houses, fixed, gap, course) = things;
        let frame = GroundFrame::new(LonLat::new(lon_deg, lat_deg)).unwrap();
        let mut farm = Farm::new(name, frame, first_day);
        farm.note = note;
        farm.season.days = days;
        farm.season.seed = seed;
        let mut next_id = farm.next_id;
        let mut hand_out = || farm_number(&mut next_id, gap);
        let grounds: Vec<_> = grounds
            .into_iter()
            .map(|ground| (GroundId(hand_out()), ground))
            .collect();
        let mobs: Vec<_> = mobs
            .into_iter()
            .map(|mob| (MobId(hand_out()), mob))
            .collect();
        let houses: Vec<_> = houses
            .into_iter()
            .map(|house| (HenHouseId(hand_out()), house))
            .collect();
        let next_id = hand_out();
        let ids: Vec<GroundId> = grounds.iter().map(|(id, _)| *id).collect();
        farm.ground = grounds.into_iter().collect();
        farm.next_id = next_id;
        for ((mob, day), (place, lived)) in fixed {
            let Some((mob, _)) = mobs.get(mob) else {
                continue;
            };
            let place = place.and_then(|place| ids.get(place).copied());
            farm.fixed.insert((*mob, day), FixedPlace { place, lived });
        }
        for (place, ground) in farm.ground.values_mut().enumerate().skip(1) {
            ground.within = (ground.kind == Kind::Strip).then(|| ids[place - 1]);
        }
        farm.course = course.on(&ids);
        farm.mobs = mobs.into_iter().collect();
        // Every third head count comes behind the first mob, whichever that is.
        if let Some(front) = farm.mobs.keys().next().copied() {
            for mob in farm.mobs.values_mut().filter(|mob| mob.head % 3 == 0) {
                mob.follows = Some(ComesBehind {
                    mob: front,
                    days_after: 1 + mob.head % ComesBehind::MOST_DAYS,
                });
            }
        }
        farm.hen_houses = houses
            .into_iter()
            .map(|(id, mut house)| {
                house.lines.clone_from(&ids);
                let mobs: Vec<MobId> = farm.mobs.keys().copied().collect();
                random_handling::fill(&mut house, &ids, &mobs);
                (id, house)
            })
            .collect();
        farm
    })
}

fn farm_number(next_id: &mut u32, gap: u32) -> u32 {
    let id = *next_id;
    *next_id += 1 + gap;
    id
}

fn any_day() -> impl Strategy<Value = Day> {
    (0_i64..109_000).prop_map(|days| Day::new(1900, 1, 1).unwrap().plus_days(days))
}

/// On whole millimetres as drawn, or anything as imported.
fn any_point() -> impl Strategy<Value = Point> {
    let drawn = (-5e3..5e3_f64, -5e3..5e3_f64)
        .prop_map(|(east, north)| Point::new(east, north).on_whole_mm());
    let imported =
        (-2e6..=2e6_f64, -2e6..=2e6_f64).prop_map(|(east, north)| Point::new(east, north));
    let odd = prop_oneof![
        Just(0.0),
        Just(-0.0),
        Just(f64::MIN_POSITIVE),
        Just(5e-324),
        Just(1e-7),
        Just(0.1 + 0.2)
    ];
    let odd = odd.prop_map(|figure| Point::new(figure, figure));
    prop_oneof![4 => drawn, 4 => imported, 1 => odd]
}

fn any_ring() -> impl Strategy<Value = Ring> {
    vec(any_point(), 4..12)
        .prop_map(Ring::new)
        .prop_filter("three corners", |ring| ring.corners.len() >= 3)
}

fn any_shape() -> impl Strategy<Value = Shape> {
    let part =
        (any_ring(), vec(any_ring(), 0..3)).prop_map(|(outer, holes)| Polygon { outer, holes });
    prop_oneof![
        vec(part, 1..4).prop_map(|parts| Shape::Area(Outline { parts })),
        vec(any_point(), 2..9).prop_map(Shape::Line),
        any_point().prop_map(Shape::Place),
    ]
}

fn any_ground() -> impl Strategy<Value = Ground> {
    let words = (".*", ".*", "[ -~]*");
    let figures = (
        option::of(0.0..100.0),
        option::of(0.0..100.0),
        option::of((0.01..50.0, 0.0..9.0, 0.0..20.0)),
    );
    (
        any_shape(),
        0_usize..14,
        words,
        figures,
        option::of(any_grazing()),
        any_built(),
    )
        .prop_map(|(shape, kind, words, figures, grazing, built)| {
            let allowed: Vec<Kind> = Kind::ALL
                .into_iter()
                .filter(|kind| kind.allows(shape.form()))
                .collect();
            let mut ground = Ground::new(words.0, allowed[kind % allowed.len()], shape);
            (ground.crop, ground.note) = (words.1, words.2);
            (ground.width_m, ground.height_m) = (figures.0, figures.1);
            ground.trees = figures.2.map(|(spacing_m, first_m, crown_m)| TreeRow {
                spacing_m,
                first_m,
                crown_m,
                varieties: built.4,
            });
            (ground.frame, ground.beds) = (built.0, built.1);
            (ground.posts, ground.basin) = (built.2, built.3);
            (ground.is_locked, ground.shows_lengths, ground.raised) = built.5;
            ground.grazing = grazing;
            ground
        })
}

type Built = (
    Option<TunnelFrame>,
    Option<Beds>,
    Option<FencePosts>,
    Option<Basin>,
    Vec<String>,
    (bool, bool, i32),
);

fn any_built() -> impl Strategy<Value = Built> {
    let ends = prop_oneof![
        Just(TunnelEnds::Covered),
        Just(TunnelEnds::Boarded),
        Just(TunnelEnds::Open)
    ];
    let frame = (ends, 0.0..3.0, 0.0..2.0, 0.01..9.0).prop_map(
        |(ends, straight_side_m, skirt_m, hoop_spacing_m)| TunnelFrame {
            ends,
            straight_side_m,
            skirt_m,
            hoop_spacing_m,
        },
    );
    let bearing = option::of(-360.0..=360.0);
    let beds = (0.01..9.0, 0.0..9.0, bearing, 1_u32..=1_000, 0.01..9.0).prop_map(
        |(bed_width_m, path_width_m, bearing_deg, rows, plant_spacing_m)| Beds {
            bed_width_m,
            path_width_m,
            bearing_deg,
            rows,
            plant_spacing_m,
        },
    );
    let posts =
        (0.01..99.0, 0.01..999.0, 1_u32..=9).prop_map(|(spacing_m, roll_m, strands)| FencePosts {
            spacing_m,
            roll_m,
            strands,
        });
    let basin = (0.001..30.0, 0.0..9.0).prop_map(|(depth_m, side_run)| Basin { depth_m, side_run });
    (
        option::of(frame),
        option::of(beds),
        option::of(posts),
        option::of(basin),
        vec("[ -~]*", 0..4),
        (any::<bool>(), any::<bool>(), -5..5),
    )
}

fn any_span() -> impl Strategy<Value = (Day, Day)> {
    (any_day(), 0_i64..400).prop_map(|(from, days)| (from, from.plus_days(days)))
}

fn any_grazing() -> impl Strategy<Value = Grazing> {
    let mass = || option::of(0.0..6000.0);
    let masses = (mass(), mass(), mass(), mass());
    let days = (
        vec((any_day(), 0.0..6000.0), 0..4),
        option::of(any_day()),
        vec((any_span(), ".*"), 0..3),
    );
    (0.0..3.0, masses, days).prop_map(|(growth_factor, masses, (readings, last_grazed, closed))| {
        Grazing {
            growth_factor,
            leave_kg_per_ha: masses.0,
            enter_kg_per_ha: masses.1,
            ceiling_kg_per_ha: masses.2,
            end_cover_kg_per_ha: masses.3,
            readings: readings
                .into_iter()
                .map(|(day, cover_kg_per_ha)| Reading {
                    day,
                    cover_kg_per_ha,
                })
                .collect(),
            last_grazed,
            closed: closed
                .into_iter()
                .map(|((from, to), why)| Closed { from, to, why })
                .collect(),
        }
    })
}

fn any_mob() -> impl Strategy<Value = Mob> {
    let class = prop_oneof![
        Just(StockClass::DryEwes),
        Just(StockClass::EwesInLamb),
        Just(StockClass::EwesWithLambs),
        Just(StockClass::Lambs),
        Just(StockClass::Rams),
    ];
    (
        ".*",
        class,
        any::<u32>(),
        0.0..200.0,
        option::of(0.0..9.0),
        vec(any_span(), 0..4),
        option::of(any_point()),
    )
        .prop_map(
            |(name, class, head, liveweight_kg, eats_kg_per_head, visits, yard)| Mob {
                name,
                class,
                head,
                liveweight_kg,
                eats_kg_per_head,
                gain_g_per_day: f64::from(head % 5) * 30.0 - 60.0,
                lambed_on: visits.first().map(|(from, _)| *from),
                changes: visits
                    .iter()
                    .map(|(from, _)| MobChange {
                        from: *from,
                        class,
                        head: head / 2,
                        liveweight_kg,
                        gain_g_per_day: f64::from(head % 3) * 90.0,
                    })
                    .collect(),
                visits: visits
                    .into_iter()
                    .map(|(from, to)| Visit { from, to })
                    .collect(),
                yard,
                follows: None,
            },
        )
}

fn any_house() -> impl Strategy<Value = HenHouse> {
    let sizes = (0.1..30.0, 0.1..30.0, 0.0..30.0, -30.0..30.0);
    (
        ".*",
        any::<u32>(),
        sizes,
        any::<bool>(),
        any_span(),
        any::<bool>(),
        1_u32..30,
        any::<u32>(),
    )
        .prop_map(
            |(
                name,
                hens,
                sizes,
                is_left,
                (first_day, last_day),
                ends,
                days_per_place,
                rest_days_wanted,
            )| HenHouse {
                name,
                hens,
                length_m: sizes.0,
                width_m: sizes.1,
                gap_m: sizes.2,
                lines: Vec::new(),
                side: if is_left {
                    LineSide::Left
                } else {
                    LineSide::Right
                },
                offset_m: sizes.3,
                first_day,
                last_day: ends.then_some(last_day),
                days_per_place,
                rest_days_wanted,
                handling: HenHandling::default(),
            },
        )
}
