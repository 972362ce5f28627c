//! The fields of a planning problem, read one by one with their places.
//!
//! Checks kinds of values only; whether the values make sense is asked of the planner.

use std::collections::BTreeSet;

use super::node::Node;
use super::{FieldFault, MODEL_VERSION};
use crate::farm::GrowthShape;
use crate::planning::{DaySpan, FixedDay, Problem, ProblemMob, ProblemStrip, Step, Weights};
use crate::quantity::Day;

type Read<T> = Result<T, FieldFault>;

/// Reads the whole problem.
pub(super) fn problem_from(node: &Node) -> Read<Problem> {
    let top = Object::new(
        "",
        node,
        &[
            "model",
            "first_day",
            "days",
            "growth",
            "growth_shape",
            "rest_days",
            "longest_stay_days",
            "strips",
            "mobs",
            "fixed",
            "weights",
        ],
    )?;
    let (place, model) = top.needed("model")?;
    if number(&place, model)? != MODEL_VERSION {
        return Err(fault(
            &place,
            "this version of the model is not known",
            "give model 1",
        ));
    }
    Ok(Problem {
        first_day: top.read("first_day", day)?,
        days: top.read("days", count)?,
        growth: top.read("growth", steps)?,
        growth_shape: top
            .read_if_there("growth_shape", growth_shape)?
            .unwrap_or_default(),
        rest_days: top.read("rest_days", steps)?,
        longest_stay_days: top.read("longest_stay_days", count)?,
        strips: top.read("strips", |place, node| list(place, node, strip))?,
        mobs: top.read("mobs", |place, node| list(place, node, mob))?,
        fixed: top
            .read_if_there("fixed", |place, node| list(place, node, fixed_day))?
            .unwrap_or_default(),
        weights: top.read_if_there("weights", weights)?.unwrap_or_default(),
    })
}

fn growth_shape(place: &str, node: &Node) -> Read<GrowthShape> {
    match text(place, node)?.as_str() {
        "capped" => Ok(GrowthShape::Capped),
        "logistic" => Ok(GrowthShape::Logistic),
        other => Err(fault(
            place,
            &format!("\"{other}\" is no shape of growth"),
            "give \"capped\" or \"logistic\"",
        )),
    }
}

fn strip(place: &str, node: &Node) -> Read<ProblemStrip> {
    let known = [
        "name",
        "area_ha",
        "cover",
        "leave",
        "enter",
        "ceiling",
        "growth_factor",
        "at",
        "rested_days",
        "stood_days",
        "end_cover",
        "rest_owed_days",
        "closed",
    ];
    let strip = Object::new(place, node, &known)?;
    Ok(ProblemStrip {
        name: strip.read("name", text)?,
        area_ha: strip.read("area_ha", number)?,
        cover: strip.read("cover", number)?,
        leave: strip.read("leave", number)?,
        enter: strip.read_if_there("enter", number)?,
        ceiling: strip.read("ceiling", number)?,
        growth_factor: strip.read("growth_factor", number)?,
        at: strip.read("at", point)?,
        rested_days: strip.read_if_there("rested_days", count)?,
        stood_days: strip.read_if_there("stood_days", count)?,
        end_cover: strip.read_if_there("end_cover", number)?,
        rest_owed_days: strip.read_if_there("rest_owed_days", number)?,
        closed: strip.read_if_there("closed", spans)?.unwrap_or_default(),
    })
}

fn mob(place: &str, node: &Node) -> Read<ProblemMob> {
    let mob = Object::new(place, node, &["name", "visits", "stood", "demand", "yard"])?;
    Ok(ProblemMob {
        name: mob.read("name", text)?,
        visits: mob.read("visits", spans)?,
        stood: mob.read_if_there("stood", text)?,
        demand: mob.read("demand", steps)?,
        yard: mob.read("yard", point)?,
    })
}

fn fixed_day(place: &str, node: &Node) -> Read<FixedDay> {
    let fixed = Object::new(place, node, &["mob", "day", "strip", "lived"])?;
    // The yard is written out as null, so that a forgotten strip is not taken for it.
    fixed.needed("strip")?;
    Ok(FixedDay {
        mob: fixed.read("mob", text)?,
        day: fixed.read("day", day)?,
        strip: fixed.read_if_there("strip", text)?,
        lived: fixed.read_if_there("lived", flag)?.unwrap_or(false),
    })
}

fn weights(place: &str, node: &Node) -> Read<Weights> {
    let given = Object::new(
        place,
        node,
        &["short", "lost", "walk_per_m", "move", "bare"],
    )?;
    let usual = Weights::default();
    let or = |name: &str, usual: f64| {
        let value = given.read_if_there(name, number)?;
        Ok(value.unwrap_or(usual))
    };
    Ok(Weights {
        short: or("short", usual.short)?,
        lost: or("lost", usual.lost)?,
        walk_per_m: or("walk_per_m", usual.walk_per_m)?,
        move_each: or("move", usual.move_each)?,
        bare: or("bare", usual.bare)?,
    })
}

/// An object whose field names are all known and given once.
struct Object<'a> {
    place: &'a str,
    fields: &'a [(String, Node)],
}

