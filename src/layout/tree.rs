//! The document's structure while it grows.

use super::{Node, NodeId, Role, Standing};

/// The nodes made so far; the first is the document.
pub(super) struct Tree {
    nodes: Vec<Node>,
}

impl Tree {
    /// A document with nothing in it.
    pub fn new() -> Tree {
        Tree { nodes: vec![Node { role: Role::Document, parent: None, children: Vec::new() }] }
    }

    /// The document itself.
    pub const ROOT: NodeId = NodeId(0);

    /// A new last child of a node.
    pub fn add(&mut self, parent: NodeId, role: Role) -> NodeId {
        let id = NodeId(self.nodes.len());
        self.nodes.push(Node { role, parent: Some(parent), children: Vec::new() });
        self.nodes[parent.0].children.push(id);
        id
    }

    /// The finished nodes.
    pub fn into_nodes(self) -> Vec<Node> {
        self.nodes
    }
}

/// Content of a node.
pub(super) fn within(node: NodeId) -> Standing {
    Standing::Content(node)
}
