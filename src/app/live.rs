//! The plan that follows the hand: while a bar or a boundary is dragged, the season is planned for the moment.
//!
//! Keeps the plan that stays apart from the one in view, so that Escape brings it back. Paints nothing.

use std::sync::Arc;

use super::desk::Desk;
use super::planner::News;
use super::spell_drag::SpellDrag;
use super::tools::Tool;
use crate::farm::{Farm, Ground, GroundId, Kind};
use crate::planning::{Nearness, SeasonPlan, SpellWish, with_settled};

/// What is being dragged, and the plan that stays.
#[derive(Debug, Clone, Default)]
pub struct Live {
    /// The spell that is being dragged in the ribbon.
    pub drag: Option<SpellDrag>,
    /// Why what is being dragged cannot be so.
    pub trouble: Option<String>,
    /// The last plan that was sought to its end.
    pub settled: Option<Arc<SeasonPlan>>,
    /// How far it can be from the best, once that is known.
    pub nearness: Option<Nearness>,
    followed: Option<Followed>,
}

/// What a plan for the moment was asked for.
#[derive(Debug, Clone, PartialEq)]
enum Followed {
    Spell(SpellWish),
    Ground(Vec<(GroundId, Ground)>),
}

impl Live {
    /// Forgets what was dragged: the farm itself has changed, and its plan is being sought.
    pub fn let_go(&mut self) {
        self.followed = None;
        self.trouble = None;
        self.nearness = None;
    }
}

/// Asks for a plan of what is being dragged now; where nothing is any more, the plan that stays comes back.
pub fn follow(desk: &mut Desk, ctx: &egui::Context) {
    let now = dragged_now(desk);
    if now == desk.live.followed {
        return;
    }
    // The farm is copied for each question: where the last one is not answered yet, the next waits for its answer.
    if now.is_some() && desk.planner.has_preview_to_come() {
        return;
    }
    desk.live.trouble = None;
    match farm_as_dragged(desk, now.as_ref()) {
        Some(Ok(farm)) => {
            let before = desk.live.settled.clone();
            desk.planner.ask_preview(farm, before, desk.today);
            ctx.request_repaint();
        }
        Some(Err(why)) => desk.live.trouble = Some(why),
        None => {
            desk.planner.drop_previews();
            desk.plan.clone_from(&desk.live.settled);
        }
    }
    desk.live.followed = now;
}

fn dragged_now(desk: &Desk) -> Option<Followed> {
    // Without a plan, or animals in it, there is nothing that could follow.
    desk.live.settled.as_ref()?;
    if desk.farm().mobs.is_empty() && desk.farm().hen_houses.is_empty() {
        return None;
    }
    if let Some(drag) = &desk.live.drag {
        return drag.is_moved().then_some(Followed::Spell(drag.wish));
    }
    let Tool::Pick(pick) = &desk.tool else {
        return None;
    };
    let changed = pick.in_hand();
    let matters = changed.iter().any(|(_, ground)| {
        matches!(ground.kind, Kind::Ley | Kind::Strip) || ground.grazing.is_some()
    });
    matters.then(|| Followed::Ground(changed.to_vec()))
}

fn farm_as_dragged(desk: &Desk, followed: Option<&Followed>) -> Option<Result<Farm, String>> {
    match followed? {
        Followed::Spell(_) => {
            let settling = desk.live.drag.as_ref()?.settling(desk.farm(), desk.today);
            let farm = settling.map(|settling| with_settled(desk.farm(), &settling));
            Some(farm.map_err(|error| error.to_string()))
        }
        Followed::Ground(changed) => {
            let mut farm = desk.farm().clone();
            farm.ground.extend(changed.iter().cloned());
            Some(Ok(farm))
        }
    }
}

/// Takes what the planner found.
pub fn take_news(desk: &mut Desk, news: News) {
    match news {
        News::Better(plan) => {
            if desk.live.followed.is_none() {
                desk.plan = Some(Arc::new(plan));
                desk.plan_trouble = None;
            }
        }
        News::Settled(found) => {
            let (plan, trouble) = match found {
                Ok(plan) => (Some(Arc::new(plan)), None),
                Err(trouble) => (None, Some(trouble)),
            };
            if let Some(plan) = &plan {
                desk.note_hen_findings(plan);
            }
            desk.live.settled.clone_from(&plan);
            if desk.live.followed.is_none() {
                desk.plan = plan;
            }
            desk.plan_trouble = trouble;
        }
        News::Bound(nearness) => desk.live.nearness = nearness,
        News::Preview(found) if desk.live.followed.is_some() => match found {
            Ok(plan) => {
                desk.live.trouble = None;
                desk.plan = Some(Arc::new(plan));
            }
            Err(trouble) => desk.live.trouble = Some(trouble),
        },
        News::Preview(_) => {}
    }
}
