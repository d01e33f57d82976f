"""Links, bookmarks and page labels lead where they say: the words of each stand at the place it leads to."""

import re

import pymupdf

# How far below its destination a heading's words may stand, in points: they are large and have white above.
REACH = 90


def squeezed(text):
    return re.sub(r"[\s\u00ad\u2060-]+", "", text).lower()


def words_at(page, top):
    """What stands on a page from a destination downwards."""
    area = pymupdf.Rect(0, top - 8, page.rect.width, top + REACH)
    return squeezed(page.get_textbox(area))


def check(path, _scratch):
    document = pymupdf.open(path)
    labels = [page.get_label() for page in document]
    if len(set(labels)) != len(labels) or not all(labels):
        yield f"links: page labels {labels}"
    for index, page in enumerate(document):
        foot = page.get_textbox(pymupdf.Rect(0, page.rect.height - 60, page.rect.width, page.rect.height))
        if labels[index].isdigit() and labels[index] not in re.findall(r"\d+", foot):
            yield f"links: page {labels[index]} says “{foot.strip()}” at its foot"
        for link in page.get_links():
            said = page.get_textbox(link["from"]).strip()
            if link["kind"] == pymupdf.LINK_URI:
                # The area of a link may touch the line above: the address must stand in it, or a part of one.
                to = re.fullmatch(r"(?:https://|mailto:)(\S+)", link["uri"])
                address, words = squeezed(to[1]) if to else "", squeezed(said)
                if not address or not words or (address not in words and words not in address):
                    yield f"links: “{said}” leads to {link['uri']}"
                continue
            if link["kind"] != pymupdf.LINK_GOTO:
                yield f"links: “{said}” does something else than going somewhere"
                continue
            # An entry of the contents says its page last.
            title, number = re.fullmatch(r"(.*?)\s*(\d*)", said, re.S).groups()
            target = link["page"]
            if number and labels[target] != number:
                yield f"links: “{title}” says page {number} and leads to page {labels[target]}"
            if squeezed(title) not in words_at(document[target], link["to"].y):
                yield f"links: “{title}” leads to page {labels[target]}, where it does not stand"
    before = (0, 0.0)
    for _, title, _, place in document.get_toc(simple=False):
        target, top = place["page"], place["to"].y
        if squeezed(title) not in words_at(document[target], top - (0 if top > 8 else 8)):
            yield f"links: bookmark “{title}” leads to page {labels[target]}, where it does not stand"
        if (target, top) < before:
            yield f"links: bookmark “{title}” stands out of order"
        before = (target, top)
    if len(document) > 1 and not document.get_toc():
        yield "links: no bookmarks"


if __name__ == "__main__":
    import sys

    for file in sys.argv[1:]:
        for problem in check(file, None):
            print(file, problem)
