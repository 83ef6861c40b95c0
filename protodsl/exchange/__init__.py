"""From a plan or a protocol to what other programs read: calendars, tables, JSON and FHIR."""

from protodsl.exchange.export import export_plan, export_protocol
from protodsl.exchange.speech import Translation

__all__ = ["Translation", "export_plan", "export_protocol"]
