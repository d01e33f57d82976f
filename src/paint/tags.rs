//! The structure tree: nodes of the display list become structure elements (ISO 32000-1, 14.7), and
//! the parent tree leads back from marked content and annotations to them.

use super::annotations::Annotation;
use super::error::PaintError;
use super::page::Painted;
use super::written::Written;
use crate::layout::{DisplayList, Node, NodeId, Role};
use lopdf::{Document, Object, ObjectId, dictionary};

/// A box in points from the page's bottom left; the default is empty.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Bounds {
    left: f64,
    bottom: f64,
    right: f64,
    top: f64,
}

impl Default for Bounds {
    fn default() -> Bounds {
        let far = f64::MAX;
        Bounds { left: far, bottom: far, right: -far, top: -far }
    }
}

impl Bounds {
    /// The box round points.
    pub(super) fn of(points: &[(f64, f64)]) -> Bounds {
        let mut bounds = Bounds::default();
        for (x, y) in points {
            // A comparison with NaN is false, so it is added by hand to be noticed.
            bounds.left = if x.is_nan() { *x } else { bounds.left.min(*x) };
            bounds.right = bounds.right.max(*x);
            bounds.bottom = if y.is_nan() { *y } else { bounds.bottom.min(*y) };
            bounds.top = bounds.top.max(*y);
        }
        bounds
    }
    /// Takes in another box.
    pub(super) fn add(&mut self, other: Bounds) {
        self.left = self.left.min(other.left);
        self.bottom = self.bottom.min(other.bottom);
        self.right = self.right.max(other.right);
        self.top = self.top.max(other.top);
    }
    /// The box with a margin.
    pub(super) fn grown(self, by: f64) -> Bounds {
        Bounds { left: self.left - by, bottom: self.bottom - by, right: self.right + by, top: self.top + by }
    }
    /// Whether all of it are numbers.
    pub(super) fn is_finite(self) -> bool {
        [self.left, self.bottom, self.right, self.top].iter().all(|v| v.is_finite())
    }
    /// Left, bottom, right, top; `None` for an empty box.
    pub(super) fn sides(self) -> Option<[f64; 4]> {
        (self.left <= self.right).then_some([self.left, self.bottom, self.right, self.top])
    }
}

/// The structure type of a role (ISO 32000-1, 14.8.4). All are standard: there is no role map.
pub(super) fn role_name(role: &Role) -> &'static str {
    match role {
        Role::Document => "Document",
        Role::Section => "Sect",
        Role::Heading(level) => match level {
            0 | 1 => "H1",
            2 => "H2",
            3 => "H3",
            4 => "H4",
            5 => "H5",
            _ => "H6",
        },
        Role::Paragraph => "P",
        Role::List { .. } => "L",
        Role::ListItem => "LI",
        Role::ListLabel => "Lbl",
        Role::ListBody => "LBody",
        Role::Table { .. } => "Table",
        Role::TableHead => "THead",
        Role::TableBody => "TBody",
        Role::TableRow => "TR",
        Role::ColumnHeader { .. } | Role::RowHeader { .. } => "TH",
        Role::TableCell { .. } => "TD",
        Role::Figure { .. } => "Figure",
        Role::Caption => "Caption",
        Role::Contents => "TOC",
        Role::ContentsItem => "TOCI",
        Role::Reference => "Reference",
        Role::Link => "Link",
        Role::Form => "Form",
        Role::Span => "Span",
    }
}

/// A stretch of marked content: its page and its number there. Ordered as painted.
type Stretch = (usize, usize);

/// What is known of a node before its element is written.
#[derive(Clone, Default)]
struct Known {
    content: Vec<Stretch>,
    annotations: Vec<(usize, ObjectId)>,
    /// Boxes by page.
    bounds: Vec<(usize, Bounds)>,
    /// Where the node or anything below it first stands.
    first: Option<Stretch>,
}

