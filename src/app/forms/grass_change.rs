//! What typing and pressing about the grass here does to a strip, or to every strip of a ley in one step.
//!
//! kg DM/ha from ground level, days.

use super::change::{Given, GrassField, gone};
use super::figures::{self, day_text};
use super::season_change::{COVER_UNIT, MOST_COVER, check_covers};
use crate::app::season_acts::Act;
use crate::farm::{Closed, Edit, Farm, Grazing, Ground, GroundId, Reading};
use crate::quantity::Day;

/// The pieces that are meant: every strip of a ley that has some, else the ground itself.
pub(super) fn pieces(farm: &Farm, id: GroundId) -> Vec<(GroundId, &Ground)> {
    let strips: Vec<(GroundId, &Ground)> = farm.strips_of(id).collect();
    if strips.is_empty() {
        farm.ground
            .get(&id)
            .map(|ground| (id, ground))
            .into_iter()
            .collect()
    } else {
        strips
    }
}

pub(super) fn change(
    given: Given<'_>,
    id: GroundId,
    field: GrassField,
    typed: &str,
) -> Result<Act, String> {
    let put = read(given, id, field, typed)?;
    let label = label_of(field);
    act(given.farm, id, label, |grazing| put(grazing)).ok_or_else(gone)?
}

/// One step that changes the grazing of every piece that is meant; refused where a piece would end up unsound.
fn act(
    farm: &Farm,
    id: GroundId,
    label: &str,
    put: impl Fn(&mut Grazing) -> Result<(), String>,
) -> Option<Result<Act, String>> {
    let name = &farm.ground.get(&id)?.name;
    let mut edits = Vec::new();
    for (piece, old) in pieces(farm, id) {
        let mut ground = old.clone();
        let before = ground.grazing.clone().unwrap_or_default();
        let mut grazing = before.clone();
        if let Err(why) = put(&mut grazing) {
            return Some(Err(why));
        }
        if grazing != before {
            ground.grazing = (grazing != Grazing::default()).then_some(grazing);
            edits.push(Edit::change_ground(piece, old, ground));
        }
    }
    let of_all = if edits.len() > 1 { ", all strips" } else { "" };
    Some(Ok((format!("{name}{of_all}: {label}"), edits)))
}

type Put = Box<dyn Fn(&mut Grazing) -> Result<(), String>>;

/// What the typed text puts into a grazing.
fn read(given: Given<'_>, id: GroundId, field: GrassField, typed: &str) -> Result<Put, String> {
    let cover = |typed: &str| figures::decimal(typed, 0.0..=MOST_COVER, COVER_UNIT);
    let sward = given.farm.sward.clone();
    Ok(match field {
        GrassField::Cover(day) => {
            let read = figures::unless_empty(typed, cover)?;
            Box::new(move |grazing| {
                put_reading(grazing, day, read);
                Ok(())
            })
        }
        GrassField::GrowthFactor => {
            let factor =
                figures::unless_empty(typed, |typed| figures::decimal(typed, 0.0..=5.0, "times"))?;
            Box::new(move |grazing| {
                grazing.growth_factor = factor.unwrap_or(1.0);
                Ok(())
            })
        }
        GrassField::Leave | GrassField::Enter | GrassField::Ceiling => {
            let own = figures::unless_empty(typed, cover)?;
            Box::new(move |grazing| {
                match field {
                    GrassField::Leave => grazing.leave_kg_per_ha = own,
                    GrassField::Enter => grazing.enter_kg_per_ha = own,
                    _ => grazing.ceiling_kg_per_ha = own,
                }
                check_covers(
                    grazing.leave_kg_per_ha.unwrap_or(sward.leave_kg_per_ha),
                    grazing.enter_kg_per_ha.unwrap_or(sward.enter_kg_per_ha),
                    grazing.ceiling_kg_per_ha.unwrap_or(sward.ceiling_kg_per_ha),
                )
            })
        }
        GrassField::EndCover => {
            let wanted = figures::unless_empty(typed, cover)?;
            Box::new(move |grazing| {
                grazing.end_cover_kg_per_ha = wanted;
                Ok(())
            })
        }
        GrassField::LastGrazed => {
            let near = given.farm.season.first_day;
            let last = figures::unless_empty(typed, |typed| figures::day(typed, near))?;
            Box::new(move |grazing| {
                grazing.last_grazed = last;
                Ok(())
            })
        }
        GrassField::ClosedFrom(place) | GrassField::ClosedTo(place) => {
            let is_from = matches!(field, GrassField::ClosedFrom(_));
            let old = closed_span(given.farm, id, place).ok_or_else(gone)?;
            let day = figures::day(typed, if is_from { old.from } else { old.to })?;
            Box::new(move |grazing| move_span(grazing, &old, is_from, day))
        }
        GrassField::ClosedWhy(place) => {
            let old = closed_span(given.farm, id, place).ok_or_else(gone)?;
            let why = typed.trim().to_owned();
            Box::new(move |grazing| {
                if let Some(span) = grazing.closed.iter_mut().find(|span| **span == old) {
                    span.why.clone_from(&why);
                }
                Ok(())
            })
        }
    })
}

