//! The graph: one node for each plant and each cross, plants of one generation in one rank. What is said of it stands in
//! one label over it, since Graphviz leads lines through the labels of clusters.

use super::label::{Label, Value, hex, says};
use super::page::page;
use super::plant::plant;
use super::print::print;
use crate::render::outline::{more_text, of_plants};
use crate::render::pedigree::{Columns, Signs, times_raised, titled};
use crate::render::scene::{INK, PAPER};
use crate::report::pedigree::{DrawnCross, DrawnParent, PedigreeDrawing};
use dot_generator::{id, node, stmt, subgraph};
use dot_structures::{
    Attribute, Edge, EdgeTy, Graph, GraphAttributes, Id, Node, NodeId, Port, Stmt, Subgraph, Vertex,
};

/// The whole pedigree as DOT.
pub fn dot(drawing: &PedigreeDrawing) -> String {
    let signs = Signs::of(drawing);
    let mut stmts = manner(drawing, &signs).to_vec();
    let (about, mut more) = (
        of_plants(drawing),
        vec![String::new(); drawing.plants.len()],
    );
    for cross in &drawing.crosses {
        if let Some(&last) = cross.children.last().filter(|_| cross.more_siblings > 0) {
            more[last] = more_text(cross.more_siblings);
        }
    }
    for (row, of) in drawing.plants.iter().enumerate() {
        // A box has room for a few lines only; the tooltip has the name in full.
        let (name, tip) = (format!("plant{row}"), Value::quoted(&titled(of)));
        let label = Value::html(plant(of, &signs, (&about[row], &more[row])));
        stmts.push(stmt!(
            node!(name; says("label", label), says("tooltip", tip))
        ));
    }
    let times = times_raised(drawing);
    for (row, cross) in drawing.crosses.iter().enumerate() {
        cross_stmts(&mut stmts, row, (cross, &times));
    }
    stmts.extend(generations(drawing));
    print(&Graph::DiGraph {
        id: id!("pedigree"),
        strict: false,
        stmts,
    })
}

/// How all of it looks, on a page of A4.
fn manner(drawing: &PedigreeDrawing, signs: &Signs) -> [Stmt; 3] {
    let serif = || says("fontname", Value::word("\"Times,serif\""));
    [
        stmt!(GraphAttributes::Graph(vec![
            says("rankdir", Value::word("LR")),
            says("size", Value::word(sheet(drawing))),
            says("pad", Value::word("0.25")),
            says("dpi", Value::word("150")),
            says("nodesep", Value::word("0.16")),
            says("ranksep", Value::word("0.32")),
            says("bgcolor", Value::quoted(&hex(PAPER))),
            serif(),
            says("labelloc", Value::word("t")),
            says("labeljust", Value::word("l")),
            says("label", Value::html(page(drawing, signs))),
        ])),
        stmt!(GraphAttributes::Node(vec![
            says("shape", Value::word("plain")),
            serif(),
        ])),
        stmt!(GraphAttributes::Edge(vec![
            says("arrowhead", Value::word("none")),
            says("color", Value::quoted(&hex(INK))),
        ])),
    ]
}

/// Room on A4 in inches, within margins of 0.3: across, unless the graph is higher than wide.
fn sheet(drawing: &PedigreeDrawing) -> &'static str {
    let columns = Columns::of(drawing);
    let mut heights = vec![0usize; columns.count.max(1)];
    columns
        .plants
        .iter()
        .for_each(|&column| heights[column] += 1);
    // A box is about 2.4 inches wide with its lines and 0.9 high.
    let (wide, high) = (
        columns.count * 24,
        heights.iter().max().map_or(0, |most| most * 9),
    );
    match high > wide {
        true => "\"7.6,11.0\"",
        false => "\"11.0,7.6\"",
    }
}

/// Plants of one generation in one rank.
fn generations(drawing: &PedigreeDrawing) -> Vec<Stmt> {
    let columns = Columns::of(drawing);
    let mut ranks: Vec<Vec<usize>> = vec![Vec::new(); columns.count];
    for (row, &column) in columns.plants.iter().enumerate() {
        ranks[column].push(row);
    }
    let rank = |(column, rows): (usize, Vec<usize>)| {
        let mut stmts = vec![Stmt::Attribute(says("rank", Value::word("same")))];
        stmts.extend(rows.into_iter().map(|row| {
            let name = format!("plant{row}");
            stmt!(node!(name))
        }));
        let name = format!("generation{column}");
        stmt!(subgraph!(name, stmts))
    };
    let full = ranks.into_iter().enumerate();
    full.filter(|(_, rows)| rows.len() > 1).map(rank).collect()
}

