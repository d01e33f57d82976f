// Boxes to tick in pdf.js, the viewer of web browsers: loads a file, ticks the boxes of these names, or one
// where none is named, saves, and reads back.
//
//   node ticks_viewer.mjs FOLDER-OF-PDFJS FILE SAVED [NAME…]
//
// Prints one line of JSON: how many boxes there are, which were ticked now, and which are on in the saved file.

import { readFile, writeFile } from "node:fs/promises";
import { pathToFileURL } from "node:url";

// Nothing is drawn here, so names that only drawing needs are enough.
for (const name of ["DOMMatrix", "ImageData", "Path2D"]) globalThis[name] ??= class {};

const [folder, file, saved, ...names] = process.argv.slice(2);
const pdfjs = await import(pathToFileURL(`${folder}/legacy/build/pdf.mjs`).href);

async function open(path) {
    const data = new Uint8Array(await readFile(path));
    return pdfjs.getDocument({ data, useSystemFonts: false, verbosity: 0 }).promise;
}

async function boxes(document) {
    const found = [];
    for (let number = 1; number <= document.numPages; number++) {
        const page = await document.getPage(number);
        for (const annotation of await page.getAnnotations({ intent: "display" })) {
            if (annotation.subtype === "Widget" && annotation.checkBox) found.push(annotation);
        }
    }
    return found;
}

const before = await open(file);
const all = await boxes(before);
const chosen = names.length ? all.filter((b) => names.includes(b.fieldName)) : [all[Math.floor(all.length / 2)]];
for (const box of chosen) before.annotationStorage.setValue(box.id, { value: true });
await writeFile(saved, await before.saveDocument());
const after = await boxes(await open(saved));
const on = after.filter((b) => b.fieldValue === b.exportValue).map((b) => b.fieldName).sort();
const silent = all.filter((b) => !b.alternativeText).map((b) => b.fieldName);
console.log(JSON.stringify({ boxes: all.length, ticked: chosen.map((b) => b.fieldName).sort(), on, silent }));
process.exit(0);
