//! A pedigree in the DOT language, for those who lay it out with Graphviz.
//!
//! Latin stands in true italics through HTML-like labels. Identifiers are made from row numbers, so no text of the
//! registry ever stands outside a quoted or escaped place, whatever it contains.

use dot_generator::{attr, edge, id, node, node_id, stmt};
use dot_structures::{
    Attribute, Edge, EdgeTy, Graph, GraphAttributes, Id, Node, NodeId, Stmt, Vertex,
};

use super::pedigree::{is_share, written};
use crate::report::pedigree::{
    DrawnCross, DrawnParent, DrawnPlant, Fate, Name, PedigreeDrawing, Sex,
};

/// The whole pedigree as DOT.
pub fn dot(drawing: &PedigreeDrawing) -> String {
    let mut stmts = vec![
        stmt!(GraphAttributes::Graph(vec![
            says("rankdir", "LR"),
            says("bgcolor", quoted("#fdfbf6")),
            says("fontname", quoted("serif")),
            says("labelloc", "b"),
            says("label", html(&caption(drawing))),
        ])),
        stmt!(GraphAttributes::Node(vec![
            says("shape", "box"),
            says("fontname", quoted("serif"))
        ])),
        stmt!(GraphAttributes::Edge(vec![
            says("arrowhead", "none"),
            says("fontname", quoted("serif"))
        ])),
    ];
    for (row, plant) in drawing.plants.iter().enumerate() {
        stmts.push(stmt!(plant_node(drawing, row, plant)));
    }
    for (row, cross) in drawing.crosses.iter().enumerate() {
        cross_stmts(&mut stmts, row, cross);
    }
    print(&Graph::DiGraph {
        id: id!("pedigree"),
        strict: false,
        stmts,
    })
}

fn plant_node(drawing: &PedigreeDrawing, row: usize, plant: &DrawnPlant) -> Node {
    let width = if plant.focus { "2" } else { "0.6" };
    let label = html(&plant_label(drawing, plant));
    let tip = quoted(&plant.code);
    let plant = format!("plant{row}");
    node!(plant; says("label", label), says("penwidth", width), says("tooltip", tip))
}

fn plant_label(drawing: &PedigreeDrawing, plant: &DrawnPlant) -> String {
    let sex = match plant.sex {
        Some(Sex::Female) => " ♀",
        Some(Sex::Male) => " ♂",
        None => "",
    };
    let fate = match plant.fate {
        Fate::Here => "",
        Fate::Dead => " · died",
        Fate::Sold => " · sold",
        Fate::LetGo => " · let go",
    };
    let mut lines = vec![format!("{}{sex}{fate}", escaped(&plant.code))];
    lines.extend(plant.label.iter().map(marked_up));
    let mut shares: Vec<String> = Vec::new();
    for share in &plant.shares {
        let name = drawing
            .species
            .get(share.species)
            .map(marked_up)
            .unwrap_or_default();
        shares.push(format!("{} {name}", escaped(&written(share.fraction))));
    }
    for part in &plant.either {
        let share = escaped(&written(part.fraction));
        shares.push(format!("{share} {}", escaped(&part.of)));
    }
    if is_share(plant.unknown_share) {
        shares.push(format!(
            "{} unknown",
            escaped(&written(plant.unknown_share))
        ));
    }
    lines.push(shares.join(" · "));
    lines.retain(|line| !line.trim().is_empty());
    lines.join("<BR/>")
}

fn cross_stmts(stmts: &mut Vec<Stmt>, row: usize, cross: &DrawnCross) {
    let joint = format!("cross{row}");
    let tip = quoted(&cross.code);
    stmts.push(stmt!(
        node!(joint; says("label", quoted("×")), says("shape", "plaintext"), says("tooltip", tip))
    ));
    for (parent, sign, style) in [(&cross.seed, "♀", "solid"), (&cross.pollen, "♂", "dashed")] {
        let sign = if cross.direction_known {
            sign
        } else {
            "? direction not known"
        };
        parent_edges(stmts, row, parent, (sign, style));
    }
    for child in &cross.children {
        stmts.push(stmt!(
            edge!(node_id!(joint) => node_id!(format!("plant{child}")))
        ));
    }
    if cross.more_siblings > 0 {
        let more = format!("more{row}");
        let text = quoted(&super::pedigree::more_text(cross.more_siblings));
        stmts.push(stmt!(
            node!(more; says("label", text), says("shape", "plaintext"))
        ));
        stmts.push(stmt!(edge!(node_id!(joint) => node_id!(more))));
    }
}

