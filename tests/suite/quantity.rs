//! Floor 0 from outside: figures as people write them.

mod tape_figures;
