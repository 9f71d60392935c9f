"""Paper: PDF pages with our own font. The base that every app's `paper` stands on."""

from seeding.journal.paper.blocks import (
    Block,
    Column,
    gap,
    heading,
    heading_of_table,
    listed,
    room_for,
    table,
    text,
    title,
    together,
)
from seeding.journal.paper.pages import PageSize, Sheet, pdf, size_of

__all__ = [
    "Block",
    "Column",
    "PageSize",
    "Sheet",
    "gap",
    "heading",
    "heading_of_table",
    "listed",
    "pdf",
    "room_for",
    "size_of",
    "table",
    "text",
    "title",
    "together",
]
