//! Both sides of the layout to write on: what is seen there, as it is seen.

use super::Props;
use crate::app::{Action, Cell, MAX_LAYOUT};
use crate::ui::widgets::cells::{Cells, Place, Written};
use crate::ui::widgets::count_field;
use std::rc::Rc;
use yew::prelude::*;

/// The two sides.
#[component]
pub fn Grid(props: &Props) -> Html {
    let layout = &props.state.job.layout;
    let (rows, columns) = (layout.rows, layout.columns);
    let seen = |cells: &[Option<Cell>]| -> Rc<[Written]> {
        cells
            .iter()
            .map(|cell| cell.map_or_else(Written::default, |c| Written { page: Some(c.page), head: c.head }))
            .collect()
    };
    let put = props.act.reform(|((side, row, column), cell): (Place, Written)| {
        let cell = cell.page.map(|page| Cell { page, head: cell.head });
        Action::LayoutCell { side, row, column, cell }
    });
    let set_rows = props.act.reform(move |rows| Action::LayoutSize { rows, columns });
    let set_columns = props.act.reform(move |columns| Action::LayoutSize { rows, columns });
    html! {
        <Cells {rows} {columns} side_a={seen(&layout.side_a)} side_b={seen(&layout.side_b)} guesses={true} {put} label="The layout"
            no_head={(", head not seen", "Head not seen")}>
            { count_field("layout-rows", "rows", rows, MAX_LAYOUT, set_rows) }
            { count_field("layout-columns", "columns", columns, MAX_LAYOUT, set_columns) }
        </Cells>
    }
}
