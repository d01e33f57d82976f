"""Links, bookmarks and page labels lead where they say: the words of each stand at the place it leads to."""

import itertools
import re

import numpy
import pymupdf

import codes

# How far below its destination a heading's words may stand, in points: they are large and have white above.
REACH = 90


def squeezed(text):
    return re.sub(r"[\s\u00ad\u2060-]+", "", text).lower()


class Words:
    """What stands where on a page; the page's text is read once."""

    def __init__(self, page):
        self.width = page.rect.width
        lines = [
            [char for span in line["spans"] for char in span["chars"]]
            for block in page.get_text("rawdict", flags=pymupdf.TEXT_PRESERVE_WHITESPACE)["blocks"]
            for line in block.get("lines", [])
        ]
        self.boxes = numpy.array([char["bbox"] for line in lines for char in line]).reshape(-1, 4)
        self.chars = [(number, char["c"]) for number, line in enumerate(lines) for char in line]

    def inside(self, area):
        """The characters that reach into an area, line by line."""
        left, top, right, bottom = self.boxes.T
        seen = (left < area.x1) & (right > area.x0) & (top < area.y1) & (bottom > area.y0)
        found = [self.chars[index] for index in numpy.flatnonzero(seen)]
        return "\n".join("".join(c for _, c in line) for _, line in itertools.groupby(found, lambda char: char[0]))

    def below(self, top):
        """What stands there from a destination downwards."""
        return squeezed(self.inside(pymupdf.Rect(0, top - 8, self.width, top + REACH)))


def is_tablet(page):
    return page.rect.width > page.rect.height


def check(path, _scratch):
    document = pymupdf.open(path)
    labels = [page.get_label() for page in document]
    words_on = [Words(page) for page in document]
    if len(set(labels)) != len(labels) or not all(labels):
        yield f"links: page labels {labels}"
    for index, page in enumerate(document):
        # A screen has links below its foot.
        high = 75 if is_tablet(page) else 60
        foot = words_on[index].inside(pymupdf.Rect(0, page.rect.height - high, page.rect.width, page.rect.height))
        if labels[index].isdigit() and labels[index] not in re.findall(r"\d+", foot):
            yield f"links: page {labels[index]} says “{foot.strip()}” at its foot"
        for link in page.get_links():
            said = words_on[index].inside(link["from"]).strip()
            if is_tablet(page) and link["from"].y1 > page.rect.height - 1:
                # At the foot of a screen: back at the left, forward at the right, contents and chart between them.
                step = {0: -1, 3: 1}.get(int(4 * link["from"].x0 / page.rect.width))
                if link["kind"] != pymupdf.LINK_GOTO or not said or (step and link["page"] != index + step):
                    yield f"links: “{said}” at the foot of page {labels[index]} leads to {link.get('page')}"
                continue
            if link["kind"] == pymupdf.LINK_URI and link["uri"].startswith(codes.FILMS):
                # A link to a film says its time, but for that to the beginning; `codes` reads the codes, which say nothing.
                second = codes.second_of(link["uri"])
                if said and second and codes.clock(second) not in said:
                    yield f"links: “{said}” leads to {link['uri']}"
                continue
            if link["kind"] == pymupdf.LINK_URI:
                # The area of a link may touch the line above: the address must stand in it, or a part of one.
                to = re.fullmatch(r"(?:https://|mailto:)(\S+)", link["uri"])
                address, words = squeezed(to[1]) if to else "", squeezed(said)
                part = squeezed(said.split("\n")[-1])
                if not address or not words or (address not in words and part not in address):
                    yield f"links: “{said}” leads to {link['uri']}"
                continue
            if link["kind"] != pymupdf.LINK_GOTO:
                yield f"links: “{said}” does something else than going somewhere"
                continue
            told = document.xref_get_key(link["xref"], "Contents")[1]
            if re.search(r"\d|, ", told) and (is_tablet(page) or squeezed(told) not in squeezed(said)):
                # A number or a mark tells those who cannot see it where it leads: there it stands again.
                number = re.search(r"\b[ivxlc]+\b|\d+", told)
                there = words_on[link["page"]].below(link["to"].y)
                if squeezed(told) not in there and (not said or not number or number[0] not in there):
                    yield f"links: “{said}” leads to “{told}”, which does not stand there"
                continue
            # An entry of the contents says its page last.
            title, number = re.fullmatch(r"(.*?)\s*(\d*)", said, re.S).groups()
            target = link["page"]
            if number and labels[target] != number:
                yield f"links: “{title}” says page {number} and leads to page {labels[target]}"
            # The area of a link within words may touch the line above.
            there = words_on[target].below(link["to"].y)
            if squeezed(title) not in there and squeezed(title.split("\n")[-1]) not in there:
                yield f"links: “{title}” leads to page {labels[target]}, where it does not stand"
    before = (0, 0.0)
    for _, title, _, place in document.get_toc(simple=False):
        target, top = place["page"], place["to"].y
        if squeezed(title) not in words_on[target].below(top - (0 if top > 8 else 8)):
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
