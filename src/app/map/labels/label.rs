//! A few words laid out about a place on the screen, straight or turned, with a leader or without.
//!
//! Knows no ground. Points of the screen, radians clockwise.

use std::sync::Arc;

use egui::emath::Rot2;
use egui::epaint::TextShape;
use egui::{Color32, FontId, Galley, Painter, Pos2, Rect, Shape, Stroke, Vec2};

use crate::app::theme;
use crate::sheets::palette::{Ink, Light};

/// Words about a place. They are laid out when they are written, so that a kept label never holds on to letters that
/// are no longer in the toolkit's texture.
#[derive(Debug, Clone)]
pub(super) struct Label {
    /// What it covers, straight with the screen.
    pub(super) rect: Rect,
    /// How large it is before it is turned.
    pub(super) size: Vec2,
    /// How far it is turned.
    pub(super) turn: f32,
    /// Where its leader points, where it has one.
    pub(super) leader: Option<Pos2>,
    lines: Vec<Words>,
}

/// A line of a label: what it says, in which type and ink.
pub(super) type Words = (String, FontId, Color32);

/// Lines of a label lie a little closer than lines of text.
const TIGHTER: f32 = 3.0;

impl Label {
    /// Lines about `at`.
    pub(super) fn new(painter: &Painter, at: Pos2, lines: Vec<Words>, turn: f32) -> Self {
        let mut size = Vec2::new(0.0, TIGHTER);
        for line in &lines {
            let galley = laid_out(painter, line);
            size.x = size.x.max(galley.size().x);
            size.y += galley.size().y - TIGHTER;
        }
        let (sin, cos) = (turn.sin().abs(), turn.cos().abs());
        let covered = Vec2::new(size.x * cos + size.y * sin, size.x * sin + size.y * cos);
        Self {
            rect: Rect::from_center_size(at, covered),
            size,
            turn,
            leader: None,
            lines,
        }
    }

    /// Moves it so that its middle lies here.
    pub(super) fn move_to(&mut self, middle: Pos2) {
        self.rect = Rect::from_center_size(middle, self.rect.size());
    }

    /// Moves it with the map.
    pub(super) fn shifted(&self, by: Vec2) -> Self {
        Self {
            rect: self.rect.translate(by),
            leader: self.leader.map(|from| from + by),
            ..self.clone()
        }
    }

    /// Whether it lies on the screen and covers nothing that is taken.
    pub(super) fn is_free(&self, screen: Rect, taken: &[Rect]) -> bool {
        screen.contains_rect(self.rect) && !taken.iter().any(|other| other.intersects(self.rect))
    }

    /// Writes it on a soft ground that keeps the words apart from the pattern.
    pub(super) fn paint(&self, painter: &Painter, light: Light) {
        let halo = theme::colour(Ink::Panel, light).gamma_multiply(0.55);
        let middle = self.rect.center();
        if let Some(from) = self.leader {
            let end = Pos2::new(
                from.x.clamp(self.rect.left(), self.rect.right()),
                from.y.clamp(self.rect.top(), self.rect.bottom()),
            );
            let ink = theme::colour(Ink::Soft, light);
            painter.line_segment([from, end], Stroke::new(1.0, ink));
            painter.circle_filled(from, 1.8, ink);
        }
        let mut y = -self.size.y / 2.0;
        for line in &self.lines {
            let (galley, ink) = (laid_out(painter, line), line.2);
            let size = galley.size();
            let corner = Vec2::new(-size.x / 2.0, y);
            let rotation = Rot2::from_angle(self.turn);
            let soft = Rect::from_min_size(corner.to_pos2(), size).expand2(Vec2::new(3.0, -1.0));
            if self.turn.abs() < 0.01 {
                painter.rect_filled(soft.translate(middle.to_vec2()), 4.0, halo);
            } else {
                let corners = [
                    soft.left_top(),
                    soft.right_top(),
                    soft.right_bottom(),
                    soft.left_bottom(),
                ];
                let corners = corners.map(|place| middle + rotation * place.to_vec2());
                let stroke = Stroke::NONE;
                painter.add(Shape::convex_polygon(corners.to_vec(), halo, stroke));
            }
            let turned = rotation * corner;
            let text = TextShape::new(middle + turned, galley, ink).with_angle(self.turn);
            painter.add(text);
            y += size.y - TIGHTER;
        }
    }
}

fn laid_out(painter: &Painter, (text, font, ink): &Words) -> Arc<Galley> {
    painter.layout_no_wrap(text.clone(), font.clone(), *ink)
}

/// A length that words surely have at least, points: a fifth of the type's size for each letter.
pub(super) fn least_length(text: &str, font_size: f32) -> f32 {
    #[expect(
        clippy::cast_precision_loss,
        reason = "a name has some dozens of letters"
    )]
    let letters = text
        .chars()
        .filter(|letter| !letter.is_whitespace())
        .count() as f32;
    letters * font_size * 0.2
}
