//! The columns round the map. Each builds plain rows first, then paints them.

pub mod entry_box;
pub mod facts;
pub mod facts_rows;
pub mod ground_list;
pub mod ground_menu;
pub mod ground_rows;
mod hen_ribbon_rows;
mod reshape_asked;
pub mod reshape_panel;
pub mod ribbon;
mod ribbon_days;
mod ribbon_paint;
pub mod ribbon_rows;
mod ribbon_words;
pub mod row_dialog;
pub mod shown_dialog;
pub mod strips_choice;
pub mod strips_dialog;
pub mod strips_form;
pub mod taping_corners;
pub mod taping_fields;
pub mod taping_page;
pub mod taping_rows;
pub mod taping_walked;
pub mod tool_column;
pub mod top_bar;
pub mod tree_list;
