//! How the window looks: fonts, sizes, colours, spacing, by day and by night.
//!
//! Colours come from `sheets::palette`; nothing else in the window names a colour value.

use std::sync::Arc;

use egui::{
    Color32, CornerRadius, FontData, FontDefinitions, FontFamily, FontId, Stroke, TextStyle, Theme,
    Vec2,
};

use crate::sheets::palette::{Ink, Light};

/// Small print.
pub const SMALL: f32 = 13.0;
/// Words and figures.
pub const BODY: f32 = 15.0;
/// Headings.
pub const HEADING: f32 = 18.0;
/// The name of the farm and of what is selected.
pub const TITLE: f32 = 22.0;

/// An ink as a colour of the toolkit.
pub fn colour(ink: Ink, light: Light) -> Color32 {
    let [red, green, blue] = ink.rgb(light);
    Color32::from_rgb(red, green, blue)
}

/// The light in which a context is drawn.
pub fn light_of(ctx: &egui::Context) -> Light {
    match ctx.theme() {
        Theme::Light => Light::Day,
        Theme::Dark => Light::Night,
    }
}

/// The ink as it is drawn in this piece of the window.
pub fn ink(ui: &egui::Ui, ink: Ink) -> Color32 {
    colour(ink, light_of(ui.ctx()))
}

/// Words and figures.
pub fn sans(size: f32) -> FontId {
    FontId::new(size, FontFamily::Proportional)
}

/// Words and figures that matter most.
pub fn sans_bold(size: f32) -> FontId {
    FontId::new(size, FontFamily::Name("sans-bold".into()))
}

/// Names of ground and headings.
pub fn serif(size: f32) -> FontId {
    FontId::new(size, FontFamily::Name("serif".into()))
}

/// Names that stand out.
pub fn serif_bold(size: f32) -> FontId {
    FontId::new(size, FontFamily::Name("serif-bold".into()))
}

/// Water and asides.
pub fn serif_italic(size: f32) -> FontId {
    FontId::new(size, FontFamily::Name("serif-italic".into()))
}

/// Puts fonts, text styles and both lights into a context.
pub fn install(ctx: &egui::Context) {
    ctx.set_fonts(fonts());
    for (theme, light) in [(Theme::Light, Light::Day), (Theme::Dark, Light::Night)] {
        ctx.style_mut_of(theme, |style| dress(style, light));
    }
}

macro_rules! font_file {
    ($name:literal) => {
        include_bytes!(concat!("../../assets/fonts/", $name, ".ttf")).as_slice()
    };
}

fn fonts() -> FontDefinitions {
    let mut fonts = FontDefinitions::default();
    // Symbols that the book faces lack come from the toolkit's own fonts, last in line.
    let fallback = fonts
        .families
        .get(&FontFamily::Proportional)
        .cloned()
        .unwrap_or_default();
    let faces: [(&str, FontFamily, [&'static [u8]; 2]); 5] = [
        (
            "sans",
            FontFamily::Proportional,
            [
                font_file!("alegreya-sans-500-latin"),
                font_file!("alegreya-sans-500-latin-ext"),
            ],
        ),
        (
            "sans-bold",
            FontFamily::Name("sans-bold".into()),
            [
                font_file!("alegreya-sans-700-latin"),
                font_file!("alegreya-sans-700-latin-ext"),
            ],
        ),
        (
            "serif",
            FontFamily::Name("serif".into()),
            [
                font_file!("alegreya-400-latin"),
                font_file!("alegreya-400-latin-ext"),
            ],
        ),
        (
            "serif-bold",
            FontFamily::Name("serif-bold".into()),
            [
                font_file!("alegreya-700-latin"),
                font_file!("alegreya-700-latin-ext"),
            ],
        ),
        (
            "serif-italic",
            FontFamily::Name("serif-italic".into()),
            [
                font_file!("alegreya-400i-latin"),
                font_file!("alegreya-400i-latin-ext"),
            ],
        ),
    ];
    for (name, family, files) in faces {
        let mut line = Vec::new();
        for (file, part) in files.into_iter().zip(["latin", "extended"]) {
            let key = format!("{name}-{part}");
            fonts
                .font_data
                .insert(key.clone(), Arc::new(FontData::from_static(file)));
            line.push(key);
        }
        line.extend(fallback.iter().cloned());
        fonts.families.insert(family, line);
    }
    fonts
}

fn dress(style: &mut egui::Style, light: Light) {
    let of = |ink: Ink| colour(ink, light);
    style.text_styles = [
        (TextStyle::Small, sans(SMALL)),
        (TextStyle::Body, sans(BODY)),
        (TextStyle::Button, sans(BODY)),
        (TextStyle::Heading, serif_bold(HEADING)),
        (TextStyle::Monospace, sans(BODY)),
    ]
    .into();
    style.spacing.item_spacing = Vec2::new(8.0, 4.0);
    style.spacing.button_padding = Vec2::new(10.0, 4.0);
    style.spacing.interact_size = Vec2::new(40.0, 27.0);
    style.spacing.menu_margin = egui::Margin::same(8);
    style.animation_time = 0.12;
    let visuals = &mut style.visuals;
    visuals.dark_mode = light == Light::Night;
    visuals.override_text_color = None;
    visuals.panel_fill = of(Ink::Panel);
    visuals.window_fill = of(Ink::Panel);
    visuals.window_stroke = Stroke::new(1.0, of(Ink::Rule));
    visuals.window_corner_radius = CornerRadius::same(6);
    visuals.menu_corner_radius = CornerRadius::same(6);
    visuals.window_shadow = egui::Shadow {
        offset: [0, 4],
        blur: 18,
        spread: 0,
        color: Color32::from_black_alpha(50),
    };
    visuals.popup_shadow = egui::Shadow {
        offset: [0, 3],
        blur: 12,
        spread: 0,
        color: Color32::from_black_alpha(40),
    };
    visuals.extreme_bg_color = of(Ink::Field);
    visuals.text_edit_bg_color = Some(of(Ink::Field));
    visuals.faint_bg_color = of(Ink::RowGround);
    visuals.code_bg_color = of(Ink::Field);
    visuals.hyperlink_color = of(Ink::Act);
    visuals.warn_fg_color = of(Ink::Act);
    visuals.error_fg_color = of(Ink::Act);
    visuals.selection.bg_fill = of(Ink::ActTint);
    visuals.selection.stroke = Stroke::new(1.0, of(Ink::Act));
    visuals.weak_text_color = Some(of(Ink::Soft));
    let widgets = &mut visuals.widgets;
    for (widget, fill, edge, edge_width) in [
        (&mut widgets.noninteractive, Ink::Panel, Ink::Hair, 1.0),
        (&mut widgets.inactive, Ink::Field, Ink::Rule, 1.0),
        (&mut widgets.hovered, Ink::ActTint, Ink::Act, 1.0),
        (&mut widgets.active, Ink::ActTint, Ink::Act, 1.6),
        (&mut widgets.open, Ink::Field, Ink::Act, 1.0),
    ] {
        widget.bg_fill = of(fill);
        widget.weak_bg_fill = of(fill);
        widget.bg_stroke = Stroke::new(edge_width, of(edge));
        widget.fg_stroke = Stroke::new(1.2, of(Ink::Ink));
        widget.corner_radius = CornerRadius::same(5);
        widget.expansion = 0.0;
    }
}
