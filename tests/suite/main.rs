//! Every test that looks at the program from outside, in one binary.

mod cli;
mod farm;
mod files;
mod geometry;
mod moves;
mod planning;
mod published;
