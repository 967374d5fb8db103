"""Findings -> text for people, JSON and SARIF for programs."""

from guidec.messages.data import as_json
from guidec.messages.diagnostic import Diagnostic, Spot, diagnose
from guidec.messages.sarif import sarif
from guidec.messages.text import counts, text

__all__ = ["Diagnostic", "Spot", "as_json", "counts", "diagnose", "sarif", "text"]
