"""A person's exercise days and next visit as iCalendar (RFC 5545)."""

from protodsl.exchange.calendar.file import calendar

__all__ = ["calendar"]
