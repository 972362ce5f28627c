//! The project's tests in one binary, a module for each floor's part.

mod planning;
