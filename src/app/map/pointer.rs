//! The toolkit's pointer and keys, turned into our own events in metres; panning and zooming.
//!
//! Knows no tool: what an event means is the tool's business.

use egui::{Key, PointerButton, Response, Ui};

use super::GroundView;
use crate::app::tools::MapEvent;

/// What the pointer did in one frame.
#[derive(Debug, Default)]
pub(super) struct PointerWork {
    /// For the tool in hand, in order.
    pub events: Vec<MapEvent>,
    /// Whether the person drags with the button that tools use.
    pub drags: bool,
}

/// Reads the pointer over the map. Middle button, or space held, pans; the wheel zooms to the pointer.
pub(super) fn read_pointer(ui: &Ui, response: &Response, view: &mut GroundView) -> PointerWork {
    let mut work = PointerWork::default();
    zoom_and_scroll(ui, response, view);
    let holds_space = ui.input(|input| input.key_down(Key::Space)) && response.hovered();
    let pans = response.dragged_by(PointerButton::Middle)
        || response.dragged_by(PointerButton::Secondary)
        || (response.dragged_by(PointerButton::Primary) && holds_space);
    if pans {
        view.pan(response.drag_delta());
        return work;
    }
    let adds = ui.input(|input| input.modifiers.shift || input.modifiers.command);
    let place = response
        .interact_pointer_pos()
        .or_else(|| response.hover_pos());
    let Some(place) = place else { return work };
    let at = view.ground_from_screen(place);
    if response.double_clicked() {
        work.events.push(MapEvent::DoubleClicked(at));
    } else if response.clicked() {
        work.events.push(MapEvent::Clicked { at, adds });
    } else if response.drag_started_by(PointerButton::Primary) {
        let origin = ui
            .input(|input| input.pointer.press_origin())
            .unwrap_or(place);
        let from = view.ground_from_screen(origin);
        let draws_box = ui.input(|input| input.modifiers.shift);
        work.events.push(if draws_box {
            MapEvent::BoxStarted(from)
        } else {
            MapEvent::DragStarted(from)
        });
        work.events.push(MapEvent::Dragged(at));
        work.drags = true;
    } else if response.dragged_by(PointerButton::Primary) {
        work.events.push(MapEvent::Dragged(at));
        work.drags = true;
    } else if response.drag_stopped_by(PointerButton::Primary) {
        work.events.push(MapEvent::DragEnded(at));
    } else if response.hovered() {
        work.events.push(MapEvent::Moved(at));
    }
    work
}

fn zoom_and_scroll(ui: &Ui, response: &Response, view: &mut GroundView) {
    let Some(pointer) = response.hover_pos() else {
        return;
    };
    let (pinch, wheel) = ui.input(|input| (input.zoom_delta(), input.smooth_scroll_delta()));
    if (pinch - 1.0).abs() > f32::EPSILON {
        view.zoom(f64::from(pinch), pointer);
    } else if wheel.y.abs() > 0.0 {
        view.zoom(f64::from(wheel.y / 240.0).exp2(), pointer);
    }
    if wheel.x.abs() > 0.0 {
        view.pan(egui::Vec2::new(wheel.x, 0.0));
    }
}
