//! The strips of the problem: area, middle, cover, rest so far and closed days of each grazed piece.

use std::collections::{BTreeMap, BTreeSet};

use super::super::clean_ground::{CleanSpan, course_ground_of};
use super::super::{DaySpan, ProblemStrip};
use super::Window;
use super::cover::{Lived, Morning, StripSward, cover_on, lived_before};
use super::names::{Named, unique};
use crate::farm::{Farm, GrazedUnit, Grazing, GroundId, grazed_units, net_areas};
use crate::geometry::label_place::label_place;
use crate::geometry::{Outline, Point};
use crate::quantity::{Day, decimal_text, hectares_from_m2};

/// The strips, and the ground that each name stands for.
pub(super) fn strips_of(
    farm: &Farm,
    window: Window,
    clean: &[CleanSpan],
    assumptions: &mut Vec<String>,
) -> (Vec<ProblemStrip>, BTreeMap<String, GroundId>) {
    // What hedges, tree lines, water, tracks and keep-outs take up is not grazed.
    let net = net_areas(farm);
    let units: Vec<(GrazedUnit<'_>, f64)> = grazed_units(farm)
        .into_iter()
        .map(|unit| {
            (
                unit,
                net.get(&unit.id)
                    .map_or(0.0, |area| hectares_from_m2(area.net_m2)),
            )
        })
        .collect();
    let without_area: Vec<&str> = units
        .iter()
        .filter(|(_, area_ha)| !is_above_zero(*area_ha))
        .map(|(unit, _)| unit.ground.name.trim())
        .collect();
    if !without_area.is_empty() {
        assumptions.push(format!(
            "Left out, because they enclose no ground: {}.",
            without_area.join(", ")
        ));
    }
    let units: Vec<_> = units
        .into_iter()
        .filter(|(_, area_ha)| is_above_zero(*area_ha))
        .collect();
    let named: Vec<Named<'_>> = units
        .iter()
        .map(|(unit, _)| Named {
            name: &unit.ground.name,
            number: unit.id.0,
            kind: unit.ground.kind.name(),
        })
        .collect();
    let names = unique(&named);
    let lived = lived_before(farm, window.first);
    let mut assumed = Assumed::default();
    let strips = units
        .iter()
        .zip(&names)
        .map(|((unit, area_ha), name)| {
            let grazing = unit.ground.grazing.as_ref();
            let lived_here = lived.get(&unit.id);
            let morning = cover_on(farm, grazing, *area_ha, lived_here, window.first);
            assumed.note(name, morning);
            let mut made = strip(farm, window, (unit, *area_ha, name), morning.cover, &lived);
            made.closed
                .extend(closed_for_crops(farm, window, unit.id, clean));
            made
        })
        .collect();
    assumptions.extend(assumed.sentences());
    let ids = units.iter().map(|(unit, _)| unit.id);
    (strips, names.iter().cloned().zip(ids).collect())
}

fn strip(
    farm: &Farm,
    window: Window,
    (unit, area_ha, name): (&GrazedUnit<'_>, f64, &str),
    cover: f64,
    lived: &Lived,
) -> ProblemStrip {
    let grazing = unit.ground.grazing.as_ref();
    let sward = StripSward::of(farm, grazing);
    let spell = Spell::before(farm, unit, lived, window.first);
    let middle = unit.ground.outline().map_or_else(Point::default, middle_of);
    ProblemStrip {
        name: name.to_owned(),
        area_ha,
        cover,
        leave: sward.leave,
        enter: Some(sward.enter),
        ceiling: sward.ceiling,
        growth_factor: sward.growth_factor,
        at: [middle.east_m, middle.north_m],
        rested_days: spell.rested_days,
        stood_days: spell.stood_days,
        end_cover: grazing.and_then(|grazing| grazing.end_cover_kg_per_ha),
        rest_owed_days: spell.rest_owed_days,
        closed: grazing.map_or_else(Vec::new, |grazing| closed_in(window, grazing)),
    }
}

fn is_above_zero(value: f64) -> bool {
    value.is_finite() && value > 0.0
}

fn closed_in(window: Window, grazing: &Grazing) -> Vec<DaySpan> {
    grazing
        .closed
        .iter()
        .filter_map(|span| window.cut(span.from, span.to))
        .collect()
}

/// The days on which a piece is closed for the crops of its ground, in spans; days that are settled here stay open,
/// for what has been lived or decided stands.
fn closed_for_crops(
    farm: &Farm,
    window: Window,
    id: GroundId,
    clean: &[CleanSpan],
) -> Vec<DaySpan> {
    let ground = course_ground_of(farm, id);
    let settled: BTreeSet<Day> = farm
        .fixed
        .iter()
        .filter(|(_, fixed)| fixed.place == Some(id))
        .map(|((_, day), _)| *day)
        .collect();
    let mut spans = Vec::new();
    for span in clean.iter().filter(|span| span.ground == ground) {
        let Some(inside) = window.cut(span.span.first, span.span.last) else {
            continue;
        };
        let mut from = inside.first;
        for day in settled.range(inside.first..=inside.last) {
            spans.extend(window.cut(from, day.plus_days(-1)));
            from = day.plus_days(1);
        }
        if from <= inside.last {
            spans.extend(window.cut(from, inside.last));
        }
    }
    spans
}

/// The spell before the window: rest since, or days stood so far, and the rest it owes.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
#[expect(
    clippy::struct_field_names,
    reason = "they are named as in the planning model"
)]
struct Spell {
    rested_days: Option<u32>,
    stood_days: Option<u32>,
    rest_owed_days: Option<f64>,
}

