//! Varieties beside the stems of the tree line that is selected or pointed at, close up.
//!
//! Text at screen size; places come from the ground. A name that would cover the one before is left out.

use egui::{Align2, Painter, Rect, Vec2};

use crate::app::desk::Desk;
use crate::app::theme;
use crate::app::tools::ground_at;
use crate::farm::{Ground, Kind, trees_on};
use crate::sheets::palette::{Ink, Light};

/// Stems nearer to each other than this on screen are not named, points.
const STEMS_APART: f64 = 26.0;

/// Writes the names.
pub(super) fn paint_tree_names(
    painter: &Painter,
    desk: &Desk,
    taken: &mut Vec<Rect>,
    light: Light,
) {
    let selected = desk.selected_one().map(|(_, ground)| ground);
    let hovered = || {
        let id = ground_at(desk.pointer?, desk.scene())?;
        desk.farm().ground.get(&id)
    };
    let is_named = |ground: &&Ground| is_named(desk, ground);
    let Some(ground) = selected
        .filter(is_named)
        .or_else(|| hovered().filter(is_named))
    else {
        return;
    };
    let seen = desk.view.screen.expand(20.0);
    let ink = theme::colour(Ink::Ink, light);
    let halo = theme::colour(Ink::Panel, light).gamma_multiply(0.8);
    for tree in trees_on(desk.farm(), ground) {
        let at = desk.view.screen_from_ground(tree.place);
        if tree.variety.is_empty() || !seen.contains(at) {
            continue;
        }
        let words = format!("{} {}", tree.number, tree.variety);
        let galley = painter.layout_no_wrap(words, theme::sans(theme::SMALL), ink);
        let at = at + Vec2::new(7.0, 0.0);
        let rect = Align2::LEFT_CENTER.anchor_size(at, galley.size());
        if taken.iter().any(|other| other.intersects(rect)) {
            continue;
        }
        painter.rect_filled(rect.expand2(Vec2::new(3.0, 0.0)), 4.0, halo);
        painter.galley(rect.min, galley, ink);
        taken.push(rect);
    }
}

fn is_named(desk: &Desk, ground: &Ground) -> bool {
    let apart_m = STEMS_APART * desk.view.m_per_point;
    let is_close = |spacing_m: f64| spacing_m >= apart_m;
    ground.kind == Kind::TreeLine
        && ground
            .trees
            .as_ref()
            .is_some_and(|row| !row.varieties.is_empty() && is_close(row.spacing_m))
}
