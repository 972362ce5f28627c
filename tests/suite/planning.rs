//! Tests of the planner: its rules and figures against an independent checker, its plans against exhaustive search.

mod bound;
mod checker;
mod contradictions;
mod exhaustive;
mod generator;
mod monotone;
mod public_problems;
mod reading;
mod reasons;
mod solving;