/// A cross: its mark with a port for each parent, the seed parent's above, and its edges.
fn cross_stmts(stmts: &mut Vec<Stmt>, row: usize, (cross, times): (&DrawnCross, &[usize])) {
    let (joint, tip) = (format!("cross{row}"), Value::quoted(&cross.code));
    let label = Value::html(mark(cross));
    stmts.push(stmt!(
        node!(joint; says("label", label), says("tooltip", tip))
    ));
    let seed = (&cross.seed, "seed", cross.seed_doubtful);
    let pollen = (&cross.pollen, "pollen", cross.pollen_doubtful);
    for (parent, side, doubtful) in [seed, pollen] {
        parent_edges(stmts, row, parent, (side, doubtful));
    }
    for child in &cross.children {
        let ends = (
            at(&joint, Some(("raised", "e"))),
            at(&format!("plant{child}"), None),
        );
        stmts.push(edge(ends, pen(times[*child] < 2)));
    }
    if cross.more_siblings > 0 && cross.children.is_empty() {
        let (more, text) = (
            format!("more{row}"),
            Value::quoted(&more_text(cross.more_siblings)),
        );
        let ends = (at(&joint, Some(("raised", "e"))), at(&more, None));
        stmts.push(stmt!(node!(more; says("label", text))));
        stmts.push(edge(ends, Vec::new()));
    }
}

/// × with a sign for each parent; what is not certain of them stands in the boxes of their offspring.
fn mark(cross: &DrawnCross) -> Label {
    let sign = |sign: &str, port: &str| {
        let sign = if cross.direction_known { sign } else { "?" };
        let text = Label::text(sign).set(11.0, INK);
        text.cell(port)
    };
    let across = Label::text("×")
        .set(18.0, INK)
        .cell(r#" PORT="raised" ROWSPAN="2""#);
    let rows = [
        Label::row([sign("♀", r#" PORT="seed""#), across]),
        Label::row([sign("♂", r#" PORT="pollen""#)]),
    ];
    let bare = r#"BORDER="0" CELLBORDER="0" CELLSPACING="0" CELLPADDING="1""#;
    Label::table(rows, bare)
}

fn parent_edges(
    stmts: &mut Vec<Stmt>,
    row: usize,
    parent: &DrawnParent,
    (side, doubtful): (&'static str, bool),
) {
    let joint = format!("cross{row}");
    let sure = matches!(parent, DrawnParent::Known(_)) && !doubtful;
    let rows = parent.rows().iter();
    let mut from: Vec<String> = rows.map(|plant| format!("plant{plant}")).collect();
    if from.is_empty() {
        let unknown = format!("unknown_{side}{row}");
        from.push(unknown.clone());
        stmts.push(stmt!(
            node!(unknown; says("label", Value::quoted("?")), says("shape", Value::word("box")),
                says("style", Value::word("\"rounded,dotted\"")), says("width", Value::word("0.3")),
                says("height", Value::word("0.3")), says("margin", Value::word("0.05")))
        ));
    }
    for start in from {
        let ends = (at(&start, None), at(&joint, Some((side, "w"))));
        stmts.push(edge(ends, pen(sure)));
    }
}

/// A broken line where there is doubt, and nowhere else.
fn pen(sure: bool) -> Vec<Attribute> {
    match sure {
        true => Vec::new(),
        false => vec![says("style", Value::word("dashed"))],
    }
}

fn at(name: &str, port: Option<(&str, &str)>) -> NodeId {
    let port =
        port.map(|(port, side)| Port(Some(Id::Plain(port.to_owned())), Some(side.to_owned())));
    NodeId(Id::Plain(name.to_owned()), port)
}

fn edge((from, to): (NodeId, NodeId), attributes: Vec<Attribute>) -> Stmt {
    Stmt::Edge(Edge {
        ty: EdgeTy::Pair(Vertex::N(from), Vertex::N(to)),
        attributes,
    })
}
