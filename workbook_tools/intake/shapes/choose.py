"""Choose the shape of a sheet: the likeliest one that is sure enough, else the plain list."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from workbook_tools.intake.cells import Sheet
from workbook_tools.intake.corrections import ACT_LOGS, ROLE_NAMES, YOURS
from workbook_tools.intake.shapes import cards, grid, rounds, turned
from workbook_tools.intake.shapes.records import PLAIN, Around, Shape, Unfolded
from workbook_tools.problems import CellRef, Problem

SHAPES: tuple[Shape, ...] = (grid.SHAPE, cards.SHAPE, turned.SHAPE, rounds.SHAPE)
ENOUGH = 0.6
"""Below this likeness a shape isn't used."""
NEAR = 0.1
"""Two shapes this near to each other are told to the keeper."""


def unfold(sheet: Sheet, around: Around, shapes: Sequence[Shape] = SHAPES) -> Unfolded:
    """Take a sheet for the likeliest shape and turn it into plain lists; a plain list stays as it is."""
    found = sorted(((shape.likeness(sheet, around), shape) for shape in shapes), key=lambda pair: -pair[0])
    said = around.corrections.sheet(sheet.name)
    if said in (*ROLE_NAMES, *ACT_LOGS, PLAIN):
        return Unfolded((sheet,), why=YOURS)
    if yours := [shape for score, shape in found if shape.name == said and score > 0]:
        return replace(yours[0].unfolded(sheet, around), shape=said, score=1.0, why=YOURS)
    best = next(iter(found), None)
    others = tuple((shape.name, score) for score, shape in found if score > 0)
    if best is None or best[0] < ENOUGH:
        return Unfolded((sheet,), others=others)
    score, shape = best
    laid = shape.unfolded(sheet, around)
    laid = replace(laid, shape=shape.name, score=score, others=others[1:])
    rivals = [name for name, other in others[1:] if other >= ENOUGH and score - other < NEAR]
    if not rivals:
        return laid
    first = next(iter(sheet.cells.values()))
    told = {"shape": shape.name, "other": " or ".join(rivals)}
    problem = Problem("shapes.near_tie", CellRef(sheet.name), told, first.text[:80])
    return replace(laid, problems=(problem, *laid.problems))


def told(laid: Unfolded) -> str:
    """Say in words what a sheet was taken for, how surely, and what else it might be."""
    if laid.shape == PLAIN:
        return laid.why
    others = " or ".join(f"{name}, {score:.0%}" for name, score in laid.others)
    also = f"; it might also be {others}" if others else ""
    return f"{laid.shape}, {laid.score:.0%} sure: {laid.why}{also}"
