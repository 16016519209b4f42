"""What the builder states, read and checked."""

from foamwright.project.model import FORMAT, Project
from foamwright.project.notes import Note, Problem

__all__ = ["FORMAT", "Note", "Problem", "Project"]
