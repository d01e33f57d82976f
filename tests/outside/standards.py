"""Standards: PDF/UA-1 by two checkers, PDF/A by PDFBox's Preflight and by assertions of our own.

Preflight knows PDF/A-1b only. A booklet is PDF/A-2a, so exactly these complaints are expected of it,
each about something that PDF/A-2 allows: optional content, a cross-reference stream, and the part
number itself. Everything else that 1b asks, Preflight checks on the way: fonts and their widths,
colour, annotations, metadata in step. What PDF/A-2 asks beyond that stands in `archive` below, with
its clause of ISO 19005-2.
"""

import re
import subprocess
import tempfile
from pathlib import Path

import outloud as outloud_checker
import pdfua as pdfua_checker
import pikepdf
from pdfua import document
from pdfua.rules import structure

from reading import Booklet

TEMPLATES = Path(__file__).parents[2] / "templates"
JARS = "/usr/share/java"
CLASSES = ["preflight", "pdfbox2", "fontbox2", "xmpbox", "commons-logging", "javax.activation", "jaxb-api"]
EXPECTED = [
    r"1\.4\.8 : Trailer Syntax error, A Catalog shall not contain the OCPProperties entry",
    r"1\.4 : Trailer Syntax error, /XRef cross reference streams are not allowed",
    r"7\.11\.2 : Error on MetaData, part must be 1",
]


def preflight(paths):
    """Complaints of Preflight beyond the expected ones, a list for each file; one Java for all of them."""
    classes = ":".join(f"{JARS}/{name}.jar" for name in CLASSES)
    with tempfile.NamedTemporaryFile("w", suffix=".txt") as names:
        names.writelines(f"{path}\n" for path in paths)
        names.flush()
        command = ["java", "-XX:TieredStopAtLevel=1", "-cp", classes, "org.apache.pdfbox.preflight.Validator_A1b"]
        done = subprocess.run([*command, "batch", names.name], capture_output=True, text=True)
    # What it says of a file begins with the file's name, without its folder.
    answers = re.split(r"^The file (.*\.pdf) is .*$", done.stdout, flags=re.M)[1:]
    said = list(zip(answers[::2], answers[1::2]))
    if [name for name, _ in said] != [Path(path).name for path in paths]:
        return [[f"Preflight did not read all files: {done.stdout[-2000:]} {done.stderr[-2000:]}"]] * len(paths)
    return [list(beyond_expected(answer)) for _, answer in said]


def beyond_expected(answer):
    lines = [line for line in answer.splitlines() if re.match(r"\d+(\.\d+)+ : ", line)]
    if not any(re.match(EXPECTED[2], line) for line in lines):
        yield f"Preflight did not read the file through: {answer}"
    for line in lines:
        if not any(re.match(pattern, line) for pattern in EXPECTED):
            yield f"Preflight: {line}"


def is_number(value):
    """pdfua 0.1.3 asks everything that a heading holds whether it is a number, which pikepdf refuses to say of arrays: those
    of a heading with a link in it."""
    return None if isinstance(value, (pikepdf.Array, pikepdf.Dictionary)) else document.as_integer(value)


structure.as_integer = is_number


def pdfua(path):
    report = pdfua_checker.validate(str(path))
    for finding in report.findings:
        yield f"pdfua: {finding.rule_id} {finding.severity.name}: {finding.message}"
    for rule in report.skipped:
        yield f"pdfua: {rule.rule_id} was left out: {rule.skipped_reason}"


def outloud(path):
    """Remarks of the stricter checker, but for running heads and repeated table heads.

    It takes a line of eight words in an artifact for lost prose. That is right unless the line says
    again what stands in the structure: the title and a section's heading at the head of a page, or the
    heading row of a table that goes on. So the words of such a line must all be found there.

    It takes the legend that stands on every page of a chart for a running foot, and a step whose picture
    stands beside its text for one that is out of order: both are read where they belong.
    """
    result = outloud_checker.check(str(path))
    if result.error:
        yield f"outloud: {result.error}"
    for rule in result.runs:
        if rule.status == "crashed":
            yield f"outloud: {rule.rule} crashed: {rule.reason}"
    for finding in result.findings:
        if finding.rule in ("PAG-001", "ORD-001"):
            continue
        if finding.rule == "TAG-002" and repeats_only(path):
            continue
        yield f"outloud: {finding.rule} page {finding.page}: {finding.message}"


def repeats_only(path):
    """Whether every line in an artifact is short, or made of phrases that are tagged somewhere."""
    booklet = Booklet(path)
    meta = booklet.pdf.open_metadata()
    said = {str(meta.get("dc:title")), str(meta.get("dc:rights"))}
    phrases = said | {n.text() for n in booklet.root.all("H1", "H2", "H3", "TH", "P")}
    phrases = sorted({squeezed(p) for p in phrases if len(p) > 2}, key=len, reverse=True)
    for page in booklet.artifacts:
        for line in page:
            rest = squeezed(line)
            if len(line.split()) < 8:
                continue
            for phrase in phrases:
                rest = rest.replace(phrase, "")
            # What may be left over is the page's number and a word such as “continued”.
            if len(rest) > 24:
                return False
    return True


