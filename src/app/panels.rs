//! The columns round the map. Each builds plain rows first, then paints them.

pub mod entry_box;
pub mod facts;
pub mod facts_rows;
pub mod ground_list;
pub mod ground_rows;
pub mod ribbon;
pub mod ribbon_rows;
pub mod row_dialog;
pub mod strips_dialog;
pub mod strips_form;
pub mod tool_column;
pub mod top_bar;