impl Spell {
    fn before(farm: &Farm, unit: &GrazedUnit<'_>, lived: &Lived, first: Day) -> Self {
        let mut stood: BTreeSet<Day> = lived
            .get(&unit.id)
            .map_or_else(BTreeSet::new, |days| days.keys().copied().collect());
        let grazing = unit.ground.grazing.as_ref();
        let told = grazing.and_then(|grazing| grazing.last_grazed);
        stood.extend(told.filter(|day| *day < first));
        let Some(last) = stood.last().copied() else {
            return Self::default();
        };
        let rest_owed_days = Some(f64::from(farm.rest_days_on(last)));
        let rested = first.days_since(last) - 1;
        if rested > 0 {
            return Self {
                rested_days: u32::try_from(rested).ok(),
                stood_days: None,
                rest_owed_days,
            };
        }
        // Bounded by what is known: days before the calendar's first one would all be that one.
        let in_a_row = (0..i64::try_from(stood.len()).unwrap_or(0))
            .map(|back| last.plus_days(-back))
            .take_while(|day| stood.contains(day))
            .count();
        Self {
            rested_days: None,
            stood_days: u32::try_from(in_a_row).ok(),
            rest_owed_days,
        }
    }
}

/// The strips whose cover nobody read, by the day and cover that were assumed.
#[derive(Default)]
struct Assumed {
    names: BTreeMap<(Day, String), Vec<String>>,
}

impl Assumed {
    fn note(&mut self, name: &str, morning: Morning) {
        if let Some(cover) = morning.assumed {
            let key = (morning.since, decimal_text(cover, 0));
            self.names.entry(key).or_default().push(name.to_owned());
        }
    }

    fn sentences(self) -> Vec<String> {
        self.names
            .into_iter()
            .map(|((day, cover), names)| {
                format!(
                    "No cover was read on {}: taken as {cover} kg/ha on {}, midway between the cover to leave and the \
                     cover to enter at, and grown from there.",
                    names.join(", "),
                    day.short_text()
                )
            })
            .collect()
    }
}

/// The middle of an outline by area where that lies in it; else the place in it with most room.
fn middle_of(outline: &Outline) -> Point {
    let base = outline
        .rings()
        .find_map(|ring| ring.corners.first())
        .copied()
        .unwrap_or_default();
    let mut sums = (0.0, 0.0, 0.0);
    for part in &outline.parts {
        for (place, ring) in part.rings().enumerate() {
            // The outer ring counts for the ground, holes against it, whichever way each was drawn.
            let wanted = if place == 0 { 1.0 } else { -1.0 };
            let sign = wanted * ring.signed_area_m2().signum();
            for (a, b) in ring.sides() {
                let (a, b) = (
                    a.moved(-base.east_m, -base.north_m),
                    b.moved(-base.east_m, -base.north_m),
                );
                let cross = sign * (a.east_m * b.north_m - b.east_m * a.north_m);
                sums.0 += cross;
                sums.1 += cross * (a.east_m + b.east_m);
                sums.2 += cross * (a.north_m + b.north_m);
            }
        }
    }
    let by_area = Point::new(
        sums.1 / (3.0 * sums.0) + base.east_m,
        sums.2 / (3.0 * sums.0) + base.north_m,
    );
    if by_area.is_finite() && outline.contains(by_area) {
        return by_area;
    }
    label_place(outline).map_or(base, |label| label.place)
}
