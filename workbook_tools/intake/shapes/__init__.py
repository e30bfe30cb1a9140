"""Shapes: how facts lie on a sheet that is no plain list, and how each is unfolded into plain lists."""