impl<'a> Object<'a> {
    fn new(place: &'a str, node: &'a Node, known: &[&str]) -> Read<Self> {
        let Node::Fields(fields) = node else {
            return Err(wrong_kind(
                if place.is_empty() {
                    "the problem"
                } else {
                    place
                },
                "an object with named fields",
                node,
            ));
        };
        let object = Self { place, fields };
        let mut seen = BTreeSet::new();
        for (name, _) in fields {
            if !known.contains(&name.as_str()) {
                let remedy = format!("take it out; the fields here are {}", known.join(", "));
                return Err(fault(&object.at(name), "this field is not known", &remedy));
            }
            if !seen.insert(name) {
                return Err(fault(
                    &object.at(name),
                    "this field is given twice",
                    "keep one of the two",
                ));
            }
        }
        Ok(object)
    }

    fn at(&self, name: &str) -> String {
        if self.place.is_empty() {
            name.to_owned()
        } else {
            format!("{}.{name}", self.place)
        }
    }

    fn needed(&self, name: &str) -> Read<(String, &'a Node)> {
        let found = self.fields.iter().find(|(field, _)| field == name);
        let place = self.at(name);
        match found {
            Some((_, node)) => Ok((place, node)),
            None => Err(fault(&place, "this field is missing", "add it")),
        }
    }

    fn read<T>(&self, name: &str, read: impl Fn(&str, &Node) -> Read<T>) -> Read<T> {
        let (place, node) = self.needed(name)?;
        read(&place, node)
    }

    /// A field that may be left out; null is the same as leaving it out.
    fn read_if_there<T>(
        &self,
        name: &str,
        read: impl Fn(&str, &Node) -> Read<T>,
    ) -> Read<Option<T>> {
        let found = self.fields.iter().find(|(field, _)| field == name);
        match found {
            None | Some((_, Node::Null)) => Ok(None),
            Some((_, node)) => read(&self.at(name), node).map(Some),
        }
    }
}

fn number(place: &str, node: &Node) -> Read<f64> {
    match node {
        Node::Number(value) => Ok(*value),
        _ => Err(wrong_kind(place, "a number", node)),
    }
}

fn flag(place: &str, node: &Node) -> Read<bool> {
    match node {
        Node::Flag(value) => Ok(*value),
        _ => Err(wrong_kind(place, "true or false", node)),
    }
}

fn text(place: &str, node: &Node) -> Read<String> {
    match node {
        Node::Text(value) => Ok(value.clone()),
        _ => Err(wrong_kind(place, "a text", node)),
    }
}

/// A whole number from 0 on.
fn count(place: &str, node: &Node) -> Read<u32> {
    let value = number(place, node)?;
    if value < 0.0 || value.fract() != 0.0 || value > f64::from(u32::MAX) {
        let cause = format!("{value} is not a whole number of days");
        return Err(fault(place, &cause, "give a whole number, 0 or more"));
    }
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "held to whole numbers in range just above"
    )]
    Ok(value as u32)
}

fn day(place: &str, node: &Node) -> Read<Day> {
    let written = text(place, node)?;
    Day::parse_iso(&written).map_err(|error| {
        let cause = error.to_string();
        fault(place, &cause, "give a date like 2027-05-14")
    })
}

fn list<T>(place: &str, node: &Node, read: impl Fn(&str, &Node) -> Read<T>) -> Read<Vec<T>> {
    let Node::List(nodes) = node else {
        return Err(wrong_kind(place, "a list", node));
    };
    let read_one = |(index, node)| read(&format!("{place}[{index}]"), node);
    nodes.iter().enumerate().map(read_one).collect()
}

/// A list of exactly two values.
fn pair<'a>(place: &str, node: &'a Node, wanted: &str) -> Read<(&'a Node, &'a Node)> {
    if let Node::List(nodes) = node
        && let [first, second] = nodes.as_slice()
    {
        return Ok((first, second));
    }
    Err(wrong_kind(place, wanted, node))
}

fn steps(place: &str, node: &Node) -> Read<Vec<Step>> {
    list(place, node, |place, node| {
        let (from, value) = pair(place, node, "a pair [date, value]")?;
        Ok(Step {
            from: day(&format!("{place}[0]"), from)?,
            value: number(&format!("{place}[1]"), value)?,
        })
    })
}

fn spans(place: &str, node: &Node) -> Read<Vec<DaySpan>> {
    list(place, node, |place, node| {
        let (first, last) = pair(place, node, "a pair [from, to]")?;
        Ok(DaySpan {
            first: day(&format!("{place}[0]"), first)?,
            last: day(&format!("{place}[1]"), last)?,
        })
    })
}

fn point(place: &str, node: &Node) -> Read<[f64; 2]> {
    let (east, north) = pair(place, node, "a pair [east, north]")?;
    Ok([
        number(&format!("{place}[0]"), east)?,
        number(&format!("{place}[1]"), north)?,
    ])
}

fn wrong_kind(place: &str, wanted: &str, node: &Node) -> FieldFault {
    let cause = format!("{} stands here", node.kind());
    fault(place, &cause, &format!("give {wanted}"))
}

fn fault(place: &str, cause: &str, remedy: &str) -> FieldFault {
    FieldFault {
        place: place.to_owned(),
        cause: cause.to_owned(),
        remedy: remedy.to_owned(),
    }
}