/// The structure tree: its root, and the objects that it is made of as they stand in the file.
pub(super) struct Structure {
    pub root: ObjectId,
    pub objects: Vec<(u32, Vec<u8>)>,
}

/// Writes the structure tree of a list that [`super::check`] has found to be one.
///
/// # Errors
/// When an annotation belongs to no node.
pub(super) fn add(
    list: &DisplayList,
    doc: &mut Document,
    pages: &[ObjectId],
    painted: &[Painted],
    annotations: &[Annotation],
) -> Result<Structure, PaintError> {
    let mut known = gather(list, painted, annotations)?;
    let elements: Vec<ObjectId> = list.nodes.iter().map(|_| doc.new_object_id()).collect();
    let root = doc.new_object_id();
    order(&list.nodes, NodeId(0), &mut known);
    let mut objects: Vec<(u32, Vec<u8>)> = Vec::with_capacity(elements.len() + 1);
    for (index, node) in list.nodes.iter().enumerate() {
        let parent = node.parent.map_or(root, |p| elements[p.0]);
        objects.push((elements[index].0, element(list, NodeId(index), parent, &known, &elements, pages)));
    }
    let parents = doc.new_object_id();
    objects.push((parents.0, parent_tree(painted, annotations, &elements, pages.len())));
    doc.objects.insert(
        root,
        Object::Dictionary(dictionary! {
            "Type" => "StructTreeRoot",
            "K" => elements[0],
            "ParentTree" => parents,
            "ParentTreeNextKey" => (pages.len() + annotations.len()) as i64,
        }),
    );
    Ok(Structure { root, objects })
}

fn gather(
    list: &DisplayList,
    painted: &[Painted],
    annotations: &[Annotation],
) -> Result<Vec<Known>, PaintError> {
    let mut known = vec![Known::default(); list.nodes.len()];
    for (page, painted) in painted.iter().enumerate() {
        for (number, owner) in painted.owners.iter().enumerate() {
            known[owner.0].content.push((page, number));
        }
        for (owner, bounds) in &painted.bounds {
            known[owner.0].bounds.push((page, *bounds));
        }
    }
    for annotation in annotations {
        match known.get_mut(annotation.node.0) {
            Some(known) => known.annotations.push((annotation.page, annotation.id)),
            None => {
                let what = format!("an annotation belongs to node {}, which there is not", annotation.node.0);
                return Err(PaintError::Reference { what });
            }
        }
    }
    Ok(known)
}

/// Finds for each node below `at` where it first stands.
fn order(nodes: &[Node], at: NodeId, known: &mut [Known]) {
    for child in &nodes[at.0].children {
        order(nodes, *child, known);
    }
    let below = nodes[at.0].children.iter().filter_map(|c| known[c.0].first);
    known[at.0].first = below.chain(known[at.0].content.first().copied()).min();
}

fn element(
    list: &DisplayList,
    id: NodeId,
    parent: ObjectId,
    known: &[Known],
    elements: &[ObjectId],
    pages: &[ObjectId],
) -> Vec<u8> {
    let node = &list.nodes[id.0];
    let own = &known[id.0];
    let page = own.content.first().map(|s| s.0).or(own.annotations.first().map(|a| a.0));
    let mut out = Written::default();
    out.raw("<</Type/StructElem/S/").raw(role_name(&node.role)).raw("/P").reference(parent);
    if let Some(page) = page {
        out.raw("/Pg").reference(pages[page]);
    }
    let kids = own.content.len() + node.children.len() + own.annotations.len();
    if kids > 0 {
        out.raw(if kids == 1 { "/K" } else { "/K[" });
    }
    let stretch = |out: &mut Written, (on, number): Stretch| {
        if Some(on) == page {
            out.integer(number);
        } else {
            out.raw("<</Type/MCR/Pg").reference(pages[on]).raw("/MCID").integer(number).raw(">>");
        }
    };
    // A node's own content and its children in the order in which they are painted.
    let mut content = own.content.iter().copied().peekable();
    for child in &node.children {
        while let Some(next) = content.next_if(|s| known[child.0].first.is_some_and(|first| *s < first)) {
            stretch(&mut out, next);
        }
        out.reference(elements[child.0]);
    }
    content.for_each(|one| stretch(&mut out, one));
    for (on, annotation) in &own.annotations {
        out.raw("<</Type/OBJR/Pg").reference(pages[*on]).raw("/Obj").reference(*annotation).raw(">>");
    }
    if kids > 1 {
        out.raw("]");
    }
    if let Role::Figure { alt } = &node.role {
        out.raw("/Alt").words(alt);
    }
    attributes(&mut out, list, id, known);
    out.raw(">>");
    out.bytes()
}

