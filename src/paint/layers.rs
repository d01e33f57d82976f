//! Optional layers: letters on beads, thread marks, grid. On by default, on screen and on paper.

use super::xmp::text;
use crate::layout::{DisplayList, Layer};
use lopdf::{Dictionary, Document, Object, dictionary};

/// All layers, in the order a viewer lists them.
const LAYERS: [Layer; 3] = [Layer::Letters, Layer::Marks, Layer::Grid];

/// The name of a layer in the resources of a page.
pub(super) fn resource_name(layer: Layer) -> &'static str {
    match layer {
        Layer::Letters => "LayerLetters",
        Layer::Marks => "LayerMarks",
        Layer::Grid => "LayerGrid",
    }
}

fn shown_name(list: &DisplayList, layer: Layer) -> &str {
    match layer {
        Layer::Letters => &list.layer_names.letters,
        Layer::Marks => &list.layer_names.marks,
        Layer::Grid => &list.layer_names.grid,
    }
}

/// The layers of a document.
#[derive(Default)]
pub(super) struct Layers {
    /// What the pages' resources name.
    pub properties: Dictionary,
    /// What the catalogue says of them (ISO 32000-1, 8.11.4).
    pub catalogue: Option<Dictionary>,
}

/// Adds the layers that a display list uses.
pub(super) fn add(list: &DisplayList, doc: &mut Document) -> Layers {
    let used = |layer| list.pages.iter().any(|p| p.items.iter().any(|i| i.layer == Some(layer)));
    let mut properties = Dictionary::new();
    let mut order: Vec<Object> = Vec::new();
    for layer in LAYERS.into_iter().filter(|layer| used(*layer)) {
        let group = doc.add_object(dictionary! {
            "Type" => "OCG",
            "Name" => text(shown_name(list, layer)),
            "Intent" => "View",
            "Usage" => dictionary! {
                "View" => dictionary! { "ViewState" => "ON" },
                "Print" => dictionary! { "PrintState" => "ON" },
            },
        });
        properties.set(resource_name(layer), group);
        order.push(group.into());
    }
    let catalogue = (!order.is_empty()).then(|| {
        dictionary! {
            "OCGs" => order.clone(),
            "D" => dictionary! {
                "Name" => text(&list.meta.title),
                "BaseState" => "ON",
                "Order" => order,
                "ListMode" => "AllPages",
            },
        }
    });
    Layers { properties, catalogue }
}
