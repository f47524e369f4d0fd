"""Read a page as a parser of the standard library sees it."""

from dataclasses import dataclass, field
from functools import cache
from html.parser import HTMLParser

EMPTY = {"meta", "input", "br", "link", "img"}


@dataclass
class Node:
    tag: str
    attributes: dict[str, str]
    parts: list = field(default_factory=list)

    @property
    def text(self) -> str:
        told = "".join(p if isinstance(p, str) else f" {p.text} " for p in self.parts)
        return " ".join(told.split())

    def all(self, *tags: str) -> list["Node"]:
        found = []
        for part in self.parts:
            if isinstance(part, Node):
                found += [part] if part.tag in tags or not tags else []
                found += part.all(*tags)
        return found

    def by_id(self, name: str) -> "Node":
        (found,) = [node for node in self.all() if node.attributes.get("id") == name]
        return found


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.root = Node("", {})
        self.open = [self.root]

    def handle_starttag(self, tag, attrs):
        if tag in {"tr", "td", "th"} and self.open[-1].tag == "tr" and tag == "tr":
            self.open.pop()
        node = Node(tag, {key: value or "" for key, value in attrs})
        self.open[-1].parts.append(node)
        if tag not in EMPTY:
            self.open.append(node)

    def handle_startendtag(self, tag, attrs):
        self.open[-1].parts.append(Node(tag, dict(attrs)))

    def handle_endtag(self, tag):
        if tag != "tr" and self.open[-1].tag == "tr":
            self.open.pop()
        assert self.open[-1].tag == tag, f"</{tag}> closes <{self.open[-1].tag}>"
        self.open.pop()

    def handle_data(self, data):
        self.open[-1].parts.append(data)


@cache
def parsed(page: str) -> Node:
    reader = _Reader()
    reader.feed(page)
    reader.close()
    assert reader.open == [reader.root]
    return reader.root