/// Attributes of an element (ISO 32000-1, 14.8.5).
fn attributes(out: &mut Written, list: &DisplayList, id: NodeId, known: &[Known]) {
    let table = |out: &mut Written, scope: &str, span: usize| {
        if scope.is_empty() && span <= 1 {
            return;
        }
        out.raw("/A<</O/Table").raw(scope);
        if span > 1 {
            out.raw("/ColSpan").integer(span);
        }
        out.raw(">>");
    };
    match &list.nodes[id.0].role {
        Role::List { numbered } => {
            let numbering = if *numbered { "/Decimal" } else { "/Disc" };
            out.raw("/A<</O/List/ListNumbering").raw(numbering).raw(">>");
        }
        Role::Table { summary } if !summary.is_empty() => {
            out.raw("/A<</O/Table/Summary").words(summary).raw(">>");
        }
        Role::ColumnHeader { span } => table(out, "/Scope/Column", *span),
        Role::RowHeader { span } => table(out, "/Scope/Row", *span),
        Role::TableCell { span } => table(out, "", *span),
        Role::Figure { .. } => {
            if let Some(sides) = figure_bounds(list, id, known).sides() {
                out.raw("/A<</O/Layout/BBox[");
                for side in sides {
                    out.number::<2>(side);
                }
                out.raw("]/Placement/Block>>");
            }
        }
        Role::Document
        | Role::Section
        | Role::Heading(_)
        | Role::Paragraph
        | Role::ListItem
        | Role::ListLabel
        | Role::ListBody
        | Role::Table { .. }
        | Role::TableHead
        | Role::TableBody
        | Role::TableRow
        | Role::Caption
        | Role::Contents
        | Role::ContentsItem
        | Role::Reference
        | Role::Link
        | Role::Form
        | Role::Span => {}
    }
}

/// The box of a figure on the first page it stands on, with what is below it but without its caption.
fn figure_bounds(list: &DisplayList, id: NodeId, known: &[Known]) -> Bounds {
    let mut all: Vec<(usize, Bounds)> = Vec::new();
    let mut ahead = vec![id];
    while let Some(at) = ahead.pop() {
        all.extend(&known[at.0].bounds);
        ahead.extend(list.nodes[at.0].children.iter().filter(|c| list.nodes[c.0].role != Role::Caption));
    }
    let first = all.iter().map(|(page, _)| *page).min();
    let mut bounds = Bounds::default();
    for (_, part) in all.iter().filter(|(page, _)| Some(*page) == first) {
        bounds.add(*part);
    }
    bounds
}

/// From each page's marked content and from each annotation back to its element. Keys: pages first,
/// annotations after them, as their `StructParents` and `StructParent` say.
fn parent_tree(
    painted: &[Painted],
    annotations: &[Annotation],
    elements: &[ObjectId],
    pages: usize,
) -> Vec<u8> {
    let mut out = Written::default();
    out.raw("<</Nums[");
    for (page, painted) in painted.iter().enumerate() {
        out.integer(page).raw("[");
        for owner in &painted.owners {
            out.reference(elements[owner.0]);
        }
        out.raw("]");
    }
    for (index, annotation) in annotations.iter().enumerate() {
        out.integer(pages + index).reference(elements[annotation.node.0]);
    }
    out.raw("]>>");
    out.bytes()
}
