//! The map as one piece of the window: reads the pointer, feeds the tool, paints everything in order.

use egui::{Align2, CursorIcon, Painter, Sense, Stroke, Ui};

use super::measures_line::{paint_preview, paint_sides};
use super::pointer::read_pointer;
use super::snapping::paint_snap;
use super::strips_preview::paint_strips_preview;
use super::taping_overlay::paint_taping;
use super::{animals, course_year, furniture, ground_layer, labels, paint, proposal, tree_names};
use crate::app::desk::Desk;
use crate::app::dialogs::Dialog;
use crate::app::panels::ground_menu::ground_menu_ui;
use crate::app::taping;
use crate::app::theme;
use crate::app::tools::{MapEvent, Preview, Tool, ToolReply, ground_at};
use crate::farm::{Ground, Shape};
use crate::sheets::palette::{Ink, Light};

/// The map, filling the room that is left.
pub fn map_ui(ui: &mut Ui, desk: &mut Desk) {
    let (response, painter) = ui.allocate_painter(ui.available_size(), Sense::click_and_drag());
    let is_new_size = desk.view.screen != response.rect;
    desk.view.screen = response.rect;
    if response.rect.width() > 50.0 && (desk.wants_fit || (is_new_size && desk.is_fitted)) {
        fit_all(desk);
        desk.wants_fit = false;
    }
    let fitted = desk.view;
    let mut view = desk.view;
    let work = read_pointer(ui, &response, &mut view);
    let pans_paper = pans_with_pick(desk, &work.events);
    if work.drags && pans_paper {
        view.pan(response.drag_delta());
    }
    desk.view = view;
    desk.is_fitted &= view == fitted;
    desk.pointer = response.hover_pos().map(|pos| view.ground_from_screen(pos));
    desk.last_pointer = desk.pointer.or(desk.last_pointer);
    let holds_still = ui.input(|input| input.modifiers.alt);
    desk.snapping.last = None;
    for event in work.events {
        let Some(event) = taping::take_event(desk, event, holds_still) else {
            continue;
        };
        let event = if holds_still {
            event
        } else {
            snapped(desk, event)
        };
        feed(desk, event);
    }
    if is_new_size {
        ui.ctx().request_repaint();
    }
    response.context_menu(|ui| ground_menu_ui(ui, desk));
    paint_map(&painter, desk, theme::light_of(ui.ctx()));
    set_cursor(ui, desk, &response);
    name_for_readers(&response, desk);
}

/// Shows everything drawn, or a hectare or so of empty ground.
pub fn fit_all(desk: &mut Desk) {
    desk.is_fitted = true;
    let corners: Vec<_> = desk
        .farm()
        .ground
        .values()
        .flat_map(|ground| ground.shape.corners())
        .collect();
    if corners.is_empty() {
        desk.view.middle = crate::geometry::Point::default();
        desk.view.m_per_point = 0.35;
    } else {
        desk.view.fit(&corners);
    }
}

/// Hands an event to the tool and does what it asks for.
pub fn feed(desk: &mut Desk, event: MapEvent) {
    let mut tool = std::mem::take(&mut desk.tool);
    let reply = tool.handle(event, desk.scene());
    desk.tool = tool;
    match reply {
        ToolReply::Nothing => {}
        ToolReply::Select(selected) => {
            desk.selected = selected;
            desk.notice = None;
        }
        ToolReply::Commit {
            label,
            edits,
            select,
        } => {
            desk.commit(&label, edits);
            desk.selected = select
                .into_iter()
                .filter(|id| desk.farm().ground.contains_key(id))
                .collect();
        }
        ToolReply::Tell(text) => desk.tell(text),
    }
}

