//! Every test that looks at the program from outside, in one binary.

mod geometry;
//! The project's tests in one binary, a module for each floor's part.

mod planning;
