"""What a golfer takes home: a page to read or print, and a card for the pocket (the extra ``report``)."""

from wideberth._report.card import pocket_card
from wideberth._report.page import report

__all__ = ["pocket_card", "report"]
