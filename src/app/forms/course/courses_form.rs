//! The courses: their steps, how they turn, where each plot starts; the years of the table and of each family.

use egui::Ui;

use super::press;
use crate::app::desk::Desk;
use crate::app::forms::buttons::word_button;
use crate::app::forms::change::{CourseField, Target};
use crate::app::forms::course_change::step_words;
use crate::app::forms::field::{FieldRow, heading_ui, rows_ui, small_ui};
use crate::app::season_acts::Act;
use crate::farm::{
    Course, Courses, Family, Farm, INTERVALS, Kind, Turn, course_grounds, course_years,
};

/// Everything about the courses.
pub(super) fn courses_ui(ui: &mut Ui, desk: &mut Desk) {
    let mut act = None;
    let courses = desk.farm().course.courses.clone();
    for (place, course) in courses.iter().enumerate() {
        course_ui(ui, desk, place, course, &mut act);
    }
    heading_ui(ui, "More courses");
    ui.horizontal_wrapped(|ui| {
        for (words, tip, made) in [
            (
                "Course of the plots",
                "A step for each plot and ley that is in no course yet",
                press::course_of_plots(desk.farm()),
            ),
            (
                "Course of the tunnels",
                "A step for each tunnel that is in no course yet",
                press::course_of_tunnels(desk.farm()),
            ),
        ] {
            if made.is_some() && word_button(ui, words, tip) {
                act = made;
            }
        }
    });
    heading_ui(ui, "Years");
    rows_ui(ui, desk, &year_rows(desk.farm()));
    heading_ui(ui, "Years from crop to crop");
    rows_ui(ui, desk, &interval_rows(desk.farm()));
    for interval in INTERVALS {
        let crop = interval
            .crop
            .map_or(String::new(), |crop| format!(", {crop}"));
        small_ui(
            ui,
            &format!(
                "{}{crop}: at least {}, {} advised. {}",
                interval.family.name(),
                interval.least_years,
                interval.advised_years,
                interval.source
            ),
        );
    }
    if let Some((label, edits)) = act {
        desk.commit(&label, edits);
    }
}

fn course_ui(ui: &mut Ui, desk: &mut Desk, place: usize, course: &Course, act: &mut Option<Act>) {
    heading_ui(ui, &course.name);
    let target = |field| Target::Course(field);
    let name = FieldRow::words(
        target(CourseField::CourseName(place)),
        "Name",
        course.name.clone(),
    )
    .spoken(format!("Name of course {}", place + 1));
    rows_ui(ui, desk, &[name]);
    for (turn, words) in [
        (Turn::NextStep, "Plots take the next step"),
        (Turn::CropsMoveOn, "Crops move on one tunnel"),
    ] {
        let tip = turn.words();
        let chosen = ui.radio(course.turn == turn, words).on_hover_text(tip);
        if chosen.clicked() && course.turn != turn {
            *act = press::with_course(desk.farm(), place, tip, |course| course.turn = turn);
        }
    }
    let mut is_one_each = course.is_one_each;
    if ui
        .checkbox(&mut is_one_each, "A plot to each step")
        .on_hover_text("Says so where two plots stand at one step")
        .changed()
    {
        *act = press::with_course(desk.farm(), place, "A plot to each step", |course| {
            course.is_one_each = is_one_each;
        });
    }
    small_ui(
        ui,
        "Steps. Crops of one year have + between; an emptied step is taken out.",
    );
    let mut rows: Vec<FieldRow> = course
        .steps
        .iter()
        .enumerate()
        .map(|(step, uses)| {
            let field = target(CourseField::Step(place, step));
            FieldRow::words(field, &format!("{}", step + 1), step_words(uses)).spoken(format!(
                "Step {} of {}",
                step + 1,
                course.name
            ))
        })
        .collect();
    let further = course.steps.len() + 1;
    rows.push(
        FieldRow::words(
            target(CourseField::NewStep(place)),
            &format!("{further}"),
            String::new(),
        )
        .hinted("a further step")
        .spoken(format!("New step of {}", course.name)),
    );
    rows_ui(ui, desk, &rows);
    small_ui(
        ui,
        &format!(
            "Step of each in {}; empty: not in this course.",
            course.first_year
        ),
    );
    rows_ui(ui, desk, &start_rows(desk.farm(), place, course));
    let words = format!("Remove {}", course.name);
    if word_button(ui, &words, "Undo brings it back") {
        *act = press::remove_course(desk.farm(), place);
    }
}

/// A field for each piece of ground that is in this course or in none.
fn start_rows(farm: &Farm, place: usize, course: &Course) -> Vec<FieldRow> {
    let is_of_tunnels = course.turn == Turn::CropsMoveOn;
    course_grounds(farm)
        .into_iter()
        .filter_map(|id| {
            let ground = farm.ground.get(&id)?;
            let start = course.starts.get(&id);
            let is_like = (ground.kind == Kind::Tunnel) == is_of_tunnels;
            let is_free = farm.course.course_of(id).is_none() && is_like;
            if start.is_none() && !is_free {
                return None;
            }
            let text = start.map_or_else(String::new, |start| (start + 1).to_string());
            let target = Target::Course(CourseField::Start(place, id));
            let spoken = format!("Start of {}", ground.name.trim());
            Some(FieldRow::figure(target, ground.name.trim(), text, "").spoken(spoken))
        })
        .collect()
}

fn year_rows(farm: &Farm) -> Vec<FieldRow> {
    let courses = &farm.course;
    let years = course_years(farm);
    let of = |value: Option<u8>| value.map_or_else(String::new, |value| value.to_string());
    let figure = |field, label: &str, value: String, hint: String, unit: &str| {
        FieldRow::figure(Target::Course(field), label, value, unit).hinted(hint)
    };
    let first = courses
        .first_year
        .map_or_else(String::new, |year| year.to_string());
    vec![
        figure(
            CourseField::FirstYear,
            "First year",
            first,
            years.start().to_string(),
            "",
        ),
        figure(
            CourseField::Years,
            "Years shown",
            of(courses.years),
            Courses::USUAL_YEARS.to_string(),
            "years",
        ),
        figure(
            CourseField::LeyYears,
            "A ley should lie",
            of(courses.ley_years_wanted),
            Courses::USUAL_LEY_YEARS.to_string(),
            "years",
        ),
    ]
}

fn interval_rows(farm: &Farm) -> Vec<FieldRow> {
    Family::ALL
        .into_iter()
        .zip(0_u8..)
        .map(|(family, place)| {
            let own = farm.course.own_intervals.get(&family);
            let text = own.map_or_else(String::new, ToString::to_string);
            let published = INTERVALS
                .iter()
                .find(|row| row.family == family && row.crop.is_none());
            let hint = published.map_or_else(
                || "free".to_owned(),
                |row| {
                    if row.least_years == row.advised_years {
                        row.least_years.to_string()
                    } else {
                        format!("{}–{}", row.least_years, row.advised_years)
                    }
                },
            );
            let target = Target::Course(CourseField::Interval(place));
            FieldRow::figure(target, family.name(), text, "years")
                .hinted(hint)
                .spoken(format!("Years between crops of the {}", family.name()))
        })
        .collect()
}