/// The event at the place the pointer snaps to, for tools that want it.
fn snapped(desk: &mut Desk, event: MapEvent) -> MapEvent {
    let Some(without) = desk.tool.snaps() else {
        return event;
    };
    let from = desk.tool.last_corner();
    let (snapping, farm, hidden) = (&mut desk.snapping, desk.history.farm(), &desk.hidden);
    let m_per_point = desk.view.m_per_point;
    let mut place = |at| snapping.place(farm, (&without, hidden), at, from, m_per_point);
    match event {
        MapEvent::Moved(at) => MapEvent::Moved(place(at)),
        MapEvent::Clicked { at, adds } => MapEvent::Clicked {
            at: place(at),
            adds,
        },
        MapEvent::DragStarted(at) => MapEvent::DragStarted(place(at)),
        MapEvent::BoxStarted(at) => MapEvent::BoxStarted(place(at)),
        MapEvent::Dragged(at) => MapEvent::Dragged(place(at)),
        MapEvent::DragEnded(at) => MapEvent::DragEnded(place(at)),
        other => other,
    }
}

/// Whether a drag moves the paper: with the pick tool, away from what is selected.
fn pans_with_pick(desk: &Desk, events: &[MapEvent]) -> bool {
    let Tool::Pick(pick) = &desk.tool else {
        return false;
    };
    let starts_box = |event: &MapEvent| matches!(event, MapEvent::BoxStarted(_));
    if events.iter().any(starts_box) {
        return false;
    }
    let starts_here = events.iter().find_map(|event| match event {
        MapEvent::DragStarted(at) => Some(*at),
        _ => None,
    });
    match starts_here {
        Some(at) => !pick.would_grip(at, desk.scene()),
        None => !pick.is_dragging(),
    }
}

fn paint_map(painter: &Painter, desk: &mut Desk, light: Light) {
    painter.rect_filled(desk.view.screen, 0.0, theme::colour(Ink::Paper, light));
    furniture::paint_grid(painter, &desk.view, light);
    let preview = desk.tool.preview();
    ground_layer::paint_ground(painter, desk, &preview, light);
    proposal::paint_added(painter, desk, &preview, light);
    if course_year::year_on_map(desk).is_none() {
        animals::paint_animals(painter, desk, light);
    }
    let mut taken = labels::paint_labels(painter, desk, &preview, light);
    labels::paint_lengths(painter, desk, &mut taken, light);
    tree_names::paint_tree_names(painter, desk, &mut taken, light);
    // Handles and lengths would stand in the way of what strips would be.
    if !matches!(desk.dialog, Some(Dialog::Strips(_))) {
        paint_selection(painter, desk, &preview, light);
    }
    paint_preview(painter, desk, &preview, light);
    paint_taping(painter, desk, light);
    proposal::paint_proposal(painter, desk, &preview, light);
    paint_strips_preview(painter, desk, light);
    if let Some(snap) = &desk.snapping.last {
        paint_snap(painter, &desk.view, snap, light);
    }
    furniture::paint_scale_bar(painter, &desk.view, light, desk.units());
    furniture::paint_north(painter, &desk.view, light);
    let hint = desk.taping.hint().unwrap_or_else(|| desk.tool.hint());
    let at = desk.view.screen.right_bottom() - egui::Vec2::new(18.0, 14.0);
    let ink = theme::colour(Ink::Soft, light);
    let galley = painter.layout_no_wrap(hint.to_owned(), theme::sans(theme::SMALL), ink);
    // Where scale bar and hint would meet, the hint stands above; a map narrower than the hint does without.
    let is_narrow = desk.view.screen.width() < galley.size().x + 420.0;
    let at = if is_narrow {
        at - egui::Vec2::new(0.0, 44.0)
    } else {
        at
    };
    if desk.view.screen.width() < galley.size().x + 130.0 {
        return;
    }
    let rect = Align2::RIGHT_BOTTOM.anchor_size(at, galley.size());
    painter.rect_filled(
        rect.expand2(egui::Vec2::new(6.0, 2.0)),
        4.0,
        theme::colour(Ink::Panel, light).gamma_multiply(0.8),
    );
    painter.galley(rect.min, galley, ink);
}

