"""Entities of a DXF file as they are written: group codes and values, a line each.

The library that makes the file checks and looks up every value of every entity, which takes most of
the time of a set of drawings. Here they are written straight, as the DXF Reference for AutoCAD 2010
lists them under "ENTITIES Section". Importing this module loads that library.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ezdxf.entities.dxfentity import DXFEntity

if TYPE_CHECKING:
    from collections.abc import Iterable

    from ezdxf.layouts.base import BaseLayout

    from powerplan.sheets.writers.dxf_items import Tag


class Entities(DXFEntity):
    """Entities of one space, in their order. They stand in the space as one of the library's own,
    which is asked for what it holds when the file is written.

    Parameters
    ----------
    space : BaseLayout
        Model space, or the content of a block.
    """

    def __init__(self, space: BaseLayout) -> None:
        super().__init__()
        self._owner = space.layout_key
        self._next_handle = space.doc.entitydb.next_handle
        self._written: list[str] = []
        space.entity_space.add(self)

    def inside(self, block: BaseLayout) -> Entities:
        """Return those of a block, none yet."""
        return Entities(block)

    def add(self, kind: str, layer: str, tags: Iterable[Tag]) -> None:
        """Add an entity of a kind on a layer of the file; ``tags`` are those of its own."""
        head = f"  0\n{kind}\n  5\n{self._next_handle()}\n330\n{self._owner}\n"
        own = "".join([f"{code:>3}\n{value}\n" for code, value in tags])
        self._written.append(f"{head}100\nAcDbEntity\n  8\n{layer}\n{own}")

    def export_dxf(self, tagwriter: Any) -> None:
        """Write all; called by the library."""
        tagwriter.write_str("".join(self._written))
