//! DOT text of a graph; every value already stands quoted or escaped.

use super::label::word;
use dot_structures::{
    Attribute, Edge, EdgeTy, Graph, GraphAttributes, NodeId, Port, Stmt, Subgraph, Vertex,
};

/// The whole text.
pub fn print(graph: &Graph) -> String {
    let (Graph::DiGraph { id, stmts, .. } | Graph::Graph { id, stmts, .. }) = graph;
    let mut out = format!("digraph {} {{\n", word(id));
    // Those still to be written, each with how deep it stands; `None` closes a subgraph.
    let mut todo: Vec<(usize, Option<&Stmt>)> =
        stmts.iter().rev().map(|of| (1, Some(of))).collect();
    while let Some((depth, stmt)) = todo.pop() {
        let indent = "  ".repeat(depth);
        match stmt {
            None => out.push_str(&format!("{indent}}}\n")),
            Some(Stmt::Subgraph(Subgraph { id, stmts })) => {
                out.push_str(&format!("{indent}subgraph {} {{\n", word(id)));
                todo.push((depth, None));
                todo.extend(stmts.iter().rev().map(|of| (depth + 1, Some(of))));
            }
            Some(stmt) => {
                if let Some(line) = line(stmt) {
                    out.push_str(&format!("{indent}{line};\n"));
                }
            }
        }
    }
    out.push_str("}\n");
    out
}

fn line(stmt: &Stmt) -> Option<String> {
    Some(match stmt {
        Stmt::Node(node) => format!("{}{}", word(&node.id.0), bracketed(&node.attributes)),
        Stmt::Edge(Edge {
            ty: EdgeTy::Pair(Vertex::N(from), Vertex::N(to)),
            attributes,
        }) => format!("{} -> {}{}", end(from), end(to), bracketed(attributes)),
        Stmt::GAttribute(GraphAttributes::Graph(all)) => format!("graph{}", bracketed(all)),
        Stmt::GAttribute(GraphAttributes::Node(all)) => format!("node{}", bracketed(all)),
        Stmt::GAttribute(GraphAttributes::Edge(all)) => format!("edge{}", bracketed(all)),
        Stmt::Attribute(Attribute(key, value)) => format!("{}={}", word(key), word(value)),
        // Chains of edges are never built.
        Stmt::Edge(_) | Stmt::Subgraph(_) => return None,
    })
}

/// A node, and the port of it at which an edge ends.
fn end(NodeId(id, port): &NodeId) -> String {
    let mut out = word(id).to_owned();
    if let Some(Port(name, side)) = port {
        let parts = name.iter().map(word).chain(side.as_deref());
        parts.for_each(|part| out.push_str(&format!(":{part}")));
    }
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
