//! What can be settled about the season from the window: a day fixed, days logged, a day freed.
//!
//! Each gives the edits it would make, so a button can tell beforehand whether it would do anything.

use super::desk::Desk;
use crate::farm::{Edit, FixedPlace, HenMark, MobId};
use crate::planning::{
    Replan, RunningSpell, SeasonPlan, Settling, SpellWish, Stand, replanned, settled_stand,
    with_settled,
};

/// Label and edits of one act.
pub type Act = (String, Vec<Edit>);

/// The mob meant by what is selected and the day in view: the one standing on the selected ground, else the first
/// one that is on the farm.
pub fn mob_meant(desk: &Desk) -> Option<MobId> {
    let on_selected = desk
        .plan
        .as_ref()
        .zip(desk.selected_one())
        .and_then(|(plan, (id, _))| plan.mobs_on(id, desk.day).first().copied());
    on_selected.or_else(|| {
        desk.farm()
            .mobs
            .iter()
            .find(|(_, mob)| mob.is_here(desk.day))
            .map(|(id, _)| *id)
    })
}

/// Settles that the mob stands on the selected ground on the day in view.
pub fn fix_here(desk: &Desk) -> Option<Act> {
    let (ground_id, ground) = desk.selected_one()?;
    let farm = desk.farm();
    // Asked with each frame, so what was reckoned with the last edit answers.
    if !desk.reckoned().grazed().contains(&ground_id) {
        return None;
    }
    // A settled day that breaks a rule would leave the whole season without a plan.
    let is_closed = ground
        .grazing
        .as_ref()
        .is_some_and(|grazing| grazing.is_closed(desk.day));
    let mob = mob_meant(desk)?;
    let is_taken = farm.fixed.iter().any(|((other, day), fixed)| {
        *other != mob && *day == desk.day && fixed.place == Some(ground_id)
    });
    if is_closed || is_taken {
        return None;
    }
    let name = &farm.mobs.get(&mob)?.name;
    let new = FixedPlace {
        place: Some(ground_id),
        lived: false,
    };
    let old = farm.fixed.get(&(mob, desk.day)).copied();
    if old == Some(new) || old.is_some_and(|fixed| fixed.lived) {
        return None;
    }
    let label = format!("Fix {name} on {} on {}", ground.name, desk.day.short_text());
    Some((
        label,
        vec![Edit::Fixed {
            key: (mob, desk.day),
            old,
            new: Some(new),
        }],
    ))
}

/// Notes every planned day up to the day in view as lived, for every mob and every house that walks lines.
pub fn log_done(desk: &Desk) -> Option<Act> {
    let plan = desk.plan.as_ref()?;
    let farm = desk.farm();
    let last = plan.index_of(desk.day)?;
    let mut edits = Vec::new();
    for mob in farm.mobs.keys() {
        for index in 0..=last {
            let place = match plan.stand_at(*mob, index) {
                Stand::Away => continue,
                Stand::Yard => None,
                Stand::On(ground) => Some(ground),
            };
            let key = (*mob, plan.day_at(index));
            let old = farm.fixed.get(&key).copied();
            if !old.is_some_and(|fixed| fixed.lived) {
                edits.push(Edit::Fixed {
                    key,
                    old,
                    new: Some(FixedPlace { place, lived: true }),
                });
            }
        }
    }
    edits.extend(hens_lived(desk, plan, last));
    (!edits.is_empty()).then(|| (format!("Log days up to {}", desk.day.short_text()), edits))
}

/// Notes where each house stood on its planned days up to one as lived, days that went otherwise among them.
fn hens_lived(desk: &Desk, plan: &SeasonPlan, last: usize) -> Vec<Edit> {
    let last = plan.day_at(last);
    let mut edits = Vec::new();
    for (id, house) in &desk.farm().hen_houses {
        let Some(walk) = plan.hens.get(id).filter(|walk| walk.order.is_some()) else {
            continue;
        };
        let mut lived = house.clone();
        for stand in walk
            .days
            .iter()
            .filter(|stand| stand.day <= last && !stand.is_housed)
        {
            if let Some(place) = walk.place(stand.place) {
                let spot = place.spot();
                let mark = HenMark::At { spot, lived: true };
                lived.handling.marks.insert(stand.day, mark);
            }
        }
        if lived != *house {
            edits.push(Edit::HenHouse {
                id: *id,
                old: Some(Box::new(house.clone())),
                new: Some(Box::new(lived)),
            });
        }
    }
    edits
}