/// Outline, handles and side lengths of what is selected.
fn paint_selection(painter: &Painter, desk: &Desk, preview: &Preview, light: Light) {
    let act = theme::colour(Ink::Act, light);
    let stroke = Stroke::new(2.4, act);
    let is_one = desk.selected.len() == 1 && !matches!(desk.tool, Tool::Reshape(_));
    for id in &desk.selected {
        let changed = preview
            .changed
            .iter()
            .find(|(changed, _)| changed == id)
            .map(|(_, ground)| ground);
        let Some(ground) = changed.or_else(|| desk.farm().ground.get(id)) else {
            continue;
        };
        if preview.removed.contains(id) {
            continue;
        }
        let on_screen = |line: &[crate::geometry::Point]| {
            line.iter()
                .map(|p| desk.view.screen_from_ground(*p))
                .collect()
        };
        match &ground.shape {
            Shape::Area(outline) => {
                for ring in outline.rings() {
                    paint::paint_line(painter, on_screen(&ring.corners), true, stroke, None);
                }
                if is_one && let Some(part) = outline.parts.first() {
                    let line = part.outer.corners.clone();
                    let sides = Preview {
                        line,
                        is_closed: true,
                        ..Preview::default()
                    };
                    paint_sides(painter, desk, &sides, light);
                }
            }
            Shape::Line(line) => paint::paint_line(painter, on_screen(line), false, stroke, None),
            Shape::Place(place) => {
                painter.circle_stroke(desk.view.screen_from_ground(*place), 11.0, stroke);
            }
        }
        if is_one && !ground.is_locked && ground.shape.corners().len() <= 400 {
            paint_handles(painter, desk, ground, light);
        }
    }
}

fn paint_handles(painter: &Painter, desk: &Desk, ground: &Ground, light: Light) {
    let act = theme::colour(Ink::Act, light);
    let paper = theme::colour(Ink::Panel, light);
    if matches!(ground.shape, Shape::Place(_)) {
        return;
    }
    let corners = ground.shape.corners();
    for (start, end) in ground.shape.sides() {
        let (Some(from), Some(to)) = (corners.get(start), corners.get(end)) else {
            continue;
        };
        let (a, b) = (
            desk.view.screen_from_ground(*from),
            desk.view.screen_from_ground(*to),
        );
        if (b - a).length() > 90.0 {
            painter.circle(a + (b - a) / 2.0, 3.0, paper, Stroke::new(1.2, act));
        }
    }
    for corner in corners {
        let rect = egui::Rect::from_center_size(
            desk.view.screen_from_ground(corner),
            egui::Vec2::splat(9.0),
        );
        painter.rect(
            rect,
            1.0,
            paper,
            Stroke::new(1.6, act),
            egui::StrokeKind::Middle,
        );
    }
}

fn set_cursor(ui: &Ui, desk: &Desk, response: &egui::Response) {
    if !response.hovered() {
        return;
    }
    let icon = match &desk.tool {
        _ if desk.taping.is_open && desk.taping.wants.is_some() => CursorIcon::Crosshair,
        Tool::Pick(pick) if pick.is_dragging() => CursorIcon::Grabbing,
        Tool::Pick(pick) => match desk.pointer {
            Some(at) if pick.would_grip(at, desk.scene()) => CursorIcon::Move,
            Some(at) if ground_at(at, desk.scene()).is_some() => CursorIcon::PointingHand,
            _ => CursorIcon::Default,
        },
        _ => CursorIcon::Crosshair,
    };
    ui.ctx().set_cursor_icon(icon);
}

/// What a screen reader says of the map.
fn name_for_readers(response: &egui::Response, desk: &Desk) {
    let selected = match (desk.selected.len(), desk.selected_one()) {
        (0, _) => "nothing selected".to_owned(),
        (_, Some((_, ground))) => format!("{} {} selected", ground.kind.name(), ground.name),
        (count, None) => format!("{count} things selected"),
    };
    let when = course_year::year_on_map(desk).map_or_else(
        || format!("on {}", desk.day.long_text()),
        |year| format!("in the course of {year}"),
    );
    let text = format!("Map of {} {when}, {selected}", desk.farm().name);
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Canvas, true, text.clone()));
}