const fn label_of(field: GrassField) -> &'static str {
    match field {
        GrassField::Cover(_) => "cover read",
        GrassField::GrowthFactor => "growth against the farm's",
        GrassField::Leave => "cover to leave",
        GrassField::Enter => "cover to enter at",
        GrassField::Ceiling => "cover at which growth stops",
        GrassField::EndCover => "cover wanted at the end",
        GrassField::LastGrazed => "last grazed",
        GrassField::ClosedFrom(_) | GrassField::ClosedTo(_) => "days closed",
        GrassField::ClosedWhy(_) => "why it is closed",
    }
}

/// The closed spans that every piece has alike; a ley shows only those.
pub(super) fn closed_alike(farm: &Farm, id: GroundId) -> Vec<Closed> {
    let mut lists = pieces(farm, id).into_iter().map(|(_, ground)| {
        ground
            .grazing
            .as_ref()
            .map_or(&[][..], |grazing| grazing.closed.as_slice())
    });
    let Some(first) = lists.next() else {
        return Vec::new();
    };
    let rest: Vec<&[Closed]> = lists.collect();
    first
        .iter()
        .filter(|span| rest.iter().all(|list| list.contains(span)))
        .cloned()
        .collect()
}

fn closed_span(farm: &Farm, id: GroundId, place: usize) -> Option<Closed> {
    closed_alike(farm, id).into_iter().nth(place)
}

/// Puts a reading in its place by day, instead of one of the same day; takes it away where there is none.
fn put_reading(grazing: &mut Grazing, day: Day, read: Option<f64>) {
    grazing.readings.retain(|reading| reading.day != day);
    if let Some(cover_kg_per_ha) = read {
        grazing.readings.push(Reading {
            day,
            cover_kg_per_ha,
        });
    }
    grazing.readings.sort_by_key(|reading| reading.day);
}

fn move_span(grazing: &mut Grazing, old: &Closed, is_from: bool, day: Day) -> Result<(), String> {
    let Some(span) = grazing.closed.iter_mut().find(|span| *span == old) else {
        return Ok(());
    };
    if is_from {
        span.from = day;
    } else {
        span.to = day;
    }
    if span.to < span.from {
        return Err(format!(
            "It would open again on {}, before it closes on {}.",
            day_text(span.to),
            day_text(span.from)
        ));
    }
    grazing.closed.sort_by_key(|span| (span.from, span.to));
    Ok(())
}

/// Closes it for a week from a day.
pub(super) fn add_closed(farm: &Farm, id: GroundId, from: Day) -> Option<Act> {
    let span = Closed {
        from,
        to: from.plus_days(6),
        why: String::new(),
    };
    act(farm, id, "close it for some days", |grazing| {
        grazing.closed.push(span.clone());
        grazing.closed.sort_by_key(|span| (span.from, span.to));
        Ok(())
    })?
    .ok()
}

/// Opens a closed span again.
pub(super) fn remove_closed(farm: &Farm, id: GroundId, place: usize) -> Option<Act> {
    let span = closed_span(farm, id, place)?;
    act(farm, id, "open it again", |grazing| {
        if let Some(at) = grazing.closed.iter().position(|other| *other == span) {
            grazing.closed.remove(at);
        }
        Ok(())
    })?
    .ok()
}

/// Takes the reading of a day away.
pub(super) fn remove_reading(farm: &Farm, id: GroundId, day: Day) -> Option<Act> {
    act(farm, id, "take a reading away", |grazing| {
        put_reading(grazing, day, None);
        Ok(())
    })?
    .ok()
}