def squeezed(text):
    return re.sub(r"[\s:·—-]+", "", text).lower()


def archive(path):
    """What ISO 19005-2 asks beyond part 1, and what Preflight does not look at in it."""
    with pikepdf.open(path) as pdf:
        root = pdf.Root
        meta = pdf.open_metadata()
        claims = [meta.get(k) for k in ("pdfaid:part", "pdfaid:conformance", "pdfuaid:part")]
        if claims != ["2", "A", "1"]:
            yield f"6.6.4: claims {claims}"
        yield from in_step(pdf, meta)
        yield from language(pdf, meta, path)
        if "/Filter" in root.Metadata:
            yield "6.6.2.1: metadata are deflated"
        for intent in root.OutputIntents:
            profile = intent.DestOutputProfile.read_bytes()
            if profile[36:40] != b"acsp" or int.from_bytes(profile[:4], "big") != len(profile):
                yield "6.2.3: the output intent's profile is broken"
        if "/OCProperties" in root:
            how = root.OCProperties.D
            if "/Name" not in how or "/AS" in how:
                yield "6.9: layers' configuration"
            if len(how.Order) != len(root.OCProperties.OCGs):
                yield "6.9: not all layers are listed"
        if "/NeedAppearances" in root.get("/AcroForm", {}):
            yield "6.4.1: a viewer is asked to draw the fields"
        if any(key in root for key in ("/OpenAction", "/AA", "/JavaScript")) or "/AF" in root:
            yield "6.5: something happens by itself"
        for page in pdf.pages:
            if "/Group" in page or "/AA" in page:
                yield "6.2.10: a page with a transparency group or an action"
            for annotation in page.get("/Annots", []):
                if int(annotation.get("/F", 0)) != 4:
                    yield "6.3.2: an annotation that is not printed"
                if "/A" in annotation and str(annotation.A.S) not in ("/GoTo", "/URI"):
                    yield f"6.5.1: action {annotation.A.S}"
                if str(annotation.Subtype) == "/Widget" and "/N" not in annotation.get("/AP", {}):
                    yield "6.3.3: a field without its looks"
        for item in pdf.objects:
            if not isinstance(item, (pikepdf.Dictionary, pikepdf.Stream)):
                continue
            if "/SMask" in item or "/BM" in item or "/ca" in item:
                yield "6.2.10: transparency"
            if "/F" in item and isinstance(item, pikepdf.Stream):
                yield "6.1.7: a stream outside the file"
            if str(item.get("/Subtype", "")) == "/CIDFontType2" and item.get("/CIDToGIDMap") != "/Identity":
                yield "6.2.11.3.2: a font without CIDToGIDMap"


def in_step(pdf, meta):
    """What stands in the information dictionary stands in the metadata too (6.6.3)."""
    pairs = {
        "/Title": "dc:title",
        "/Author": "dc:creator",
        "/Subject": "dc:description",
        "/Keywords": "pdf:Keywords",
        "/Creator": "xmp:CreatorTool",
        "/Producer": "pdf:Producer",
        "/Stamp": "{urn:fringebook:booklet:1#}stamp",
    }
    for key, name in pairs.items():
        value = meta.get(name)
        if value is None and key not in pdf.docinfo:
            continue
        value = ", ".join(value) if isinstance(value, list) else value
        if str(value) != str(pdf.docinfo.get(key)):
            yield f"6.6.3: {name} is {value}, {key} is {pdf.docinfo.get(key)}"
    for key, name in {"/CreationDate": "xmp:CreateDate", "/ModDate": "xmp:ModifyDate"}.items():
        digits = [re.sub(r"\D", "", text)[:14] for text in (str(meta.get(name)), str(pdf.docinfo.get(key)))]
        if len(digits[0]) != 14 or digits[0] != digits[1]:
            yield f"6.6.3: {name} is {meta.get(name)}, {key} is {pdf.docinfo.get(key)}"
    for key in pdf.docinfo.keys():
        if key not in (*pairs, "/CreationDate", "/ModDate", "/Trapped"):
            yield f"6.6.3: {key} has no counterpart"


def language(pdf, meta, path):
    """The document's language, as the metadata name it; for files in a language's folder, that one."""
    tag = str(pdf.Root.get("/Lang", ""))
    if [tag] != list(meta.get("dc:language", [])):
        yield f"language: the catalogue says {tag}, the metadata {meta.get('dc:language')}"
    wanted = Path(path).parent.name
    if (TEMPLATES / wanted).is_dir() and tag != wanted and not tag.startswith(f"{wanted}-"):
        yield f"language: {tag} in a booklet in {wanted}"


def check(path, _scratch):
    yield from pdfua(path)
    yield from outloud(path)
    yield from archive(path)
