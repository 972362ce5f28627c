//! What buttons of the course page do: courses made and removed, ways of turning, cells given back.

use crate::app::season_acts::Act;
use crate::farm::{
    Course, CourseStep, Courses, Edit, Farm, GroundId, Kind, Turn, Use, course_grounds,
    use_from_words,
};

/// A course of the plots and leys that are in none yet, a step for each, begun at what stands there now.
pub(super) fn course_of_plots(farm: &Farm) -> Option<Act> {
    course_of(farm, "Field course", Turn::NextStep, |kind| {
        matches!(kind, Kind::Plot | Kind::Ley)
    })
}

/// A course of the tunnels that are in none yet.
pub(super) fn course_of_tunnels(farm: &Farm) -> Option<Act> {
    course_of(farm, "Tunnel course", Turn::CropsMoveOn, |kind| {
        kind == Kind::Tunnel
    })
}

fn course_of(farm: &Farm, name: &str, turn: Turn, wants: impl Fn(Kind) -> bool) -> Option<Act> {
    let places: Vec<GroundId> = course_grounds(farm)
        .into_iter()
        .filter(|id| farm.course.course_of(*id).is_none())
        .filter(|id| farm.ground.get(id).is_some_and(|ground| wants(ground.kind)))
        .take(Courses::MOST_STEPS)
        .collect();
    if places.is_empty() {
        return None;
    }
    let first_year = farm
        .course
        .first_year
        .unwrap_or_else(|| farm.season.first_day.year());
    let steps = places
        .iter()
        .map(|id| {
            let ground = farm.ground.get(id);
            let crop = ground.map_or("", |ground| ground.crop.as_str());
            let used = match (use_from_words(&farm.course, crop), ground) {
                // Which year a ley is in follows from the steps.
                (Use::Ley { .. }, _) => Use::Ley { year: None },
                (_, Some(ground)) if ground.kind == Kind::Ley => Use::Ley { year: None },
                (used, _) => used,
            };
            CourseStep { uses: vec![used] }
        })
        .collect();
    let mut courses = farm.course.clone();
    courses.courses.push(Course {
        name: name.to_owned(),
        steps,
        first_year,
        turn,
        is_one_each: true,
        starts: places.into_iter().zip(0_u8..).collect(),
    });
    let label = format!("Make the {}", name.to_lowercase());
    Some((label, vec![Edit::change_course(&farm.course, courses)]))
}

/// Every change by hand of a year on a piece of ground taken back; `None` where there is none.
pub(super) fn back_to_course(farm: &Farm, id: GroundId, year: i16) -> Option<Act> {
    let mut courses = farm.course.clone();
    courses
        .by_hand
        .retain(|(ground, at, _), _| (*ground, *at) != (id, year));
    if courses == farm.course {
        return None;
    }
    let name = farm.ground.get(&id).map_or("", |ground| ground.name.trim());
    let label = format!("{name} in {year} back to the course");
    Some((label, vec![Edit::change_course(&farm.course, courses)]))
}

/// A change of one course by its place in the list.
pub(super) fn with_course(
    farm: &Farm,
    place: usize,
    label: &str,
    change: impl FnOnce(&mut Course),
) -> Option<Act> {
    let mut courses = farm.course.clone();
    change(courses.courses.get_mut(place)?);
    let edit = Edit::change_course(&farm.course, courses);
    Some((label.to_owned(), vec![edit]))
}

/// A course taken away; cells by hand stay.
pub(super) fn remove_course(farm: &Farm, place: usize) -> Option<Act> {
    let mut courses = farm.course.clone();
    if place >= courses.courses.len() {
        return None;
    }
    let removed = courses.courses.remove(place);
    let label = format!("Remove {}", removed.name);
    Some((label, vec![Edit::change_course(&farm.course, courses)]))
}