/// Frees the day in view for the mob that is meant, whether fixed or logged.
pub fn unfix(desk: &Desk) -> Option<Act> {
    let mob = mob_meant(desk)?;
    let key = (mob, desk.day);
    let old = desk.farm().fixed.get(&key).copied()?;
    Some((
        format!("Free {}", desk.day.short_text()),
        vec![Edit::Fixed {
            key,
            old: Some(old),
            new: None,
        }],
    ))
}

/// The step that settles days, checked by planning with them: days kept off a piece are settled where that plan has the
/// mob.
///
/// # Errors
/// Why there is no plan with these days, in a sentence.
pub fn planned_act(desk: &Desk, settling: &Settling, label: String) -> Result<Act, String> {
    let replan = Replan {
        before: desk.live.settled.as_deref(),
        today: desk.today,
        is_preview: true,
    };
    let planned = replanned(&with_settled(desk.farm(), settling), &replan, &mut |_| true)
        .map_err(|error| error.to_string())?;
    Ok((label, settling.edits(desk.farm(), &planned)))
}

/// The mob that is meant, with the spell in which it stands today.
pub fn spell_today(desk: &Desk) -> Option<RunningSpell> {
    let plan = desk.plan.as_deref()?;
    let farm = desk.farm();
    let stands = |mob: &MobId| matches!(settled_stand(farm, plan, *mob, desk.today), Stand::On(_));
    let selected = desk.selected_one().map(|(id, _)| id);
    let on_selected = |mob: &&MobId| {
        selected.is_some_and(|id| settled_stand(farm, plan, **mob, desk.today) == Stand::On(id))
    };
    let mob = farm
        .mobs
        .keys()
        .find(on_selected)
        .or_else(|| farm.mobs.keys().find(|mob| stands(mob)))?;
    RunningSpell::at(farm, plan, *mob, desk.today)
}

/// Keeps the mob a day longer where it stands today: wet ground ahead, or a late start. Pressed again, another day.
pub fn stay_longer(desk: &Desk) -> Option<Result<Act, String>> {
    let spell = spell_today(desk)?;
    let wish = SpellWish {
        last: spell.last.plus_days(1),
        ..spell.as_wish()
    };
    let (farm, today) = (desk.farm(), desk.today);
    let who = &farm.mobs.get(&spell.mob)?.name;
    let on = &farm.ground.get(&spell.ground)?.name;
    let label = format!("{who} stay on {on} to {}", wish.last.short_text());
    Some(
        spell
            .moved(farm, wish, today)
            .map_err(|error| error.to_string())
            .and_then(|settling| planned_act(desk, &settling, label)),
    )
}

/// Notes that the mob left its strip today for where the planner finds best.
pub fn moved_today(desk: &Desk) -> Option<Result<Act, String>> {
    let spell = spell_today(desk)?;
    let (farm, today) = (desk.farm(), desk.today);
    let who = &farm.mobs.get(&spell.mob)?.name;
    let on = &farm.ground.get(&spell.ground)?.name;
    let label = format!("{who} leave {on} on {}", today.short_text());
    let settling = Settling::leaving(farm, spell, today).map_err(|error| error.to_string());
    let act = settling.and_then(|settling| planned_act(desk, &settling, label));
    Some(act.map(|(label, edits)| {
        let to = edits.iter().find_map(|edit| match edit {
            Edit::Fixed { new, .. } => new.map(|fixed| fixed.place),
            _ => None,
        });
        let to = match to.flatten().and_then(|id| farm.ground.get(&id)) {
            Some(ground) => format!("for {}", ground.name),
            None => "for the yard, as no strip is ready".to_owned(),
        };
        (format!("{label} {to}"), edits)
    }))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::settings::Settings;
    use crate::farm::{Closed, Grazing};
    use crate::files::example_farm;
    use crate::quantity::Day;

    #[test]
    fn a_day_is_not_fixed_on_a_strip_that_is_closed() -> Result<(), Box<dyn std::error::Error>> {
        let day = Day::parse_iso("2027-05-14")?;
        let mut desk = Desk::new(example_farm()?, None, day, Settings::default());
        let units = crate::farm::grazed_units(desk.farm());
        let strip = units.first().map(|unit| unit.id).ok_or("no strip")?;
        desk.select_only(strip);
        assert!(fix_here(&desk).is_some());
        desk.change_ground(strip, "Close it", |ground| {
            let grazing = ground.grazing.get_or_insert_with(Grazing::default);
            grazing.closed.push(Closed {
                from: day,
                to: day,
                why: "hay".to_owned(),
            });
        });
        assert!(fix_here(&desk).is_none());
        Ok(())
    }
}
