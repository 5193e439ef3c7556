//! A pedigree in the DOT language, for those who lay it out with Graphviz.
//!
//! Latin stands in true italics through HTML-like labels. Identifiers are made from row numbers, so no text of the
//! registry ever stands outside a quoted or escaped place, whatever it contains: values are made from text by type.

use dot_generator::{attr, edge, id, node, node_id, stmt};
use dot_structures::{
    Attribute, Edge, EdgeTy, Graph, GraphAttributes, Id, Node, NodeId, Stmt, Vertex,
};

use super::pedigree::{is_share, written};
use crate::report::pedigree::{DrawnCross, DrawnParent, DrawnPlant, Fate, PedigreeDrawing, Sex};
use crate::text::Xml;
use crate::wording::Name;

/// The whole pedigree as DOT.
pub fn dot(drawing: &PedigreeDrawing) -> String {
    let mut stmts = vec![
        stmt!(GraphAttributes::Graph(vec![
            says("rankdir", Value::word("LR")),
            says("bgcolor", quoted("#fdfbf6")),
            says("fontname", quoted("serif")),
            says("labelloc", Value::word("b")),
            says("label", html(caption(drawing))),
        ])),
        stmt!(GraphAttributes::Node(vec![
            says("shape", Value::word("box")),
            says("fontname", quoted("serif"))
        ])),
        stmt!(GraphAttributes::Edge(vec![
            says("arrowhead", Value::word("none")),
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
    let label = html(plant_label(drawing, plant));
    let tip = quoted(&plant.code);
    let plant = format!("plant{row}");
    node!(plant; says("label", label), says("penwidth", Value::word(width)), says("tooltip", tip))
}

fn plant_label(drawing: &PedigreeDrawing, plant: &DrawnPlant) -> Label {
    let sex = match plant.sex {
        Some(Sex::Female) => " ♀",
        Some(Sex::Male) => " ♂",
        None => "",
    };
    let fate = match plant.fate {
        Fate::Here => "",
        Fate::Dead => " · died",
        Fate::Sold => " · sold",
        Fate::LetGo => " · given away",
    };
    let species = |at: usize| drawing.species.get(at).map(marked_up).unwrap_or_default();
    let known = plant.shares.iter().map(|share| {
        let name = species(share.species);
        Label::joined([Label::text(&written(share.fraction)), name], " ")
    });
    let either = plant
        .either
        .iter()
        .map(|part| Label::text(&format!("{} {}", written(part.fraction), part.of)));
    let unknown = is_share(plant.unknown_share)
        .then(|| Label::text(&format!("{} unknown", written(plant.unknown_share))));
    let shares = Label::joined(known.chain(either).chain(unknown), " · ");
    let head = Label::text(&format!("{}{sex}{fate}", plant.code));
    let names = plant.label.iter().map(marked_up);
    Label::joined([head].into_iter().chain(names).chain([shares]), "<BR/>")
}

fn cross_stmts(stmts: &mut Vec<Stmt>, row: usize, cross: &DrawnCross) {
    let joint = format!("cross{row}");
    let tip = quoted(&cross.code);
    stmts.push(stmt!(
        node!(joint; says("label", quoted("×")), says("shape", Value::word("plaintext")), says("tooltip", tip))
    ));
    for (parent, sign, style) in [(&cross.seed, "♀", "solid"), (&cross.pollen, "♂", "dashed")] {
        let sign = if cross.direction_known {
            sign
        } else {
            "? direction not known"
        };
        let sign = match cross.father_probable && style == "dashed" {
            true => format!("{sign} probable"),
            false => sign.to_string(),
        };
        parent_edges(stmts, row, parent, (&sign, style));
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
            node!(more; says("label", text), says("shape", Value::word("plaintext")))
        ));
        stmts.push(stmt!(edge!(node_id!(joint) => node_id!(more))));
    }
}

fn parent_edges(
    stmts: &mut Vec<Stmt>,
    row: usize,
    parent: &DrawnParent,
    drawn: (&str, &'static str),
) {
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
            node!(unknown; says("label", quoted("?")), says("style", Value::word("dotted")))
        ));
        from.push(unknown);
    }
    for start in from {
        let label = quoted(&note);
        stmts.push(stmt!(
            edge!(node_id!(start) => node_id!(joint); says("style", Value::word(style)), says("label", label))
        ));
    }
}

fn caption(drawing: &PedigreeDrawing) -> Label {
    let caption = &drawing.caption;
    let head = [
        marked_up(&caption.formula),
        Label::text(&caption.code),
        Label::text(&caption.evidence),
    ];
    let notes = drawing.footnotes.iter().map(|note| Label::text(note));
    Label::joined(head.into_iter().chain(notes), "<BR/>")
}

fn marked_up(name: &Name) -> Label {
    let runs = name.iter().filter(|part| !part.text.is_empty());
    let runs = runs.map(|part| match part.italic {
        true => Label::text(&part.text).italic(),
        false => Label::text(&part.text),
    });
    runs.fold(Label::default(), |all, run| Label(all.0 + &run.0))
}

/// A value of an attribute as it stands in DOT; made from text only by [`quoted`] and [`html`].
struct Value(String);

impl Value {
    /// A word or number of ours.
    fn word(word: &'static str) -> Value {
        Value(word.to_owned())
    }
}

/// An attribute. (The macro takes a call in the place of a value for something else, so values go in by name.)
fn says(key: &str, value: Value) -> Attribute {
    let value = value.0;
    attr!(key, value)
}

/// Text inside an HTML-like label, and the label's own tags around it.
#[derive(Default)]
struct Label(String);

impl Label {
    /// Text as XML has it; a backslash or closing bracket by its number, because Graphviz takes the one for an escape
    /// and the other, alone between two tags, for the end of something.
    fn text(text: &str) -> Label {
        let xml = Xml::of(text).to_string();
        Label(xml.replace('\\', "&#92;").replace(']', "&#93;"))
    }

    fn italic(self) -> Label {
        Label(format!("<I>{}</I>", self.0))
    }

    fn joined(parts: impl IntoIterator<Item = Label>, between: &'static str) -> Label {
        let said = parts.into_iter().filter(|part| !part.is_blank());
        Label(said.map(|part| part.0).collect::<Vec<_>>().join(between))
    }

    fn is_blank(&self) -> bool {
        self.0.trim().is_empty()
    }
}

/// A quoted string: backslashes doubled, marks of XML written out since Graphviz reads entities there too.
fn quoted(text: &str) -> Value {
    let xml = Xml::of(text).to_string();
    Value(format!("\"{}\"", xml.replace('\\', "\\\\")))
}

fn html(label: Label) -> Value {
    Value(match label.is_blank() {
        true => "< >".to_owned(),
        false => format!("<{}>", label.0),
    })
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
