//! Handling of a random hen house: every field of it said or left out, drawn from the house's own random figures.

use foldcourse::farm::{
    FlockStep, FollowsSheep, GroundId, HenHandling, HenHouse, HenMark, HenSpot, HenStop,
    LeftStretch, LineOrder, LineSide, MobId, StopKind, StretchTrouble, TowSide,
};
use foldcourse::quantity::Day;

/// Gives a house its handling: each bit of its number of hens says one field or leaves it out.
pub(super) fn fill(house: &mut HenHouse, grounds: &[GroundId], mobs: &[MobId]) {
    let bits = house.hens;
    let said = |bit: u32| bits & (1 << bit) != 0;
    let day = house.first_day;
    let mut handling = HenHandling {
        line_order: if said(0) {
            LineOrder::Chosen
        } else {
            LineOrder::AsListed
        },
        tow_side: if said(1) {
            TowSide::OneEnd
        } else {
            TowSide::BothEnds
        },
        house_length_m: said(2).then_some(house.length_m),
        turn_radius_m: said(3).then_some(house.width_m),
        house_width_m: said(3).then_some(house.width_m),
        lane_bearing_deg: said(4).then_some(123.25),
        ..HenHandling::default()
    };
    if said(5) {
        house.side = LineSide::Both;
    }
    if said(6) {
        handling.flock_steps = steps_of(day, bits);
    }
    let stop = |kind, why: &str| HenStop {
        from: day.plus_days(3),
        to: day.plus_days(9),
        kind,
        why: why.to_owned(),
    };
    if said(7) {
        handling.stops = vec![
            stop(StopKind::Housed, "order \"7\""),
            stop(StopKind::NoTowing, ""),
        ];
    }
    if let (true, Some(mob)) = (said(0) != said(3), mobs.first()) {
        handling.follows = Some(FollowsSheep {
            mob: *mob,
            days_after: bits % 15,
        });
    }
    if let Some(line) = grounds.first().copied() {
        if said(7) {
            handling
                .stops
                .push(stop(StopKind::KeepOff(line), "windfalls"));
        }
        if said(2) {
            handling.left_on.insert(line, day.plus_days(-30));
        }
        if said(5) {
            handling.left_stretches = stretches_of(line);
        }
        let spot = HenSpot {
            line,
            side: LineSide::Right,
            number: 1 + bits % 9,
        };
        if said(1) {
            handling
                .marks
                .insert(day, HenMark::At { spot, lived: true });
            handling.marks.insert(day.plus_days(1), HenMark::Late);
            handling.marks.insert(day.plus_days(2), HenMark::Skipped);
            handling
                .marks
                .insert(day.plus_days(5), HenMark::At { spot, lived: false });
        }
    }
    house.handling = handling;
}

/// One stretch left out for each reason.
fn stretches_of(line: GroundId) -> Vec<LeftStretch> {
    let stretch = |why| LeftStretch {
        line,
        from_m: 1.5,
        to_m: 20.25,
        why,
    };
    StretchTrouble::ALL.map(stretch).to_vec()
}

/// A flock that grows once and is halved.
fn steps_of(day: Day, birds: u32) -> Vec<FlockStep> {
    let step = |days, birds, m2_each| FlockStep {
        from: day.plus_days(days),
        birds,
        m2_each,
    };
    vec![step(0, birds, 0.1), step(40, birds / 2, 0.25)]
}