fn parent_edges(stmts: &mut Vec<Stmt>, row: usize, parent: &DrawnParent, drawn: (&str, &str)) {
    let (sign, style) = drawn;
    let joint = format!("cross{row}");
    let note = match parent {
        DrawnParent::Known(_) | DrawnParent::Unknown => sign.to_string(),
        DrawnParent::OneOf(rows) => format!("{sign} one of {}", rows.len()),
        DrawnParent::Mixed(_) => format!("{sign} mixed pollen"),
    };
    let mut from: Vec<String> = parent
        .rows()
        .iter()
        .map(|plant| format!("plant{plant}"))
        .collect();
    if from.is_empty() {
        let unknown = format!("unknown{row}_{style}");
        stmts.push(stmt!(
            node!(unknown; says("label", quoted("?")), says("style", "dotted"))
        ));
        from.push(unknown);
    }
    for start in from {
        let label = quoted(&note);
        stmts.push(stmt!(
            edge!(node_id!(start) => node_id!(joint); says("style", style), says("label", label))
        ));
    }
}

fn caption(drawing: &PedigreeDrawing) -> String {
    let mut lines = vec![
        marked_up(&drawing.caption.formula),
        escaped(&drawing.caption.code),
        escaped(&drawing.caption.rests_on),
    ];
    lines.extend(drawing.footnotes.iter().map(|note| escaped(note)));
    lines.retain(|line| !line.is_empty());
    match lines.is_empty() {
        true => " ".to_string(),
        false => lines.join("<BR/>"),
    }
}

fn marked_up(name: &Name) -> String {
    let run = |text: String, italic: bool| {
        if italic {
            format!("<I>{text}</I>")
        } else {
            text
        }
    };
    name.iter()
        .filter(|part| !part.text.is_empty())
        .map(|part| run(escaped(&part.text), part.italic))
        .collect()
}

/// An attribute. (The macro takes a call in the place of a value for something else, so values go in by name.)
fn says(key: &str, value: impl std::fmt::Display) -> Attribute {
    attr!(key, value)
}

/// Text inside an HTML-like label. Characters XML does not allow become U+FFFD.
fn escaped(text: &str) -> String {
    let mut out = String::new();
    for letter in text.chars() {
        match letter {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\\' => out.push_str("&#92;"),
            // Alone between two tags Graphviz takes it for the end of something.
            ']' => out.push_str("&#93;"),
            '\t' | '\n' | '\r' => out.push(' '),
            '\u{0}'..='\u{1f}' | '\u{fffe}' | '\u{ffff}' => out.push('\u{fffd}'),
            _ => out.push(letter),
        }
    }
    out
}

/// A quoted string: quotes and backslashes escaped, `&` written out since Graphviz reads entities there too.
fn quoted(text: &str) -> String {
    let mut out = String::from("\"");
    for letter in text.chars() {
        match letter {
            '"' => out.push_str("\\\""),
            '\\' => out.push_str("\\\\"),
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '\t' | '\n' | '\r' => out.push(' '),
            '\u{0}'..='\u{1f}' | '\u{fffe}' | '\u{ffff}' => out.push('\u{fffd}'),
            _ => out.push(letter),
        }
    }
    out.push('"');
    out
}

fn html(content: &str) -> String {
    format!("<{}>", if content.is_empty() { " " } else { content })
}

/// DOT text of a graph; every value already stands quoted or escaped.
fn print(graph: &Graph) -> String {
    let (Graph::DiGraph { id, stmts, .. } | Graph::Graph { id, stmts, .. }) = graph;
    let mut out = format!("digraph {} {{\n", word(id));
    for stmt in stmts {
        let line = match stmt {
            Stmt::Node(node) => format!("{}{}", word(&node.id.0), bracketed(&node.attributes)),
            Stmt::Edge(Edge {
                ty: EdgeTy::Pair(Vertex::N(from), Vertex::N(to)),
                attributes,
            }) => {
                format!(
                    "{} -> {}{}",
                    word(&from.0),
                    word(&to.0),
                    bracketed(attributes)
                )
            }
            Stmt::GAttribute(GraphAttributes::Graph(all)) => format!("graph{}", bracketed(all)),
            Stmt::GAttribute(GraphAttributes::Node(all)) => format!("node{}", bracketed(all)),
            Stmt::GAttribute(GraphAttributes::Edge(all)) => format!("edge{}", bracketed(all)),
            // Chains, subgraphs and bare attributes are never built above.
            Stmt::Edge(_) | Stmt::Subgraph(_) | Stmt::Attribute(_) => continue,
        };
        out.push_str(&format!("  {line};\n"));
    }
    out.push_str("}\n");
    out
}

fn bracketed(attributes: &[Attribute]) -> String {
    let pairs: Vec<String> = attributes
        .iter()
        .map(|Attribute(key, value)| format!("{}={}", word(key), word(value)))
        .collect();
    if pairs.is_empty() {
        String::new()
    } else {
        format!(" [{}]", pairs.join(", "))
    }
}

fn word(id: &Id) -> &str {
    let (Id::Html(text) | Id::Escaped(text) | Id::Plain(text) | Id::Anonymous(text)) = id;
    text
}
