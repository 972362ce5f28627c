//! A spell's bar being dragged in the ribbon, or moved by keys: which spell, by which end, to where.
//!
//! No toolkit in here. A drag is a preview until it ends; what it settles becomes one step. Civil days.

use super::command::Command;
use super::desk::Desk;
use super::season_acts::{Act, planned_act};
use crate::farm::{Farm, GroundId, MobId, grazed_units};
use crate::planning::{
    RunningSpell, SeasonPlan, Settling, SettlingError, SpellWish, Stand, settled_stand,
};
use crate::quantity::{Day, plural_text};

/// What of a bar is held.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Grip {
    /// All of it.
    Whole,
    /// Its first day.
    First,
    /// Its last day.
    Last,
}

/// A drag under way.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SpellDrag {
    /// What is held.
    pub grip: Grip,
    /// The spell as it was when it was gripped.
    pub spell: RunningSpell,
    /// The day at which it was gripped.
    pub gripped_at: Day,
    /// Where it would be now.
    pub wish: SpellWish,
}

impl SpellDrag {
    /// Grips the spell of a mob on a day; none where all of it lies before today or the mob is on no piece.
    pub fn grip(
        farm: &Farm,
        plan: &SeasonPlan,
        (mob, day): (MobId, Day),
        grip: Grip,
        today: Day,
    ) -> Option<Self> {
        let spell = RunningSpell::at(farm, plan, mob, day)?;
        let is_open = spell.last >= today && !(grip == Grip::First && spell.first < today);
        is_open.then_some(Self {
            grip,
            spell,
            gripped_at: day,
            wish: spell.as_wish(),
        })
    }

    /// Follows the pointer to a day and, held as a whole, to a piece of ground.
    pub fn follow(&mut self, day: Day, ground: Option<GroundId>, today: Day) {
        let shift = day.days_since(self.gripped_at);
        let from = self.spell;
        self.wish = match self.grip {
            Grip::First => SpellWish {
                first: from.first.plus_days(shift).min(from.last).max(today),
                ..from.as_wish()
            },
            Grip::Last => SpellWish {
                last: from.last.plus_days(shift).max(from.first).max(today),
                ..from.as_wish()
            },
            Grip::Whole => self.whole_at(shift, ground.unwrap_or(from.ground), today),
        };
    }

    /// The whole spell, or what is not lived of it, shifted; it never begins before today.
    fn whole_at(&self, shift: i64, ground: GroundId, today: Day) -> SpellWish {
        let from = self.spell;
        if shift == 0 && ground == from.ground {
            return from.as_wish();
        }
        let open_first = from.first.max(today);
        let length = from.last.days_since(open_first);
        let first = open_first.plus_days(shift).max(today);
        SpellWish {
            ground,
            first,
            last: first.plus_days(length),
        }
    }

    /// Whether letting go now would change anything.
    pub fn is_moved(&self) -> bool {
        self.wish != self.spell.as_wish()
    }

    /// What it would settle.
    ///
    /// # Errors
    /// Why it cannot be so.
    pub fn settling(&self, farm: &Farm, today: Day) -> Result<Settling, SettlingError> {
        self.spell.moved(farm, self.wish, today)
    }

    /// Where it would be, in a few words.
    pub fn words(&self, farm: &Farm) -> String {
        let name = |id| {
            let ground = farm.ground.get(&id);
            ground.map_or("", |ground| ground.name.as_str())
        };
        let who = farm.mobs.get(&self.spell.mob).map_or("", |mob| &mob.name);
        let length = u64::try_from(self.wish.last.days_since(self.wish.first) + 1).unwrap_or(0);
        format!(
            "{who} on {}, {} to {}, {}",
            name(self.wish.ground),
            self.wish.first.short_text(),
            self.wish.last.short_text(),
            plural_text(length, "day", "days")
        )
    }

    /// The step that letting go makes.
    ///
    /// # Errors
    /// Why it cannot be so, in a sentence.
    pub fn act(&self, desk: &Desk) -> Result<Act, String> {
        let settling = self
            .settling(desk.farm(), desk.today)
            .map_err(|error| error.to_string())?;
        planned_act(desk, &settling, format!("Fix {}", self.words(desk.farm())))
    }
}

/// The chosen spell, that of the selected piece on the day in view, as a key would have it; none where there is none.
pub fn spell_by_key(desk: &Desk, command: Command) -> Option<SpellDrag> {
    let plan = desk.plan.as_deref()?;
    let (ground, _) = desk.selected_one()?;
    let farm = desk.farm();
    let stands = |mob: &&MobId| settled_stand(farm, plan, **mob, desk.day) == Stand::On(ground);
    let mob = *farm.mobs.keys().find(stands)?;
    let (grip, step) = match command {
        Command::SpellLonger => (Grip::Last, 1),
        Command::SpellShorter => (Grip::Last, -1),
        Command::SpellLater => (Grip::Whole, 1),
        Command::SpellEarlier => (Grip::Whole, -1),
        _ => (Grip::Whole, 0),
    };
    let mut moved = SpellDrag::grip(farm, plan, (mob, desk.day), grip, desk.today)?;
    let onto = match command {
        Command::SpellAbove => neighbour(farm, ground, -1)?,
        Command::SpellBelow => neighbour(farm, ground, 1)?,
        _ => ground,
    };
    moved.follow(desk.day.plus_days(step), Some(onto), desk.today);
    moved.is_moved().then_some(moved)
}

/// The grazed piece so many rows on in the ribbon.
fn neighbour(farm: &Farm, ground: GroundId, rows: isize) -> Option<GroundId> {
    let units = grazed_units(farm);
    let row = units.iter().position(|unit| unit.id == ground)?;
    units.get(row.checked_add_signed(rows)?).map(|unit| unit.id)
}

/// Makes the step of a moved spell and shows it, or says why it cannot be so.
pub fn settle_drag(desk: &mut Desk, drag: &SpellDrag) {
    match drag.act(desk) {
        Ok((label, edits)) => {
            desk.commit(&label, edits);
            desk.select_only(drag.wish.ground);
            let day = desk.day.clamp(drag.wish.first, drag.wish.last);
            desk.go_to(day.max(desk.today));
            desk.tell(label);
        }
        Err(why) => desk.tell_trouble(why),
    }
}
