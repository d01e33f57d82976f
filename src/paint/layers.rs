//! Optional layers: letters on beads, thread marks, grid. On by default, on screen and on paper.

use crate::layout::{DisplayList, Layer};
use lopdf::{Dictionary, Document, Object, dictionary};
use printpdf::LayerInternalId;
use std::collections::BTreeMap;

/// All layers, in the order a viewer lists them.
const LAYERS: [Layer; 3] = [Layer::Letters, Layer::Marks, Layer::Grid];

/// The name of a layer in the resources of a page. printpdf sorts by it.
pub(super) fn layer_id(layer: Layer) -> LayerInternalId {
    LayerInternalId(
        match layer {
            Layer::Letters => "LayerLetters",
            Layer::Marks => "LayerMarks",
            Layer::Grid => "LayerGrid",
        }
        .to_owned(),
    )
}

fn shown_name(list: &DisplayList, layer: Layer) -> &str {
    match layer {
        Layer::Letters => &list.layer_names.letters,
        Layer::Marks => &list.layer_names.marks,
        Layer::Grid => &list.layer_names.grid,
    }
}

/// The layers that a display list uses, in printpdf's form.
pub(super) fn used(list: &DisplayList) -> BTreeMap<LayerInternalId, printpdf::Layer> {
    let used = |layer| list.pages.iter().any(|p| p.items.iter().any(|i| i.layer == Some(layer)));
    LAYERS
        .into_iter()
        .filter(|layer| used(*layer))
        .map(|layer| (layer_id(layer), printpdf::Layer::new(shown_name(list, layer))))
        .collect()
}

/// Writes the layers' dictionaries anew: printpdf's have names in no known encoding and a usage
/// that no viewer reads. `ids` are the layers' objects in the order of [`layer_id`].
pub(super) fn finish(list: &DisplayList, doc: &mut Document) -> Option<Dictionary> {
    let made = used(list);
    let groups: Vec<lopdf::ObjectId> = doc
        .catalog()
        .ok()?
        .get(b"OCProperties")
        .and_then(Object::as_dict)
        .and_then(|d| d.get(b"OCGs"))
        .and_then(Object::as_array)
        .ok()?
        .iter()
        .filter_map(|o| o.as_reference().ok())
        .collect();
    let by_layer: BTreeMap<&LayerInternalId, lopdf::ObjectId> =
        made.keys().zip(groups.iter().copied()).collect();
    for group in &groups {
        // printpdf hangs an object for the usage and one for the intent on each group.
        for key in [b"Usage".as_slice(), b"Intent"] {
            let hung = doc.get_dictionary(*group).and_then(|d| d.get(key)).and_then(Object::as_reference);
            if let Ok(id) = hung {
                doc.objects.remove(&id);
            }
        }
    }
    let mut order = Vec::new();
    for layer in LAYERS {
        let Some(id) = by_layer.get(&layer_id(layer)) else { continue };
        doc.objects.insert(
            *id,
            Object::Dictionary(dictionary! {
                "Type" => "OCG",
                "Name" => super::xmp::text(shown_name(list, layer)),
                "Intent" => "View",
                "Usage" => dictionary! {
                    "View" => dictionary! { "ViewState" => "ON" },
                    "Print" => dictionary! { "PrintState" => "ON" },
                },
            }),
        );
        order.push(Object::Reference(*id));
    }
    Some(dictionary! {
        "OCGs" => order.clone(),
        "D" => dictionary! {
            "Name" => super::xmp::text(&list.meta.title),
            "BaseState" => "ON",
            "Order" => order,
            "ListMode" => "AllPages",
        },
    })
}
