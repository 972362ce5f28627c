//! The program's beginning.

fn main() {}
