//! Tests of the planner.
