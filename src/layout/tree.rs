//! The document's structure while it grows.

use super::{Node, NodeId, Role, Standing};

/// The nodes made so far; the first is the document.
#[derive(Clone)]
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

    /// Takes in another tree: the children of its root become further children of a node. Returned is by how much the
    /// numbers of its other nodes grow.
    pub fn append(&mut self, parent: NodeId, other: Tree) -> usize {
        let by = self.nodes.len() - 1;
        for (index, mut node) in other.nodes.into_iter().enumerate() {
            let children = node.children.iter().map(|child| NodeId(child.0 + by));
            if index == 0 {
                self.nodes[parent.0].children.extend(children);
                continue;
            }
            node.children = children.collect();
            let renumbered = |above: NodeId| if above == Tree::ROOT { parent } else { NodeId(above.0 + by) };
            node.parent = node.parent.map(renumbered);
            self.nodes.push(node);
        }
        by
    }

    /// Makes a stretch of text of what was to be a link, but leads nowhere.
    pub fn unlink(&mut self, node: NodeId) {
        self.nodes[node.0].role = Role::Span;
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
