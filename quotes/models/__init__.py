"""Rows of quotes, a module a noun."""

from quotes.models.answers import Decision, Link
from quotes.models.changes import TakenOff
from quotes.models.closing import ClosingAccount
from quotes.models.follow_ups import FollowUp, LinkOpening
from quotes.models.line_photographs import LinePhotograph
from quotes.models.lines import Choice, Line, Option, Override
from quotes.models.occurrences import Occurrence, OccurrencePhotograph
from quotes.models.outside import OutsideWork, OutsideWorkWord
from quotes.models.questions import Question
from quotes.models.quotes import Quote, Revision
from quotes.models.releases import Release
from quotes.models.shown_photographs import ShownPhotograph
from quotes.models.steps import DraftStep
from quotes.models.told_dates import ToldDate
from quotes.models.worked_hours import WorkedHours

__all__ = [
    "Choice",
    "ClosingAccount",
    "Decision",
    "DraftStep",
    "FollowUp",
    "Line",
    "LinePhotograph",
    "Link",
    "LinkOpening",
    "Occurrence",
    "OccurrencePhotograph",
    "Option",
    "OutsideWork",
    "OutsideWorkWord",
    "Override",
    "Question",
    "Quote",
    "Release",
    "Revision",
    "ShownPhotograph",
    "TakenOff",
    "ToldDate",
    "WorkedHours",
]
